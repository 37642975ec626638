// Puts store, words, screens and window together.
#include "app/kiosk/run_kiosk.h"

#include <fmt/format.h>

#include <atomic>
#include <charconv>

#include "app/desk/commands.h"
#include "app/kiosk/kiosk_printer.h"
#include "app/kiosk/language.h"
#include "app/kiosk/screens/stores.h"
#include "app/kiosk/window.h"
#include "app/loop/policy_source.h"
#include "app/loop/practice.h"

namespace brimline::kiosk {
namespace {

constexpr int store_failed = 3;

/// The window as the store's thread knows it: not there yet, or no longer.
using Bell = std::shared_ptr<std::atomic<Window*>>;

/// How far the clock that was asked for is from the tablet's. Errors: a sentence.
tl::expected<Duration, std::string> clock_offset(const KioskOptions& options, store::Clock& real) {
    if (!options.clock) {
        return Duration{0};
    }
    const auto wanted = parse_instant(*options.clock);
    if (!wanted) {
        return tl::unexpected{fmt::format(
            "--clock {}: a time with its offset is needed, as 2026-11-25T09:38:23+00:00.", *options.clock)};
    }
    return *wanted - real.utc();
}

LiveRoom::Options room_options(const KioskOptions& options, const Bell& bell) {
    LiveRoom::Options room;
    room.room = {options.data, options.policy, options.practice};
    room.script_clock = options.clock.has_value();
    room.copies = true;
    room.thread.notify = [bell] {
        if (auto* window = bell->load()) {
            window->wake();
        }
    };
    return room;
}

WindowSettings window_settings(const KioskOptions& options) {
    WindowSettings settings;
    if (options.window) {
        settings.fullscreen = false;
        settings.width = options.window->width;
        settings.height = options.window->height;
    }
    return settings;
}

/// Practice and real patients never share a store (10-decisions F9). Empty when they do not.
std::string wrong_kind_of_store(const Desk& desk, bool practice) {
    for (const auto& [id, state] : desk.cases) {
        const bool of_practice = state.patient.number && state.patient.number->rfind("P-", 0) == 0;
        if (practice && !of_practice) {
            return "This data folder holds real patients; practice has a store of its own. Leave --data out, "
                   "or name "
                   "another folder.";
        }
        if (!practice && of_practice) {
            return "This data folder is one of practice; start it with --practice, or name another folder.";
        }
    }
    return "";
}

/// The store of practice beside the real one. Errors: a sentence.
tl::expected<std::unique_ptr<LiveRoom>, std::string> opened_beside(LiveRoom& real,
                                                                   const KioskOptions& options,
                                                                   const Bell& bell, store::Clock& clock,
                                                                   store::Chance& chance) {
    auto beside = room_options(options, bell);
    beside.room.data += "-practice";
    auto opened = open_practice(real, std::move(beside), clock, chance);
    if (!opened) {
        return tl::unexpected{opened.error().say};
    }
    return std::move(*opened);
}

/// False, with a sentence on the error output, when practice may not begin now.
bool begin_in_practice(screens::Stores& screens, LiveRoom& room) {
    if (const auto open = case_in_hand(room.desk()); !open.empty()) {
        desk::complain(
            fmt::format("Practice does not begin while case {} is open. Start without --practice.", open), 1);
        return false;
    }
    if (const auto begun = screens.begin(""); !begun) {
        desk::complain("Practice cannot begin: " + begun.error(), 1);
        return false;
    }
    return true;
}

}  // namespace

std::optional<WindowSize> window_size(const std::string& text) {
    constexpr int least = 320;
    constexpr int most = 8192;
    WindowSize size;
    const char* end = text.data() + text.size();
    const auto width = std::from_chars(text.data(), end, size.width);
    if (width.ec != std::errc{} || width.ptr == end || *width.ptr != 'x') {
        return std::nullopt;
    }
    const auto height = std::from_chars(width.ptr + 1, end, size.height);
    const bool whole = height.ec == std::errc{} && height.ptr == end;
    const auto fits = [](int side) { return side >= least && side <= most; };
    return whole && fits(size.width) && fits(size.height) ? std::optional{size} : std::nullopt;
}

int run_kiosk(const KioskOptions& options) {
    store::SystemClock real;
    store::SystemChance chance;
    const auto offset = clock_offset(options, real);
    if (!offset) {
        return desk::complain(offset.error(), 2);
    }
    OffsetClock clock{real, *offset};
    const auto bell = std::make_shared<std::atomic<Window*>>(nullptr);
    auto room = LiveRoom::open(room_options(options, bell), clock, chance);
    if (!room) {
        return desk::complain(room.error().say, room.error().exit_code);
    }
    if (const auto mixed = wrong_kind_of_store((*room)->desk(), options.practice); !mixed.empty()) {
        return desk::complain(mixed, 1);
    }
    const auto words = words_of_glass(options.language.value_or((*room)->policy().clinic.language));
    if (!words) {
        return desk::complain(words.error(), store_failed);
    }
    screens::OpenPractice practice;
    if (!options.practice) {
        practice = [&](LiveRoom& store) { return opened_beside(store, options, bell, clock, chance); };
    }
    auto window = Window::open(window_settings(options), *words);
    if (!window) {
        return desk::complain(window.error(), store_failed);
    }
    bell->store(window->get());
    screens::Stores screens{
        **room,
        {.practice = options.practice,
         .set_clock = options.clock.has_value(),
         .palette = {},
         .printing = kiosk_printer(options.data, room_options(options, bell).thread.notify)},
        practice};
    if (options.begin_in_practice && !begin_in_practice(screens, **room)) {
        return 1;
    }
    (*window)->run(screens);
    bell->store(nullptr);
    const bool saved = screens.wait_until_saved(std::chrono::seconds{10});
    return saved ? 0
                 : desk::complain("The last entries are not yet saved. Write them on paper.", store_failed);
}

}  // namespace brimline::kiosk
