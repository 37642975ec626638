// Fuzzes the reader of policy files; a recorded policy that is read gives the same text again.
#include "core/clinic/policy.h"

#include <cstdlib>

#include "tests/fuzz/targets.h"

void brimline::fuzz::policy(std::string_view bytes) {
    const auto split = bytes.find('\n');
    if (split != std::string_view::npos && split < 40) {
        static_cast<void>(
            read_policy({{std::string{bytes.substr(0, split)}, std::string{bytes.substr(split + 1)}}}, {}));
    }
    const auto recorded = read_policy_text(bytes);
    if (recorded) {
        const auto again = read_policy_text(recorded->text);
        if (!again || again->text != recorded->text) {
            std::abort();
        }
    }
}

BRIMLINE_FUZZ_ENTRY(policy)
