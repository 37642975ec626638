// Finding and reading policy files.
#include "app/loop/policy_source.h"

#include <fmt/format.h>

#include "core/store/ids.h"
#include "core/store/policy_files.h"
#include "core/store/zone_file.h"

namespace brimline {
namespace fs = std::filesystem;

Expected<fs::path> assets_folder() {
    std::error_code error;
    const auto program = fs::read_symlink("/proc/self/exe", error);
    std::vector<fs::path> places;
    for (auto up = program.parent_path(); !error && up.has_relative_path(); up = up.parent_path()) {
        places.push_back(up / "assets");
        places.push_back(up / "share" / "brimline" / "assets");
    }
    for (const auto& place : places) {
        if (fs::is_directory(place / "policy", error)) {
            return place;
        }
    }
    return refuse("assets-missing", "The folder \"assets\" is not beside the program.",
                  "Install Brimline again.");
}

tl::expected<Policy, std::vector<PolicyFault>> load_policy(const std::optional<fs::path>& clinic_folder) {
    const auto assets = assets_folder();
    if (!assets) {
        return tl::unexpected{std::vector{PolicyFault{"assets", "", assets.error().say}}};
    }
    const auto house = store::read_policy_folder(*assets / "policy");
    if (!house) {
        return tl::unexpected{house.error()};
    }
    if (!clinic_folder) {
        return read_policy(*house, {});
    }
    const auto overlay = store::read_policy_folder(*clinic_folder);
    return overlay ? read_policy(*house, *overlay) : tl::unexpected{overlay.error()};
}

std::string fault_lines(const std::vector<PolicyFault>& faults) {
    std::string lines;
    for (const auto& fault : faults) {
        lines += fmt::format("{}{}{}: {}\n", fault.file, fault.key.empty() ? "" : ": ", fault.key, fault.say);
    }
    return lines;
}

std::string policy_hash(const Policy& policy) { return store::hex(store::blake2b(policy.text)); }

Expected<Zone> zone_of(const Policy& policy) {
    return policy.clinic.zone.empty() ? store::system_zone() : store::load_zone(policy.clinic.zone);
}

}  // namespace brimline
