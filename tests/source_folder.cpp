// The one file that has the folder of the sources compiled in.
#include "tests/source_folder.h"

namespace brimline::test {

std::string in_sources(const std::string& path) { return BRIMLINE_SOURCE_DIR + path; }

}  // namespace brimline::test
