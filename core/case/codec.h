// Commands and events as JSON, both ways, from the field lists of their types. Strict when reading: an
// unknown field, a missing one or a wrong type is said in one sentence that names it and what is allowed.
#pragma once
#include <nlohmann/json.hpp>
#include <string>

#include "core/case/event.h"
#include "core/units/refusal.h"

namespace brimline {

using Json = nlohmann::ordered_json;

/// What is wrong with a line: the field (may be empty) and one sentence with what is allowed.
struct Malformed {
    std::string field, say;
};

/// One command from one JSON object, as 9-script lays it out: envelope and fields side by side.
/// `line_seq` turns {"line": 12} into the number of the first event that line recorded, or nothing.
/// `default_at` stands in where the line has no `at`.
struct ReadCommand {
    Command command;
    bool has_at{false};
    std::optional<std::string> expect;
};
[[nodiscard]] tl::expected<ReadCommand, Malformed> read_command(const Json& object);

/// JSON from text: strict UTF-8, no two keys alike, exactly one value. Numbers keep their exact decimal
/// value.
[[nodiscard]] tl::expected<Json, Malformed> parse_json(std::string_view text);

/// Turns {"line": n} references of a command into journal numbers.
/// Errors: the line recorded nothing, or does not come before.
[[nodiscard]] tl::expected<void, Malformed> resolve_lines(
    Command& command, const std::map<int, std::int64_t>& first_seq_of_line);

/// The payload of an event: its fields, and the stamp's said_by, happened, how, script where they matter.
[[nodiscard]] std::string payload_of(const Stamp& stamp, const Event& event);
/// Reads an event back. Errors: the kind is unknown or the payload does not fit it.
/// `stamp` gets what the payload holds of it; `at` must already be set.
[[nodiscard]] tl::expected<Event, Malformed> read_event(std::string_view kind, std::string_view payload,
                                                        Stamp& stamp);

/// Entries with their stamps as one JSON text, and back: how a block of entries moves to another case.
/// Errors: text that this version did not write.
[[nodiscard]] std::string entries_text(const std::vector<Recorded>& entries);
[[nodiscard]] tl::expected<std::vector<Recorded>, Malformed> read_entries(std::string_view text);

/// The fields of an event alone, as JSON (corrections compare these).
[[nodiscard]] Json fields_json(const Event& event);
/// The same kind of event with some fields replaced. Errors: a field it does not have, or a value that does
/// not fit.
[[nodiscard]] tl::expected<Event, Malformed> with_fields(const Event& event, const Json& changes);

/// What is wrong with the fields of a statement taken together; empty when they fit.
[[nodiscard]] std::optional<Malformed> fault_of_whole(const Statement& says);

/// Every command name, and every field name that any command knows.
[[nodiscard]] const std::vector<std::string>& command_names();
[[nodiscard]] const std::vector<std::string>& field_names();

}  // namespace brimline
