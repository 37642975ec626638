// Reading and saying the words of the patient's sheet.
#include "core/record/sheet_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "core/case/codec.h"

namespace brimline {
namespace {

constexpr std::array needed = std::to_array<std::string_view>({"language",
                                                               "date.weekdays",
                                                               "date.months",
                                                               "date.day",
                                                               "date.day-year",
                                                               "date.span",
                                                               "date.span-one-month",
                                                               "title",
                                                               "title-none",
                                                               "for",
                                                               "born",
                                                               "deferred",
                                                               "removed",
                                                               "practice",
                                                               "version",
                                                               "version-none",
                                                               "food.head",
                                                               "food.sips",
                                                               "food.sips-from",
                                                               "food.clear",
                                                               "food.clear-note",
                                                               "food.full",
                                                               "food.full-note",
                                                               "food.soft",
                                                               "food.soft-note",
                                                               "food.usual",
                                                               "food.usual-from",
                                                               "food.usual-note",
                                                               "food.back",
                                                               "medicine.head",
                                                               "medicine.acid",
                                                               "medicine.sickness",
                                                               "rest.head",
                                                               "rest.list",
                                                               "dates.head",
                                                               "dates.calls",
                                                               "dates.calls-days",
                                                               "dates.book-by",
                                                               "dates.out-by",
                                                               "balloon",
                                                               "emergency.head",
                                                               "emergency.pain",
                                                               "emergency.belly",
                                                               "emergency.breath",
                                                               "emergency.fever",
                                                               "emergency.blood",
                                                               "emergency.wind",
                                                               "same-day.head",
                                                               "same-day.fluid",
                                                               "same-day.vomiting",
                                                               "same-day.urine",
                                                               "same-day.hunger",
                                                               "phone",
                                                               "no-phone",
                                                               "tell",
                                                               "caution",
                                                               "card.title",
                                                               "card.patient",
                                                               "card.placed",
                                                               "card.volume",
                                                               "card.dye",
                                                               "card.no-dye",
                                                               "card.not-known",
                                                               "card.lot",
                                                               "card.serial",
                                                               "card.expiry",
                                                               "card.type",
                                                               "card.device",
                                                               "card.maker",
                                                               "card.udi",
                                                               "card.book-by",
                                                               "card.out-by",
                                                               "card.clinic",
                                                               "card.device-code",
                                                               "card.facts-code",
                                                               "card.note",
                                                               "card.missing",
                                                               "card.address",
                                                               "card.website",
                                                               "card.clinic-address"});

tl::unexpected<Refusal> bad(std::string_view language, std::string say) {
    return refuse("sheet-words", fmt::format("assets/leaflet/{}.json: {}", language, say),
                  "Install Brimline again, or print in another language.");
}

std::vector<std::string> words_in(std::string_view text) {
    std::vector<std::string> words;
    while (!text.empty()) {
        const auto end = std::min(text.find(' '), text.size());
        words.emplace_back(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return words;
}

}  // namespace

Expected<SheetWords> SheetWords::read(std::string_view language, std::string_view json_text) {
    SheetWords words;
    words.language_ = language;
    const auto json = parse_json(json_text);
    if (!json || !json->is_object()) {
        return bad(language, "is no object of texts.");
    }
    for (const auto& [key, value] : json->items()) {
        if (std::find(needed.begin(), needed.end(), key) == needed.end()) {
            return bad(language, fmt::format("\"{}\" is no key of a sheet.", key));
        }
        if (!value.is_string() || value.get<std::string>().empty()) {
            return bad(language, fmt::format("\"{}\" must be a text.", key));
        }
        words.texts_[key] = value.get<std::string>();
    }
    for (const auto key : needed) {
        if (!words.texts_.contains(key)) {
            return bad(language, fmt::format("\"{}\" is missing.", key));
        }
    }
    words.weekdays_ = words_in(words.texts_["date.weekdays"]);
    words.months_ = words_in(words.texts_["date.months"]);
    if (words.weekdays_.size() != 7 || words.months_.size() != 12) {
        return bad(language, "needs 7 weekdays, Monday first, and 12 months.");
    }
    return words;
}

std::string SheetWords::say(std::string_view key, std::initializer_list<Named> values) const {
    const auto found = texts_.find(key);
    const auto& text = found == texts_.end() ? std::string{key} : found->second;
    std::string filled;
    for (std::size_t at = 0; at < text.size();) {
        const auto named = std::find_if(values.begin(), values.end(), [&](const Named& value) {
            return text.compare(at, value.first.size() + 2, fmt::format("{{{}}}", value.first)) == 0;
        });
        if (named == values.end()) {
            filled += text[at++];
        } else {
            filled += named->second;  // never read again for names: a patient may be called anything
            at += named->first.size() + 2;
        }
    }
    return filled;
}

std::string SheetWords::day(LocalDate date, bool with_year) const {
    const std::chrono::weekday weekday{std::chrono::sys_days{date}};
    return say(with_year ? "date.day-year" : "date.day",
               {{"weekday", weekdays_[weekday.iso_encoding() - 1]},
                {"day", fmt::format("{}", static_cast<unsigned>(date.day()))},
                {"month", months_[static_cast<unsigned>(date.month()) - 1]},
                {"year", fmt::format("{}", static_cast<int>(date.year()))}});
}

std::string SheetWords::date(LocalDate date) const {
    return fmt::format("{} {} {}", static_cast<unsigned>(date.day()),
                       months_[static_cast<unsigned>(date.month()) - 1], static_cast<int>(date.year()));
}

std::string SheetWords::span(LocalDate from, LocalDate to) const {
    const bool one_year = from.year() == to.year();
    if (!one_year || from.month() != to.month()) {
        return say("date.span", {{"from", day(from, !one_year)}, {"to", day(to, !one_year)}});
    }
    const std::chrono::weekday weekday{std::chrono::sys_days{from}};
    return say("date.span-one-month", {{"weekday", weekdays_[weekday.iso_encoding() - 1]},
                                       {"day", fmt::format("{}", static_cast<unsigned>(from.day()))},
                                       {"to", day(to, false)}});
}

}  // namespace brimline
