// Writing the schema: one definition a kind of event, from the fields of its type.
#include "core/record/schema.h"

#include "core/case/codec_fields.h"

namespace brimline {
namespace {

using codec::is_map;
using codec::is_optional;
using codec::is_vector;

Json typed(const char* type) { return Json{{"type", type}}; }
Json pattern(const char* pattern, const char* words) {
    return Json{{"type", "string"}, {"pattern", pattern}, {"description", words}};
}
constexpr const char* moment_pattern =
    "^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}(\\.[0-9]+)?(Z|[+-][0-9]{2}:[0-9]{2})$";
constexpr const char* date_pattern = "^[0-9]{4}-[0-9]{2}-[0-9]{2}$";

Json schema_of(const std::string&) { return typed("string"); }
Json schema_of(bool) { return typed("boolean"); }
Json schema_of(int) { return typed("integer"); }
Json schema_of(std::int64_t) { return typed("integer"); }
Json schema_of(Decimal) { return typed("number"); }
Json schema_of(Millilitres) { return Json{{"type", "number"}, {"description", "mL, at most one decimal"}}; }
Json schema_of(Instant) { return pattern(moment_pattern, "a moment, RFC 3339 with offset"); }
Json schema_of(LocalDate) { return pattern(date_pattern, "a date"); }
Json schema_of(const DayMonth&) {
    return pattern("^([0-9]{2} [0-9]{2}|unknown)$", "day and month, or unknown");
}
Json schema_of(const LastIntake&) {
    return Json{{"anyOf", Json::array({schema_of(Instant{}), Json{{"enum", {"not-known", "vomiting"}}}})}};
}
Json schema_of(const EntryRef&) {
    return Json{{"type", "integer"}, {"minimum", 1}, {"description", "the number of an entry"}};
}
Json schema_of(const Loose&) { return typed("string"); }
Json schema_of(const Words&) {
    return Json{
        {"anyOf", Json::array({typed("string"), Json{{"type", "array"}, {"items", typed("string")}}})}};
}
Json schema_of(const NextStep&) {
    return Json{{"type", "object"},
                {"properties", Json{{"date", schema_of(LocalDate{})}, {"words", typed("string")}}},
                {"additionalProperties", false}};
}
Json schema_of(Role) {
    Json names = Json::array();
    for (auto n = std::uint8_t{0}; n <= static_cast<std::uint8_t>(Role::kiosk); ++n) {
        names.push_back(std::string{name_of(static_cast<Role>(n))});
    }
    return Json{{"enum", std::move(names)}};
}
template <codec::Enum E>
Json schema_of(E) {
    Json names = Json::array();
    for (const auto name : names_of(E{})) {
        names.push_back(std::string{name});
    }
    return Json{{"enum", std::move(names)}};
}
template <codec::Fields T>
Json schema_of(const T&);

template <class T>
Json schema_of(const std::vector<T>&) {
    return Json{{"type", "array"}, {"items", schema_of(T{})}};
}
template <class T>
Json schema_of(const std::map<std::string, T>&) {
    return Json{{"type", "object"}, {"additionalProperties", schema_of(T{})}};
}

/// The properties of T and the names of those that must be there.
template <class T>
Json object_of(Json properties) {
    Json required = Json::array();
    T value{};
    T::fields(value, [&](std::string_view name, auto& member) {
        using Member = std::decay_t<decltype(member)>;
        if constexpr (is_optional<Member>::value) {
            properties[std::string{name}] = schema_of(typename Member::value_type{});
        } else {
            properties[std::string{name}] = schema_of(member);
            required.push_back(std::string{name});
        }
    });
    Json schema = typed("object");
    schema["properties"] = std::move(properties);
    if (!required.empty()) {
        schema["required"] = std::move(required);
    }
    schema["additionalProperties"] = false;
    return schema;
}
template <codec::Fields T>
Json schema_of(const T&) {
    return object_of<T>(Json::object());
}

/// What every payload may hold beside its own fields.
Json stamp_properties() {
    return Json{{"@said_by", typed("string")},
                {"@happened", schema_of(Instant{})},
                {"@how", schema_of(How{})},
                {"@script", Json{{"const", true}}},
                {"@practice", Json{{"const", true}}}};
}

template <std::size_t I = 0>
void each_kind(Json& definitions, Json& choices) {
    if constexpr (I < std::variant_size_v<AnyEvent>) {
        using T = std::variant_alternative_t<I, AnyEvent>;
        const std::string kind{T::spec.name};
        definitions[kind] = object_of<T>(stamp_properties());
        choices.push_back(
            Json{{"if", Json{{"properties", Json{{"kind", Json{{"const", kind}}}}}}},
                 {"then", Json{{"properties", Json{{"payload", Json{{"$ref", "#/$defs/" + kind}}}}}}}});
        each_kind<I + 1>(definitions, choices);
    }
}

Json envelope() {
    return Json{
        {"seq", Json{{"type", "integer"}, {"minimum", 1}, {"description", "its number in the journal"}}},
        {"kind", Json::object()},
        {"hash", pattern("^[0-9a-f]{64}$", "BLAKE2b-256 of the chain up to this event")},
        {"utc_us",
         Json{{"type", "integer"}, {"description", "moment of entry, microseconds since 1970, UTC"}}},
        {"tick_us", Json{{"type", "integer"}, {"minimum", 0}}},
        {"boot", pattern("^[0-9a-f]{32}$", "the boot in which the tick counts")},
        {"case", Json{{"type", Json::array({"string", "null"})}}},
        {"by", Json{{"type", "string"}, {"minLength", 1}}},
        {"role", schema_of(Role{})},
        {"said_by", typed("string")},
        {"payload", typed("object")}};
}

}  // namespace

std::string event_schema_text() {
    Json definitions = Json::object();
    Json choices = Json::array();
    each_kind(definitions, choices);
    Json kinds = Json::array();
    for (const auto& [kind, schema] : definitions.items()) {
        kinds.push_back(kind);
    }
    auto properties = envelope();
    properties["kind"] = Json{{"enum", std::move(kinds)}};
    const Json schema{
        {"$schema", "https://json-schema.org/draft/2020-12/schema"},
        {"$id", "urn:brimline:schema:event:1"},
        {"title", "One event of a Brimline journal, as export --format json writes it"},
        {"type", "object"},
        {"required", {"seq", "kind", "hash", "utc_us", "tick_us", "boot", "case", "by", "role", "payload"}},
        {"properties", std::move(properties)},
        {"additionalProperties", false},
        {"allOf", std::move(choices)},
        {"$defs", std::move(definitions)}};
    return schema.dump(2) + "\n";
}

}  // namespace brimline
