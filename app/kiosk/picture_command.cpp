// brimline picture: one page of the kiosk as it looks at a time of day, painted without a window.
#include "app/kiosk/picture_command.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>

#include "app/kiosk/language.h"
#include "app/kiosk/screens/kiosk.h"
#include "app/kiosk/touch/headless.h"
#include "app/loop/policy_source.h"

namespace brimline::kiosk {
namespace {

struct Options {
    std::string out, case_name, page{"day-list"}, by, clock, palette{"by-place"}, language{"en"};
    std::vector<std::string> taps;
    std::filesystem::path data;
};

std::optional<screens::Page> page_named(const std::string& name) {
    const auto names = names_of(screens::Page{});
    const auto found = std::find(names.begin(), names.end(), name);
    return found == names.end() ? std::nullopt
                                : std::optional{static_cast<screens::Page>(found - names.begin())};
}

int paint_page(const Options& options, LiveRoom& room, const touch::Words& words) {
    const auto palettes = names_of(screens::KioskPalette{});
    const auto palette = std::find(palettes.begin(), palettes.end(), options.palette);
    if (palette == palettes.end()) {
        return desk::complain(fmt::format("--palette is one of {}.", fmt::join(palettes, ", ")), 2);
    }
    screens::Kiosk kiosk{room,
                         {.practice = false,
                          .set_clock = false,  // a picture has no running clock
                          .palette = static_cast<screens::KioskPalette>(palette - palettes.begin())}};
    kiosk.open(options.by, options.case_name, *page_named(options.page));
    touch::Headless glass{kiosk, words};
    glass.frame();
    for (const auto& name : options.taps) {
        try {
            glass.tap(name);
        } catch (const touch::CannotTouch& problem) {
            return desk::complain(fmt::format("--tap {}: {}", name, problem.what()), 2);
        }
        room.wait_until_saved(std::chrono::seconds{5});
        glass.frame();
    }
    const auto written = touch::write_png(glass.picture(), options.out);
    return written ? 0 : desk::complain(written.error(), 3);
}

int run_picture(const Options& options) {
    const auto at = parse_instant(options.clock);
    if (!at || !page_named(options.page)) {
        return desk::complain(fmt::format("--clock needs a time with its offset; --page one of {}.",
                                          fmt::join(names_of(screens::Page{}), ", ")),
                              2);
    }
    const auto words = words_of_glass(options.language);
    if (!words) {
        return desk::complain(words.error(), 3);
    }
    store::SystemClock real;
    store::SystemChance chance;
    OffsetClock clock{real, *at - real.utc()};
    LiveRoom::Options room_options;
    room_options.room.data = options.data;
    room_options.script_clock = true;
    auto room = LiveRoom::open(std::move(room_options), clock, chance);
    if (!room) {
        return desk::complain(room.error().say, room.error().exit_code);
    }
    if (!options.case_name.empty() && (*room)->desk().find_case(options.case_name) == nullptr) {
        return desk::complain(fmt::format("There is no case \"{}\".", options.case_name), 1);
    }
    return paint_page(options, **room, *words);
}

}  // namespace

void add_picture(CLI::App& app, desk::Run& run) {
    auto options = std::make_shared<Options>();
    auto* command = app.add_subcommand(
        "picture", "Paints one page of the kiosk into a PNG file; for the demo and for tests");
    command->add_option("FILE", options->out, "The PNG file to write")->required();
    command->add_option("--case", options->case_name, "Name of the case");
    command->add_option("--page", options->page,
                        "The page, as the kiosk calls it: sign-in, day-list, place, ...");
    command->add_option("--by", options->by, "Who enters: the id of a person");
    command->add_option("--clock", options->clock, "The time of day shown")->required();
    command->add_option("--palette", options->palette, "by-place, dark or light");
    command->add_option("--language", options->language, "Of the words: en, es, pl");
    command->add_option("--tap", options->taps, "Names of targets to tap first, in order");
    desk::add_data_option(*command, options->data);
    command->callback([options, &run] { run = [options] { return run_picture(*options); }; });
}

}  // namespace brimline::kiosk
