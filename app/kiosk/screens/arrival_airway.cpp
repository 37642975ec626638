// Airway and risk, the escort, and a case that is deferred before it begins.
#include <fmt/format.h>

#include <array>

#include "app/kiosk/screens/arrival_parts.h"
#include "app/kiosk/screens/desk_words.h"

namespace brimline::screens {
namespace {

using touch::Rect;
using Letters = ArrivalDrafts::Letters;
using Section = ArrivalDrafts::Section;

/// A question with its pair; the answer stays a draft until everything is entered together.
void draft_pair(const ArrivalPage& page, const std::string& name, Rect place, std::optional<bool>& value) {
    touch::text(page.glass, name + "/words", {place.x, place.y, place.w - 240, place.h},
                page.say("arrival." + name), {.em = touch::step::body});
    touch::AnswerPair pair;
    if (value) {
        pair.given = *value ? touch::Answer::yes : touch::Answer::no;
    }
    const Rect keys{place.right() - 226, place.y + 1, 226, place.h - 2};
    if (const auto said = touch::answer_pair(page.glass, name, keys, pair)) {
        value = said == touch::Answer::yes;
    }
}

void draw_classes(const ArrivalPage& page) {
    auto& drafts = page.drafts;
    touch::panel(page.glass, {176, 104, 672, 224});
    arrival_head(page, "arrival.asa-head", {196, 106, 632, 34});
    for (int n = 1; n <= 6; ++n) {
        if (touch::value_key(page.glass, fmt::format("asa/{}", n),
                             touch::cell({192, 138, 640, 74}, 6, 1, n - 1, 0, 8), std::to_string(n),
                             drafts.asa == n, touch::step::strong)) {
            drafts.asa = n;
        }
    }
    arrival_head(page, "arrival.mallampati-head", {196, 214, 632, 32});
    for (int n = 1; n <= 4; ++n) {
        if (touch::value_key(page.glass, fmt::format("mallampati/{}", n),
                             touch::cell({192, 248, 640, 74}, 6, 1, n - 1, 0, 8), std::to_string(n),
                             drafts.mallampati == n, touch::step::strong)) {
            drafts.mallampati = n;
        }
    }
}

bool questionnaire_done(const ArrivalPage& page) {
    const auto& asked = page.drafts.stop_bang;
    return !page.scene.policy.airway.questionnaire ||
           (asked.snores && asked.tired && asked.observed && asked.pressure);
}

void draw_questionnaire(const ArrivalPage& page) {
    if (!page.scene.policy.airway.questionnaire) {
        return;
    }
    auto& asked = page.drafts.stop_bang;
    touch::panel(page.glass, {176, 336, 672, 328});
    draft_pair(page, "snores", {196, 339, 640, 75}, asked.snores);
    draft_pair(page, "tired", {196, 420, 640, 75}, asked.tired);
    draft_pair(page, "observed", {196, 501, 640, 75}, asked.observed);
    draft_pair(page, "pressure", {196, 582, 640, 75}, asked.pressure);
}

void draw_neck(const ArrivalPage& page) {
    if (!page.scene.policy.airway.questionnaire) {
        return;
    }
    (void)touch::value_box(page.glass, "neck", {864, 272, 400, 70},
                           {.digits = page.drafts.neck.shown(page.glass.words().decimal_mark()),
                            .unit = page.say("unit.cm-alone"),
                            .label = page.say("arrival.neck"),
                            .focused = true});
    if (const auto key = touch::keypad(page.glass, "pad", {864, 348, 400, 316}, true, 8)) {
        (void)page.drafts.neck.press(*key);
    }
}

const char* missing_of_airway(const ArrivalPage& page) {
    const auto& drafts = page.drafts;
    return drafts.asa == 0             ? "arrival.next-asa"
           : drafts.mallampati == 0    ? "arrival.next-mallampati"
           : !questionnaire_done(page) ? "arrival.next-sleep"
           : !drafts.trouble           ? "arrival.next-trouble"
           : !drafts.cpap              ? "arrival.next-cpap"
                                       : nullptr;
}

}  // namespace

void draw_arrival_airway(const ArrivalPage& page) {
    auto& drafts = page.drafts;
    draw_classes(page);
    draw_questionnaire(page);
    touch::panel(page.glass, {864, 104, 400, 162});
    draft_pair(page, "trouble", {876, 106, 380, 75}, drafts.trouble);
    draft_pair(page, "cpap", {876, 187, 380, 75}, drafts.cpap);
    draw_neck(page);
    const auto* missing = missing_of_airway(page);
    std::optional<touch::Action> own;
    if (missing == nullptr) {
        own = touch::Action{.command = "enter-airway",
                            .title = page.say("arrival.enter-airway"),
                            .note = page.say("arrival.asa", {{"n", std::to_string(drafts.asa)}})};
    }
    if (draw_section_foot(page, {.urgency = touch::Urgency::low, .title = page.say("arrival.airway-prompt")},
                          own, missing == nullptr ? "" : page.say(missing))) {
        Airway says;
        says.asa = drafts.asa;
        says.mallampati = drafts.mallampati;
        says.earlier_trouble = *drafts.trouble;
        says.own_cpap = *drafts.cpap;
        if (page.scene.policy.airway.questionnaire) {
            says.stop_bang = drafts.stop_bang;
            says.stop_bang->neck_cm = Decimal::parse(drafts.neck.text());
        }
        page.asks.tell(says);
        drafts.open(Section::start);
    }
}

void draw_arrival_escort(const ArrivalPage& page) {
    auto& drafts = page.drafts;
    const auto& known = page.state().escort;
    if (touch::button(
            page.glass, "escort-name", {176, 104, 672, 108},
            {.title = drafts.escort_name.empty() ? page.say("arrival.type-escort") : drafts.escort_name,
             .note = page.say("arrival.escort-name"),
             .bold = true,
             .em = touch::step::act})) {
        page.type(Letters::escort_name, drafts.escort_name);
    }
    if (touch::button(
            page.glass, "escort-phone", {176, 224, 672, 108},
            {.title = drafts.escort_phone.empty() ? page.say("arrival.type-phone") : drafts.escort_phone,
             .note = page.say("arrival.escort-phone"),
             .bold = true,
             .em = touch::step::act})) {
        page.type(Letters::escort_phone, drafts.escort_phone);
    }
    if (known && touch::button(
                     page.glass, "escort-known", {864, 104, 400, 108},
                     {.title = known->is.name,
                      .note = page.say(
                          "arrival.named",
                          {{"date", shown_date(page.glass, page.scene.zone.date_of(known->stamp.happened))}}),
                      .em = touch::step::act})) {
        drafts.escort_name = known->is.name;
        drafts.escort_phone = known->is.phone;
    }
    std::optional<touch::Action> own;
    if (!drafts.escort_name.empty() && !drafts.escort_phone.empty()) {
        own = touch::Action{
            .command = "enter-escort", .title = drafts.escort_name, .note = drafts.escort_phone};
    }
    if (draw_section_foot(
            page, {.urgency = touch::Urgency::low, .title = page.say("arrival.escort-prompt")}, own,
            page.say(drafts.escort_name.empty() ? "arrival.type-escort" : "arrival.type-phone"))) {
        Escort says;
        says.name = drafts.escort_name;
        says.phone = drafts.escort_phone;
        page.asks.tell(says);
        drafts.open(Section::start);
    }
}

void draw_arrival_defer(const ArrivalPage& page) {
    auto& drafts = page.drafts;
    arrival_head(page, "arrival.defer-head", {184, 104, 656, 40});
    if (touch::button(page.glass, "defer-reason", {176, 148, 672, 108},
                      {.title = drafts.reason.empty() ? page.say("arrival.type-defer") : drafts.reason,
                       .em = touch::step::act})) {
        page.type(Letters::defer, drafts.reason);
    }
    touch::text(page.glass, "defer/what", {184, 268, 656, 80}, page.say("arrival.defer-what"),
                {.colour = page.glass.colours().text_2});
    std::optional<touch::Action> own;
    if (!drafts.reason.empty()) {
        own = touch::Action{
            .command = "enter-defer", .title = page.say("arrival.defer"), .note = drafts.reason};
    }
    if (draw_section_foot(page, {.urgency = touch::Urgency::low, .title = page.say("arrival.defer-prompt")},
                          own, page.say("arrival.type-defer"))) {
        page.asks.tell(Cancel{drafts.reason});
        page.asks.page = Page::day_list;
    }
}

}  // namespace brimline::screens
