// brimline kiosk: the screens, full screen or in a window.
#include "app/kiosk/kiosk_command.h"

#include <fmt/format.h>

#include <utility>

#include "app/kiosk/run_kiosk.h"

namespace brimline::kiosk {
namespace {

struct Options {
    KioskOptions kiosk;
    std::string window;
};

int run_with(Options options) {
    if (options.kiosk.data.empty()) {
        options.kiosk.data = desk::default_data();
        // Practice has a store of its own, beside the real one.
        options.kiosk.begin_in_practice = std::exchange(options.kiosk.practice, false);
    }
    if (!options.window.empty()) {
        options.kiosk.window = window_size(options.window);
        if (!options.kiosk.window) {
            return desk::complain(
                fmt::format("--window {}: width and height of 320 to 8192 are needed, as 1280x800.",
                            options.window),
                2);
        }
    }
    return run_kiosk(options.kiosk);
}

void add_options(CLI::App& command, Options& options) {
    command
        .add_option("--data", options.kiosk.data, "Folder of the journal; made with mode 0700 when it is new")
        ->type_name("DIR");
    command.add_option("--policy", options.kiosk.policy, "Folder with the clinic's policy, for a new store")
        ->type_name("DIR");
    command.add_option("--window", options.window, "In a window of this size instead of full screen")
        ->type_name("WxH");
    command.add_option("--language", options.kiosk.language,
                       "Of the glass, instead of the clinic's: en, es, pl");
    command.add_flag(
        "--practice", options.kiosk.practice,
        "Rehearsal: striped frame, a store of its own beside the real one; with --data that store alone");
    command
        .add_option("--clock", options.kiosk.clock,
                    "Starts at this time of day; only in a store that scripts wrote")
        ->type_name("TIME");
}

}  // namespace

void add_kiosk(CLI::App& app, desk::Run& run) {
    auto options = std::make_shared<Options>();
    auto* command = app.add_subcommand("kiosk", "The kiosk's screens (also without a sub-command)");
    add_options(*command, *options);
    command->callback([options, &run] { run = [options] { return run_with(*options); }; });
    run = [options] { return run_with(*options); };  // until another sub-command is named
}

}  // namespace brimline::kiosk
