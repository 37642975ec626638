// The installer's page: what of this kiosk works, one sentence each. What has no part yet is not on it.
#pragma once
#include <filesystem>
#include <string>
#include <vector>

#include "core/store/clock.h"

namespace brimline::desk {

struct TestLine {
    enum class State { good, look, stop } state{};
    std::string what, say;
};
/// Store, seals, space, clock, backup, policy, people. Reads only; the store must not be open elsewhere.
[[nodiscard]] std::vector<TestLine> self_test(const std::filesystem::path& data, store::Clock& clock);

}  // namespace brimline::desk
