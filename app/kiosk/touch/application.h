// What the window and the headless driver run: one interface, stepped by one function, so that a test
// exercises the code that the kiosk runs.
#pragma once

#include <string>

#include "app/kiosk/touch/glass.h"
#include "app/kiosk/touch/input.h"

namespace brimline::touch {

/// Whether a drawn frame may be shown.
enum class Drawn {
    final,  ///< show it
    stale,  ///< the state changed while drawing: draw again before anything is shown
};

/// A program on the glass.
class Application {
public:
    Application() = default;
    Application(const Application&) = delete;
    Application& operator=(const Application&) = delete;
    virtual ~Application() = default;

    /// Draws one frame. After `stale` it is called again at once, without any input.
    virtual Drawn draw(Glass& glass) = 0;
    /// A foot came down; delivered before the frame is drawn, in order.
    virtual void on_pedal(const PedalPress& press) = 0;
    /// A scanner read a label or a badge.
    virtual void on_scan(const std::string& characters, Seconds time) = 0;
    /// When the glass must be drawn again although nobody touches it, on the monotonic clock; a time that has
    /// passed means at once, a negative number never.
    [[nodiscard]] virtual Seconds next_wake(Seconds now) = 0;
    /// Called when another thread has asked for a frame through `Window::wake` (the disk answered).
    virtual void on_wake(Seconds /*now*/) {}
};

/// Gives one frame's input to the application and draws until the frame is final. ImGui::Render is called at
/// the end, so that ImGui::GetDrawData holds the frame to be shown.
void run_frame(Application& application, Glass& glass, const FrameInput& input, Size size);

}  // namespace brimline::touch
