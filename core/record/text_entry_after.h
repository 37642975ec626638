// What entries of a removal, of the register and of identity after the fact say, in words. A base of the list
// in text_entry.cpp, which says all others. Not for other files than those of the record.
#pragma once
#include "core/record/text_parts.h"

namespace brimline::record {

struct TellAfter {
    const Source& v;

    // Removal
    [[nodiscard]] std::string operator()(const BalloonSeen& e) const;
    [[nodiscard]] std::string operator()(const Canister& e) const;
    [[nodiscard]] std::string operator()(const Puncture&) const { return "Puncture"; }
    [[nodiscard]] std::string operator()(const Aspirated& e) const;
    [[nodiscard]] std::string operator()(const Gas&) const { return "Gas came out"; }
    [[nodiscard]] std::string operator()(const Fluid& e) const;
    [[nodiscard]] std::string operator()(const SeenEmpty&) const { return "Seen empty"; }
    [[nodiscard]] std::string operator()(const Grasp&) const { return "Grasped"; }
    [[nodiscard]] std::string operator()(const Out& e) const;
    [[nodiscard]] std::string operator()(const SecondLook& e) const;
    [[nodiscard]] std::string operator()(const PlacedElsewhere& e) const;
    // Register
    [[nodiscard]] std::string operator()(const Call& e) const;
    [[nodiscard]] std::string operator()(const Flag& e) const;
    [[nodiscard]] std::string operator()(const EntryClosed& e) const;
    [[nodiscard]] std::string operator()(const LostAgreed& e) const;
    // Identity after the fact
    [[nodiscard]] std::string operator()(const PatientNow& e) const;
    [[nodiscard]] std::string operator()(const EntriesMoved& e) const;
    [[nodiscard]] std::string operator()(const EntriesReceived& e) const;
};

}  // namespace brimline::record
