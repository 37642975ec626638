// PINs: hashed so that a copied file gives none away at once, and wrong tries that lock for a growing while.
// A PIN is never kept, logged or put into an event; the lock is kept with the person, so a restart does not
// clear it.
#pragma once
#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <variant>

#include "core/store/journal.h"
#include "core/units/time.h"

namespace brimline::store {

/// The clinic's rule, from its policy.
struct PinRule {
    int digits_least{6}, digits_most{8};
    int tries{3};                                         // wrong ones in a row before each lock
    std::chrono::seconds lock_first{60}, lock_most{900};  // doubling from the first to the most
};

/// Whether it has the form of a PIN: digits only, as many as the rule allows.
[[nodiscard]] bool pin_has_form(std::string_view pin, const PinRule& rule);
/// The text that is kept instead of the PIN; takes 64 MiB and about 60 ms. Source: Argon2id, RFC 9106, at the
/// library's interactive strength. Errors: out of memory stops the program.
[[nodiscard]] std::string hash_pin(std::string_view pin);
/// Whether that PIN gave this text; as slow as hash_pin. A text that is damaged holds for no PIN.
[[nodiscard]] bool pin_holds(std::string_view pin, const std::string& pin_hash);
/// 32 hexadecimal digits that change when a kept PIN hash changes and tell nothing of the PIN: for the event
/// that gave the PIN, so that verify can compare.
[[nodiscard]] std::string pin_fingerprint(const std::string& pin_hash);

struct PinRight {
    bool one_time{false};
};
struct PinWrong {
    int tries_left{0};  // before the next lock; at least 1
};
struct PinLocked {
    Instant until;
};
struct PinUnknown {};  // no such person, or no longer active
using PinAnswer = std::variant<PinRight, PinWrong, PinLocked, PinUnknown>;

/// What the tries so far mean for the next one.
struct PinTries {
    std::int64_t fails{0};
    std::optional<Instant> locked_until;
    bool operator==(const PinTries&) const = default;
};
/// The moment until which no try is taken, if there is one. A clock set back never locks for longer than
/// lock_most.
[[nodiscard]] std::optional<Instant> locked_at(const PinTries& tries, Instant now, const PinRule& rule);
/// The tries after one more wrong one at `now`.
[[nodiscard]] PinTries after_wrong(const PinTries& tries, Instant now, const PinRule& rule);
/// Wrong tries left before the next lock.
[[nodiscard]] int tries_left(const PinTries& tries, const PinRule& rule);

/// Checks a PIN. The try is on disk as a wrong one before the PIN is looked at, so a pulled plug gives no
/// free try. Errors: pending when the disk does not keep the try; no PIN is then judged.
[[nodiscard]] tl::expected<PinAnswer, AppendFault> check_pin(Journal& journal, const std::string& person,
                                                             std::string_view pin, Instant now,
                                                             const PinRule& rule);

/// As check_pin, for a journal that takes nothing: the wrong tries are kept in `tries` alone.
[[nodiscard]] PinAnswer check_pin_reading(Journal& journal, const std::string& person, std::string_view pin,
                                          Instant now, const PinRule& rule, PinTries& tries);

}  // namespace brimline::store
