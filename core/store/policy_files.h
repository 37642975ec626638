// Reads the files of a policy folder as they are; what they mean is read by core/clinic.
#pragma once
#include <filesystem>
#include <tl/expected.hpp>
#include <vector>

#include "core/clinic/policy.h"

namespace brimline::store {

/// Every *.json file in that folder, by name. Errors: one fault for the folder, or for each file that cannot
/// be read or is larger than 4 MiB.
[[nodiscard]] tl::expected<std::vector<PolicyFile>, std::vector<PolicyFault>> read_policy_folder(
    const std::filesystem::path& folder);

}  // namespace brimline::store
