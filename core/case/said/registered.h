// What the desk says of an entry of the register, and of whom a case belongs to: calls, flags, closing, lost,
// identity after the fact. An entry bears the name of its case.
#pragma once
#include "core/case/said/removal.h"

namespace brimline {

/// What comes next after a call: a day, or words, or both.
struct NextStep {
    std::optional<LocalDate> date;
    std::optional<std::string> words;
    bool operator==(const NextStep&) const = default;
};
struct Call {
    static constexpr Spec spec{"call", list_roles};
    std::string entry, outcome;
    std::optional<NextStep> next;
    std::optional<std::string> owner, way, number, words;
    static void fields(auto& self, auto&& field) {
        field("entry", self.entry);
        field("way", self.way);
        field("number", self.number);
        field("outcome", self.outcome);
        field("next", self.next);
        field("owner", self.owner);
        field("words", self.words);
    }
    bool operator==(const Call&) const = default;
};
struct Flag {
    static constexpr Spec spec{"flag", list_roles};
    std::string entry, flag;
    static void fields(auto& self, auto&& field) {
        field("entry", self.entry);
        field("flag", self.flag);
    }
    bool operator==(const Flag&) const = default;
};
enum class Closing : std::uint8_t { removed, passed, out_elsewhere, died, transferred, declined };
constexpr auto names_of(Closing) {
    return std::array<std::string_view, 6>{"removed", "passed",      "out-elsewhere",
                                           "died",    "transferred", "declined"};
}
enum class Proof : std::uint8_t { document, image, none };
constexpr auto names_of(Proof) { return std::array<std::string_view, 3>{"document", "image", "none"}; }
/// The entry ends, or goes on as transferred or declined with an owner and a day of review.
struct CloseEntry {
    static constexpr Spec spec{"close-entry", {Role::coordinator, Role::nurse, Role::physician}};
    std::string entry;
    Closing outcome{};
    std::string known_from;
    std::optional<Proof> proof;
    std::optional<std::string> pin, owner;
    std::optional<LocalDate> review;
    static void fields(auto& self, auto&& field) {
        field("entry", self.entry);
        field("outcome", self.outcome);
        field("known_from", self.known_from);
        field("proof", self.proof);
        field("pin", self.pin);
        field("owner", self.owner);
        field("review", self.review);
    }
    bool operator==(const CloseEntry&) const = default;
};
using Pins = std::map<std::string, std::string>;
/// Two people give up the search, a PIN each; a later contact takes it back.
struct LostToFollowUp {
    static constexpr Spec spec{"lost-to-follow-up", {Role::coordinator, Role::physician}};
    std::string entry, second;
    Pins pins;
    static void fields(auto& self, auto&& field) {
        field("entry", self.entry);
        field("second", self.second);
        field("pins", self.pins);
    }
    bool operator==(const LostToFollowUp&) const = default;
};
/// Completes or corrects who the patient is. After the seal two people say it, a PIN each.
struct PatientChange {
    static constexpr Spec spec{"patient", list_roles};
    PatientKnown to;
    std::string reason;
    std::optional<std::string> second;
    std::optional<Pins> pins;
    static void fields(auto& self, auto&& field) {
        PatientKnown::fields(self.to, field);
        field("reason", self.reason);
        field("second", self.second);
        field("pins", self.pins);
    }
    bool operator==(const PatientChange&) const = default;
};
/// What was entered here belongs to the patient of another case.
struct BelongsTo {
    static constexpr Spec spec{"belongs-to", list_roles};
    std::string to, reason;
    std::optional<std::string> second;
    std::optional<Pins> pins;
    static void fields(auto& self, auto&& field) {
        field("to", self.to);
        field("reason", self.reason);
        field("second", self.second);
        field("pins", self.pins);
    }
    bool operator==(const BelongsTo&) const = default;
};

}  // namespace brimline
