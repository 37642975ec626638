// Mean pressure, bands, changes from baseline, and the clock of the next set.
#include "core/rules/vitals.h"

#include <array>
#include <cstdlib>
#include <limits>
#include <span>

namespace brimline::rules {
namespace {

/// Values up to `through` have this band; the table's last row holds for all above.
struct BandRow {
    int through, band;
};
constexpr int no_end = std::numeric_limits<int>::max();
// Source: RCP, National Early Warning Score 2 (2017), chart 1 (SpO2 scale 1).
constexpr std::array<BandRow, 5> rr_bands{{{8, 3}, {11, 1}, {20, 0}, {24, 2}, {no_end, 3}}};
constexpr std::array<BandRow, 4> spo2_bands{{{91, 3}, {93, 2}, {95, 1}, {no_end, 0}}};
constexpr std::array<BandRow, 5> systolic_bands{{{90, 3}, {100, 2}, {110, 1}, {219, 0}, {no_end, 3}}};
constexpr std::array<BandRow, 6> hr_bands{{{40, 3}, {50, 1}, {90, 0}, {110, 1}, {130, 2}, {no_end, 3}}};

std::span<const BandRow> bands_of(Sign sign) {
    switch (sign) {
        case Sign::hr:
            return hr_bands;
        case Sign::systolic:
            return systolic_bands;
        case Sign::spo2:
            return spo2_bands;
        case Sign::rr:
            return rr_bands;
    }
    std::abort();  // no sign: a corrupted program must not go on
}

}  // namespace

std::string_view name_of(Priority p) {
    static constexpr std::array<std::string_view, 4> names{"none", "low", "medium", "high"};
    return names[static_cast<std::size_t>(p)];
}

Expected<Fraction> mean_pressure(int systolic, int diastolic) {
    if (systolic <= diastolic) {
        return refuse("map-order", "The systolic pressure must be above the diastolic one.",
                      "Check both numbers.");
    }
    return Fraction{std::int64_t{systolic} + 2 * std::int64_t{diastolic}, 3};
}

bool map_alerts(const Fraction& map, int below) { return map < Fraction{Decimal::of(below)}; }

std::string map_text(const Fraction& map, int below) {
    const bool contradicts = map_alerts(map, below) != map_alerts(Fraction{map.rounded(0)}, below);
    return map.text(contradicts ? 1 : 0);
}

int alert_band(Sign sign, int value) {
    for (const BandRow& row : bands_of(sign)) {
        if (value <= row.through) {
            return row.band;
        }
    }
    std::abort();  // the tables have no end
}

Priority band_prompt(int band, int prompt_band) {
    if (band < prompt_band) {
        return Priority::none;
    }
    return band >= 3 ? Priority::high : band >= 1 ? Priority::medium : Priority::none;
}

bool baseline_changed(int baseline, int value, int percent) {
    const std::int64_t away = std::abs(std::int64_t{value} - baseline);
    return 100 * away > std::int64_t{percent} * baseline;
}

bool etco2_alerts(int value, std::optional<int> baseline, const VitalsPolicy& policy) {
    return value >= policy.etco2_high || (baseline && std::abs(value - *baseline) >= policy.etco2_change);
}

bool etco2_missed(std::optional<int> moaas, bool propofol_given, bool recorded, const VitalsPolicy& policy) {
    if (recorded || policy.etco2_expected == "never") {
        return false;
    }
    const int expected_at = policy.etco2_expected == "moderate" ? 4 : 1;  // MOAA/S 4 to 2 is moderate, 1 deep
    return propofol_given || (moaas && *moaas <= expected_at);
}

std::string_view name_of(DueState s) {
    static constexpr std::array<std::string_view, 4> names{"none", "soon", "overdue", "overdue-high"};
    return names[static_cast<std::size_t>(s)];
}

Priority priority_of(DueState s) {
    switch (s) {
        case DueState::none:
            return Priority::none;
        case DueState::soon:
            return Priority::low;
        case DueState::overdue:
            return Priority::medium;
        case DueState::overdue_high:
            return Priority::high;
    }
    std::abort();  // no state: a corrupted program must not go on
}

Instant vitals_due(Instant sedation_start, std::optional<Instant> last_set, seconds interval) {
    return (last_set && *last_set >= sedation_start ? *last_set : sedation_start) + interval;
}

DueState vitals_state(Instant due, Instant now, seconds interval, seconds lead) {
    if (now >= due + interval) {
        return DueState::overdue_high;
    }
    if (now >= due) {
        return DueState::overdue;
    }
    return now >= due - lead ? DueState::soon : DueState::none;
}

}  // namespace brimline::rules
