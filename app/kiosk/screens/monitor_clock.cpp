// The monitor's clock beside the kiosk's: a time is typed that the monitor will show soon, and the tap in
// that moment notes how far the two are apart. Over Fill the corner stays Syringe in.
#include <fmt/format.h>

#include <charconv>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/fill_corner.h"
#include "app/kiosk/screens/pages.h"
#include "core/case/monitor_clock_view.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

constexpr std::size_t digits = 6;

int number(const std::string& text, std::size_t from) {
    int value = 0;
    std::from_chars(text.data() + from, text.data() + from + 2, value);
    return value;
}

std::optional<TimeOfDay> typed(const std::string& text) {
    if (text.size() != digits) {
        return std::nullopt;
    }
    return TimeOfDay::of(number(text, 0), number(text, 2), number(text, 4));
}

/// "11 07 1": spaces while it is typed, colons once it is a time.
std::string shown(const std::string& text) {
    std::string all;
    for (std::size_t i = 0; i < text.size(); ++i) {
        all += i > 0 && i % 2 == 0 ? (typed(text) ? ":" : " ") : "";
        all += text[i];
    }
    return all;
}

void draw_clocks(Glass& glass, const Scene& scene) {
    const auto& words = glass.words();
    const Rect panel{176, 104, 672, 560};
    touch::panel(glass, panel);
    panel_head(glass, "monitor/head", panel, words.say("monitor.head"));
    list_line(glass, "monitor/kiosk", {196, 160, 632, 48}, words.say("monitor.kiosk"),
              clock_text(scene.now, scene.zone, true), 300);
    const auto& noted = scene.ahead_state->monitor_clock;
    const auto value = noted ? words.say("monitor.differs", {{"s", seconds_words(noted->is.offset_s)}}) +
                                   " · " + clock_text(noted->stamp.happened, scene.zone)
                             : words.say("monitor.none-yet");
    list_line(glass, "monitor/noted", {196, 212, 632, 48}, words.say("monitor.noted"), value, 200);
    touch::text(glass, "monitor/how", {196, 300, 632, 160}, words.say("monitor.how"),
                {.em = touch::step::body, .stand = touch::Stand::top, .lines = 4});
}

void draw_typing(Glass& glass, RoomDrafts& drafts) {
    const auto& words = glass.words();
    const bool wrong = drafts.monitor.size() == digits && !typed(drafts.monitor);
    (void)touch::value_box(glass, "monitor/time", {864, 104, 400, 80},
                           {.digits = shown(drafts.monitor),
                            .label = words.say("monitor.time"),
                            .wrong = wrong ? words.say("monitor.no-such-time") : "",
                            .focused = true,
                            .small = true});
    const auto key = touch::keypad(glass, "pad", {864, 192, 400, 472}, false, 8);
    if (key == touch::PadKey::erase) {
        drafts.monitor = drafts.monitor.substr(0, drafts.monitor.empty() ? 0 : drafts.monitor.size() - 1);
    } else if (key && drafts.monitor.size() < digits) {
        drafts.monitor += static_cast<char>('0' + static_cast<int>(*key));
    }
}

void tell(const Scene& scene, RoomDrafts& drafts, Asks& asks) {
    asks.tell(MonitorClock{monitor_offset_s(*typed(drafts.monitor), scene.now, scene.zone)});
    drafts.monitor.clear();
    asks.sheet = Sheet::none;
}

}  // namespace

Asks draw_monitor_clock(Glass& glass, const Scene& scene, RoomDrafts& drafts) {
    Asks asks;
    const auto& words = glass.words();
    draw_case_frame_bare(glass, scene, asks);
    draw_clocks(glass, scene);
    draw_typing(glass, drafts);
    std::optional<touch::Action> own;
    if (typed(drafts.monitor)) {
        own = touch::Action{.command = "it-shows-it",
                            .title = words.say("monitor.shows-it", {{"time", shown(drafts.monitor)}}),
                            .note = words.say("monitor.shows-it-note")};
    }
    if (over_fill(scene)) {
        if (draw_sheet_foot(glass, scene, own, asks) == touch::SheetTap::action) {
            tell(scene, drafts, asks);
        }
        return asks;
    }
    if (sheet_prompt(glass, scene,
                     {.urgency = touch::Urgency::low,
                      .title = words.say("monitor.prompt"),
                      .why = words.say("monitor.prompt-why")},
                     asks)) {
        asks.sheet = Sheet::none;
    }
    if (!own) {
        quiet_corner(glass, words.say("monitor.type-time"));
    } else if (touch::action(glass, touch::layout_for(glass.size()).action, *own) ==
               touch::ActionTap::action) {
        tell(scene, drafts, asks);
    }
    return asks;
}

}  // namespace brimline::screens
