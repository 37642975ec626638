// What every command and every event says of itself: its name at the borders, who may enter it, and its
// fields. A type lists its fields once, in `fields(self, field)`; reading, writing and checking all follow
// from that list.
#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "core/clinic/roles.h"
#include "core/units/decimal.h"
#include "core/units/quantity.h"
#include "core/units/time.h"

namespace brimline {

/// Whose word a command states.
enum class Word : std::uint8_t {
    entered,         // the word of the person who enters it
    physician_says,  // said by the physician, entered by anybody
};

/// Name at the borders (script, journal), allowed roles, and whose word it is.
struct Spec {
    std::string_view name;
    Roles who{};
    Word word{Word::entered};
};

/// How an entry was made.
enum class How : std::uint8_t { tap, pedal, scan, key, paper };
constexpr auto names_of(How) {
    return std::array<std::string_view, 5>{"tap", "pedal", "scan", "key", "paper"};
}

/// The name of an enumerator, from the list that stands beside its type.
template <class E>
[[nodiscard]] constexpr std::string_view name_of(E value) {
    return names_of(value)[static_cast<std::size_t>(value)];
}

/// A reference to an entry of the journal: its number, or "what line n of this file recorded".
struct EntryRef {
    std::int64_t seq{0};
    std::optional<int> line;
    bool operator==(const EntryRef&) const = default;
};

/// Day and month as the patient says them ("14 03"), or "unknown".
struct DayMonth {
    int day{0}, month{0};
    [[nodiscard]] bool unknown() const { return day == 0; }
    bool operator==(const DayMonth&) const = default;
};

/// When something was last eaten: a moment, or one of the two answers that are no moment.
struct LastIntake {
    enum class Kind : std::uint8_t { at, not_known, vomiting } kind{Kind::not_known};
    Instant at{};
    bool operator==(const LastIntake&) const = default;
};

/// Words that a script may also write as a number ("7.0").
struct Loose {
    std::string text;
    bool operator==(const Loose&) const = default;
};

}  // namespace brimline
