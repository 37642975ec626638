// The glass of one frame: what widgets draw on, where the finger is, and whether a touch counts.
// It owns the rules of touching (release inside, press for Syringe in, dead time) so that no widget has its
// own.
#pragma once

#include <imgui.h>

#include <map>
#include <string>
#include <string_view>

#include "app/kiosk/touch/geometry.h"
#include "app/kiosk/touch/input.h"
#include "app/kiosk/touch/palette.h"
#include "app/kiosk/touch/registry.h"
#include "app/kiosk/touch/type.h"
#include "app/kiosk/touch/words.h"

namespace brimline::touch {

/// How long a place takes no press after its command has changed.
inline constexpr Seconds dead_time = 0.8;

/// How a frame looks and which size rules hold in it.
struct Dress {
    Theme theme{Theme::dark};
    bool in_room{true};    ///< procedure room: 88 px targets
    bool practice{false};  ///< striped frame, the word at the top
    bool operator==(const Dress&) const = default;
};

/// What a widget learns about its target in this frame.
struct Touch {
    bool fired{false};    ///< the touch counts, now
    bool pressed{false};  ///< a finger holds it: draw it pressed
};

/// The surface of one frame.
class Glass {
public:
    Glass(const Type& type, const Words& words);

    /// Opens a frame between ImGui::NewFrame and ImGui::Render; the last frame becomes what the finger saw.
    void begin(const FrameInput& input, Size size);
    /// Closes the frame: forgets a finger that has gone and draws the practice frame.
    void end();

    /// Chooses colours and size rules; call it first in a frame.
    void dress(const Dress& dress);
    [[nodiscard]] const Dress& dressed() const { return dress_; }

    /// Registers a target and says whether it was touched.
    Touch touch(const Target& target);
    /// The same for a place whose command may change: dead for 0.8 s after it did. The target's group is the
    /// place, its name is the command; the same command again is never dead.
    Touch touch_watched(const Target& target);

    /// Where to draw.
    [[nodiscard]] ImDrawList& ink() const { return *ink_; }
    [[nodiscard]] const Palette& colours() const { return *colours_; }
    [[nodiscard]] const Type& type() const { return *type_; }
    [[nodiscard]] const Words& words() const { return *words_; }
    [[nodiscard]] Registry& registry() { return now_; }
    [[nodiscard]] const Registry& registry() const { return now_; }
    [[nodiscard]] Size size() const { return size_; }
    [[nodiscard]] const FrameInput& input() const { return input_; }
    [[nodiscard]] Seconds time() const { return input_.now; }

    /// Changes the language from the next word on.
    void speak(const Words& words) { words_ = &words; }
    /// Touches that came too soon after a place had changed; the self-test page shows it.
    [[nodiscard]] int too_soon() const { return too_soon_; }
    /// How long a place still takes no press; 0 when it is live or not there.
    [[nodiscard]] Seconds dead_for(const std::string& place) const;

private:
    struct Watch {
        std::string command;
        Seconds since{0};
        long frame{0};
    };
    [[nodiscard]] bool is_live(const Target& target);
    Touch judge(const Target& target, bool live);

    const Type* type_;
    const Words* words_;
    const Palette* colours_;
    ImDrawList* ink_{nullptr};
    Dress dress_;
    Size size_;
    FrameInput input_;
    Registry now_;
    Registry seen_;
    std::string aimed_;   // what the finger pressed in this frame
    std::string held_;    // what it holds since
    std::string inside_;  // what it is over now
    std::map<std::string, Watch> watches_;
    long frame_{0};
    int too_soon_{0};
};

}  // namespace brimline::touch
