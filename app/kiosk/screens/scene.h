// What a screen is given and what it gives back. A screen is a function of state: it shows what the core
// worked out and returns what was asked; it holds only what is being typed (its drafts).
#pragma once
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "app/kiosk/screens/printing.h"
#include "app/kiosk/touch/widgets.h"
#include "app/loop/live_room.h"
#include "core/case/prompts.h"
#include "core/desk/desk_book.h"

namespace brimline::screens {

/// The pages that exist. `stage` pages belong to an open case, the others to the desk.
enum class Page : std::uint8_t {
    sign_in,
    day_list,
    change_list,
    book,
    start_now,
    bays,
    open_items,
    records,
    kiosk,
    register_list,
    entry,
    lots,
    month,
    clinic,
    sign_cases,
    arrival,
    enter_room,
    pause_sedation,
    sedation,
    look,
    pause_device,
    puncture,
    aspirate,
    out,
    place,
    fill,
    size,
    release,
    pause_leaving,
    recovery,
    discharge,
    record
};
constexpr auto names_of(Page) {
    return std::array<std::string_view, 32>{
        "sign-in",       "day-list", "change-list", "book",           "start-now", "bays",  "open-items",
        "records",       "kiosk",    "register",    "entry",          "lots",      "month", "clinic",
        "sign-cases",    "arrival",  "enter-room",  "pause-sedation", "sedation",  "look",  "pause-device",
        "puncture",      "aspirate", "out",         "place",          "fill",      "size",  "release",
        "pause-leaving", "recovery", "discharge",   "record"};
}
/// Which colours the kiosk has: those of the place (dark in the room, light in the bay and at the desk), or
/// always the same.
enum class KioskPalette : std::uint8_t { by_place, dark, light };
constexpr auto names_of(KioskPalette) { return std::array<std::string_view, 3>{"by-place", "dark", "light"}; }
/// What lies over a page.
enum class Sheet : std::uint8_t {
    none,
    stages,
    vitals,
    trend,
    dose,
    infusion,
    airway,
    emergency,
    change_value,
    hand_role,
    tube,
    monitor_clock,
    reviews,
    patient,
    gate_identity,
    override_hold,
    part_syringe,
    draw_back,
    correct,
    problem,
    resume,
    count_check,
    counts_differ,
    matter,
    read_back,
    label_typed,
    gate_position,
    valve,
    not_left_in,
    gate_release,
    score,
    symptoms,
    given,
    escort_here,
    goes,
    read_record,
    addendum,
    abandon,
    who_it_was,
    belongs_to,
    far_view
};

/// Everything a screen may look at.
struct Scene {
    const DeskBook& book;      // what is on disk, ready for the pages of the desk; stands still on others
    const Desk& desk;          // the same, case by case
    const Desk& ahead;         // with what is on its way there
    const CaseState* state{};  // the open case on disk; null on a desk page
    const CaseState* ahead_state{};
    const Policy& policy;
    const Zone& zone;
    Instant now, started;
    Waiting waiting;
    std::string person;                // id of who enters; empty before sign-in
    std::vector<std::string> present;  // ids for the chips, four at most
    Page page{};
    Sheet sheet{};
    std::optional<Reply> last;  // what the last command came to, while it is to be told
    bool far_tap{false};
    std::string physician;  // id of the physician of the case (whose word "said by" is)
    bool practice{false};
    KioskPalette palette{};
    std::string broken;    // why nothing can be saved any more; empty while all is well
    PrintOutcome print{};  // what became of the last print
    bool prints{false};    // there is somewhere to print to
    BackupAge backup{};    // on the kiosk's own page only
};

/// One thing to say to the core. `by` only where it is not the chosen person.
struct Say {
    Statement says;
    std::optional<std::string> said_by, by;
    std::optional<Instant> happened;
    bool sure{false};
    std::optional<std::string> case_name{};  // of another case than the open one
};
/// From the real store to the one of practice and back (10-decisions F9).
enum class StoreTurn : std::uint8_t { begin_practice, end_practice, was_real };
enum class PaperAsked : std::uint8_t { sheet, card };
/// What a screen asks for in this frame.
struct Asks {
    std::vector<Say> say;
    std::optional<Page> page;
    std::optional<Sheet> sheet;
    std::optional<std::string> open_case;                        // from the day list
    std::optional<std::string> person;                           // a chip
    std::optional<std::pair<std::string, std::string>> sign_in;  // person, PIN
    std::optional<std::string> override_hold;                    // its code; opens the override
    std::optional<std::string> entry;                            // of the register; opened on its page
    std::optional<KioskPalette> palette;                         // from the kiosk's own page
    std::optional<StoreTurn> turn;
    std::optional<PaperAsked> print;  // made now, and sent to the printer
    bool sign_off{false};
    void tell(Statement says) { say.push_back({std::move(says), {}, {}, {}, false}); }
    /// Entered by the chosen person as the physician's word.
    void tell_said_by(Statement says, const std::string& whose) {
        say.push_back({std::move(says), whose, {}, {}, false});
    }
};

}  // namespace brimline::screens
