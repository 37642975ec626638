// The words of what a patient takes home, one language at a time: sheet and card. They come from a file of
// assets/leaflet that the caller read; no sentence for a patient stands in code, and two languages never
// meet.
#pragma once
#include <initializer_list>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/units/refusal.h"
#include "core/units/time.h"

namespace brimline {

class SheetWords {
public:
    /// Shape: a JSON object of texts by key. Errors: sheet-words, with the key that is missing, unknown or
    /// not a text; a language file is used whole or not at all.
    [[nodiscard]] static Expected<SheetWords> read(std::string_view language, std::string_view json_text);

    /// Two letters.
    [[nodiscard]] const std::string& language() const { return language_; }
    using Named = std::pair<std::string_view, std::string>;
    /// The text of a key, {names} replaced.
    [[nodiscard]] std::string say(std::string_view key, std::initializer_list<Named> values = {}) const;
    /// "Wed 25 Nov", with the year "Wed 25 Nov 2026".
    [[nodiscard]] std::string day(LocalDate date, bool with_year) const;
    /// "14 Mar 1986": a birth date, as the language writes dates.
    [[nodiscard]] std::string date(LocalDate date) const;
    /// "Wed 25 to Fri 27 Nov", "Sat 28 Nov to Fri 11 Dec"; the year stands where the two differ.
    [[nodiscard]] std::string span(LocalDate from, LocalDate to) const;

private:
    std::string language_;
    std::map<std::string, std::string, std::less<>> texts_;
    std::vector<std::string> weekdays_, months_;
};

}  // namespace brimline
