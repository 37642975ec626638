// The parser of element strings: prefix, form, then field by field from the left.
#include "core/label/gs1.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace brimline {
namespace {

constexpr char separator = '\x1d';

using Fault = LabelFault;

tl::unexpected<Fault> fault(std::string_view code, std::size_t where, std::string sentence) {
    return tl::unexpected{Fault{std::string{code}, where, std::move(sentence)}};
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool all_digits(std::string_view text) { return std::all_of(text.begin(), text.end(), is_digit); }

/// Character set 82. Source: interchange.md 2.2 rule 4.
bool in_set_82(char c) {
    static constexpr std::string_view marks = "!\"%&'()*+,-./_:;<=>?";
    return is_digit(c) || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') ||
           marks.find(c) != std::string_view::npos;
}

enum class Is : std::uint8_t { digits, gtin, date, text };

/// The shape of one family of identifiers: `least` = `most` where the length is predefined.
struct Shape {
    std::string_view first, last;  // inclusive span of identifiers of one length
    Is is;
    std::size_t least, most;
};
// Source: interchange.md 2.1. Measures: the three digits 310 to 369 and a decimal place from 0 to 5.
constexpr std::array<Shape, 20> shapes{{
    {"01", "02", Is::gtin, 14, 14},     {"10", "10", Is::text, 1, 20},
    {"11", "11", Is::date, 6, 6},       {"13", "13", Is::date, 6, 6},
    {"15", "17", Is::date, 6, 6},       {"20", "20", Is::digits, 2, 2},
    {"21", "22", Is::text, 1, 20},      {"240", "241", Is::text, 1, 30},
    {"250", "251", Is::text, 1, 30},    {"30", "30", Is::digits, 1, 8},
    {"3100", "3199", Is::digits, 6, 6}, {"3200", "3299", Is::digits, 6, 6},
    {"3300", "3399", Is::digits, 6, 6}, {"3400", "3499", Is::digits, 6, 6},
    {"3500", "3599", Is::digits, 6, 6}, {"3600", "3699", Is::digits, 6, 6},
    {"37", "37", Is::digits, 1, 8},     {"90", "90", Is::text, 1, 30},
    {"91", "99", Is::text, 1, 90},      {"710", "717", Is::text, 1, 20},
}};

bool names(const Shape& shape, std::string_view ai) {
    const bool measure = ai.size() == 4;
    return ai.size() == shape.first.size() && shape.first <= ai && ai <= shape.last &&
           (!measure || ai.back() <= '5');
}

/// The shape of exactly this identifier.
const Shape* shape_of(std::string_view ai) {
    const auto found =
        std::find_if(shapes.begin(), shapes.end(), [&](const Shape& s) { return names(s, ai); });
    return found == shapes.end() || !all_digits(ai) ? nullptr : &*found;
}

/// How many digits of the identifier that `text` starts with; 0 when it starts none.
std::size_t ai_length(std::string_view text) {
    for (const std::size_t n : {2U, 3U, 4U}) {
        if (text.size() >= n && shape_of(text.substr(0, n)) != nullptr) {
            return n;
        }
    }
    return 0;
}

std::string lengths(const Shape& shape) {
    return shape.least == shape.most ? fmt::format("{}", shape.most) : fmt::format("at most {}", shape.most);
}

/// Collects fields and judges each as it comes.
class Reading {
public:
    explicit Reading(LocalDate today) : today_{today} {}

    /// Characters, check digit and date of a value whose length is right. `at` = where the value begins.
    [[nodiscard]] std::optional<Fault> take(std::string_view ai, std::string_view value, std::size_t ai_at,
                                            std::size_t at) {
        const Shape& shape = *shape_of(ai);
        const auto allowed = shape.is == Is::text ? in_set_82 : is_digit;
        const auto odd = std::find_if_not(value.begin(), value.end(), allowed);
        if (odd != value.end()) {
            return Fault{"bad_charset", at + static_cast<std::size_t>(odd - value.begin()),
                         fmt::format("({}) holds a character that is not allowed there.", ai)};
        }
        if (shape.is == Is::gtin && !gtin_check_good(value)) {
            return Fault{"bad_check_digit", at + value.size() - 1,
                         fmt::format("The check digit of ({}) does not fit: scan or type it again.", ai)};
        }
        if (shape.is == Is::date && !label_date(value, today_)) {
            return Fault{"bad_date", at, fmt::format("({}) {} is no date.", ai, value)};
        }
        fields_.push_back({std::string{ai}, std::string{value}});
        places_.push_back(ai_at);
        return std::nullopt;
    }

    /// The label, once everything was read.
    [[nodiscard]] tl::expected<Label, Fault> done(bool separator_seen) const {
        Label label;
        for (std::size_t i = 0; i < fields_.size(); ++i) {
            const auto known = label.value_of(fields_[i].ai);
            if (known && *known != fields_[i].value) {
                return fault("duplicate_ai", places_[i],
                             fmt::format("({}) stands there twice with two values.", fields_[i].ai));
            }
            if (!known) {
                label.elements.push_back(fields_[i]);
            }
        }
        fill(label);
        const auto& lot = label.lot;
        label.separators_doubtful =
            !separator_seen && !label.serial && lot &&
            (lot->find("21") != std::string::npos || lot->find("17") != std::string::npos);
        return label;
    }

    void fill(Label& label) const {
        label.gtin14 = label.value_of("01");
        label.lot = label.value_of("10");
        label.serial = label.value_of("21");
        if (const auto date = label.value_of("17")) {
            label.expiry = label_date(*date, today_);
        }
        if (const auto date = label.value_of("11")) {
            label.produced = label_date(*date, today_);
        }
    }

private:
    LocalDate today_;
    std::vector<LabelElement> fields_;
    std::vector<std::size_t> places_;
};

/// Too short, too long or empty; nothing when the length is right.
std::optional<Fault> length_fault(const Shape& shape, std::string_view ai, std::size_t size, std::size_t at) {
    if (size == 0) {
        return Fault{"empty_value", at, fmt::format("({}) has nothing after it.", ai)};
    }
    if (size < shape.least) {
        return Fault{
            "truncated", at + size,
            fmt::format("({}) ends early: it has {} characters, {} are due.", ai, size, lengths(shape))};
    }
    if (size > shape.most) {
        return Fault{"too_long", at + shape.most,
                     fmt::format("({}) is too long: {} characters are allowed.", ai, lengths(shape))};
    }
    return std::nullopt;
}

/// A scan: split by length and separator only. `base` = where `text` begins in what was given.
tl::expected<Label, Fault> read_scan(std::string_view text, std::size_t base, LocalDate today) {
    Reading reading{today};
    bool separator_seen = false;
    std::size_t at = 0;
    while (at < text.size()) {
        const std::size_t ai_size = ai_length(text.substr(at, 4));
        if (ai_size == 0) {
            return fault("unknown_ai", base + at, "What follows is no identifier that a device label has.");
        }
        const std::string_view ai = text.substr(at, ai_size);
        const Shape& shape = *shape_of(ai);
        const std::size_t from = at + ai_size;
        const std::size_t end = std::min(text.find(separator, from), text.size());
        const bool predefined = shape.least == shape.most;
        const std::size_t size = predefined ? std::min(end - from, shape.most) : end - from;
        if (auto wrong = length_fault(shape, ai, size, base + from)) {
            return tl::unexpected{*wrong};
        }
        if (auto wrong = reading.take(ai, text.substr(from, size), base + at, base + from)) {
            return tl::unexpected{*wrong};
        }
        at = from + size;
        if (at < text.size() && text[at] == separator) {
            separator_seen = true;
            ++at;
        }
    }
    return reading.done(separator_seen);
}

std::string_view trimmed(std::string_view text, std::size_t& at) {
    while (!text.empty() && text.front() == ' ') {
        text.remove_prefix(1);
        ++at;
    }
    while (!text.empty() && text.back() == ' ') {
        text.remove_suffix(1);
    }
    return text;
}

/// The form for people: (01)...(17)...
tl::expected<Label, Fault> read_brackets(std::string_view text, std::size_t base, LocalDate today) {
    Reading reading{today};
    std::size_t at = 0;
    while (at < text.size()) {  // at stands on an opening bracket
        const std::size_t close = text.find_first_of("()", at + 1);
        if (close == std::string_view::npos || text[close] == '(') {
            return fault("bad_brackets", base + at, "A bracket is opened and not closed.");
        }
        std::size_t ai_at = at + 1;
        const std::string_view ai = trimmed(text.substr(ai_at, close - ai_at), ai_at);
        if (ai.empty()) {
            return fault("bad_brackets", base + at, "There is nothing in the brackets.");
        }
        const Shape* shape = shape_of(ai);
        if (shape == nullptr) {
            return fault(
                "unknown_ai", base + ai_at,
                fmt::format("({}) is no identifier that a device label has.", all_digits(ai) ? ai : "..."));
        }
        std::size_t from = close + 1;
        const std::size_t end = std::min(text.find_first_of("()", from), text.size());
        if (end < text.size() && text[end] == ')') {
            return fault("bad_brackets", base + end, "A bracket is closed that was not opened.");
        }
        const std::string_view value = trimmed(text.substr(from, end - from), from);
        if (auto wrong = length_fault(*shape, ai, value.size(), base + from)) {
            return tl::unexpected{*wrong};
        }
        if (auto wrong = reading.take(ai, value, base + ai_at, base + from)) {
            return tl::unexpected{*wrong};
        }
        at = end;
    }
    return reading.done(true);  // whoever types brackets separates
}

/// A GTIN by itself, of the length that its symbol has (0 = any).
tl::expected<Label, Fault> read_bare(std::string_view text, std::size_t base, std::size_t due) {
    if (due != 0 && text.size() != due) {
        return fault("bad_length", base + std::min(text.size(), due), fmt::format("{} digits are due.", due));
    }
    const auto gtin = parse_gtin(text);
    if (!gtin) {
        return fault(gtin.error().code, base + gtin.error().where, gtin.error().sentence);
    }
    Label label;
    label.elements = {{"01", *gtin}};
    label.gtin14 = *gtin;
    return label;
}

/// What a symbology prefix announces. Source: interchange.md 2.2 rule 2 (ISO/IEC 15424).
struct Prefix {
    std::string_view text;
    std::size_t gtin_digits;  // 0 = element strings
};
constexpr std::array<Prefix, 8> prefixes{
    {{"]C1", 0}, {"]d2", 0}, {"]Q3", 0}, {"]e0", 0}, {"]J1", 0}, {"]E0", 13}, {"]E4", 8}, {"]I1", 14}}};

void strip_leading_separator(std::string_view& text, std::size_t& base) {
    if (!text.empty() && text.front() == separator) {
        text.remove_prefix(1);
        ++base;
    }
}

}  // namespace

std::optional<std::string> Label::value_of(std::string_view ai) const {
    const auto found =
        std::find_if(elements.begin(), elements.end(), [&](const LabelElement& e) { return e.ai == ai; });
    return found == elements.end() ? std::nullopt : std::optional{found->value};
}

tl::expected<Label, Fault> parse_label(std::string_view text, LocalDate today) {
    if (text.size() > longest_label) {
        return fault("too_long", longest_label, "More came than any device label holds: scan one label.");
    }
    const auto last = text.find_last_not_of("\r\n\t");
    text = text.substr(0, last == std::string_view::npos ? 0 : last + 1);
    std::size_t base = 0;
    strip_leading_separator(text, base);
    const Prefix* prefix = nullptr;
    if (!text.empty() && text.front() == ']') {
        const auto found = std::find_if(prefixes.begin(), prefixes.end(),
                                        [&](const Prefix& p) { return text.substr(0, 3) == p.text; });
        if (found == prefixes.end()) {
            return fault("bad_prefix", base, "This is not a GS1 label.");
        }
        prefix = &*found;
        text.remove_prefix(3);
        base += 3;
        strip_leading_separator(text, base);
    }
    constexpr std::string_view nothing{"\x1d ", 2};  // separators, and what a space bar leaves
    if (text.find_first_not_of(nothing) == std::string_view::npos) {
        return fault("empty", base, "Nothing came from the label.");
    }
    if (prefix != nullptr && prefix->gtin_digits != 0) {
        return read_bare(text, base, prefix->gtin_digits);
    }
    if (const auto first = text.find_first_not_of(' ');
        prefix == nullptr && first != std::string_view::npos && text[first] == '(') {
        return read_brackets(text.substr(first), base + first, today);
    }
    if (prefix == nullptr && parse_gtin(text)) {
        return read_bare(text, base, 0);
    }
    return read_scan(text, base, today);
}

tl::expected<Label, Fault> add_scan(const Label& first, const Label& second) {
    Label label = first;
    for (const LabelElement& element : second.elements) {
        const auto known = label.value_of(element.ai);
        if (known && *known != element.value) {
            return fault("duplicate_ai", 0,
                         fmt::format("({}) differs from the first scan: is it the same device?", element.ai));
        }
        if (!known) {
            label.elements.push_back(element);
        }
    }
    const auto keep = [](auto& mine, const auto& theirs) { mine = mine ? mine : theirs; };
    keep(label.gtin14, second.gtin14);
    keep(label.lot, second.lot);
    keep(label.serial, second.serial);
    keep(label.expiry, second.expiry);
    keep(label.produced, second.produced);
    label.separators_doubtful = (first.separators_doubtful || second.separators_doubtful) && !label.serial;
    return label;
}

std::optional<LocalDate> label_date(std::string_view six_digits, LocalDate today) {
    if (six_digits.size() != 6 || !all_digits(six_digits)) {
        return std::nullopt;
    }
    const auto two = [&](std::size_t i) { return (six_digits[i] - '0') * 10 + (six_digits[i + 1] - '0'); };
    const int year = static_cast<int>(today.year());
    const int century = year - year % 100;
    const int ahead = two(0) - year % 100;
    const int shift = ahead >= 51 ? -100 : ahead <= -50 ? 100 : 0;
    const auto month =
        std::chrono::year{century + shift + two(0)} / std::chrono::month{static_cast<unsigned>(two(2))};
    if (!month.ok()) {
        return std::nullopt;
    }
    const auto day = static_cast<unsigned>(two(4));
    const LocalDate date = day == 0 ? LocalDate{month / std::chrono::last} : month / std::chrono::day{day};
    return date.ok() ? std::optional{date} : std::nullopt;
}

}  // namespace brimline
