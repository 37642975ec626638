// Fasting against the plan, the contraindication screen, and the holds with their ways out; a meal or a drink
// is entered with its kind and its minute.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "app/kiosk/screens/arrival_parts.h"
#include "app/kiosk/screens/desk_words.h"

namespace brimline::screens {
namespace {

using touch::Rect;
using Section = ArrivalDrafts::Section;

constexpr std::size_t questions = 3;

std::string last_words(const ArrivalPage& page, const FastLine& line) {
    if (!line.last) {
        return page.say("arrival.not-asked");
    }
    switch (line.last->kind) {
        case LastIntake::Kind::at: {
            const auto date = page.scene.zone.date_of(line.last->at);
            const auto time = clock_text(line.last->at, page.scene.zone);
            return date == page.today() ? time
                                        : page.say("arrival.day-time",
                                                   {{"date", shown_date(page.glass, date)}, {"time", time}});
        }
        case LastIntake::Kind::not_known:
            return page.say("arrival.not-known");
        case LastIntake::Kind::vomiting:
            return page.say("arrival.vomiting");
    }
    return "";
}

void draw_line(const ArrivalPage& page, float y, const FastLine& line) {
    const auto& c = page.glass.colours();
    const auto name = fmt::format("fast/{}", name_of(line.kind));
    const bool timed = line.last && line.last->kind == LastIntake::Kind::at;
    touch::text(page.glass, name, {196, y, 148, 32}, page.say(fmt::format("arrival.{}", name_of(line.kind))),
                {.em = touch::step::body, .bold = true, .lines = 1});
    touch::text(page.glass, name + "/last", {196, y + 32, 200, 28}, last_words(page, line),
                {.colour = c.text_2, .lines = 1, .may_cut = true});
    const Rect bar{400, y + 8, 160, 26};
    touch::fill(page.glass, bar, c.bg, 4);
    if (timed && line.wait.count() > 0) {
        const float part =
            std::min(1.0F, static_cast<float>(line.elapsed_min) / static_cast<float>(line.wait.count()));
        touch::fill(page.glass, {bar.x, bar.y, bar.w * part, bar.h}, line.met ? c.text_2 : c.stop_fill, 4);
    }
    touch::line(page.glass, {bar.right(), y + 2}, {bar.right(), y + 42}, c.text, 4);
    touch::text(page.glass, name + "/elapsed", {576, y, 208, 32},
                timed ? duration_words(minutes{line.elapsed_min}) : "–",
                {.em = touch::step::body, .bold = true, .lines = 1});
    touch::text(page.glass, name + "/wait", {576, y + 32, 208, 28},
                page.say("arrival.needs", {{"time", duration_words(line.wait)}}),
                {.colour = c.text_2, .lines = 1});
    touch::icon(page.glass,
                !line.last          ? touch::Icon::ring
                : timed && line.met ? touch::Icon::good
                                    : touch::Icon::stop,
                {812, y + 26}, 28);
}

void draw_fasts(const ArrivalPage& page) {
    const auto view = fasting_view(page.state(), page.scene.policy, page.scene.now);
    touch::panel(page.glass, {176, 104, 672, 250});
    touch::text(page.glass, "fast/head", {196, 108, 400, 40},
                page.say("arrival.fasted-at", {{"time", clock_text(view.reference, page.scene.zone)}}),
                {.colour = page.glass.colours().text_2, .bold = true, .lines = 1});
    float y = 152;
    for (const auto& line : view.lines) {
        draw_line(page, y, line);
        y += 66;
    }
}

/// The questions that are shown: those without an answer first, or the whole list in order.
std::vector<const Check*> shown_checks(const ArrivalPage& page) {
    auto checks = screen_checks(page.scene.policy);
    if (!page.drafts.all_questions) {
        std::stable_partition(checks.begin(), checks.end(),
                              [&](const Check* check) { return !is_answered(page.state(), check->id); });
    }
    return checks;
}

void draw_screen(const ArrivalPage& page) {
    touch::panel(page.glass, {176, 366, 672, 298});
    touch::text(page.glass, "screen/head", {196, 370, 340, 34}, page.say("arrival.part-screen"),
                {.colour = page.glass.colours().text_2, .bold = true, .lines = 1});
    touch::text(page.glass, "screen/count", {540, 370, 288, 34}, part_note(page, ArrivalPart::screen),
                {.colour = page.glass.colours().text_2, .align = touch::Align::right, .lines = 1});
    const auto checks = shown_checks(page);
    auto& first = page.drafts.first_question;
    first = first >= checks.size() ? 0 : first;
    for (std::size_t i = 0; i < questions && first + i < checks.size(); ++i) {
        draw_check_pair(page, {184, 404 + 86 * static_cast<float>(i), 652, 80}, *checks[first + i]);
    }
}

/// Which question is next, in the corner of column B below the holds.
void draw_more_questions(const ArrivalPage& page) {
    const Rect row{864, 576, 400, 88};
    if (page.state().kind == CaseKind::removal) {
        if (touch::button(page.glass, "add-intake", row, {.title = page.say("arrival.add-intake")})) {
            page.drafts.open(Section::intake);
        }
        return;
    }
    const auto left = [&] {
        const auto checks = screen_checks(page.scene.policy);
        return std::count_if(checks.begin(), checks.end(),
                             [&](const Check* check) { return !is_answered(page.state(), check->id); });
    }();
    if (touch::button(page.glass, "more-questions", touch::cell(row, 2, 1, 0, 0, 12),
                      {.title = page.say("arrival.more-questions"),
                       .note = page.glass.words().count("arrival.left", static_cast<long>(left))})) {
        page.drafts.all_questions = true;
        page.drafts.first_question += questions;
    }
    if (touch::button(page.glass, "add-intake", touch::cell(row, 2, 1, 1, 0, 12),
                      {.title = page.say("arrival.add-intake")})) {
        page.drafts.open(Section::intake);
    }
}

touch::Prompt fasting_prompt(const ArrivalPage& page) {
    const auto view = fasting_view(page.state(), page.scene.policy, page.scene.now);
    if (!view.all_met_at) {
        return {.urgency = touch::Urgency::low, .title = page.say("arrival.fasting-prompt")};
    }
    const bool waits = *view.all_met_at > page.scene.now;
    return {
        .urgency = waits ? touch::Urgency::medium : touch::Urgency::low,
        .title = page.say("arrival.all-met-at", {{"time", clock_text(*view.all_met_at, page.scene.zone)}}),
        .why = waits ? page.say("arrival.ends-by-itself") : ""};
}

// The ways out of a hold

void plan_later(const ArrivalPage& page, Instant until) {
    Move says;
    says.planned = until;
    says.reason = page.say("arrival.plan-reason");
    page.asks.tell(says);
}

/// What holds, in the core's own sentence, and its ways out below.
std::optional<std::size_t> draw_hold_with_ways(const ArrivalPage& page, Rect place, const Hold& hold,
                                               const std::vector<touch::Way>& ways) {
    const auto& c = page.glass.colours();
    const auto name = "hold/" + hold.code;
    touch::fill(page.glass, place, c.stop_tint, touch::control_radius);
    touch::outline(page.glass, place, c.stop, 3, touch::control_radius);
    touch::icon(page.glass, touch::Icon::stop, {place.x + 36, place.y + 32}, 32);
    touch::text(page.glass, name, {place.x + 64, place.y + 10, place.w - 76, 42},
                page.say(fmt::format("arrival.part-{}", name_of(part_of_hold(hold.code)))),
                {.em = touch::step::body, .bold = true, .lines = 1});
    touch::text(page.glass, name + "/say", {place.x + 16, place.y + 52, place.w - 32, 56}, hold.say, {});
    const Rect foot{place.x + 16, place.bottom() - 84, place.w - 32, 76};
    std::optional<std::size_t> tapped;
    for (std::size_t i = 0; i < ways.size(); ++i) {
        if (touch::button(page.glass, ways[i].name,
                          touch::cell(foot, static_cast<int>(ways.size()), 1, static_cast<int>(i), 0, 8),
                          {.title = ways[i].title, .bold = true})) {
            tapped = i;
        }
    }
    return tapped;
}

void draw_hold(const ArrivalPage& page, Rect place, const Hold& hold) {
    std::vector<touch::Way> ways;
    const bool later = hold.until && *hold.until > page.scene.now;
    if (later) {
        ways.push_back({"plan/" + hold.code,
                        page.say("arrival.plan", {{"time", clock_text(*hold.until, page.scene.zone)}})});
    }
    if (may_be_overridden(hold)) {
        const bool own =
            override_by(page.state(), page.scene.ahead.person(page.scene.person)) == OverrideBy::own_pin;
        ways.push_back(
            {"override/" + hold.code, own ? page.say("arrival.override")
                                          : page.say("override.ask", {{"name", whose_word(page.scene)}})});
    } else {
        ways.push_back({"answer/" + hold.code, page.say("arrival.answer-again")});
    }
    const auto tapped = draw_hold_with_ways(page, place, hold, ways);
    if (!tapped) {
        return;
    }
    const auto& way = ways[*tapped].name;
    if (way.rfind("plan/", 0) == 0) {
        plan_later(page, *hold.until);
    } else if (way.rfind("override/", 0) == 0) {
        page.asks.override_hold = hold.code;
    } else {
        open_part(page, part_of_hold(hold.code));
    }
}

}  // namespace

std::size_t reviews_waiting(const CaseState& state) {
    return static_cast<std::size_t>(std::count_if(
        state.items.begin(), state.items.end(),
        [](const OpenItem& item) { return !item.closed && item.code.rfind("review-", 0) == 0; }));
}

void draw_reviews_way(const ArrivalPage& page, Rect place, std::size_t count) {
    if (touch::button(page.glass, "to-reviews", place,
                      {.title = page.say("reviews.short", {{"n", std::to_string(count)}}),
                       .look = touch::Look::review,
                       .em = touch::step::note,
                       .tick = false})) {
        page.asks.sheet = Sheet::reviews;
    }
}

void draw_hold_cards(const ArrivalPage& page, Rect area) {
    const auto holds = arrival_holds(page.state());
    constexpr float height = 196;
    if (holds.empty()) {
        touch::panel(page.glass, area.top_part(88));
        touch::icon(page.glass, touch::Icon::good, {area.x + 36, area.y + 44}, 30);
        touch::text(page.glass, "holds/none", {area.x + 64, area.y + 8, area.w - 80, 72},
                    page.say("arrival.no-hold"), {.em = touch::step::body, .bold = true});
        return;
    }
    const auto room = static_cast<std::size_t>((area.h + 12) / (height + 12));
    for (std::size_t i = 0; i < holds.size() && i < room; ++i) {
        draw_hold(page, {area.x, area.y + (height + 12) * static_cast<float>(i), area.w, height}, *holds[i]);
    }
}

void draw_check_pair(const ArrivalPage& page, Rect place, const Check& check) {
    touch::text(page.glass, "check/" + check.id + "/words", {place.x + 12, place.y, place.w - 252, place.h},
                check.words, {.em = touch::step::body, .lines = 3});
    const auto answer = page.state().answers.find(check.id);
    touch::AnswerPair pair{
        .bad = check.good == "no" ? touch::Answer::yes : touch::Answer::no,
        .bad_look = check.hold_class == "review" ? touch::Look::review : touch::Look::stopping};
    if (answer != page.state().answers.end()) {
        const auto value = answer->second.is.value;
        if (value == Answered::yes || value == Answered::no) {
            pair.given = value == Answered::yes ? touch::Answer::yes : touch::Answer::no;
        }
    }
    const Rect keys{place.right() - 226, place.y + 3, 226, place.h - 6};
    if (const auto said = touch::answer_pair(page.glass, "check/" + check.id, keys, pair)) {
        Answer says;
        says.check = check.id;
        says.value = said == touch::Answer::yes ? Answered::yes : Answered::no;
        page.asks.tell(says);
    }
}

void draw_arrival_fasting(const ArrivalPage& page) {
    draw_fasts(page);
    if (page.state().kind == CaseKind::placement) {
        draw_screen(page);
    } else {
        touch::panel(page.glass, {176, 366, 672, 298});
        touch::text(page.glass, "fast/removal", {196, 382, 632, 120}, page.say("arrival.removal-fasts"),
                    {.em = touch::step::body, .stand = touch::Stand::top, .lines = 4});
    }
    draw_hold_cards(page, {864, 104, 400, 460});
    draw_more_questions(page);
    draw_section_next(page, fasting_prompt(page));
}

namespace {

constexpr std::array kinds{IntakeKind::clear,      IntakeKind::milk,       IntakeKind::full_liquid,
                           IntakeKind::light_meal, IntakeKind::fatty_meal, IntakeKind::meal_unknown};
constexpr std::size_t clock_digits = 4;

/// The typed minute on the chosen day; empty while it is none, or while the clock jumped over it.
std::optional<Instant> typed_moment(const ArrivalPage& page) {
    const auto& digits = page.drafts.clock;
    if (digits.size() != clock_digits) {
        return std::nullopt;
    }
    const int hour = std::stoi(digits.substr(0, 2));
    const int minute = std::stoi(digits.substr(2));
    if (hour > 23 || minute > 59) {
        return std::nullopt;
    }
    const LocalTime reading{add_days(page.today(), -page.drafts.days_ago),
                            std::chrono::hours{hour} + minutes{minute}};
    const auto found = page.scene.zone.moments(reading);
    return found.empty() ? std::nullopt : std::optional{found.back()};
}

void tell_intake(const ArrivalPage& page, LastIntake last, bool sure) {
    page.asks.say.push_back({Intake{*page.drafts.intake, last}, {}, {}, {}, sure});
    page.drafts.said = true;
}

void draw_kinds(const ArrivalPage& page) {
    auto& drafts = page.drafts;
    arrival_head(page, "arrival.what-taken", {184, 104, 656, 40});
    for (std::size_t i = 0; i < kinds.size(); ++i) {
        const auto name = std::string{name_of(kinds[i])};
        if (arrival_key(
                page, "intake/" + name,
                touch::cell({176, 148, 672, 200}, 3, 2, static_cast<int>(i % 3), static_cast<int>(i / 3), 12),
                page.say("arrival.intake-" + name), drafts.intake == kinds[i])) {
            drafts.intake = kinds[i];
            drafts.said = false;
        }
    }
    arrival_head(page, "arrival.which-day", {184, 356, 656, 40});
    for (int days = 0; days < 4; ++days) {
        if (touch::button(page.glass, fmt::format("days-ago/{}", days),
                          touch::cell({176, 400, 672, 92}, 4, 1, days, 0, 12),
                          {.title = page.say(fmt::format("arrival.days-ago-{}", days)),
                           .note = shown_date(page.glass, add_days(page.today(), -days)),
                           .look = drafts.days_ago == days ? touch::Look::chosen : touch::Look::rest,
                           .em = touch::step::note,
                           .tick = false,
                           .corner_tick = true})) {
            drafts.days_ago = days;
        }
    }
    const Rect row{176, 572, 672, 92};
    arrival_head(page, "arrival.no-time", {184, 528, 656, 40});
    if (arrival_key(page, "intake-not-known", touch::cell(row, 2, 1, 0, 0, 12), page.say("arrival.not-known"),
                    false) &&
        drafts.intake) {
        tell_intake(page, {LastIntake::Kind::not_known, {}}, false);
        drafts.open(Section::fasting);
    }
    if (arrival_key(page, "intake-vomiting", touch::cell(row, 2, 1, 1, 0, 12), page.say("arrival.vomiting"),
                    false) &&
        drafts.intake) {
        tell_intake(page, {LastIntake::Kind::vomiting, {}}, false);
        drafts.open(Section::fasting);
    }
}

void press_clock(ArrivalDrafts& drafts, touch::PadKey key) {
    drafts.said = false;
    if (key == touch::PadKey::erase) {
        drafts.clock = drafts.clock.substr(0, drafts.clock.empty() ? 0 : drafts.clock.size() - 1);
    } else if (drafts.clock.size() < clock_digits) {
        drafts.clock += static_cast<char>('0' + static_cast<int>(key));
    }
}

/// A space while it is being typed: "07:0" would read as a length of time.
std::string clock_shown(const ArrivalPage& page) {
    const auto& digits = page.drafts.clock;
    if (const auto moment = typed_moment(page)) {
        return clock_text(*moment, page.scene.zone);
    }
    return digits.size() > 2 ? digits.substr(0, 2) + " " + digits.substr(2) : digits;
}

}  // namespace

void draw_arrival_intake(const ArrivalPage& page) {
    auto& drafts = page.drafts;
    draw_kinds(page);
    const auto moment = typed_moment(page);
    const bool wrong = drafts.clock.size() == clock_digits && !moment;
    (void)touch::value_box(page.glass, "intake/time", {864, 104, 400, 80},
                           {.digits = clock_shown(page),
                            .label = page.say("arrival.time"),
                            .wrong = wrong ? page.say("arrival.no-such-time") : "",
                            .focused = true});
    if (const auto key = touch::keypad(page.glass, "pad", {864, 192, 400, 472}, false, 8)) {
        press_clock(drafts, *key);
    }
    const auto& last = page.scene.last;
    const auto* asked = drafts.said && last && last->asked && last->asked->question == "implausible"
                            ? &*last->asked
                            : nullptr;
    if (drafts.said && asked == nullptr && last && last->result != Reply::Result::refused) {
        drafts.open(Section::fasting);  // it is entered
        return;
    }
    std::optional<touch::Action> own;
    if (moment && drafts.intake) {
        own = touch::Action{
            .command = asked != nullptr ? "enter-intake-sure" : "enter-intake",
            .title = page.say("arrival.intake-" + std::string{name_of(*drafts.intake)}),
            .note = asked != nullptr ? page.say("vitals.it-is-right") : clock_text(*moment, page.scene.zone)};
    }
    const touch::Prompt prompt{.urgency = asked != nullptr ? touch::Urgency::medium : touch::Urgency::low,
                               .title = asked != nullptr ? asked->say : page.say("arrival.intake-prompt")};
    if (draw_section_foot(page, prompt, own,
                          page.say(drafts.intake ? "arrival.type-time" : "arrival.tap-kind"))) {
        tell_intake(page, {LastIntake::Kind::at, *moment}, asked != nullptr);
    }
}

}  // namespace brimline::screens
