// The kiosk's window: GLFW's events into the touch queue, frames onto the glass, and sleep in between.
// It draws only when something arrived, a deadline has come or another thread has asked.
#pragma once

#include <memory>
#include <string>
#include <tl/expected.hpp>

#include "app/kiosk/touch/application.h"

namespace brimline::kiosk {

struct WindowState;

/// How the window opens.
struct WindowSettings {
    bool fullscreen{true};
    int width{1280};  ///< without full screen
    int height{800};
    std::string title{"Brimline"};
    touch::PedalKeys pedals{};
    touch::ScannerSettings scanner{};
};

/// One window; there is only one in a program.
class Window {
public:
    /// Opens it and loads fonts. Errors: a sentence that says what is missing (display, OpenGL 3.3, font
    /// file).
    [[nodiscard]] static tl::expected<std::unique_ptr<Window>, std::string> open(
        const WindowSettings& settings, const touch::Words& words);
    ~Window();
    Window(const Window&) = delete;
    Window& operator=(const Window&) = delete;

    /// Runs until `close` or until the window system closes it.
    void run(touch::Application& application);
    /// Ends `run` after the present frame; from the window's own thread.
    void close();
    /// Asks for a frame from any thread: the disk has answered.
    void wake();
    /// Seconds on the monotonic clock that all times of input are given in.
    [[nodiscard]] static touch::Seconds now();
    /// What the input queue dropped so far.
    [[nodiscard]] const touch::Dropped& dropped() const;
    /// The surface, for the language and for the self-test page.
    [[nodiscard]] touch::Glass& glass();

private:
    explicit Window(std::unique_ptr<WindowState> state);
    void sleep(touch::Application& application);
    void show();
    std::unique_ptr<WindowState> state_;
};

}  // namespace brimline::kiosk
