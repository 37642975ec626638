// Adding a case to the list: the patient's number, names, birth date and sex, what is planned, when and
// where.
#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/desk_frame.h"
#include "app/kiosk/screens/desk_words.h"
#include "app/kiosk/screens/list_parts.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;
using Field = BookDraft::Field;

constexpr std::array<std::pair<Field, const char*>, 4> fields{
    {{Field::number, "number"}, {Field::family, "family"}, {Field::given, "given"}, {Field::born, "born"}}};

/// Eight digits as day, month and year.
std::optional<LocalDate> birth_of(const std::string& digits) {
    if (digits.size() != 8 ||
        !std::all_of(digits.begin(), digits.end(), [](char c) { return c >= '0' && c <= '9'; })) {
        return std::nullopt;
    }
    const auto number = [&](std::size_t at, std::size_t length) {
        return std::stoi(digits.substr(at, length));
    };
    const LocalDate date{std::chrono::year{number(4, 4)},
                         std::chrono::month{static_cast<unsigned>(number(2, 2))},
                         std::chrono::day{static_cast<unsigned>(number(0, 2))}};
    return date.ok() ? std::optional{date} : std::nullopt;
}

/// Today at this clock time.
std::optional<Instant> planned_of(const Scene& scene, const std::string& digits) {
    if (digits.size() != 4) {
        return std::nullopt;
    }
    const int hour = std::stoi(digits.substr(0, 2));
    const int minute = std::stoi(digits.substr(2, 2));
    if (hour > 23 || minute > 59) {
        return std::nullopt;
    }
    const auto date = scene.zone.date_of(scene.now);
    const auto text = fmt::format("{}T{:02}:{:02}:00+00:00", date_text(date), hour, minute);
    auto planned = parse_instant(text);
    return planned ? std::optional{*planned - scene.zone.offset_at(*planned)} : std::nullopt;
}

void draw_fields(Glass& glass, BookDraft& draft) {
    for (std::size_t i = 0; i < fields.size(); ++i) {
        const auto& [field, name] = fields[i];
        const auto& typed = draft.of(field);
        const bool wrong = field == Field::born && typed.size() == 8 && !birth_of(typed);
        auto shown = typed;
        if (const auto born = field == Field::born ? birth_of(typed) : std::nullopt) {
            shown = shown_date(glass, *born);
        }
        if (touch::button(
                glass, fmt::format("field/{}", name), {176, 104 + 92 * static_cast<float>(i), 672, 84},
                {.title = shown.empty() ? "–" : shown,
                 .note = glass.words().say(wrong ? "handover.no-such-day" : fmt::format("book.{}", name)),
                 .look = wrong           ? touch::Look::review
                         : shown.empty() ? touch::Look::rest
                                         : touch::Look::chosen,
                 .tick = false})) {
            draft.typing = field;
        }
    }
}

template <class Value>
void draw_pair(Glass& glass, const std::string& name, Rect place, std::initializer_list<Value> values,
               std::optional<Value>& chosen, const std::string& key) {
    int at = 0;
    for (const auto value : values) {
        if (touch::button(glass, fmt::format("{}/{}", name, name_of(value)),
                          touch::cell(place, static_cast<int>(values.size()), 1, at++, 0, 12),
                          {.title = glass.words().say(fmt::format("{}-{}", key, name_of(value))),
                           .look = chosen == value ? touch::Look::chosen : touch::Look::rest,
                           .corner_tick = true})) {
            chosen = value;
        }
    }
}

void draw_rooms(Glass& glass, const Scene& scene, BookDraft& draft) {
    const auto& rooms = scene.policy.clinic.rooms;
    const auto shown = std::min<std::size_t>(rooms.size(), 3);
    for (std::size_t i = 0; i < shown; ++i) {
        if (touch::button(
                glass, "room/" + rooms[i],
                touch::cell({864, 580, 400, 84}, static_cast<int>(shown), 1, static_cast<int>(i), 0, 12),
                {.title = rooms[i],
                 .look = draft.room == rooms[i] ? touch::Look::chosen : touch::Look::rest,
                 .em = touch::step::note,
                 .corner_tick = true})) {
            draft.room = rooms[i];
        }
    }
}

