// What is being typed on the sign-in and the day list.
#pragma once
#include <string>
#include <tl/expected.hpp>

#include "app/kiosk/touch/widgets.h"
#include "core/store/pins.h"

namespace brimline::screens {

struct DeskDrafts {
    /// What the last PIN came to, until the next digit.
    enum class Told : std::uint8_t { nothing, wrong, locked, unknown, not_checked };

    /// What is asked for without a PIN while it is not yet said for whom.
    enum class Rescue : std::uint8_t { none, vitals, airway };

    Rescue rescue{Rescue::none};
    std::string person;      // whose PIN is being typed
    std::string pin;         // never shown, never kept beyond the check
    bool longer_pin{false};  // a PIN with more digits than the fewest: the corner signs in
    Told told_what{Told::nothing};
    int tries_left{0};
    std::string locked_until;     // "08:39:14"
    std::size_t first_person{0};  // paging through the names
    std::size_t first_case{0};    // paging through the list

    /// Somebody's PIN is asked for from here on.
    void choose(const std::string& who);
    /// What the check came to; the dots clear whatever it was.
    void told(const tl::expected<store::PinAnswer, std::string>& answer, const Zone& zone);
};

}  // namespace brimline::screens
