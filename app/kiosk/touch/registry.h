// What stood on the glass in one frame: every target that a finger can reach and every text with its room.
// Widgets write it, tests and the layout check read it, and the next press is resolved against it.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "app/kiosk/touch/geometry.h"

namespace brimline::touch {

/// What sort of thing a target is; layout rules differ by it.
enum class Kind { button, action, go_on, answer_no, answer_yes, key, chip, card, prompt, strip, rail, row };

/// One thing that can be touched.
struct Target {
    std::string name{};  ///< unique in the frame; what a test taps
    Rect rect{};         ///< as drawn
    Rect hit{};          ///< as felt; differs where the strip gives its full height
    Kind kind{Kind::button};
    std::string group{};  ///< things that belong together: the place "corner", an answer pair
    bool enabled{true};   ///< false while the disk is asked: seen, not taken
    bool checked{false};
    bool acts_on_press{false};
};

/// One text and the room it was given.
struct Slot {
    std::string name;
    Rect rect;         ///< the room
    Rect ink;          ///< where the letters are, capitals and digits without the descenders
    std::string text;  ///< what was asked for, before any cut
    float needed{0};   ///< width on one line at the size asked for
    int lines{1};
    int asked_em{20};
    int em{20};           ///< the size used
    bool cut{false};      ///< ended with an ellipsis
    bool may_cut{false};  ///< given names may be cut, nothing else
};

/// Things that a layout test wants to know beside targets and texts.
struct FrameTraits {
    Size size{};
    bool in_room{true};  ///< dark procedure room: targets are 88 px
};

/// The record of one frame.
class Registry {
public:
    /// Forgets the last frame and opens a new one.
    void clear(const FrameTraits& traits);
    /// Says which size rules hold in this frame.
    void set_room(bool in_room) { traits_.in_room = in_room; }
    /// Notes a target.
    void add(Target target) { targets_.push_back(std::move(target)); }
    /// Notes a text.
    void add(Slot slot) { slots_.push_back(std::move(slot)); }
    /// All targets in the order of drawing.
    [[nodiscard]] const std::vector<Target>& targets() const { return targets_; }
    /// All texts in the order of drawing.
    [[nodiscard]] const std::vector<Slot>& slots() const { return slots_; }
    /// The frame's size and room.
    [[nodiscard]] const FrameTraits& traits() const { return traits_; }
    /// The target of this name, or none.
    [[nodiscard]] const Target* find(std::string_view name) const;
    /// The text of this name, or none.
    [[nodiscard]] const Slot* find_slot(std::string_view name) const;
    /// The target that a finger at `at` means: the one under it, else the nearest within half a gap.
    [[nodiscard]] const Target* at(Point at) const;

private:
    FrameTraits traits_;
    std::vector<Target> targets_;
    std::vector<Slot> slots_;
};

}  // namespace brimline::touch
