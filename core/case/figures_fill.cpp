// Figures of the fill: volumes, counts, pace, where the counts part, what the matter says.
#include <algorithm>
#include <limits>

#include "core/case/figures.h"
#include "core/rules/fill.h"

namespace brimline {
namespace {

bool went_in(const Delivery& d) {
    return d.kind == Delivery::Kind::syringe || d.kind == Delivery::Kind::part;
}

int row_available(const DeviceBlock& block) {
    int full = block.saline->is.laid_out.value_or(0);
    for (const auto& added : block.saline_added) {
        full += added.is.full.value_or(0);
    }
    return full;
}

Decimal bag_grams(const DeviceBlock& block) {
    Decimal grams = block.saline->is.scale_g.value_or(Decimal{});
    for (const auto& added : block.saline_added) {
        grams = grams + added.is.bag_g.value_or(Decimal{});
    }
    return grams;
}

Millilitres dye_volume(const DeviceBlock& block) {
    return block.dye ? block.dye->is.ml.value_or(Millilitres{}) : Millilitres{};
}

/// Grams lost over the density, in tenths of mL: exact comparison first, rounding only for what is shown.
MatterReading read_bag(const DeviceBlock& block, Decimal left, const Policy& policy, Millilitres nominal) {
    MatterReading reading;
    reading.method = SalineMethod::closed_tap;
    if (!block.saline->is.scale_g) {
        return reading;
    }
    const auto lost = bag_grams(block) - left;
    const auto density = policy.fill.saline_g_per_ml.in_millionths();
    const auto tenths = ratio_whole(lost.in_millionths() * 10, density);
    const auto counted = running_volume(block) + drawn_back(block);
    reading.judged = true;
    reading.saline_tenths = tenths;
    reading.matter_ml = Millilitres::of_tenths(tenths) + dye_volume(block);
    reading.counted_ml = counted;
    // |lost / density + dye - counted| >= tolerance * nominal / usual syringe, all times density * 10: the
    // policy's millilitres are for the usual syringe (half of one), another size has its share.
    const Millilitres beside = dye_volume(block) - counted;
    const auto gap = lost.in_millionths() * 10 + beside.in_tenths() * density;
    const auto tolerance = policy.fill.bag_tolerance.in_tenths() * nominal.in_tenths();
    reading.agrees = (gap < 0 ? -gap : gap) * policy.fill.syringe.in_tenths() < tolerance * density;
    return reading;
}

MatterReading read_row(const DeviceBlock& block, int left) {
    MatterReading reading;
    reading.method = SalineMethod::row;
    if (!block.saline->is.laid_out) {
        return reading;
    }
    reading.judged = true;
    reading.row_used = row_available(block) - left;
    reading.row_counted = syringes_counted(block);
    reading.agrees = *reading.row_used == *reading.row_counted;
    return reading;
}

}  // namespace

Millilitres running_volume(const DeviceBlock& block) {
    Millilitres sum;
    bool anything = false;
    for (const auto& delivery : block.deliveries) {
        sum += delivery.ml;
        anything = anything || delivery.ml > Millilitres{};
    }
    const bool on_top = block.dye && !block.dye->is.in_first_syringe.value_or(true);
    return anything && on_top ? sum + dye_volume(block) : sum;
}

std::vector<const Question*> open_questions(const DeviceBlock& block) {
    std::vector<const Question*> open;
    for (const auto& question : block.questions) {
        if (!question.answer) {
            open.push_back(&question);
        }
    }
    return open;
}

Millilitres possible_volume(const DeviceBlock& block) {
    auto sum = running_volume(block);
    for (const auto* question : open_questions(block)) {
        sum += question->ml;
    }
    return sum;
}

int syringes_counted(const DeviceBlock& block) {
    int count = 0;
    for (const auto& delivery : block.deliveries) {
        count += delivery.syringes;
    }
    return count;
}

Millilitres drawn_back(const DeviceBlock& block) {
    Millilitres sum;
    for (const auto& delivery : block.deliveries) {
        if (delivery.kind == Delivery::Kind::drawn_back) {
            sum -= delivery.ml;
        }
    }
    return sum;
}

int syringes_until(const DeviceBlock& block, Instant t) {
    int count = 0;
    for (const auto& delivery : block.deliveries) {
        count += delivery.stamp.happened <= t ? delivery.syringes : 0;
    }
    return count;
}

int presses_until(const DeviceBlock& block, Instant t) {
    return static_cast<int>(std::count_if(block.presses.begin(), block.presses.end(),
                                          [&](const Stamp& press) { return press.happened <= t; }));
}

std::string next_question_id(const CaseState& state) {
    std::size_t asked = 0;
    for (const auto& block : state.devices) {
        asked += block.questions.size();
    }
    return "q" + std::to_string(asked + 1);
}

std::string next_proviso_id(const CaseState& state) {
    return "p" + std::to_string(state.provisos.size() + 1);
}

const DeviceProfile* profile_of(const DeviceBlock& block, const Policy& policy) {
    return block.label && block.label->is.gtin ? policy.device(*block.label->is.gtin) : nullptr;
}

Millilitres nominal_syringe(const CaseState& state, const Policy& policy) {
    if (const auto& saline = state.device().saline; saline && saline->is.filled_to) {
        return *saline->is.filled_to;
    }
    if (state.plan && state.plan->is.syringe) {
        return *state.plan->is.syringe;
    }
    const auto* profile = profile_of(state.device(), policy);
    return profile != nullptr ? profile->syringe : policy.fill.syringe;
}

std::optional<Millilitres> ceiling_of(const CaseState& state, const Policy& policy) {
    std::optional<Millilitres> ceiling = state.plan ? state.plan->is.ceiling : std::nullopt;
    if (const auto* profile = profile_of(state.device(), policy)) {
        ceiling = ceiling ? std::min(*ceiling, profile->ceiling) : profile->ceiling;
    }
    return ceiling;
}

std::optional<Band> band_of(const CaseState& state, const Policy& policy) {
    if (state.plan) {
        return Band{state.plan->is.band_low, state.plan->is.band_high, state.plan->is.aim};
    }
    if (const auto* profile = profile_of(state.device(), policy)) {
        return Band{profile->band_low, profile->band_high, profile->aim};
    }
    return std::nullopt;
}

std::optional<FillBand> band_state(Millilitres v, const CaseState& state, const Policy& policy) {
    const auto ceiling = ceiling_of(state, policy);
    if (ceiling && v > *ceiling) {
        return FillBand::above_ceiling;
    }
    const auto band = band_of(state, policy);
    if (!band) {
        return std::nullopt;
    }
    return v < band->low ? FillBand::below_band : v <= band->high ? FillBand::in_band : FillBand::above_band;
}

std::optional<FillSpan> fill_span(const DeviceBlock& block) {
    FillSpan span;
    bool any = false;
    for (const auto& delivery : block.deliveries) {
        if (!went_in(delivery)) {
            continue;
        }
        span.first = any ? span.first : delivery.stamp.happened;
        span.last = delivery.stamp.happened;
        any = true;
    }
    if (!any) {
        return std::nullopt;
    }
    for (const auto& stop : block.stops) {
        const auto from = std::max(stop.stamp.happened, span.first);
        const auto to = std::min(stop.until.value_or(span.last), span.last);
        span.stopped += from < to ? to - from : Duration{};
    }
    return span;
}

std::optional<int> pace_ml_min(const DeviceBlock& block) {
    const auto span = fill_span(block);
    if (!span) {
        return std::nullopt;
    }
    std::vector<rules::Delivery> later;
    bool first = true;
    for (const auto& delivery : block.deliveries) {
        if (delivery.ml > Millilitres{} && !first) {
            later.push_back({delivery.stamp.happened, delivery.ml});
        }
        first = first && delivery.ml <= Millilitres{};
    }
    std::vector<rules::Pause> pauses;
    for (const auto& stop : block.stops) {
        pauses.emplace_back(stop.stamp.happened, stop.until.value_or(span->last));
    }
    const auto pace = rules::fill_pace(span->first, later, pauses, std::numeric_limits<int>::max()).overall;
    return pace ? std::optional{static_cast<int>(*pace)} : std::nullopt;
}

std::optional<Instant> parted_at(const DeviceBlock& block, Instant until, seconds window) {
    std::vector<Instant> taps;
    std::vector<Instant> presses;
    for (const auto& delivery : block.deliveries) {
        for (int i = 0; i < delivery.syringes && delivery.stamp.happened <= until; ++i) {
            taps.push_back(delivery.stamp.happened);
        }
    }
    for (const auto& press : block.presses) {
        if (press.happened <= until) {
            presses.push_back(press.happened);
        }
    }
    std::sort(presses.begin(), presses.end());
    std::size_t t = 0;
    std::size_t p = 0;
    while (t < taps.size() && p < presses.size()) {
        const auto gap = taps[t] > presses[p] ? taps[t] - presses[p] : presses[p] - taps[t];
        if (gap > window) {
            return std::min(taps[t], presses[p]);
        }
        ++t;
        ++p;
    }
    if (t < taps.size()) {
        return taps[t];
    }
    return p < presses.size() ? std::optional{presses[p]} : std::nullopt;
}

std::optional<MatterReading> matter_reading(const CaseState& state, const Policy& policy) {
    const auto& block = state.device();
    if (block.matters.empty()) {
        return std::nullopt;
    }
    const auto& said = block.matters.back().is;
    if (!block.saline) {
        return MatterReading{};
    }
    if (block.saline->is.method == SalineMethod::row && said.full_left) {
        return read_row(block, *said.full_left);
    }
    if (block.saline->is.method == SalineMethod::closed_tap && said.scale_g) {
        return read_bag(block, *said.scale_g, policy, nominal_syringe(state, policy));
    }
    MatterReading reading;
    reading.method = block.saline->is.method;
    return reading;
}

}  // namespace brimline
