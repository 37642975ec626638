// FillView: every figure that the pages of the fill show, worked out once from what is on disk and what is on
// its way there. In doubt the larger figure rules: next, target, band and ceiling are judged on `possible`.
#pragma once
#include "core/case/figures.h"

namespace brimline {

enum class BlockState : std::uint8_t { counted, above_ceiling, waiting, unsaved, corrected };
/// One block of the gauge, from the bottom up.
struct FillBlock {
    Millilitres from, to;
    int number{0};     ///< of the syringe; 0 for a waiting tap
    bool part{false};  ///< a part syringe, known by its volume
    bool dye{false};   ///< the dye is in it
    BlockState state{};
};

struct FillView {
    Millilitres nominal, saved, counted, possible;
    Millilitres unsaved;  ///< how much of `possible` is not on disk
    int waiting_taps{0};  ///< questions without an answer
    int unsaved_taps{0};
    int syringes{0};           ///< counted, a part counts one
    int whole{0};              ///< of these the whole ones
    Millilitres beside_whole;  ///< counted less the whole ones: parts, dye on top, what was drawn back
    Millilitres next_makes;
    std::optional<FillBand> band, next_band;
    std::optional<Band> planned;
    std::optional<Millilitres> ceiling;
    std::optional<int> to_aim;             ///< whole syringes, rounded up
    std::optional<Millilitres> remainder;  ///< to the aim, none when it is reached
    Millilitres too_much;                  ///< above the ceiling
    std::vector<FillBlock> blocks;
    std::optional<FillSpan> span;
    std::optional<int> pace_ml_min;
    std::optional<Instant> last;  ///< when the last syringe or part went in
    std::optional<Instant> above_band_since;
    std::optional<CountsCompared> agreed;  ///< the last check that agreed
    Instant agreed_at{};
    Centimetres across;
    std::string mass_g;
    bool felt{false};     ///< the physician's pedal was pressed a moment ago
    bool stalled{false};  ///< nothing went in for so long that the state is said again
};

/// `saved` is the case on disk, `ahead` the same with what is on its way there.
[[nodiscard]] FillView fill_view(const CaseState& saved, const CaseState& ahead, const Policy& policy,
                                 Instant now);
/// How the volume would stand against band and ceiling, and whether it is the aim itself.
struct Standing {
    std::optional<FillBand> band;
    bool on_aim{false};
};
[[nodiscard]] Standing standing_of(Millilitres volume, const CaseState& state, const Policy& policy);

/// From the first syringe until filling is done: the matter was looked at, or the device is off or out.
[[nodiscard]] bool fill_in_hand(const DeviceBlock& block);

/// The question that must be answered before filling goes on: what was pushed meanwhile.
struct PushedQuestion {
    Instant since{};                    ///< last entry before it
    std::optional<StopReason> stopped;  ///< none after a restart
    Duration lasted{};                  ///< how long it was stopped, or off
};
/// While the filling is stopped, and after a restart until it was answered. `started`: when this program
/// began.
[[nodiscard]] std::optional<PushedQuestion> pushed_question(const CaseState& state, Instant started,
                                                            Instant now);

/// The tap before the one that is asked about, of any kind.
[[nodiscard]] std::optional<Stamp> tap_before(const DeviceBlock& block, const Question& question);
/// "4.6", "12": seconds to the tenth, no zero behind the point.
[[nodiscard]] std::string seconds_text(Duration d);
/// What went in and is not on disk yet, in order. A number of 0 is a tap that waits for an answer besides.
struct UnsavedTap {
    int number{0};
    Instant happened{};
};
[[nodiscard]] std::vector<UnsavedTap> unsaved_moments(const CaseState& saved, const CaseState& ahead);

/// The entry of the delivery, or of the pedal press, at that very moment; 0 when there is none.
[[nodiscard]] std::int64_t entry_at(const DeviceBlock& block, std::optional<Instant> t);
[[nodiscard]] std::int64_t press_at(const DeviceBlock& block, std::optional<Instant> t);
/// What the matter would say if this were said now; nothing is recorded.
[[nodiscard]] std::optional<MatterReading> matter_as_said(const CaseState& state, const Matter& said,
                                                          const Policy& policy);

/// A position said to be seen again is due: resistance or a lost position holds.
[[nodiscard]] bool position_asked_again(const CaseState& state);

}  // namespace brimline
