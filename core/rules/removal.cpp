// Recovered against filled volume, the reading of the fluid's colour, and the timing of a removal.
#include "core/rules/removal.h"

#include <array>
#include <cstdlib>

namespace brimline::rules {

std::string_view name_of(Recovered r) {
    static constexpr std::array<std::string_view, 4> names{"within", "less than put in", "more than put in",
                                                           "not comparable"};
    return names[static_cast<std::size_t>(r)];
}

RecoveredVolume recovered_volume(std::optional<Millilitres> filled, Millilitres recovered,
                                 int tolerance_percent) {
    RecoveredVolume result;
    if (!filled || *filled <= Millilitres{}) {
        return result;
    }
    const std::int64_t in = filled->in_tenths();
    const std::int64_t apart = recovered.in_tenths() - in;
    result.difference = Millilitres::of_tenths(apart);
    result.percent = Fraction{100 * recovered.in_tenths(), in};
    result.deviation = Fraction{100 * apart, in};
    if (std::abs(100 * apart) <= tolerance_percent * in) {
        result.state = Recovered::within;
    } else {
        result.state = apart < 0 ? Recovered::less : Recovered::more;
    }
    return result;
}

std::string_view name_of(FluidReading r) {
    static constexpr std::array<std::string_view, 4> names{"expected", "leak suspected", "contents changed",
                                                           "record mismatch"};
    return names[static_cast<std::size_t>(r)];
}

FluidReading read_fluid(bool dye_at_placement, FluidOut out) {
    switch (out) {
        case FluidOut::cloudy_or_brown:
            return FluidReading::contents_changed;
        case FluidOut::clear:
            return dye_at_placement ? FluidReading::leak_suspected : FluidReading::expected;
        case FluidOut::dyed:
            return dye_at_placement ? FluidReading::expected : FluidReading::record_mismatch;
    }
    std::abort();  // no colour: a corrupted program must not go on
}

std::string_view name_of(RemovalTiming t) {
    static constexpr std::array<std::string_view, 3> names{"early", "on time", "late"};
    return names[static_cast<std::size_t>(t)];
}

RemovalTiming removal_timing(LocalDate out, LocalDate due, LocalDate latest, int early_window_days) {
    if (out > latest) {
        return RemovalTiming::late;
    }
    return out < add_days(due, -early_window_days) ? RemovalTiming::early : RemovalTiming::on_time;
}

}  // namespace brimline::rules
