// Verify: looks through a whole data folder and names in plain words what is damaged. It changes no file,
// also after a crash, and no damage makes it fail.
#pragma once
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <tl/expected.hpp>
#include <vector>

#include "core/store/event.h"
#include "core/store/finding.h"
#include "core/store/journal.h"

namespace brimline::store {

/// The tables beside the journal, as they stand.
struct Tables {
    Kiosk kiosk;
    std::vector<Person> people;
    std::vector<BalloonRow> balloons;
    std::vector<SealedRow> sealed;
    std::vector<KeySince> keys;
};

struct VerifyOptions {
    /// Compares the tables with a fold of all events (which are in order of their numbers).
    std::function<std::vector<Finding>(const std::vector<StoredEvent>&, const Tables&)> projections{};
    /// How a case is called in a sentence; without it, the first eight digits of its id.
    std::function<std::string(const Id16&)> case_name{};
};

struct VerifyReport {
    std::vector<Finding> findings;                // empty = nothing is wrong
    std::int64_t events{0}, cases{0}, sealed{0};  // what was looked at
    std::optional<Copied> copied{};               // the copy of a running kiosk was looked at, not its files
};

/// Checks form, numbers, parts, JSON, every chain, every seal, the mark, the signing key and (by the hook)
/// projections. Errors: OpenFault when the folder is in use, missing, or the system refuses to read it;
/// damage is a finding.
[[nodiscard]] tl::expected<VerifyReport, OpenFault> verify(const std::filesystem::path& folder,
                                                           const VerifyOptions& options = {});

}  // namespace brimline::store
