// The tables of the journal as they are created, and the comparison of a file's schema with them. Inside the
// store.
#pragma once
#include <cstdint>
#include <string>
#include <vector>

#include "core/store/sqlite.h"

namespace brimline::store {

inline constexpr std::int64_t application_id = 0x42524D4C;  // "BRML"
inline constexpr std::int64_t schema_version = 1;

/// Every statement that makes an empty journal, in order, without the pragmas of the file's header.
[[nodiscard]] const char* schema_text();

/// What of the schema is changed, missing or too much, as sentences; empty when it is exactly ours.
[[nodiscard]] std::vector<std::string> schema_differences(Database& db);

}  // namespace brimline::store
