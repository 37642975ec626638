// What an export has to know before it reads a store case by case: how far each kiosk's numbers go, and where
// each case was booked. Read once, without holding the folder afterwards.
#pragma once
#include <filesystem>
#include <map>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

#include "core/store/journal.h"

namespace brimline::store {

struct CaseIndex {
    std::map<std::int64_t, std::int64_t> last_numbers;  // by the kiosk's local number
    std::map<std::int64_t, Id16> kiosks;
    std::vector<StoredEvent> first_events;  // of the asked kind, what came with a backup first
    std::vector<Finding> damage;
};
/// Events of one kind of all cases. It changes no file. Errors: OpenFault, as for reading the journal.
[[nodiscard]] tl::expected<CaseIndex, OpenFault> read_case_index(const std::filesystem::path& folder,
                                                                 std::string_view kind);

}  // namespace brimline::store
