// Compares the count with what was said.
#include "core/rules/read_back.h"

#include <algorithm>

namespace brimline::rules {

ReadBack judge_read_back(Millilitres counted, Millilitres said, bool same_person, Millilitres tolerance) {
    const Millilitres apart = std::max(counted, said) - std::min(counted, said);
    const bool equal = apart <= tolerance;
    return {equal, equal && !same_person};
}

}  // namespace brimline::rules
