// Starts Xvfb, talks to it through a connection of its own, and ends it by its process id.
#include "tests/window/display.h"

#include <X11/Xlib.h>
#include <X11/Xutil.h>
#include <X11/extensions/XTest.h>
#include <fmt/format.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cstdlib>
#include <stdexcept>

namespace brimline::tests {

namespace {

/// Runs Xvfb in a child that writes the number of its display into `out`.
[[noreturn]] void become_server(int out, int width, int height) {
    const std::string screen = fmt::format("{}x{}x24", width, height);
    const std::string number_to = fmt::format("{}", out);
    execlp("Xvfb", "Xvfb", "-displayfd", number_to.c_str(), "-screen", "0", screen.c_str(), "-nolisten",
           "tcp", static_cast<char*>(nullptr));
    _exit(127);
}

std::string read_line(int from) {
    std::string line;
    char c = 0;
    while (read(from, &c, 1) == 1 && c != '\n') {
        line.push_back(c);
    }
    return line;
}

}  // namespace

struct Display::Server {
    pid_t process{-1};
    ::Display* connection{nullptr};
};

Display::Display(int width, int height) : server_{std::make_unique<Server>()} {
    std::array<int, 2> ends{};
    if (pipe(ends.data()) != 0) {
        throw std::runtime_error{"no pipe for the display"};
    }
    server_->process = fork();
    if (server_->process == 0) {
        close(ends[0]);
        become_server(ends[1], width, height);
    }
    close(ends[1]);
    const std::string number = read_line(ends[0]);
    close(ends[0]);
    if (number.empty()) {
        throw std::runtime_error{"Xvfb did not start; install the package xvfb"};
    }
    const std::string name = ":" + number;
    setenv("DISPLAY", name.c_str(), 1);
    server_->connection = XOpenDisplay(name.c_str());
    if (server_->connection == nullptr) {
        throw std::runtime_error{"the virtual display takes no connection"};
    }
}

Display::~Display() {
    if (server_->connection != nullptr) {
        XCloseDisplay(server_->connection);
    }
    if (server_->process > 0) {
        kill(server_->process, SIGTERM);
        waitpid(server_->process, nullptr, 0);
    }
}

void Display::move(int x, int y) {
    XTestFakeMotionEvent(server_->connection, -1, x, y, 0);
    XFlush(server_->connection);
}

void Display::finger(bool down) {
    XTestFakeButtonEvent(server_->connection, 1, down ? True : False, 0);
    XFlush(server_->connection);
}

void Display::key(unsigned code) {
    XTestFakeKeyEvent(server_->connection, code, True, 0);
    XTestFakeKeyEvent(server_->connection, code, False, 0);
    XFlush(server_->connection);
}

touch::Picture Display::picture() {
    ::Display* x = server_->connection;
    XWindowAttributes root{};
    XGetWindowAttributes(x, DefaultRootWindow(x), &root);
    XImage* image = XGetImage(x, DefaultRootWindow(x), 0, 0, static_cast<unsigned>(root.width),
                              static_cast<unsigned>(root.height), AllPlanes, ZPixmap);
    if (image == nullptr) {
        throw std::runtime_error{"the virtual display gives no picture"};
    }
    touch::Picture picture;
    picture.width = root.width;
    picture.height = root.height;
    for (int row = 0; row < root.height; ++row) {
        for (int column = 0; column < root.width; ++column) {
            picture.pixels.push_back(
                touch::rgb(static_cast<std::uint32_t>(XGetPixel(image, column, row)) & 0xFFFFFFU));
        }
    }
    XDestroyImage(image);
    return picture;
}

}  // namespace brimline::tests
