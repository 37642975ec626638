// A sample with its owner and the date of its result; a no-go with its reason, the next look and the pack
// that goes back to stock.
#include <fmt/format.h>

#include <array>

#include "app/kiosk/screens/desk_words.h"
#include "app/kiosk/screens/look_parts.h"
#include "app/kiosk/screens/names.h"
#include "core/case/look_view.h"

namespace brimline::screens {
namespace {

using touch::Rect;

constexpr std::array<int, 4> result_weeks{1, 2, 4, 6};
constexpr std::array<int, 4> look_weeks{4, 6, 8, 12};

void head(const LookPage& page, const char* key, Rect place) {
    touch::text(page.glass, key, place, page.say(key),
                {.colour = page.glass.colours().text_2, .bold = true, .lines = 1});
}

touch::Look chosen(bool yes) { return yes ? touch::Look::chosen : touch::Look::rest; }

/// Keys of a policy list; what was tapped goes into `into`.
void draw_items(const LookPage& page, const char* name, const std::vector<ListItem>& items, Rect area,
                int columns, int rows, std::string& into) {
    for (std::size_t i = 0; i < items.size() && i < static_cast<std::size_t>(columns * rows); ++i) {
        const auto place = touch::cell(area, columns, rows, static_cast<int>(i) % columns,
                                       static_cast<int>(i) / columns, 10);
        if (touch::button(page.glass, fmt::format("{}/{}", name, items[i].id), place,
                          {.title = items[i].words,
                           .look = chosen(into == items[i].id),
                           .tick = false,
                           .corner_tick = true})) {
            into = items[i].id;
        }
    }
}

void draw_weeks(const LookPage& page, Rect area, const std::array<int, 4>& weeks) {
    for (std::size_t i = 0; i < weeks.size(); ++i) {
        const auto place = touch::cell(area, 2, 2, static_cast<int>(i % 2), static_cast<int>(i / 2), 10);
        if (touch::button(page.glass, fmt::format("weeks/{}", weeks[i]), place,
                          {.title = page.say("look.in-weeks", {{"n", std::to_string(weeks[i])}}),
                           .note = shown_date(page.glass, page.in_weeks(weeks[i])),
                           .look = chosen(page.drafts.weeks == weeks[i]),
                           .tick = false,
                           .corner_tick = true})) {
            page.drafts.weeks = page.drafts.weeks == weeks[i] ? 0 : weeks[i];
        }
    }
}

/// Everybody in turn; nobody is chosen beforehand.
void draw_owner(const LookPage& page, Rect place) {
    auto& owner = page.drafts.owner;
    const auto& people = page.scene.ahead.people;
    const touch::Button face{
        .title = owner.empty() ? page.say("look.owner-nobody")
                               : page.say("look.owner", {{"name", short_name(page.scene.ahead, owner)}}),
        .note = page.say("place.tap-another"),
        .look = chosen(!owner.empty()),
        .tick = false};
    if (!touch::button(page.glass, "owner", place, face) || people.empty()) {
        return;
    }
    auto next = people.find(owner);
    next = next == people.end() ? people.find(page.scene.physician) : std::next(next);
    owner = next == people.end() ? people.begin()->first : next->first;
}

std::string missing_of_sample(const LookPage& page) {
    const auto& drafts = page.drafts;
    const char* key = drafts.kind.empty()    ? "look.which-kind"
                      : drafts.site.empty()  ? "look.which-site"
                      : !drafts.pieces       ? "look.how-many"
                      : drafts.weeks == 0    ? "look.result-when"
                      : drafts.owner.empty() ? "look.owner-nobody"
                                             : "";
    return *key == '\0' ? std::string{} : page.say(key);
}

}  // namespace

void draw_sample(const LookPage& page) {
    const auto& lists = page.scene.policy.lists;
    auto& drafts = page.drafts;
    head(page, "look.what", {184, 104, 656, 34});
    draw_items(page, "sample", lists.samples, {176, 142, 672, 96}, 3, 1, drafts.kind);
    head(page, "look.where", {184, 248, 656, 34});
    draw_items(page, "site", lists.sample_sites, {176, 286, 672, 378}, 3, 3, drafts.site);
    touch::panel(page.glass, {864, 104, 400, 152});
    head(page, "look.pieces", {884, 110, 360, 34});
    if (const auto changed = touch::stepper(page.glass, "pieces", {880, 152, 368, 92},
                                            {.value = drafts.pieces, .least = 1, .most = 30, .first = 1})) {
        drafts.pieces = changed;
    }
    head(page, "look.result-when", {872, 262, 384, 34});
    draw_weeks(page, {864, 300, 400, 200}, result_weeks);
    draw_owner(page, {864, 564, 400, 100});
    const auto missing = missing_of_sample(page);
    const touch::Action own{.command = "enter-sample", .title = page.say("look.enter-sample")};
    if (draw_part_foot(page, page.say("look.samples"), page.say("look.sample-why"),
                       missing.empty() ? std::optional{own} : std::nullopt, missing)) {
        page.asks.tell(
            Sample{drafts.kind, drafts.site, *drafts.pieces, drafts.owner, page.in_weeks(drafts.weeks)});
        page.to_list();
    }
}

void draw_no_go(const LookPage& page) {
    auto& drafts = page.drafts;
    head(page, "look.why-no-go", {184, 104, 656, 34});
    draw_items(page, "reason", page.scene.policy.lists.refusal_reasons, {176, 142, 672, 522}, 3, 4,
               drafts.reason);
    head(page, "look.look-again", {872, 104, 384, 34});
    draw_weeks(page, {864, 142, 400, 200}, look_weeks);
    if (drafts.weeks > 0) {
        draw_owner(page, {864, 352, 400, 96});
    }
    const bool lot = !drafts.lot.text().empty();
    if (touch::button(page.glass, "pack-back", {864, 460, 400, 96},
                      {.title = lot ? page.say("look.pack-lot", {{"lot", drafts.lot.text()}})
                                    : page.say("look.pack-back"),
                       .note = page.say("look.type-lot"),
                       .look = chosen(lot),
                       .tick = false})) {
        drafts.lot_keyboard = true;
    }
    const bool worded = !drafts.words.text().empty();
    if (touch::button(page.glass, "no-go-words", {864, 568, 400, 96},
                      {.title = page.say("look.words"),
                       .note = drafts.words.text(),
                       .look = chosen(worded),
                       .tick = false})) {
        drafts.keyboard = true;
    }
    const bool owned = drafts.weeks == 0 || !drafts.owner.empty();
    const touch::Action own{.command = "enter-no-go",
                            .title = page.say("look.enter-no-go"),
                            .note = page.say("look.said-by-note", {{"name", whose_word(page.scene)}})};
    const bool ready = !drafts.reason.empty() && owned;
    if (!draw_part_foot(page, page.say("look.why-no-go"), page.say("look.no-go-why"),
                        ready ? std::optional{own} : std::nullopt,
                        page.say(drafts.reason.empty() ? "look.tap-reason" : "look.owner-nobody"))) {
        return;
    }
    NoGo says;
    says.reason = drafts.reason;
    if (drafts.weeks > 0) {
        says.look_again = LookAgain{page.in_weeks(drafts.weeks), drafts.owner};
    }
    if (lot) {
        says.returned = Returned{drafts.lot.text()};
    }
    if (worded) {
        says.words = drafts.words.text();
    }
    page.asks.tell_said_by(says, page.scene.physician);
    page.to_list();
}

}  // namespace brimline::screens
