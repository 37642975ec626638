// What is said at a removal: the balloon seen, the canister, puncture, what came out, the second look; and of
// a balloon that another clinic placed.
#pragma once
#include "core/case/said/after.h"

namespace brimline {

BRIMLINE_BARE(Puncture, "puncture", any_clinical);
BRIMLINE_BARE(Gas, "gas", any_clinical);
BRIMLINE_BARE(SeenEmpty, "seen-empty", any_clinical, Word::physician_says);
BRIMLINE_BARE(Grasp, "grasp", any_clinical);

/// What the physician saw before the puncture. Food is a hold until it is said that there is none.
struct BalloonSeen {
    static constexpr Spec spec{"balloon-seen", any_clinical, Word::physician_says};
    std::string state;
    bool food{false};
    static void fields(auto& self, auto&& field) {
        field("state", self.state);
        field("food", self.food);
    }
    bool operator==(const BalloonSeen&) const = default;
};
enum class CanisterMoment : std::uint8_t { start, change, end };
constexpr auto names_of(CanisterMoment) { return std::array<std::string_view, 3>{"start", "change", "end"}; }
/// A reading of the suction canister. At a change `ml` is of the old one and `new_ml` of the new one.
struct Canister {
    static constexpr Spec spec{"canister", any_clinical};
    Millilitres ml;
    CanisterMoment moment{};
    std::optional<Millilitres> new_ml;
    static void fields(auto& self, auto&& field) {
        field("ml", self.ml);
        field("moment", self.moment);
        field("new_ml", self.new_ml);
    }
    bool operator==(const Canister&) const = default;
};
/// Fluid taken by syringe, beside the canister.
struct Aspirated {
    static constexpr Spec spec{"aspirated", any_clinical};
    Millilitres ml;
    static void fields(auto& self, auto&& field) { field("ml", self.ml); }
    bool operator==(const Aspirated&) const = default;
};
struct Fluid {
    static constexpr Spec spec{"fluid", any_clinical};
    std::string colour;
    static void fields(auto& self, auto&& field) { field("colour", self.colour); }
    bool operator==(const Fluid&) const = default;
};
/// The balloon is out: whole or not, kept or not.
struct Out {
    static constexpr Spec spec{"out", any_clinical};
    bool complete{false}, kept{false};
    static void fields(auto& self, auto&& field) {
        field("complete", self.complete);
        field("kept", self.kept);
    }
    bool operator==(const Out&) const = default;
};
struct SecondLook {
    static constexpr Spec spec{"second-look", any_clinical, Word::physician_says};
    std::string finding;
    std::optional<std::string> words;
    static void fields(auto& self, auto&& field) {
        field("finding", self.finding);
        field("words", self.words);
    }
    bool operator==(const SecondLook&) const = default;
};
enum class ElsewhereSource : std::uint8_t { card, letter, word };
constexpr auto names_of(ElsewhereSource) { return std::array<std::string_view, 3>{"card", "letter", "word"}; }
/// A balloon that another clinic placed, as far as it is known. The weight is that of the placement day.
struct PlacedElsewhere {
    static constexpr Spec spec{"placed-elsewhere", any_clinical};
    LocalDate placed{};
    std::optional<Millilitres> ml;
    std::optional<Loose> dye;
    std::optional<std::string> lot, serial, device, clinic;
    std::optional<Decimal> weight_kg;
    ElsewhereSource source{};
    static void fields(auto& self, auto&& field) {
        field("placed", self.placed);
        field("ml", self.ml);
        field("dye", self.dye);
        field("lot", self.lot);
        field("serial", self.serial);
        field("device", self.device);
        field("clinic", self.clinic);
        field("weight_kg", self.weight_kg);
        field("source", self.source);
    }
    bool operator==(const PlacedElsewhere&) const = default;
};

}  // namespace brimline
