// Where the policy in force comes from: the one the journal recorded, else a clinic's folder over the house
// files.
#pragma once
#include <filesystem>
#include <optional>
#include <string>

#include "core/clinic/policy.h"

namespace brimline {

/// The folder with the program's assets: beside the build, or as installed. Errors: a sentence when it is
/// nowhere.
[[nodiscard]] Expected<std::filesystem::path> assets_folder();
/// The house files with a clinic's folder on top, when there is one. Errors: every fault found.
[[nodiscard]] tl::expected<Policy, std::vector<PolicyFault>> load_policy(
    const std::optional<std::filesystem::path>& clinic_folder);
/// "fasting.json: fasting.clear-fluid-min: ...", one line a fault.
[[nodiscard]] std::string fault_lines(const std::vector<PolicyFault>& faults);
/// BLAKE2b-256 of the policy's canonical text, in hex.
[[nodiscard]] std::string policy_hash(const Policy& policy);
/// The zone that the policy names, else the system's.
[[nodiscard]] Expected<Zone> zone_of(const Policy& policy);

}  // namespace brimline
