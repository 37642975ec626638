// Where the sources lie, for tests that read files of this tree.
#pragma once
#include <string>

namespace brimline::test {

/// The folder of the sources, with `path` ("/assets/words/en.json") behind it.
[[nodiscard]] std::string in_sources(const std::string& path);

}  // namespace brimline::test
