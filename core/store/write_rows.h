// Writes the rows of a batch inside an open transaction, and words what the database refuses. Inside the
// store only.
#pragma once
#include <string>
#include <tl/expected.hpp>
#include <vector>

#include "core/store/chain.h"
#include "core/store/event.h"
#include "core/store/sign_key.h"
#include "core/store/sqlite.h"

namespace brimline::store {

using Step = tl::expected<void, AppendFault>;

[[nodiscard]] tl::unexpected<AppendFault> refused(const std::string& why);
[[nodiscard]] tl::unexpected<AppendFault> pending(const Trouble& trouble);
/// A broken rule of the schema is a bug and is refused; everything else leaves the outcome open.
[[nodiscard]] tl::unexpected<AppendFault> fault_of(const Trouble& trouble);
/// Runs a statement that gives no rows.
[[nodiscard]] Step ran(Statement& statement);

/// Writes all of a batch: events with their numbers and hashes, people, register rows, seal (with `key`,
/// which may be null). The caller begins and commits.
[[nodiscard]] tl::expected<Receipt, AppendFault> write_batch(Database& db, const Batch& batch,
                                                             const Id16& kiosk_id, const SignKey* key,
                                                             ChainHasher& hasher);
/// Replaces every register row.
[[nodiscard]] Step replace_balloons(Database& db, const std::vector<BalloonRow>& rows, std::int64_t code);

}  // namespace brimline::store
