// Taps and pedal presses as the two-line record shows them. Which beat stands alone is the core's finding.
#include "app/kiosk/screens/fill_page.h"

namespace brimline::screens {
namespace {

std::string span_words(const FillPage& page) {
    const auto& span = page.view.span;
    return span ? page.say("fill.from-to", {{"from", page.time(span->first)}, {"to", page.time(span->last)}})
                : "";
}

double seconds_of(Instant t) { return static_cast<double>(t.in_us()) / 1e6; }

}  // namespace

touch::TwoLineRecord counts_record(const FillPage& page, bool with_words) {
    const auto& block = page.block();
    const auto parted = parted_at(block, page.scene.now, page.scene.policy.fill.double_tap);
    touch::TwoLineRecord record;
    int number = 0;
    for (const auto& d : block.deliveries) {
        for (int i = 0; i < d.syringes; ++i) {
            ++number;
            record.taps.push_back({.at = seconds_of(d.stamp.happened),
                                   .alone = parted == d.stamp.happened,
                                   .label = with_words ? std::string{} : std::to_string(number)});
        }
    }
    for (const auto& press : block.presses) {
        record.pedal.push_back({.at = seconds_of(press.happened), .alone = parted == press.happened});
    }
    for (const auto& stop : block.stops) {
        const auto until = stop.until.value_or(page.scene.now);
        record.stops.push_back(
            {.from = seconds_of(stop.stamp.happened),
             .to = seconds_of(until),
             .label = page.say("fill.stopped-s",
                               {{"s", std::to_string(whole_seconds(until - stop.stamp.happened))}})});
    }
    if (with_words) {
        record.taps_word = page.say("fill.taps-word");
        record.pedal_word = page.say("fill.pedal-word");
    }
    return record;
}

void draw_record_panel(const FillPage& page, touch::Rect rect) {
    touch::panel(page.glass, rect);
    draw_pair_head(page, "record/head", rect, page.say("fill.on-one-line"), span_words(page));
}

void draw_pair_head(const FillPage& page, const std::string& name, touch::Rect panel,
                    const std::string& words, const std::string& at_right) {
    const touch::Rect line{panel.x + 20, panel.y + 8, panel.w - 40, 36};
    const auto& c = page.glass.colours();
    const float right = page.glass.type().width(touch::Face::words, touch::step::note, at_right) + 4;
    touch::text(page.glass, name, line.left_part(line.w - right - 10), words,
                {.colour = c.text_2, .bold = true, .lines = 1});
    touch::text(page.glass, name + "/right", line.right_part(right), at_right,
                {.colour = c.text_2, .align = touch::Align::right, .lines = 1});
}

}  // namespace brimline::screens
