// Working out the figures of the fill for the pages that show them.
#include "core/case/fill_view.h"

#include <algorithm>

#include "core/rules/fill.h"
#include "core/rules/physics.h"

namespace brimline {
namespace {

constexpr seconds felt_for{2};

bool has_entry(const DeviceBlock& block, std::int64_t seq) {
    const auto is = [&](const auto& one) { return one.stamp.seq == seq; };
    return std::any_of(block.deliveries.begin(), block.deliveries.end(), is) ||
           std::any_of(block.questions.begin(), block.questions.end(), is);
}

bool dye_on_top(const DeviceBlock& block) {
    return block.dye && block.dye->is.ml && !block.dye->is.in_first_syringe.value_or(true);
}

bool went_in(const Delivery& d) { return d.ml > Millilitres{}; }

/// Builds the blocks; what was drawn back leaves the top.
class Blocks {
public:
    Blocks(const DeviceBlock& saved, const DeviceBlock& ahead, Millilitres nominal,
           std::optional<Millilitres> ceiling)
        : saved_{saved}, ahead_{ahead}, nominal_{nominal}, ceiling_{ceiling} {}

    std::vector<FillBlock> build() {
        for (const auto& d : ahead_.deliveries) {
            if (went_in(d)) {
                put_in(d);
            } else {
                take_out(-d.ml);
                number_ += d.syringes;
            }
        }
        for (const auto* question : open_questions(ahead_)) {
            push({{}, question->ml, 0, false, false, BlockState::waiting});
        }
        return std::move(blocks_);
    }

private:
    void put_in(const Delivery& d) {
        const bool even = d.syringes > 1 && d.ml == nominal_ * d.syringes;
        for (int i = 0; i < (even ? d.syringes : 1); ++i) {
            const bool first = blocks_.empty();
            auto ml = even ? nominal_ : d.ml;
            ml += first && dye_on_top(ahead_) ? *ahead_.dye->is.ml : Millilitres{};
            const bool part = d.kind == Delivery::Kind::part;
            number_ += even ? 1 : d.syringes;
            const bool dyed = first && ahead_.dye && ahead_.dye->is.ml;
            push({{}, ml, number_, part, dyed, state_of(d)});
        }
    }
    BlockState state_of(const Delivery& d) const {
        if (!has_entry(saved_, d.stamp.seq)) {
            return BlockState::unsaved;
        }
        return d.kind == Delivery::Kind::correction ? BlockState::corrected : BlockState::counted;
    }
    /// `block.to` comes as its volume.
    void push(FillBlock block) {
        block.from = top_;
        top_ += block.to;
        block.to = top_;
        if (block.state == BlockState::counted && ceiling_ && block.to > *ceiling_) {
            block.state = BlockState::above_ceiling;
        }
        blocks_.push_back(block);
    }
    void take_out(Millilitres ml) {
        top_ -= std::min(ml, top_);
        while (!blocks_.empty() && blocks_.back().from >= top_) {
            blocks_.pop_back();
        }
        if (!blocks_.empty()) {
            blocks_.back().to = std::min(blocks_.back().to, top_);
        }
    }

