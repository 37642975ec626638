// Who the patient is, completed or corrected field by field: a case that was started at once begins without
// most of it. What is typed is entered as one.
#include <fmt/format.h>

#include <array>

#include "app/kiosk/screens/arrival_parts.h"
#include "app/kiosk/screens/desk_words.h"

namespace brimline::screens {
namespace {

using touch::Rect;

constexpr std::size_t date_digits = 8;

std::string known(const ArrivalPage& page, std::string_view field) {
    const auto& typed = page.drafts.person;
    const auto& before = page.state().patient;
    const auto pick = [](const std::optional<std::string>& a, const std::optional<std::string>& b) {
        return a ? *a : b.value_or("");
    };
    if (field == "family") {
        return pick(typed.family_name, before.family_name);
    }
    if (field == "given") {
        return pick(typed.given_name, before.given_name);
    }
    if (field == "number") {
        return pick(typed.number, before.number);
    }
    if (field == "phone") {
        return pick(typed.phone, before.phone);
    }
    return field == "language" ? pick(typed.language, before.language) : page.drafts.why;
}

void draw_fields(const ArrivalPage& page) {
    constexpr std::array<const char*, 6> fields{"family", "given", "number", "phone", "language", "why"};
    for (std::size_t i = 0; i < fields.size(); ++i) {
        const auto value = known(page, fields[i]);
        const auto place =
            touch::cell({176, 104, 672, 340}, 2, 3, static_cast<int>(i % 2), static_cast<int>(i / 2), 12);
        const auto label = page.say(fmt::format("arrival.person-{}", fields[i]));
        if (touch::button(page.glass, fmt::format("person/{}", fields[i]), place,
                          {.title = value.empty() ? label : value,
                           .note = value.empty() ? page.say("arrival.tap-to-type") : label,
                           .look = value.empty() ? touch::Look::rest : touch::Look::chosen,
                           .tick = false})) {
            page.drafts.field = fields[i];
            page.type(ArrivalDrafts::Letters::person, value);
        }
    }
}

void draw_born_and_sex(const ArrivalPage& page) {
    auto& drafts = page.drafts;
    const bool wrong = drafts.born.size() == date_digits && !typed_date(drafts.born);
    const auto& before = page.state().patient;
    (void)touch::value_box(page.glass, "person/born", {176, 456, 672, 92},
                           {.digits = spaced_date(drafts.born),
                            .label = drafts.born.empty() && before.born ? shown_date(page.glass, *before.born)
                                                                        : page.say("arrival.person-born"),
                            .wrong = wrong ? page.say("arrival.no-such-date") : "",
                            .focused = true});
    const auto sex = drafts.person.sex_at_birth ? drafts.person.sex_at_birth : before.sex_at_birth;
    int i = 0;
    for (const auto one : {Sex::f, Sex::m}) {
        const auto name = std::string{name_of(one)};
        if (arrival_key(page, "sex/" + name, touch::cell({176, 560, 672, 104}, 2, 1, i++, 0, 12),
                        page.say("book.sex-" + name), sex == one)) {
            drafts.person.sex_at_birth = one;
        }
    }
    if (const auto key = touch::keypad(page.glass, "pad", {864, 104, 400, 560}, false, 12)) {
        if (*key == touch::PadKey::erase) {
            drafts.born = drafts.born.substr(0, drafts.born.empty() ? 0 : drafts.born.size() - 1);
        } else if (drafts.born.size() < date_digits) {
            drafts.born += static_cast<char>('0' + static_cast<int>(*key));
        }
    }
}

}  // namespace

void draw_arrival_person(const ArrivalPage& page) {
    auto& drafts = page.drafts;
    draw_fields(page);
    draw_born_and_sex(page);
    auto typed = drafts.person;
    if (const auto born = typed_date(drafts.born)) {
        typed.born = born;
    }
    std::optional<touch::Action> own;
    if (!(typed == PatientKnown{})) {
        own = touch::Action{.command = "enter-person", .title = page.say("arrival.enter-person")};
    }
    if (draw_section_foot(page,
                          {.urgency = touch::Urgency::low,
                           .title = page.say("arrival.person-prompt"),
                           .why = page.say("arrival.person-prompt-why")},
                          own, page.say("arrival.nothing-changed"))) {
        PatientChange says;
        says.to = typed;
        says.reason = drafts.why.empty() ? page.say("arrival.said-by-patient") : drafts.why;
        page.asks.tell(says);
        drafts.open(ArrivalDrafts::Section::identity);
    }
}

}  // namespace brimline::screens
