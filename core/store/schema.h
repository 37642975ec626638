// The tables of the journal as they are created, and the comparison of a file's schema with them. Inside the
// store.
#pragma once
#include <cstdint>
#include <string>
#include <vector>

#include "core/store/sqlite.h"

namespace brimline::store {

inline constexpr std::int64_t application_id = 0x42524D4C;  // "BRML"
inline constexpr std::int64_t schema_version = 2;
inline constexpr std::int64_t oldest_version = 1;

/// Every statement that makes an empty journal, in order, without the pragmas of the file's header.
[[nodiscard]] std::string schema_text(std::int64_t version = schema_version);
/// The statements that make version 2 of version 1, its header's number included.
[[nodiscard]] std::string migration_to_2();

/// What of the schema is changed, missing or too much, as sentences; empty when it is exactly that of the
/// version that the file names.
[[nodiscard]] std::vector<std::string> schema_differences(Database& db);

}  // namespace brimline::store
