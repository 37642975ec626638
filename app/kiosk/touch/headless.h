// Drives an application without a window: the same queue, the same step, fingers that tap by name.
// It fails loudly: a tap on a name that is not there, is covered or is dead throws, it never does nothing.
#pragma once

#include <functional>
#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "app/kiosk/touch/application.h"
#include "app/kiosk/touch/picture.h"

namespace brimline::touch {

/// What a finger of a test could not do.
struct CannotTouch : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// The driver. Times are simulated and only pass when the driver says so.
class Headless {
public:
    /// Runs `application` on a glass of `size` with the words given. Throws when the fonts are missing.
    Headless(Application& application, const Words& words, Size size = {});
    /// The same for a function that draws, without pedals and scans.
    Headless(std::function<void(Glass&)> draw, const Words& words, Size size = {});
    ~Headless();
    Headless(const Headless&) = delete;
    Headless& operator=(const Headless&) = delete;

    /// Draws one frame at the present time.
    void frame();
    /// Lets time pass, with a frame at every moment the application or the queue asks for, and one at the
    /// end.
    void pass(Seconds seconds);
    /// A calm finger: waits until a place that has just changed is live, presses and lets go.
    void tap(std::string_view name);
    /// A finger that does not wait: what a place in its dead time drops stays dropped.
    void hasty_tap(std::string_view name);
    /// Presses the middle of a target and keeps the finger there.
    void press(std::string_view name);
    /// Lets go where the finger is.
    void release();
    /// Moves the finger, lifted or not.
    void move(Point at);
    /// Presses and lets go at a point, whatever is there.
    void tap_at(Point at);
    /// Presses a key of a real keyboard.
    void key(Key key);
    /// Types on a real keyboard at the pace of a hand, 120 ms a letter.
    void type(std::string_view text);
    /// Scans: 1 ms a character, 0x1D as the separator key, Enter at the end.
    void scan(std::string_view characters);
    /// Steps on a pedal.
    void pedal(Pedal pedal);

    /// True when a target of this name was in the last frame.
    [[nodiscard]] bool has(std::string_view name) const;
    /// True when the target stands as chosen.
    [[nodiscard]] bool is_checked(std::string_view name) const;
    /// The text of a slot; throws when there is none.
    [[nodiscard]] std::string text_of(std::string_view slot) const;
    /// True when any slot shows this text.
    [[nodiscard]] bool shows(std::string_view text) const;
    /// All texts of the frame, one a line, in order of drawing.
    [[nodiscard]] std::string all_text() const;
    /// Every broken promise of all frames since the start, each once; missing words among them.
    [[nodiscard]] std::vector<std::string> faults() const;
    /// Broken promises of the last frame alone.
    [[nodiscard]] std::vector<std::string> faults_now() const;
    /// The last frame as pixels.
    [[nodiscard]] Picture picture() const;

    [[nodiscard]] const Registry& registry() const;
    [[nodiscard]] Glass& glass();
    [[nodiscard]] InputQueue& queue();
    [[nodiscard]] Seconds now() const;

private:
    struct World;
    [[nodiscard]] const Target& reachable(std::string_view name) const;
    void settle();
    std::unique_ptr<World> world_;
};

}  // namespace brimline::touch
