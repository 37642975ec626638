// Worked examples: a file of them, run through the rules.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "app/desk/rules/inputs.h"

namespace brimline::worked {

/// What one file gave. `failures`: one line each (id, rule, what was expected, what came). `malformed`: one
/// sentence each, naming the example, the field and what is allowed.
struct Report {
    int held = 0;
    std::vector<std::string> failures, malformed;
};

/// Runs every example of one file; one that cannot be read does not stop the others.
/// Shape: `text` is a JSON array of {id, rule, inputs, expected, tolerance?, source?, note?}.
[[nodiscard]] Report run_examples(std::string_view file, std::string_view text, const Policy& house,
                                  const Zones& zones);

}  // namespace brimline::worked