void draw_time(Glass& glass, const Scene& scene, BookDraft& draft) {
    auto shown = draft.time;
    if (shown.size() == 4) {  // written as a time only when it is one
        const char between = planned_of(scene, draft.time) ? ':' : ' ';
        shown = fmt::format("{}{}{}", shown.substr(0, 2), between, shown.substr(2));
    }
    touch::value_box(glass, "time", {864, 104, 400, 76},
                     {.digits = shown, .label = glass.words().say("book.time"), .focused = true});
    if (const auto key = touch::keypad(glass, "pad", {864, 192, 400, 376}, false, 8)) {
        if (*key == touch::PadKey::erase) {
            if (!draft.time.empty()) {
                draft.time.pop_back();
            }
        } else if (draft.time.size() < 4) {
            draft.time += static_cast<char>('0' + static_cast<int>(*key));
        }
    }
}

/// What is missing, as a key of the words; empty when all is there.
std::string missing_of(const Scene& scene, const BookDraft& draft) {
    return draft.of(Field::number).empty()    ? "book.next-number"
           : draft.of(Field::family).empty()  ? "book.next-family"
           : !birth_of(draft.of(Field::born)) ? "book.next-born"
           : !draft.sex                       ? "book.next-sex"
           : !draft.kind                      ? "book.next-kind"
           : !planned_of(scene, draft.time)   ? "book.next-time"
           : draft.room.empty()               ? "book.next-room"
                                              : "";
}

void tell_book(const Scene& scene, BookDraft& draft, Asks& asks) {
    Book says;
    says.kind = *draft.kind;
    says.patient.number = draft.of(Field::number);
    says.patient.family_name = draft.of(Field::family);
    says.patient.given_name = draft.of(Field::given);
    says.patient.born = *birth_of(draft.of(Field::born));
    says.patient.sex_at_birth = *draft.sex;
    says.planned = *planned_of(scene, draft.time);
    says.room = draft.room;
    asks.say.push_back({says, {}, {}, {}, false, free_name(scene.ahead, "L")});
    asks.page = Page::day_list;
    draft = {};
}

}  // namespace

Asks draw_book(Glass& glass, const Scene& scene, BookDraft& draft) {
    Asks asks;
    const auto& words = glass.words();
    if (draft.typing) {
        const auto index = static_cast<std::size_t>(*draft.typing);
        if (draw_desk_letters(glass, scene, words.say(fmt::format("book.{}", fields[index].second)),
                              draft.texts[index], draft.keys)) {
            draft.typing.reset();
        }
        return asks;
    }
    draw_desk_frame(glass, scene, words.say("book.title"), words.say("book.note"), asks);
    draw_fields(glass, draft);
    draw_pair<Sex>(glass, "sex", {176, 476, 672, 88}, {Sex::f, Sex::m}, draft.sex, "book.sex");
    draw_pair<CaseKind>(glass, "kind", {176, 576, 672, 88}, {CaseKind::placement, CaseKind::removal},
                        draft.kind, "day-list.kind");
    draw_time(glass, scene, draft);
    draw_rooms(glass, scene, draft);
    draw_desk_prompt(glass, scene,
                     {.urgency = touch::Urgency::low,
                      .title = words.say("book.today"),
                      .why = words.say("book.rest-at-arrival")});
    const auto missing = missing_of(scene, draft);
    if (!missing.empty()) {
        quiet_corner(glass, words.say(missing));
        return asks;
    }
    const touch::Action add{.command = "book", .title = words.say("book.add")};
    if (touch::action(glass, touch::layout_for(glass.size()).action, add) == touch::ActionTap::action) {
        tell_book(scene, draft, asks);
    }
    return asks;
}

}  // namespace brimline::screens
