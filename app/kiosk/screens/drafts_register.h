// What is being typed and chosen on the pages of the register, and what the sheet of the patient shows.
#pragma once
#include <optional>
#include <string>

#include "app/kiosk/touch/widgets.h"
#include "core/case/said/registered.h"

namespace brimline::screens {

/// Paging through what the strip has no room for.
struct PatientDraft {
    std::size_t first{0};
    std::string belongs_to, why;  // the case that the entries belong to; a key of the words
};

struct RegisterDrafts {
    enum class Filter : std::uint8_t { next, not_reached, by_due, closed, found };
    /// What column B of an entry is used for.
    enum class Part : std::uint8_t { ways, call, flag, close, lost };
    /// Where the letters of the keyboard go.
    enum class Letters : std::uint8_t { none, call_words, known_from, lot, note, find };

    Filter filter{Filter::next};
    std::size_t first{0};  // paging through the list
    std::string find;      // part of a name or a number
    std::string entry;     // the one that is open
    Part part{Part::ways};
    Letters letters{Letters::none};
    touch::TextDraft text{60};
    touch::KeyboardState keys{};

    // a call
    std::string way, outcome, words, owner;
    std::optional<int> again_days;
    // closing
    std::optional<Closing> closing;
    std::optional<Proof> proof;
    std::string known_from;
    // lost to follow-up: a PIN each
    std::string second;
    std::array<std::string, 2> pins;
    // a lot, and a month
    std::string lot, note;
    std::size_t first_line{0};
    int months_back{0};
    std::size_t first_person{0};

    /// Back to the ways of the entry with nothing typed.
    void to_ways() {
        const auto kept_filter = filter;
        const auto kept_first = first;
        const auto kept_entry = entry;
        const auto kept_find = find;
        *this = {};
        filter = kept_filter;
        first = kept_first;
        entry = kept_entry;
        find = kept_find;
    }
    void open(const std::string& name) {
        to_ways();
        entry = name;
    }
};

}  // namespace brimline::screens
