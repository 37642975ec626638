// The code of a balloon card: what another clinic needs to know of a balloon, as plain text that any phone
// shows and that another Brimline reads without a network. It names no patient: a card is lost more easily
// than a record. The words are fixed and English, because programs read them; the card itself is printed in
// words beside it.
#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "core/units/quantity.h"
#include "core/units/refusal.h"
#include "core/units/time.h"

namespace brimline {

/// What a card's code says. What is not known is absent and has no line.
struct CardFacts {
    LocalDate placed{};
    std::optional<LocalDate> due;
    std::optional<Millilitres> volume;  // with the dye
    std::optional<Millilitres> dye;     // 0 = filled without dye
    std::string dye_agent;              // only with dye above 0
    std::string lot, serial, gtin;      // empty = not known
    std::string clinic, phone;
    bool operator==(const CardFacts&) const = default;
};

/// The most bytes of the clinic's name and of the agent in a code; a longer text ends in "...".
inline constexpr std::size_t longest_card_text = 60;
/// Bytes that are read at all.
inline constexpr std::size_t longest_card_code = 1024;

/// The text of the code:
///
///     BALLOON CARD 1
///     Placed: 2026-11-25
///     Out by: 2027-05-25
///     Volume: 500 mL
///     Dye: 5 mL methylene blue      ("Dye: none" where none was used)
///     Lot: DW-2641
///     Serial: 0007731
///     Device: 02001234026413
///     Clinic: Harrow Mere Day Unit
///     Phone: 01632 960 100
///     Check: 0F3A
///
/// Shape: lines in this order, each ended by a line feed but the last; a line without a value is left out.
///        Dates are ISO 8601; volumes have a decimal only where it is not 0. The check is four hexadecimal
///        digits: CRC-16 (polynomial 0x1021, start 0xFFFF, not reflected) over everything before its line.
///        UTF-8; a line break or control code in a name becomes a blank.
/// Source: own format; the check is Python's binascii.crc_hqx with 0xFFFF, which tests/outside/print.py holds
///         against every card it reads.
[[nodiscard]] std::string card_code(const CardFacts& facts);

/// The facts of such a text, as a phone or a scanner gives it: other line ends and blanks at line ends do not
/// matter, and a line with an unknown word is kept out of the facts (a later version may add some).
/// Errors: card-code-not-one (no such card), card-code-version (a later one), card-code-damaged (the check
///         does not fit: lines are missing or altered), card-code-field (a line that cannot be true, twice
///         the same word, or no placement date).
[[nodiscard]] Expected<CardFacts> read_card_code(std::string_view text);

}  // namespace brimline
