// What must stand beside a signature.
#include "core/rules/signature.h"

namespace brimline::rules {

std::vector<std::string> signature_lacks(const std::string& name, bool time_known,
                                         const std::string& meaning) {
    std::vector<std::string> lacks;
    if (name.empty()) {
        lacks.emplace_back("name");
    }
    if (!time_known) {
        lacks.emplace_back("time");
    }
    if (meaning.empty()) {
        lacks.emplace_back("meaning");
    }
    return lacks;
}

}  // namespace brimline::rules
