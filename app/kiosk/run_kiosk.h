// The kiosk as a whole: a store, words, screens and a window put together and run until the window closes.
#pragma once
#include <filesystem>
#include <optional>
#include <string>

namespace brimline::kiosk {

/// Width and height of a window that is not full screen.
struct WindowSize {
    int width{0}, height{0};
};

/// How the kiosk is started.
struct KioskOptions {
    std::filesystem::path data;
    std::optional<std::filesystem::path> policy;  // a clinic's folder; what the journal recorded wins over it
    std::optional<WindowSize> window;             // full screen when empty
    bool practice{false};                         // the store itself is one of practice
    bool begin_in_practice{false};                // in the store of practice beside this one
    std::optional<std::string> language;          // of the glass; the clinic's, by its policy, when empty
    std::optional<std::string> clock;             // RFC 3339: the time of day at the start, for a demo
};

/// "1280x800"; empty when it is anything else or smaller than a page can be read.
[[nodiscard]] std::optional<WindowSize> window_size(const std::string& text);

/// Runs the kiosk. 0 when the window was closed, 2 for bad options, 3 when store, display or words failed;
/// each with one sentence to standard error.
[[nodiscard]] int run_kiosk(const KioskOptions& options);

}  // namespace brimline::kiosk
