// The input queue: everything a hand, a foot or a scanner did, in order, none lost, whoever delivers it.
// The window's callbacks and the headless driver fill the same queue; nothing here knows a window.
#pragma once

#include <array>
#include <deque>
#include <optional>
#include <string>
#include <vector>

#include "app/kiosk/touch/geometry.h"
#include "app/kiosk/touch/scan.h"

namespace brimline::touch {

/// Whose foot: the left pedal counts for the assistant, the right one is the physician's silent second count.
enum class Pedal { assistant, physician };

/// One pedal press, at the moment when the foot went down.
struct PedalPress {
    Pedal pedal{Pedal::assistant};
    Seconds time{0};
    bool operator==(const PedalPress&) const = default;
};

/// Which key each pedal sends; the clinic may set other keys.
struct PedalKeys {
    Key assistant{Key::f13};
    Key physician{Key::f14};
};

/// One thing that arrived from the outside.
struct Input {
    enum class Kind { moved, finger, key, character };
    Kind kind{Kind::moved};
    Point at{};
    bool down{false};  ///< finger or key went down (true) or up
    int finger{0};     ///< 0 is the only finger that counts; others are ignored
    Key key{Key::none};
    char32_t character{0};
    Seconds time{0};  ///< when it was delivered
    Seconds earliest{
        -1};  ///< when it can have happened at the earliest, if the loop was busy; negative = `time`
};

/// What one frame is given: at most one change of the finger, with the place where it happened.
struct FrameInput {
    Seconds now{0};
    Point finger{};
    bool down{false};
    bool pressed{false};
    bool released{false};
    std::vector<Stroke> typing;      ///< from a keyboard, never from a scanner
    std::vector<std::string> scans;  ///< whole scans, group separators as 0x1D
    std::vector<PedalPress> pedals;
};

/// How many arrivals were dropped, and why; the self-test page shows it.
struct Dropped {
    int bounces{0};        ///< press within 60 ms of the last release at the same spot
    int pedal_bounces{0};  ///< the same for a pedal
    int other_fingers{0};  ///< a second finger while one was down
};

/// The queue itself.
class InputQueue {
public:
    explicit InputQueue(PedalKeys pedals = {}, ScannerSettings scanner = {});

    /// Takes what arrived; runs of moves become one.
    void add(const Input& input);
    /// Shorthands for the two worlds that fill the queue.
    void move(Point at, Seconds time);
    void finger(Point at, bool down, Seconds time, int which = 0);
    void key(Key key, bool down, Seconds time);
    void character(char32_t character, Seconds time);

    /// The next frame's share: everything up to and with the next change of the finger.
    [[nodiscard]] FrameInput next(Seconds now);
    /// True while arrivals wait: draw again without sleeping.
    [[nodiscard]] bool more() const { return !waiting_.empty(); }
    /// When the queue wants `next` to be called although nothing arrives; negative = never.
    [[nodiscard]] Seconds next_wake() const { return collector_.next_wake(); }
    /// What was dropped since the start.
    [[nodiscard]] const Dropped& dropped() const { return dropped_; }

private:
    [[nodiscard]] bool change_finger(const Input& input, FrameInput& frame);
    void take_key(const Input& input, FrameInput& frame);
    [[nodiscard]] bool take_pedal(const Input& input, FrameInput& frame);

    PedalKeys pedals_;
    ScanCollector collector_;
    std::deque<Input> waiting_;
    Dropped dropped_;
    Point at_{};
    bool down_{false};
    int down_finger_{0};
    bool swallow_release_{false};
    std::optional<Input> last_release_;
    std::array<Seconds, 2> pedal_up_{-1, -1};
    std::array<bool, 2> pedal_down_{false, false};
};

}  // namespace brimline::touch
