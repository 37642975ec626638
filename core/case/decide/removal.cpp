// Deciding at a removal: what was seen, the canister, what came out.
#include <fmt/format.h>

#include <algorithm>

#include "core/case/decide/stage.h"

namespace brimline::deciding {
namespace {

constexpr std::int64_t most_in_a_canister_dml =
    50'000;  // from memory: suction canisters hold up to 3 L, liners 5 L

std::optional<Refusal> not_here(const Scene& scene) {
    return scene.state.kind == CaseKind::removal ? std::nullopt : std::optional{coded("not-a-removal")};
}

template <class T>
Outcome of_a_removal(const Scene& scene, const T& says) {
    const auto refusal = not_here(scene);
    return refusal ? refused(*refusal) : recorded(Event{says});
}

std::string ml_text(Millilitres v) {
    return Decimal::of_millionths(v.in_tenths() * (Decimal::scale / 10)).text() + " mL";
}

/// A canister only fills: a reading below the one before is a slip, or a change that was not entered.
std::optional<Refusal> bad_reading(const Scene& scene, const Canister& says) {
    const auto most = Millilitres::of_tenths(most_in_a_canister_dml);
    if (says.ml < Millilitres{} || says.ml > most || (says.new_ml && *says.new_ml < Millilitres{})) {
        return coded("out-of-range", "A canister reads 0 to 5000 mL.");
    }
    const Noted<Canister>* before = nullptr;
    for (const auto& reading : scene.state.canister) {
        before = reading.stamp.happened <= scene.happened() ? &reading : before;
    }
    if (before == nullptr || says.moment == CanisterMoment::start) {
        return std::nullopt;
    }
    const auto held = before->is.moment == CanisterMoment::change ? before->is.new_ml.value_or(Millilitres{})
                                                                  : before->is.ml;
    if (says.ml < held) {
        return coded(
            "out-of-range",
            fmt::format("The canister read {} before and cannot read {} now; another canister is entered as "
                        "a change.",
                        ml_text(held), ml_text(says.ml)));
    }
    return std::nullopt;
}

}  // namespace

Outcome decide_one(const Scene& scene, const Puncture& says) { return of_a_removal(scene, says); }
Outcome decide_one(const Scene& scene, const Gas& says) { return of_a_removal(scene, says); }
Outcome decide_one(const Scene& scene, const SeenEmpty& says) { return of_a_removal(scene, says); }
Outcome decide_one(const Scene& scene, const Grasp& says) { return of_a_removal(scene, says); }
Outcome decide_one(const Scene& scene, const Out& says) { return of_a_removal(scene, says); }

/// Why earlier than planned comes from a list; other explanations are words of their own.
Outcome decide_one(const Scene& scene, const Explain& says) {
    if (says.what != Explain::What::early_removal) {
        return recorded(Event{says});
    }
    auto [reason, words] = reasoned(scene.setting.policy.lists.early_reasons, says.reason, says.words);
    return recorded(Event{Explain{says.what, std::move(reason), std::move(words)}});
}

Outcome decide_one(const Scene& scene, const BalloonSeen& says) {
    const auto states = ids_of(scene.setting.policy.lists.balloon_states);
    if (!holds_id(states, says.state)) {
        return refused(not_on_list("State", says.state, states));
    }
    return of_a_removal(scene, says);
}

Outcome decide_one(const Scene& scene, const Canister& says) {
    if (auto refusal = bad_reading(scene, says)) {
        return refused(*refusal);
    }
    return of_a_removal(scene, says);
}

Outcome decide_one(const Scene& scene, const Aspirated& says) {
    if (says.ml <= Millilitres{} || says.ml > Millilitres::of_tenths(most_in_a_canister_dml)) {
        return refused(coded("out-of-range", "What a syringe takes is above 0 mL and at most 5000 mL."));
    }
    return of_a_removal(scene, says);
}

Outcome decide_one(const Scene& scene, const Fluid& says) {
    const auto colours = ids_of(scene.setting.policy.lists.fluid_colours);
    if (!holds_id(colours, says.colour)) {
        return refused(not_on_list("Colour", says.colour, colours));
    }
    return of_a_removal(scene, says);
}

Outcome decide_one(const Scene& scene, const SecondLook& says) {
    auto [finding, words] = reasoned(scene.setting.policy.lists.second_look, says.finding, says.words);
    return of_a_removal(scene, SecondLook{std::move(finding), std::move(words)});
}

}  // namespace brimline::deciding
