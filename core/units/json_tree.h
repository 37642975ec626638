// JSON read without loss: a number keeps the text it was written with (so 0.1 stays 0.1), members keep their
// order, and two members of one name are a fault. For files that people write; nothing here knows a topic.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

#include "core/units/decimal.h"

namespace brimline {

struct JsonMember;

/// One JSON value.
struct JsonNode {
    enum class Kind : std::uint8_t { null, boolean, number, text, list, object };
    Kind kind = Kind::null;
    bool truth = false;  // of a boolean
    std::string text;    // of a text, or a number as it was written
    std::vector<JsonNode> items;
    std::vector<JsonMember> members;

    [[nodiscard]] bool is(Kind k) const { return kind == k; }
    /// The member of that name, or null.
    [[nodiscard]] const JsonNode* find(std::string_view name) const;
    /// A number, exactly; empty when it is none, or has more than six places that matter.
    [[nodiscard]] std::optional<Decimal> decimal() const;
    /// A whole number ("5" and "5.0" alike); empty when it is none.
    [[nodiscard]] std::optional<std::int64_t> whole() const;
};
struct JsonMember {
    std::string name;
    JsonNode value;
};

/// Where reading stopped, as a byte offset from 0, and why.
struct JsonFault {
    std::size_t at = 0;
    std::string say;
};

/// Reads one JSON value and nothing behind it.
/// Errors: bad JSON, invalid UTF-8, two members of one name, more than 32 levels. Source: RFC 8259.
[[nodiscard]] tl::expected<JsonNode, JsonFault> read_json(std::string_view text);
/// `text` as a JSON string, quotes included. Shape: valid UTF-8; anything else is written as U+FFFD.
[[nodiscard]] std::string json_quoted(std::string_view text);
/// The kind as a word for messages: "a number".
[[nodiscard]] std::string_view kind_words(JsonNode::Kind kind);

}  // namespace brimline
