// A display for tests of the real window: a virtual X server of its own, fingers by XTest, pixels by
// XGetImage.
#pragma once

#include <memory>
#include <string>

#include "app/kiosk/touch/picture.h"

namespace brimline::tests {

/// Starts a virtual X server on a free number and points DISPLAY at it; ends it at the end.
class Display {
public:
    Display(int width, int height);
    ~Display();
    Display(const Display&) = delete;
    Display& operator=(const Display&) = delete;

    /// Moves the pointer.
    void move(int x, int y);
    /// Presses or lifts the finger.
    void finger(bool down);
    /// Presses and lifts a key by the code of the keyboard (191 and 192 are F13 and F14).
    void key(unsigned code);
    /// What the screen shows.
    [[nodiscard]] touch::Picture picture();

private:
    struct Server;
    std::unique_ptr<Server> server_;
};

}  // namespace brimline::tests
