// Reads and writes one value of the policy by the type of its member, exactly, in the unit of its key.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <limits>
#include <type_traits>

#include "core/clinic/nearest.h"
#include "core/clinic/policy_schema.h"

namespace brimline::schema {
namespace {

using Kind = JsonNode::Kind;

std::string range_words(const Key& key) {
    const std::string unit = key.unit.empty() ? "" : fmt::format(" {}", key.unit);
    return fmt::format("{} to {}{}", key.range->low.text(), key.range->high.text(), unit);
}

bool inside(const Key& key, Decimal value) { return key.range->low <= value && value <= key.range->high; }

/// A decimal within the range of its key.
Wrong read_decimal(const Key& key, const JsonNode& node, Decimal& into) {
    const auto value = node.decimal();
    if (!value) {
        return fmt::format("must be a number of at most six decimals, {}, and is {}", range_words(key),
                           node.is(Kind::number) ? node.text : kind_words(node.kind));
    }
    if (!inside(key, *value)) {
        return fmt::format("is {}, allowed is {}", value->text(), range_words(key));
    }
    into = *value;
    return std::nullopt;
}

/// A number that is whole when counted in `per_unit` parts of the key's unit.
Wrong read_whole(const Key& key, const JsonNode& node, std::int64_t per_unit, std::int64_t& into) {
    Decimal value;
    if (auto wrong = read_decimal(key, node, value)) {
        return wrong;
    }
    const auto whole = value.whole(per_unit);
    if (!whole) {
        return fmt::format("is {}, finer than is kept; allowed is {}{}", value.text(), range_words(key),
                           per_unit == 10 ? " in tenths" : " in whole numbers");
    }
    into = *whole;
    return std::nullopt;
}

std::int64_t minutes_in(std::string_view unit) { return unit == "h" ? 60 : 1; }

Wrong read(const Key& key, const JsonNode& node, int& into) {
    std::int64_t value = 0;
    auto wrong = read_whole(key, node, 1, value);
    into = static_cast<int>(value);  // every range fits
    return wrong;
}
Wrong read(const Key&, const JsonNode& node, bool& into) {
    if (!node.is(Kind::boolean)) {
        return fmt::format("must be true or false, and is {}", kind_words(node.kind));
    }
    into = node.truth;
    return std::nullopt;
}
Wrong read(const Key& key, const JsonNode& node, minutes& into) {
    std::int64_t value = 0;
    auto wrong = read_whole(key, node, 1, value);
    into = minutes{value * minutes_in(key.unit)};
    return wrong;
}
Wrong read(const Key& key, const JsonNode& node, seconds& into) {
    std::int64_t value = 0;
    auto wrong = read_whole(key, node, 1, value);
    into = seconds{value};
    return wrong;
}
Wrong read(const Key& key, const JsonNode& node, Decimal& into) { return read_decimal(key, node, into); }
Wrong read(const Key& key, const JsonNode& node, Millilitres& into) {
    std::int64_t value = 0;
    auto wrong = read_whole(key, node, 10, value);
    into = Millilitres::of_tenths(value);
    return wrong;
}

Wrong not_allowed(const Key& key, const std::string& word) {
    if (key.allowed.empty() || std::find(key.allowed.begin(), key.allowed.end(), word) != key.allowed.end()) {
        return std::nullopt;
    }
    return fmt::format("is \"{}\", allowed is {}", word, fmt::join(key.allowed, ", "));
}
Wrong read(const Key& key, const JsonNode& node, std::string& into) {
    if (!node.is(Kind::text)) {
        return fmt::format("must be a text, and is {}", kind_words(node.kind));
    }
    into = node.text;
    return not_allowed(key, into);
}
Wrong read(const Key& key, const JsonNode& node, Words& into) {
    if (!node.is(Kind::list)) {
        return fmt::format("must be a list of texts, and is {}", kind_words(node.kind));
    }
    into.clear();
    for (const JsonNode& item : node.items) {
        if (!item.is(Kind::text) || item.text.empty()) {
            return fmt::format("must hold texts only, and holds {}",
                               item.is(Kind::text) ? "an empty text" : kind_words(item.kind));
        }
        if (std::find(into.begin(), into.end(), item.text) != into.end()) {
            return fmt::format("holds \"{}\" twice", item.text);
        }
        if (auto wrong = not_allowed(key, item.text)) {
            return wrong;
        }
        into.push_back(item.text);
    }
    return std::nullopt;
}
Wrong read(const Key& key, const JsonNode& node, std::vector<int>& into) {
    if (!node.is(Kind::list) || node.items.size() > 24) {
        return fmt::format("must be a list of at most 24 numbers, {}", range_words(key));
    }
    into.clear();
    for (const JsonNode& item : node.items) {
        int value = 0;
        if (auto wrong = read(key, item, value)) {
            return wrong;
        }
        into.push_back(value);
    }
    return std::nullopt;
}

Wrong read_pair(const Key& key, const JsonNode& node, std::string_view name, Decimal& low, Decimal& high) {
    const JsonNode* pair = node.find(name);
    if (pair == nullptr || !pair->is(Kind::list) || pair->items.size() != 2) {
        return fmt::format("needs \"{}\": [low, high], within {}", name, range_words(key));
    }
    for (const std::size_t i : {0U, 1U}) {
        if (auto wrong = read_decimal(key, pair->items[i], i == 0 ? low : high)) {
            return fmt::format("has {} whose end {}", name, *wrong);
        }
    }
    return low < high ? std::nullopt : Wrong{fmt::format("has {} that does not ascend", name)};
}
Wrong read(const Key& key, const JsonNode& node, Limits& into) {
    if (!node.is(Kind::object) || node.members.size() != 2) {
        return fmt::format(R"(must be {{"ask": [low, high], "hard": [low, high]}}, within {})",
                           range_words(key));
    }
    if (auto wrong = read_pair(key, node, "ask", into.ask_low, into.ask_high)) {
        return wrong;
    }
    if (auto wrong = read_pair(key, node, "hard", into.hard_low, into.hard_high)) {
        return wrong;
    }
    if (into.ask_low < into.hard_low || into.hard_high < into.ask_high) {
        return "has ask reaching outside hard";
    }
    return std::nullopt;
}
template <class T>
Wrong read(const Key&, const JsonNode& node, std::vector<T>& into) {
    return read_list(node, into);
}

std::string write(const Key&, int value) { return fmt::format("{}", value); }
std::string write(const Key&, bool value) { return value ? "true" : "false"; }
std::string write(const Key& key, minutes value) {
    return fmt::format("{}", value.count() / minutes_in(key.unit));
}
std::string write(const Key&, seconds value) { return fmt::format("{}", value.count()); }
std::string write(const Key&, Decimal value) { return value.text(); }
std::string write(const Key&, Millilitres value) { return ratio(value.in_tenths(), 10, 1).text(); }
std::string write(const Key&, const std::string& value) { return json_quoted(value); }
std::string write(const Key&, const Words& value) {
    Words quoted;
    std::transform(value.begin(), value.end(), std::back_inserter(quoted), json_quoted);
    return fmt::format("[{}]", fmt::join(quoted, ","));
}
std::string write(const Key&, const std::vector<int>& value) {
    return fmt::format("[{}]", fmt::join(value, ","));
}
std::string write(const Key&, const Limits& value) {
    return fmt::format(R"({{"ask":[{},{}],"hard":[{},{}]}})", value.ask_low.text(), value.ask_high.text(),
                       value.hard_low.text(), value.hard_high.text());
}
template <class T>
std::string write(const Key&, const std::vector<T>& value) {
    return write_list(value);
}

}  // namespace

Wrong read_value(const Key& key, const JsonNode& value, Policy& policy) {
    return std::visit([&](auto member) { return read(key, value, member(policy)); }, key.where);
}

std::string write_value(const Key& key, const Policy& policy) {
    Policy copy = policy;  // members are named for writing, so a copy keeps the caller's policy untouched
    return std::visit([&](auto member) { return write(key, member(copy)); }, key.where);
}

}  // namespace brimline::schema
