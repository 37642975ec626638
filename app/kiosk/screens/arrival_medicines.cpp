// Medicines that matter here, with the question on blood thinners asked anew; pregnancy and its test, asked
// every time.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "app/kiosk/screens/arrival_parts.h"
#include "app/kiosk/screens/desk_words.h"

namespace brimline::screens {
namespace {

using touch::Rect;
using Letters = ArrivalDrafts::Letters;

constexpr std::array groups{MedicineGroup::anticoagulant,
                            MedicineGroup::antiplatelet,
                            MedicineGroup::nsaid,
                            MedicineGroup::glp1,
                            MedicineGroup::opioid,
                            MedicineGroup::serotonergic,
                            MedicineGroup::maoi,
                            MedicineGroup::insulin,
                            MedicineGroup::acid_suppression,
                            MedicineGroup::g6pd_deficiency,
                            MedicineGroup::other};
constexpr int not_known = -1;
constexpr int another_day = -2;  // typed as day and month
constexpr std::array<int, 8> dose_days{0, 1, 2, 3, 5, 7, another_day, not_known};

void draw_groups(const ArrivalPage& page) {
    auto& drafts = page.drafts;
    arrival_head(page, "arrival.which-group", {184, 196, 656, 36});
    for (std::size_t i = 0; i < groups.size(); ++i) {
        const auto name = std::string{name_of(groups[i])};
        if (touch::button(
                page.glass, "group/" + name,
                touch::cell({176, 234, 672, 340}, 3, 4, static_cast<int>(i % 3), static_cast<int>(i / 3), 10),
                {.title = page.say("arrival.group-" + name),
                 .look = drafts.group == groups[i] ? touch::Look::chosen : touch::Look::rest,
                 .em = touch::step::note,
                 .tick = false,
                 .corner_tick = true})) {
            drafts.group = groups[i];
            drafts.said = false;
        }
    }
}

void draw_entered(const ArrivalPage& page) {
    const auto& c = page.glass.colours();
    const Rect panel{176, 584, 672, 80};
    touch::panel(page.glass, panel);
    std::string all;
    for (const auto& one : page.state().medicines) {
        all += (all.empty() ? "" : " · ") + one.is.name +
               (one.is.last_dose ? ", " + shown_date(page.glass, *one.is.last_dose) : std::string{});
    }
    touch::text(page.glass, "medicines/entered", panel.inset(20, 8),
                all.empty() ? page.say("arrival.no-medicine-yet") : all, {.colour = c.text_2});
}

/// How long ago the typed day and month were last; none while it is no day.
std::optional<int> days_since(const std::string& digits, LocalDate today) {
    constexpr std::size_t all = 4;
    if (digits.size() != all) {
        return std::nullopt;
    }
    const std::chrono::day day{static_cast<unsigned>(std::stoi(digits.substr(0, 2)))};
    const std::chrono::month month{static_cast<unsigned>(std::stoi(digits.substr(2)))};
    for (const int back : {0, 1}) {
        const LocalDate date{today.year() - std::chrono::years{back}, month, day};
        if (date.ok() && date <= today) {
            return static_cast<int>(days_between(date, today));
        }
    }
    return std::nullopt;
}

/// Another day on the pad, in place of the keys.
void draw_day_pad(const ArrivalPage& page) {
    auto& drafts = page.drafts;
    const auto& digits = drafts.day_digits;
    const auto shown = digits.size() > 2 ? digits.substr(0, 2) + " " + digits.substr(2) : digits;
    const bool wrong = digits.size() == 4 && !days_since(digits, page.today());
    (void)touch::value_box(page.glass, "dose-day", {864, 204, 400, 72},
                           {.digits = shown,
                            .label = page.say("arrival.day-and-month"),
                            .wrong = wrong ? page.say("room.no-such-day") : "",
                            .focused = true,
                            .small = true});
    const auto key = touch::keypad(page.glass, "pad", {864, 284, 400, 380}, false, 8);
    if (key == touch::PadKey::erase) {
        drafts.day_digits = digits.substr(0, digits.empty() ? 0 : digits.size() - 1);
    } else if (key && digits.size() < 4) {
        drafts.day_digits += static_cast<char>('0' + static_cast<int>(*key));
    }
    drafts.dose_days = days_since(drafts.day_digits, page.today());
    drafts.day_pad = !drafts.dose_days;
}

std::string day_title(const ArrivalPage& page, int days) {
    if (days == not_known) {
        return page.say("arrival.not-known");
    }
    if (days == another_day) {
        return page.drafts.day_digits.empty() || !page.drafts.dose_days
                   ? page.say("arrival.another-day")
                   : shown_date(page.glass, add_days(page.today(), -*page.drafts.dose_days));
    }
    return shown_date(page.glass, add_days(page.today(), -days));
}

std::string day_name(int days) {
    return days == not_known     ? "dose-not-known"
           : days == another_day ? "dose-another-day"
                                 : fmt::format("dose-days/{}", days);
}

void draw_dose(const ArrivalPage& page) {
    auto& drafts = page.drafts;
    if (touch::button(
            page.glass, "medicine-name", {864, 104, 400, 92},
            {.title = drafts.medicine.empty() ? page.say("arrival.which-medicine") : drafts.medicine,
             .note = page.say("arrival.type-medicine"),
             .look = drafts.medicine.empty() ? touch::Look::rest : touch::Look::chosen,
             .tick = false})) {
        page.type(Letters::medicine, drafts.medicine);
    }
    if (drafts.day_pad) {
        draw_day_pad(page);
        return;
    }
    arrival_head(page, "arrival.last-dose", {872, 204, 384, 36});
    for (std::size_t i = 0; i < dose_days.size(); ++i) {
        const int days = dose_days[i];
        const bool typed = !drafts.day_digits.empty() && drafts.dose_days;
        const bool chosen = days == another_day ? typed : drafts.dose_days == days && !typed;
        if (touch::button(
                page.glass, day_name(days),
                touch::cell({864, 244, 400, 420}, 2, 4, static_cast<int>(i % 2), static_cast<int>(i / 2), 10),
                {.title = day_title(page, days),
                 .look = chosen ? touch::Look::chosen : touch::Look::rest,
                 .em = touch::step::note,
                 .tick = false,
                 .corner_tick = true})) {
            drafts.day_digits.clear();
            drafts.day_pad = days == another_day;
            drafts.dose_days = drafts.day_pad ? std::nullopt : std::optional{days};
        }
    }
}

}  // namespace

void draw_arrival_medicines(const ArrivalPage& page) {
    auto& drafts = page.drafts;
    if (const auto* check = screen_check(page.scene.policy, "anticoagulant-or-nsaid")) {
        touch::panel(page.glass, {176, 104, 672, 86});
        draw_check_pair(page, {184, 106, 652, 82}, *check);
    }
    draw_groups(page);
    draw_entered(page);
    if (!drafts.group) {
        draw_hold_cards(page, {864, 104, 400, 560});
        draw_section_next(page, {.urgency = touch::Urgency::low,
                                 .title = page.say("arrival.medicines-prompt"),
                                 .why = page.say("arrival.medicines-why")});
        return;
    }
    draw_dose(page);
    std::optional<touch::Action> own;
    if (!drafts.medicine.empty() && drafts.dose_days) {
        own = touch::Action{.command = "enter-medicine",
                            .title = drafts.medicine,
                            .note = page.say("arrival.group-" + std::string{name_of(*drafts.group)})};
    }
    if (draw_section_foot(
            page, {.urgency = touch::Urgency::low, .title = page.say("arrival.medicines-prompt")}, own,
            page.say(drafts.medicine.empty() ? "arrival.which-medicine" : "arrival.which-day"))) {
        Medicine says;
        says.group = *drafts.group;
        says.name = drafts.medicine;
        if (*drafts.dose_days != not_known) {
            says.last_dose = add_days(page.today(), -*drafts.dose_days);
        }
        page.asks.tell(says);
        drafts.open(ArrivalDrafts::Section::medicines);
    }
}

void draw_arrival_pregnancy(const ArrivalPage& page) {
    touch::panel(page.glass, {176, 104, 672, 560});
    float y = 120;
    for (const char* id : {"pregnancy-or-feeding", "pregnancy-test"}) {
        if (const auto* check = screen_check(page.scene.policy, id)) {
            draw_check_pair(page, {188, y, 648, 100}, *check);
            y += 120;
        }
    }
    const auto test = page.state().answers.find("pregnancy-test");
    const bool said = test != page.state().answers.end();
    const bool does_not_apply = said && test->second.is.value == Answered::not_applicable;
    if (arrival_key(page, "test-does-not-apply", {196, 376, 308, 92}, page.say("arrival.does-not-apply"),
                    does_not_apply) &&
        !does_not_apply) {
        page.asks.tell(Answer{"pregnancy-test", Answered::not_applicable, {}});
    }
    const auto note = said ? test->second.is.note.value_or("") : "";
    if (arrival_key(page, "test-note", {520, 376, 308, 92},
                    note.empty() ? page.say("arrival.type-note") : note, !note.empty())) {
        page.drafts.check = "pregnancy-test";
        page.type(Letters::note, note);
    }
    draw_hold_cards(page, {864, 104, 400, 560});
    draw_section_next(page, {.urgency = touch::Urgency::low, .title = page.say("arrival.pregnancy-prompt")});
}

}  // namespace brimline::screens
