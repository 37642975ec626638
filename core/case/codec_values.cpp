// Single values from and to JSON: what each type accepts, and the sentence when it does not.
#include "core/case/codec_fields.h"

namespace brimline::codec {
namespace {

constexpr std::int64_t most_ml = 10'000;  // more than this is no volume of this job, whatever the device

std::optional<std::int64_t> integer_of(const Json& v) {
    if (v.is_number_unsigned() && v.get<std::uint64_t>() > 9'000'000'000'000'000'000ULL) {
        return std::nullopt;
    }
    return v.is_number_integer() ? std::optional{v.get<std::int64_t>()} : std::nullopt;
}

std::optional<DayMonth> day_month_of(std::string_view text) {
    if (text == "unknown") {
        return DayMonth{};
    }
    const auto digit = [&](std::size_t i) { return text[i] >= '0' && text[i] <= '9' ? text[i] - '0' : -100; };
    if (text.size() != 5 || text[2] != ' ') {
        return std::nullopt;
    }
    const DayMonth value{digit(0) * 10 + digit(1), digit(3) * 10 + digit(4)};
    const std::chrono::year_month_day day{std::chrono::year{2024},
                                          std::chrono::month{static_cast<unsigned>(value.month)},
                                          std::chrono::day{static_cast<unsigned>(value.day)}};
    return value.day > 0 && value.month > 0 && day.ok() ? std::optional{value} : std::nullopt;
}

std::string two_digits(int n) { return fmt::format("{:02}", n); }

}  // namespace

std::optional<Decimal> decimal_of(const Json& value) {
    if (const auto whole = integer_of(value)) {
        return Decimal::parse(std::to_string(*whole));
    }
    return value.is_number_float() ? Decimal::parse(fmt::format("{}", value.get<double>())) : std::nullopt;
}

std::string nearest_hint(std::string_view word, const std::vector<std::string>& names);

void read(const Json& v, std::string_view f, std::string& out, Fault& fault) {
    if (!v.is_string()) {
        return fault.set(std::string{f}, "text in quotes is needed");
    }
    out = v.get<std::string>();
    if (out.find('\0') != std::string::npos || out.size() > fault.longest_text) {
        fault.set(std::string{f},
                  fmt::format("text of at most {} bytes without a zero byte is needed", fault.longest_text));
    }
}
void read(const Json& v, std::string_view f, bool& out, Fault& fault) {
    if (!v.is_boolean()) {
        return fault.set(std::string{f}, "true or false is needed");
    }
    out = v.get<bool>();
}
void read(const Json& v, std::string_view f, int& out, Fault& fault) {
    const auto whole = integer_of(v);
    if (!whole || *whole < -1'000'000 || *whole > 1'000'000) {
        return fault.set(std::string{f}, "a whole number of at most 1000000 is needed");
    }
    out = static_cast<int>(*whole);
}
void read(const Json& v, std::string_view f, std::int64_t& out, Fault& fault) {
    const auto whole = integer_of(v);
    if (!whole) {
        return fault.set(std::string{f}, "a whole number is needed");
    }
    out = *whole;
}
void read(const Json& v, std::string_view f, Decimal& out, Fault& fault) {
    const auto value = decimal_of(v);
    if (!value || *value > Decimal::of(1'000'000) || *value < Decimal::of(-1'000'000)) {
        return fault.set(std::string{f}, "a number of at most 1000000 with at most six decimals is needed");
    }
    out = *value;
}
void read(const Json& v, std::string_view f, Millilitres& out, Fault& fault) {
    const auto value = decimal_of(v);
    const auto tenths = value ? value->whole(10) : std::nullopt;
    if (!tenths || *tenths > most_ml * 10 || *tenths < -most_ml * 10) {
        return fault.set(
            std::string{f},
            fmt::format("a volume in mL of at most {} with at most one decimal is needed", most_ml));
    }
    out = Millilitres::of_tenths(*tenths);
}
void read(const Json& v, std::string_view f, Instant& out, Fault& fault) {
    const auto value = v.is_string() ? parse_instant(v.get_ref<const std::string&>()) : std::nullopt;
    if (!value) {
        return fault.set(std::string{f}, "a time with its offset is needed, as 2026-11-25T09:38:23+00:00");
    }
    out = *value;
}
void read(const Json& v, std::string_view f, LocalDate& out, Fault& fault) {
    const auto value = v.is_string() ? parse_date(v.get_ref<const std::string&>()) : std::nullopt;
    if (!value) {
        return fault.set(std::string{f}, "a date that exists is needed, as 2026-11-25");
    }
    out = *value;
}
void read(const Json& v, std::string_view f, EntryRef& out, Fault& fault) {
    if (const auto seq = integer_of(v); seq && *seq > 0) {
        out = EntryRef{*seq, std::nullopt};
        return;
    }
    if (v.is_object() && v.size() == 1 && v.contains("line")) {
        if (const auto line = integer_of(v["line"]); line && *line > 0 && *line < 10'000'000) {
            out = EntryRef{0, static_cast<int>(*line)};
            return;
        }
    }
    fault.set(std::string{f}, "the number of an entry, or {\"line\": n} of this file, is needed");
}
void read(const Json& v, std::string_view f, DayMonth& out, Fault& fault) {
    const auto value = v.is_string() ? day_month_of(v.get_ref<const std::string&>()) : std::nullopt;
    if (!value) {
        return fault.set(std::string{f}, "day and month are needed, as \"14 03\", or \"unknown\"");
    }
    out = *value;
}
void read(const Json& v, std::string_view f, LastIntake& out, Fault& fault) {
    if (v.is_string() && v.get_ref<const std::string&>() == "not-known") {
        out = LastIntake{LastIntake::Kind::not_known, {}};
    } else if (v.is_string() && v.get_ref<const std::string&>() == "vomiting") {
        out = LastIntake{LastIntake::Kind::vomiting, {}};
    } else if (const auto at =
                   v.is_string() ? parse_instant(v.get_ref<const std::string&>()) : std::nullopt) {
        out = LastIntake{LastIntake::Kind::at, *at};
    } else {
        fault.set(std::string{f}, "a time with its offset, \"not-known\" or \"vomiting\" is needed");
    }
}
void read(const Json& v, std::string_view f, Loose& out, Fault& fault) {
    if (const auto number = decimal_of(v)) {
        out.text = number->text();
        return;
    }
    if (v.is_boolean()) {
        out.text = v.get<bool>() ? "yes" : "no";
        return;
    }
    read(v, f, out.text, fault);
}
void read(const Json& v, std::string_view f, Words& out, Fault& fault) {
    if (v.is_string()) {
        out.list = {v.get<std::string>()};
        return;
    }
    read(v, f, out.list, fault);
}
void read(const Json& v, std::string_view f, NextStep& out, Fault& fault) {
    if (v.is_object()) {
        for (const auto& [key, value] : v.items()) {
            if (key == "date") {
                read(value, fmt::format("{}.date", f), out.date.emplace(), fault);
            } else if (key == "words") {
                read(value, fmt::format("{}.words", f), out.words.emplace(), fault);
            } else {
                fault.set(fmt::format("{}.{}", f, key), "is not known here; date and words are");
            }
        }
        return;
    }
    if (!v.is_string()) {
        return fault.set(std::string{f}, "a date as 2026-12-02, words, or an object with date and words");
    }
    const auto& text = v.get_ref<const std::string&>();
    constexpr std::size_t date_length = 10;
    out.date = parse_date(text.substr(0, date_length));
    if (!out.date) {
        read(v, f, out.words.emplace(), fault);
    } else if (text.size() > date_length && text[date_length] == ' ') {
        out.words = text.substr(date_length + 1);
    }
}
void read(const Json& v, std::string_view f, Role& out, Fault& fault) {
    const auto role = v.is_string() ? role_named(v.get_ref<const std::string&>()) : std::nullopt;
    if (!role || *role == Role::kiosk) {
        return fault.set(std::string{f},
                         fmt::format("allowed are {}", listed(std::vector<std::string_view>(
                                                           role_names.begin(), role_names.end() - 1))));
    }
    out = *role;
}

Json write(const std::string& v) { return v; }
Json write(bool v) { return v; }
Json write(int v) { return v; }
Json write(std::int64_t v) { return v; }
Json write(Decimal v) { return Json::parse(v.text()); }
Json write(Millilitres v) { return write(Decimal::of_millionths(v.in_tenths() * (Decimal::scale / 10))); }
Json write(Instant v) { return instant_text(v, Zone{}); }
Json write(LocalDate v) { return date_text(v); }
Json write(const EntryRef& v) { return v.line ? Json{{"line", *v.line}} : Json(v.seq); }
Json write(const DayMonth& v) {
    return v.unknown() ? "unknown" : two_digits(v.day) + " " + two_digits(v.month);
}
Json write(const LastIntake& v) {
    switch (v.kind) {
        case LastIntake::Kind::at:
            return write(v.at);
        case LastIntake::Kind::not_known:
            return "not-known";
        case LastIntake::Kind::vomiting:
            return "vomiting";
    }
    std::abort();
}
Json write(const Loose& v) { return v.text; }
Json write(const Words& v) { return v.list.size() == 1 ? Json(v.list.front()) : Json(v.list); }
Json write(const NextStep& v) {
    Json step = Json::object();
    if (v.date) {
        step["date"] = date_text(*v.date);
    }
    if (v.words) {
        step["words"] = *v.words;
    }
    return step;
}
Json write(Role v) { return std::string{name_of(v)}; }

}  // namespace brimline::codec
