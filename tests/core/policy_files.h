// Reads the policy files of this tree for tests; core itself never opens a file.
#pragma once
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "core/clinic/policy.h"
#include "tests/source_folder.h"

namespace brimline::test {

inline std::vector<PolicyFile> files_in(const std::string& folder) {
    std::vector<PolicyFile> files;
    const std::filesystem::path root{in_sources("/")};
    for (const auto& entry : std::filesystem::directory_iterator{root / folder}) {
        std::ifstream in{entry.path()};
        std::ostringstream text;
        text << in.rdbuf();
        files.push_back({entry.path().filename().string(), text.str()});
    }
    std::sort(files.begin(), files.end(), [](const auto& a, const auto& b) { return a.name < b.name; });
    return files;
}

/// The first fault as "file: key say", for messages of tests.
inline std::string first_of(const std::vector<PolicyFault>& faults) {
    return faults.empty() ? "no fault" : faults[0].file + ": " + faults[0].key + " " + faults[0].say;
}

/// The house defaults; throws when they are broken, so that every test that uses them says so.
inline const Policy& house_policy() {
    static const Policy policy = [] {
        auto read = read_policy(files_in("assets/policy"), {});
        if (!read) {
            throw std::runtime_error{first_of(read.error())};
        }
        return *read;
    }();
    return policy;
}

/// The demo clinic's policy: house files and demo/policy on top.
inline const Policy& demo_policy() {
    static const Policy policy = [] {
        auto read = read_policy(files_in("assets/policy"), files_in("demo/policy"));
        if (!read) {
            throw std::runtime_error{first_of(read.error())};
        }
        return *read;
    }();
    return policy;
}

}  // namespace brimline::test
