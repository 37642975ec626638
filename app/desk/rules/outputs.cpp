// Collects what a rule answers and writes it as JSON.
#include "app/desk/rules/outputs.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <type_traits>

namespace brimline::worked {
namespace {

const Zone& utc_zone() {
    static const Zone zone;
    return zone;
}

std::string text_of(const Value& value);

std::string text_of(const Moment& moment) {
    const Zone& zone = moment.zone == nullptr ? utc_zone() : *moment.zone;
    const std::string clock = clock_text(moment.at, zone, true);
    if (moment.clock_only) {
        return json_quoted(clock);
    }
    const std::string date = date_text(zone.date_of(moment.at));
    return json_quoted(fmt::format("{}T{}{}", date, clock, moment.zone == nullptr ? "Z" : ""));
}

std::string text_of(const Values& values) {
    std::vector<std::string> texts;
    std::transform(values.begin(), values.end(), std::back_inserter(texts),
                   [](const Value& value) { return text_of(value); });
    return fmt::format("[{}]", fmt::join(texts, ","));
}

std::string text_of(const Members& members) {
    std::vector<std::string> texts;
    for (const auto& [name, value] : members) {
        texts.push_back(fmt::format("{}:{}", json_quoted(name), text_of(value)));
    }
    return fmt::format("{{{}}}", fmt::join(texts, ","));
}

std::string text_of(const Value& value) {
    return std::visit(
        [](const auto& v) -> std::string {
            using T = std::decay_t<decltype(v)>;
            if constexpr (std::is_same_v<T, bool>) {
                return v ? "true" : "false";
            } else if constexpr (std::is_same_v<T, std::int64_t>) {
                return fmt::format("{}", v);
            } else if constexpr (std::is_same_v<T, Number>) {
                return v.shown.text();
            } else if constexpr (std::is_same_v<T, std::string>) {
                return json_quoted(v);
            } else if constexpr (std::is_same_v<T, LocalDate>) {
                return json_quoted(date_text(v));
            } else if constexpr (std::is_same_v<T, DateSpan>) {
                return fmt::format("[{},{}]", json_quoted(date_text(v.first)),
                                   json_quoted(date_text(v.last)));
            } else {
                return text_of(v);
            }
        },
        value.is);
}

}  // namespace

Outputs& Outputs::add(std::string_view name, Value value) {
    members_.emplace_back(std::string{name}, std::move(value));
    return *this;
}
Outputs& Outputs::put(std::string_view name, bool value) { return add(name, {value}); }
Outputs& Outputs::put(std::string_view name, int value) { return add(name, {std::int64_t{value}}); }
Outputs& Outputs::put(std::string_view name, std::int64_t value) { return add(name, {value}); }
Outputs& Outputs::put(std::string_view name, std::string_view value) {
    return add(name, {std::string{value}});
}
Outputs& Outputs::put(std::string_view name, LocalDate value) { return add(name, {value}); }
Outputs& Outputs::put(std::string_view name, DateSpan value) { return add(name, {value}); }
Outputs& Outputs::put(std::string_view name, Moment value) { return add(name, {value}); }
Outputs& Outputs::put(std::string_view name, Millilitres value) {
    return put(name, Fraction{value.in_tenths(), 10}, 1);
}
Outputs& Outputs::put(std::string_view name, Decimal value) {
    return add(name, {Number{Fraction{value}, value}});
}
Outputs& Outputs::put(std::string_view name, const Fraction& value, int places) {
    return add(name, {Number{value, value.rounded(places)}});
}
Outputs& Outputs::put_shown(std::string_view name, const std::string& number) {
    const Decimal shown = Decimal::parse(number).value_or(Decimal{});
    return add(name, {Number{Fraction{shown}, shown, true}});
}
Outputs& Outputs::put(std::string_view name, const std::vector<std::string>& texts) {
    Values values;
    std::transform(texts.begin(), texts.end(), std::back_inserter(values),
                   [](const std::string& text) { return Value{text}; });
    return add(name, {std::move(values)});
}
Outputs& Outputs::put(std::string_view name, Values values) { return add(name, {std::move(values)}); }
Outputs& Outputs::put(std::string_view name, Members members) { return add(name, {std::move(members)}); }

const Value* Outputs::find(std::string_view name) const {
    const auto found =
        std::find_if(members_.begin(), members_.end(), [&](const auto& m) { return m.first == name; });
    return found == members_.end() ? nullptr : &found->second;
}

std::string Outputs::text() const { return text_of(members_); }

Outputs refused(std::string_view reason) {
    Outputs out;
    out.put("refused", true).put("reason", reason);
    return out;
}

std::string json_text(const JsonNode& node) {
    std::vector<std::string> texts;
    switch (node.kind) {
        case JsonNode::Kind::null:
            return "null";
        case JsonNode::Kind::boolean:
            return node.truth ? "true" : "false";
        case JsonNode::Kind::number:
            return node.text;
        case JsonNode::Kind::text:
            return json_quoted(node.text);
        case JsonNode::Kind::list:
            for (const JsonNode& item : node.items) {
                texts.push_back(json_text(item));
            }
            return fmt::format("[{}]", fmt::join(texts, ","));
        case JsonNode::Kind::object:
            for (const JsonMember& member : node.members) {
                texts.push_back(fmt::format("{}:{}", json_quoted(member.name), json_text(member.value)));
            }
            return fmt::format("{{{}}}", fmt::join(texts, ","));
    }
    return "";
}

}  // namespace brimline::worked
