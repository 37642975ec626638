// Figures of a removal: what came out.
#include "core/case/figures.h"

namespace brimline {
namespace {

/// Adds up one suction line: a first reading, changes of canister, a last reading.
struct SuctionLine {
    std::optional<Millilitres> base;  // what the canister in place held when counting began
    Millilitres sum;

    void read(const Canister& reading, bool counts) {
        const bool first = reading.moment == CanisterMoment::start;
        if (counts && base && !first) {
            sum = sum + (reading.ml - *base);
        }
        base = reading.moment == CanisterMoment::change ? reading.new_ml.value_or(Millilitres{}) : reading.ml;
    }
};

}  // namespace

std::optional<Millilitres> recovered_at_removal(const CaseState& s) {
    SuctionLine line;
    for (const auto& reading : s.canister) {
        const bool before = s.puncture && reading.stamp.happened < s.puncture->happened;
        line.read(reading.is, !before);
    }
    const bool measured = s.canister.size() > 1 && s.canister.back().is.moment != CanisterMoment::start;
    if (!measured && s.aspirated.empty()) {
        return std::nullopt;
    }
    for (const auto& syringe : s.aspirated) {
        line.sum = line.sum + syringe.is.ml;
    }
    return line.sum;
}

}  // namespace brimline
