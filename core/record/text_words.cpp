// Words of the text record.
#include "core/record/text_words.h"

#include <fmt/format.h>

#include <array>

#include "core/case/codec.h"

namespace brimline::record {
namespace {

constexpr std::string_view minus = "\xE2\x88\x92";

std::string with_minus(std::string text) {
    return text.starts_with('-') ? std::string{minus} + text.substr(1) : text;
}

/// "+01:00", where the clinic's clock shows this time twice; otherwise nothing.
std::string offset_if_twice(Instant t, const Zone& zone) {
    if (zone.moments(zone.local(t)).size() < 2) {
        return "";
    }
    const auto text = instant_text(t, zone);
    return " " + text.substr(text.size() - 6);
}

std::string value_words(const Json& value) {
    if (value.is_boolean()) {
        return yes_no(value.get<bool>());
    }
    if (value.is_null()) {
        return "not given";
    }
    return value.is_string() ? value.get<std::string>() : value.dump();
}

}  // namespace

std::string Source::clock(Instant t) const { return clock_text(t, zone) + offset_if_twice(t, zone); }
std::string Source::clock_s(Instant t) const { return clock_text(t, zone, true) + offset_if_twice(t, zone); }
std::string Source::moment(Instant t) const { return date_words(zone.date_of(t)) + " " + clock(t); }
std::string Source::when(Instant t) const {
    if (zone.date_of(t) != day) {
        return moment(t);
    }
    const bool whole = whole_seconds(zone.local(t).of_day) % 60 == 0;
    return whole ? clock(t) : clock_s(t);
}
std::string Source::person(std::string_view id) const {
    return id == "kiosk"            ? "the kiosk"
           : id == nobody_signed_in ? "nobody signed in"
                                    : desk.name_of_person(id);
}
std::string Source::who(const Stamp& stamp) const {
    if (!stamp.said_by || *stamp.said_by == stamp.by) {
        return person(stamp.by);
    }
    return fmt::format("said by {}, entered by {}", person(*stamp.said_by), person(stamp.by));
}

std::string number_words(Decimal d) { return with_minus(d.text()); }

std::string ml_words(Millilitres v) {
    return number_words(Decimal::of_millionths(v.in_tenths() * (Decimal::scale / 10))) + " mL";
}

std::string signed_ml_words(Millilitres v) { return (v > Millilitres{} ? "+" : "") + ml_words(v); }

std::string offset_words(int seconds) {
    return (seconds > 0 ? "+" : "") + number_words(Decimal::of(seconds)) + " s";
}

std::string unit_words(std::string_view unit) {
    return unit.starts_with("ug") ? "mcg" + std::string{unit.substr(2)} : std::string{unit};
}

std::string span_words(Duration d) {
    const auto s = whole_seconds(d);
    if (s < 0) {
        return std::string{minus} + span_words(-d);
    }
    if (s < 60) {
        return fmt::format("{} s", s);
    }
    if (s < 3600) {
        return s % 60 == 0 ? fmt::format("{} min", s / 60) : fmt::format("{} min {} s", s / 60, s % 60);
    }
    const auto m = s / 60;
    return m % 60 == 0 ? fmt::format("{} h", m / 60) : fmt::format("{} h {} min", m / 60, m % 60);
}

std::string day_words(LocalDate date) {
    static constexpr std::array<std::string_view, 7> names{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
    const std::chrono::weekday day{std::chrono::sys_days{date}};
    return fmt::format("{} {}", names[day.c_encoding()], date_words(date));
}

std::string times_words(int n) { return n == 1 ? "once" : n == 2 ? "twice" : fmt::format("{} times", n); }

std::string group_words(MedicineGroup group) {
    switch (group) {
        case MedicineGroup::nsaid:
            return "NSAID";
        case MedicineGroup::glp1:
            return "GLP-1";
        case MedicineGroup::maoi:
            return "MAOI";
        case MedicineGroup::g6pd_deficiency:
            return "G6PD deficiency";
        default:
            return plain(name_of(group));
    }
}

std::string intake_words(IntakeKind kind) {
    return kind == IntakeKind::clear          ? "clear fluid"
           : kind == IntakeKind::meal_unknown ? "meal of unknown kind"
                                              : plain(name_of(kind));
}

std::string counted(std::int64_t n, std::string_view one, std::string_view many) {
    return fmt::format("{} {}", n, n == 1 ? one : many);
}

std::string joined(const std::vector<std::string>& parts, std::string_view between) {
    return fmt::format("{}", fmt::join(parts, between));
}

std::string drug_words(const Policy& policy, std::string_view id) {
    const auto* drug = policy.drug(id);
    return drug == nullptr ? std::string{id} : drug->words;
}

std::string lowered(std::string text) {
    if (!text.empty() && text.front() >= 'A' && text.front() <= 'Z') {
        text.front() = static_cast<char>(text.front() - 'A' + 'a');
    }
    return text;
}

std::string plain(std::string_view id) {
    std::string text{id};
    for (char& c : text) {
        c = c == '-' || c == '_' ? ' ' : c;
    }
    return text;
}

std::string fields_words(std::string_view json_text) {
    const auto fields = parse_json(json_text);
    std::vector<std::string> parts;
    if (fields && fields->is_object()) {
        for (const auto& [key, value] : fields->items()) {
            parts.push_back(plain(key) + " " + value_words(value));
        }
    }
    return joined(parts);
}

bool is_entry(const Event& event) {
    return !std::holds_alternative<HoldRaised>(event) && !std::holds_alternative<HoldEnded>(event) &&
           !std::holds_alternative<ItemOpened>(event) && !std::holds_alternative<ItemClosed>(event) &&
           !std::holds_alternative<Attempt>(event) && !std::holds_alternative<ClockJump>(event);
}

}  // namespace brimline::record
