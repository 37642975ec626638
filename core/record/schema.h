// The JSON Schema of exported events, made from the same list of fields that writes them, so that no kind of
// event is without one. Source: JSON Schema draft 2020-12.
#pragma once
#include <string>

namespace brimline {

/// The schema of one line of `export --format json`. Shape: JSON, two blanks a level, one line feed at the
/// end.
[[nodiscard]] std::string event_schema_text();

}  // namespace brimline
