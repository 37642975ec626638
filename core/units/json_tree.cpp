// Builds the tree from nlohmann's event parser, which hands over every fraction with its own text.
#include "core/units/json_tree.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <utility>

namespace brimline {
namespace {

using Json = nlohmann::json;
using Kind = JsonNode::Kind;

constexpr std::size_t deepest = 32;

/// Receives the parser's events. A false answer stops the parser.
class Builder : public Json::json_sax_t {
public:
    JsonNode root;
    JsonFault fault;

    bool null() override { return put({}); }
    bool boolean(bool value) override {
        JsonNode node;
        node.kind = Kind::boolean;
        node.truth = value;
        return put(std::move(node));
    }
    bool number_integer(Json::number_integer_t value) override {
        return put_text(Kind::number, std::to_string(value));
    }
    bool number_unsigned(Json::number_unsigned_t value) override {
        return put_text(Kind::number, std::to_string(value));
    }
    bool number_float(Json::number_float_t, const Json::string_t& written) override {
        return put_text(Kind::number, written);
    }
    bool string(Json::string_t& value) override { return put_text(Kind::text, std::move(value)); }
    bool binary(Json::binary_t&) override { return stop("binary data is no JSON"); }
    bool start_object(std::size_t) override { return open(Kind::object); }
    bool start_array(std::size_t) override { return open(Kind::list); }
    bool end_object() override { return close(); }
    bool end_array() override { return close(); }
    bool key(Json::string_t& name) override {
        JsonNode& object = *path_.back();
        if (object.find(name) != nullptr) {
            return stop("\"" + name + "\" stands twice");
        }
        object.members.push_back({std::move(name), {}});
        return true;
    }
    bool parse_error(std::size_t position, const std::string&,
                     const nlohmann::detail::exception& error) override {
        fault = {position > 0 ? position - 1 : 0, plain(error.what())};
        return false;
    }

private:
    std::vector<JsonNode*> path_;  // from the root to where the next value goes

    bool stop(std::string say) {
        fault = {0, std::move(say)};
        return false;
    }
    bool put_text(Kind kind, std::string text) {
        JsonNode node;
        node.kind = kind;
        node.text = std::move(text);
        return put(std::move(node));
    }
    JsonNode* place() {
        if (path_.empty()) {
            return &root;
        }
        JsonNode& into = *path_.back();
        if (into.is(Kind::list)) {
            into.items.emplace_back();
            return &into.items.back();
        }
        return &into.members.back().value;
    }
    bool put(JsonNode node) {
        *place() = std::move(node);
        return true;
    }
    bool open(Kind kind) {
        if (path_.size() >= deepest) {
            return stop("more than 32 levels");
        }
        JsonNode* node = place();
        node->kind = kind;
        path_.push_back(node);  // stays valid: its parent gets no further child before it is closed
        return true;
    }
    bool close() {
        path_.pop_back();
        return true;
    }
    /// "[json.exception.parse_error.101] parse error at line 3, column 1: syntax error ..." from "line" on.
    static std::string plain(std::string_view what) {
        const auto line = what.find("line ");
        return std::string{line == std::string_view::npos ? what : what.substr(line)};
    }
};

}  // namespace

const JsonNode* JsonNode::find(std::string_view name) const {
    const auto found = std::find_if(members.begin(), members.end(),
                                    [&](const JsonMember& member) { return member.name == name; });
    return found == members.end() ? nullptr : &found->value;
}

std::optional<Decimal> JsonNode::decimal() const {
    return is(Kind::number) ? Decimal::parse(text) : std::nullopt;
}

std::optional<std::int64_t> JsonNode::whole() const {
    const auto value = decimal();
    return value ? value->whole() : std::nullopt;
}

tl::expected<JsonNode, JsonFault> read_json(std::string_view text) {
    Builder builder;
    if (!Json::sax_parse(text.begin(), text.end(), &builder)) {
        return tl::unexpected{builder.fault};
    }
    return std::move(builder.root);
}

std::string json_quoted(std::string_view text) {
    return Json(std::string{text}).dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::string_view kind_words(Kind kind) {
    switch (kind) {
        case Kind::null:
            return "nothing";
        case Kind::boolean:
            return "true or false";
        case Kind::number:
            return "a number";
        case Kind::text:
            return "a text";
        case Kind::list:
            return "a list";
        case Kind::object:
            return "an object";
    }
    return "";
}

}  // namespace brimline
