// What is being read and typed on the pages of signing and of the record.
#pragma once
#include <set>
#include <string>

#include "app/kiosk/touch/widgets.h"
#include "core/case/said/after.h"

namespace brimline::screens {

struct RecordDrafts {
    std::string name;            // the case that is being signed
    std::size_t page{0};         // of what was said
    std::set<std::size_t> seen;  // pages that were on the glass; the PIN opens after the last
    std::int64_t chosen{0};      // an entry, to say that it is not what was said
    std::string pin;             // never shown, never kept beyond the check
    std::size_t first_case{0}, first_line{0}, first_item{0};
    bool mine{false}, done{false};  // which open items
    touch::TextDraft addendum{300};
    touch::KeyboardState keys{};

    /// Another case: everything that belongs to the one before is forgotten.
    void begin(const std::string& which) {
        *this = RecordDrafts{};
        name = which;
    }
};

/// What is said when a case is given up.
struct AbandonDraft {
    enum class Device : std::uint8_t { unsaid, none, filled, empty };
    enum class Catheter : std::uint8_t { unsaid, off, on, broken };

    Device device{};
    Catheter catheter{};
    std::string reason;  // id of the policy's list
};

}  // namespace brimline::screens
