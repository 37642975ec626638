// A finding: one piece of damage in a data folder, in plain words.
#pragma once
#include <string>

namespace brimline::store {

/// Shape: `what` in kebab-case ("chain", "missing-number", "mark" …), `where` names the case, number, table
/// or file, `sentence` says it to a person.
struct Finding {
    std::string what, where, sentence;
    bool operator==(const Finding&) const = default;
};

}  // namespace brimline::store
