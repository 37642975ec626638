// Problem: one tap on a reason stops the filling clock. Back stands where Problem was, nothing where Filling
// done was.
#include <array>

#include "app/kiosk/screens/fill_page.h"

namespace brimline::screens {
namespace {

struct Reason {
    const char* name;
    const char* title;
    const char* note;
    StopReason reason;
};
constexpr std::array reasons{
    Reason{"retching", "fill.retching", "fill.or-coughing", StopReason::retching},
    Reason{"resistance", "fill.resistance", "fill.then-seen-again", StopReason::resistance},
    Reason{"position-lost", "fill.position-lost", "fill.then-seen-again", StopReason::position_lost},
    Reason{"other", "fill.other", "fill.tell-at-the-seal", StopReason::other},
};

void draw_where_it_stands(const FillPage& page, touch::Rect rect) {
    draw_balloon_panel(page, rect);
    const touch::Rect line{rect.x + 20, rect.y + 237, rect.w - 40, 32};
    if (page.view.last) {
        touch::text(page.glass, "fill/moment-1", line,
                    page.say("fill.last", {{"time", page.time(*page.view.last)},
                                           {"ago", duration_words(page.scene.now - *page.view.last)}}),
                    {.lines = 1});
    }
    if (page.view.to_aim) {
        touch::text(page.glass, "fill/moment-2", {line.x, line.y + 32, line.w, 32},
                    page.say("fill.to-target-line", {{"ml", ml_digits(page.glass, page.view.planned->aim)},
                                                     {"n", std::to_string(*page.view.to_aim)}}),
                    {.lines = 1});
    }
}

}  // namespace

void draw_problem(const FillPage& page) {
    const auto a = page.layout.column_a;
    draw_gauge(page, a.left_part(252));
    draw_where_it_stands(page, a.right_part(404).top_part(330));
    draw_note_panel(page, "problem/note-1", a.right_part(404).bottom_part(218),
                    page.say("fill.what-a-stop-does"), page.say("fill.stop-explained"));
    const touch::Rect keys = page.layout.column_b.top_part(324);
    for (std::size_t i = 0; i < reasons.size(); ++i) {
        const auto place = touch::cell(keys, 2, 3, static_cast<int>(i % 2), static_cast<int>(i / 2), 12);
        if (touch::button(
                page.glass, reasons[i].name, place,
                {.title = page.say(reasons[i].title), .note = page.say(reasons[i].note), .bold = true})) {
            page.asks.tell(StopFilling{reasons[i].reason, {}});
            page.open(Sheet::none);
        }
    }
    if (touch::button(
            page.glass, "back", touch::cell(keys, 2, 3, 0, 2, 12),
            {.title = page.say("touch.back"), .note = page.say("fill.nothing-stopped"), .bold = true})) {
        page.open(Sheet::none);
    }
    const auto note = touch::cell(keys, 2, 3, 1, 2, 12);
    touch::panel(page.glass, note);
    touch::text(page.glass, "problem/note", note.inset(16, 8), page.say("fill.a-tap-stops"),
                {.colour = page.glass.colours().text_2, .lines = 3});
    draw_case_prompt(page.glass, page.scene,
                     touch::Prompt{.urgency = touch::Urgency::low,
                                   .title = page.say("fill.one-tap-stops"),
                                   .why = page.say("fill.count-stays")},
                     page.asks);
    draw_syringe_in(page.glass, page.scene, page.layout.fill_action, page.asks);
}

}  // namespace brimline::screens