    const DeviceBlock& saved_;
    const DeviceBlock& ahead_;
    Millilitres nominal_;
    std::optional<Millilitres> ceiling_;
    std::vector<FillBlock> blocks_;
    Millilitres top_;
    int number_{0};
};

void count_whole(const DeviceBlock& block, FillView& view) {
    for (const auto& d : block.deliveries) {
        const bool whole =
            d.kind != Delivery::Kind::part && d.syringes != 0 && d.ml == view.nominal * d.syringes;
        view.whole += whole ? d.syringes : 0;
    }
    view.beside_whole = view.counted - view.nominal * view.whole;
}

void judge(const CaseState& ahead, const Policy& policy, FillView& view) {
    const auto& block = ahead.device();
    view.next_makes = view.possible + view.nominal;
    if (view.blocks.empty() && dye_on_top(block)) {
        view.next_makes += *block.dye->is.ml;
    }
    view.band = band_state(view.possible, ahead, policy);
    view.next_band = band_state(view.next_makes, ahead, policy);
    view.planned = band_of(ahead, policy);
    view.ceiling = ceiling_of(ahead, policy);
    if (view.planned) {
        view.to_aim = rules::syringes_until(view.possible, view.planned->aim, view.nominal);
        if (view.planned->aim > view.possible) {
            view.remainder = view.planned->aim - view.possible;
        }
    }
    if (view.ceiling && view.possible > *view.ceiling) {
        view.too_much = view.possible - *view.ceiling;
    }
}

void find_moments(const DeviceBlock& block, const Policy& policy, Instant now, FillView& view) {
    view.span = fill_span(block);
    view.pace_ml_min = pace_ml_min(block);
    Millilitres sum;
    for (const auto& d : block.deliveries) {
        sum += d.ml;
        if (d.kind == Delivery::Kind::syringe || d.kind == Delivery::Kind::part) {
            view.last = d.stamp.happened;
        }
        const bool above = view.planned && sum > view.planned->high;
        view.above_band_since = !above                  ? std::nullopt
                                : view.above_band_since ? view.above_band_since
                                                        : std::optional{d.stamp.happened};
    }
    for (const auto& check : block.checks) {
        if (check.is.agreed) {
            view.agreed = check.is;
            view.agreed_at = check.stamp.happened;
        }
    }
    view.felt = !block.presses.empty() && now - block.presses.back().happened < felt_for;
    const bool stopped = !block.stops.empty() && !block.stops.back().until;
    view.stalled = view.last && rules::fill_stalled(*view.last, now, stopped, policy.fill.stalled);
}

int entries(const DeviceBlock& block) {
    return static_cast<int>(block.deliveries.size() + block.questions.size());
}

}  // namespace

FillView fill_view(const CaseState& saved, const CaseState& ahead, const Policy& policy, Instant now) {
    const auto& block = ahead.device();
    const bool same_device = saved.devices.size() == ahead.devices.size();
    static const DeviceBlock nothing;
    const auto& on_disk = same_device ? saved.device() : nothing;
    FillView view;
    view.nominal = nominal_syringe(ahead, policy);
    view.saved = running_volume(on_disk);
    view.counted = running_volume(block);
    view.possible = possible_volume(block);
    view.unsaved = view.possible - possible_volume(on_disk);
    view.waiting_taps = static_cast<int>(open_questions(block).size());
    view.unsaved_taps = entries(block) - entries(on_disk);
    view.syringes = syringes_counted(block);
    count_whole(block, view);
    view.blocks = Blocks{on_disk, block, view.nominal, ceiling_of(ahead, policy)}.build();
    judge(ahead, policy, view);
    find_moments(block, policy, now, view);
    view.across = rules::sphere_diameter(view.possible);
    view.mass_g = rules::fill_mass(view.possible, policy.fill.saline_g_per_ml).text(0);
    return view;
}

Standing standing_of(Millilitres volume, const CaseState& state, const Policy& policy) {
    const auto planned = band_of(state, policy);
    return {band_state(volume, state, policy), planned && planned->aim == volume};
}

bool fill_in_hand(const DeviceBlock& block) {
    const bool begun = !block.deliveries.empty() || !block.questions.empty();
    if (!begun || block.off || block.not_left_in || block.read_back_stands) {
        return false;
    }
    // Looked at, and nothing went in or out since: filling is done until another syringe goes in.
    return block.matters.empty() || block.deliveries.empty() ||
           block.deliveries.back().stamp.seq > block.matters.back().stamp.seq;
}

std::optional<PushedQuestion> pushed_question(const CaseState& state, Instant started, Instant now) {
    const auto& block = state.device();
    if (!block.stops.empty() && !block.stops.back().until && !block.off && !block.not_left_in) {
        const auto& stop = block.stops.back();
        const auto since =
            block.deliveries.empty() ? stop.stamp.happened : block.deliveries.back().stamp.happened;
        return PushedQuestion{std::min(since, stop.stamp.happened), stop.reason, now - stop.stamp.happened};
    }
    if (!fill_in_hand(block)) {
        return std::nullopt;
    }
    std::optional<Stamp> before;
    for (const auto& d : block.deliveries) {
        if (d.stamp.at < started) {
            before = d.stamp;
        }
    }
    for (const auto& kept : state.history) {
        if (std::holds_alternative<WentOn>(kept.now.event) && kept.first.stamp.at >= started) {
            return std::nullopt;
        }
    }
    return before ? std::optional{PushedQuestion{before->happened, std::nullopt, started - before->at}}
                  : std::nullopt;
}

std::optional<Stamp> tap_before(const DeviceBlock& block, const Question& question) {
    std::optional<Stamp> before;
    const auto look = [&](const Stamp& stamp) {
        const bool earlier = stamp.seq < question.stamp.seq && (!before || stamp.seq > before->seq);
        before = earlier ? stamp : before;
    };
    for (const auto& d : block.deliveries) {
        look(d.stamp);
    }
    for (const auto& q : block.questions) {
        look(q.stamp);
    }
    return before;
}

std::string seconds_text(Duration d) {
    return ratio(d.count(), Duration{std::chrono::seconds{1}}.count(), 1).text();
}

std::vector<UnsavedTap> unsaved_moments(const CaseState& saved, const CaseState& ahead) {
    std::vector<UnsavedTap> taps;
    int number = 0;
    for (const auto& d : ahead.device().deliveries) {
        number += d.syringes;
        if (!has_entry(saved.device(), d.stamp.seq)) {
            taps.push_back({number, d.stamp.happened});
        }
    }
    for (const auto* question : open_questions(ahead.device())) {
        if (!has_entry(saved.device(), question->stamp.seq)) {
            taps.push_back({0, question->stamp.happened});
        }
    }
    return taps;
}

std::int64_t entry_at(const DeviceBlock& block, std::optional<Instant> t) {
    for (const auto& d : block.deliveries) {
        if (t == d.stamp.happened) {
            return d.stamp.seq;
        }
    }
    return 0;
}

std::int64_t press_at(const DeviceBlock& block, std::optional<Instant> t) {
    for (const auto& press : block.presses) {
        if (t == press.happened) {
            return press.seq;
        }
    }
    return 0;
}

std::optional<MatterReading> matter_as_said(const CaseState& state, const Matter& said,
                                            const Policy& policy) {
    auto with = state;
    with.device().matters.push_back({{}, said});
    return matter_reading(with, policy);
}

bool position_asked_again(const CaseState& state) {
    return state.standing("resistance") != nullptr || state.standing("position-lost") != nullptr;
}

}  // namespace brimline
