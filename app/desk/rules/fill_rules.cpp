// Worked examples of the fill: the sum, taps, pace, counts, physics, and the read-back.
#include "app/desk/rules/rule.h"
#include "core/rules/fill.h"
#include "core/rules/physics.h"
#include "core/rules/read_back.h"

namespace brimline::worked {
namespace {

/// Band and ceiling of an example; the aim is its band's start where none is given.
rules::FillPlan plan_of(const Inputs& in) {
    const auto band = in.decimals("band");
    const auto tenths = [](Decimal ml) { return Millilitres::of_tenths(ml.whole(10).value_or(0)); };
    const Millilitres low = band.empty() ? Millilitres{} : tenths(band.front());
    const Millilitres high = band.empty() ? Millilitres{} : tenths(band.back());
    return {low, high, in.ml("target", low), in.ml("ceiling")};
}

/// One event; a correction of one nominal syringe counts one unless the example says otherwise.
rules::FillEntry entry_of(const Inputs& event, Millilitres syringe) {
    using Kind = rules::FillEntry::Kind;
    const std::string what = event.text("e");
    const Millilitres volume = event.ml("mL", syringe);
    const Kind kind = what == "dye"        ? Kind::dye
                      : what == "partial"  ? Kind::part
                      : what == "withdraw" ? Kind::withdrawn
                      : what == "correct"  ? Kind::correction
                                           : Kind::syringe;
    const int usual = volume == syringe ? 1 : volume == Millilitres{-syringe} ? -1 : 0;
    return {kind, volume, event.whole("syringes", usual)};
}

Outputs answer_sum(const Inputs& in) {
    const Millilitres syringe = in.ml("syringe_mL", in.house().fill.syringe);
    if (syringe <= Millilitres{}) {
        return refused("out-of-range");
    }
    const rules::FillPlan plan = plan_of(in);
    std::vector<rules::FillEntry> entries;
    for (const Inputs& event : in.objects("events")) {
        entries.push_back(entry_of(event, syringe));
    }
    const auto sum = rules::fill_sum(entries);
    const Millilitres next = sum.running + syringe;
    Members tap{{"mL", Value{Number{Fraction{next.in_tenths(), 10}, ratio(next.in_tenths(), 10, 1)}}},
                {"state", Value{std::string{rules::name_of(rules::fill_state(next, plan))}}}};
    Outputs out;
    out.put("running_mL", sum.running)
        .put("syringes", sum.syringes)
        .put("state", rules::name_of(rules::fill_state(sum.running, plan)))
        .put("next_tap", std::move(tap))
        .put("to_band", rules::syringes_until(sum.running, plan.low, syringe))
        .put("to_target", rules::syringes_until(sum.running, plan.aim, syringe))
        .put("to_ceiling", rules::syringes_that_fit(sum.running, plan.ceiling, syringe));
    return out;
}

Outputs answer_double_tap(const Inputs& in) {
    const seconds limit{in.policy().whole("min_s", static_cast<int>(in.house().fill.double_tap.count()))};
    const std::chrono::milliseconds since{in.whole("ms_since_last")};
    Outputs out;
    out.put("result", rules::is_double_tap(since, limit) ? "question" : "counted");
    return out;
}

Outputs answer_pace(const Inputs& in) {
    std::vector<rules::Delivery> taps;
    for (const Inputs& tap : in.objects("taps")) {
        taps.push_back({tap.utc("at"), tap.ml("mL")});
    }
    std::vector<rules::Pause> pauses;
    for (const auto& span : in.spans("pauses")) {
        if (span.size() == 2) {
            pauses.emplace_back(span[0].as_utc(), span[1].as_utc());
        }
    }
    const int fast = in.policy().whole("fast_mL_per_min", in.house().fill.fast_ml_min);
    const auto pace = rules::fill_pace(in.utc("line_connected"), taps, pauses, fast);
    Outputs out;
    out.put("overall_mL_per_min", pace.overall)
        .put("last_three_mL_per_min", pace.last_three)
        .put("too_fast", pace.fast);
    return out;
}

Outputs answer_count_check(const Inputs& in) {
    const int every = in.policy().whole("every", in.house().fill.count_check_every);
    Outputs out;
    out.put("due", rules::count_check_due(in.whole("syringes"), in.whole("last_agreed_at"), every));
    return out;
}

/// Half a syringe is the tolerance; in hundredths, so that half of an odd tenth is exact.
Outputs answer_bag(const Inputs& in) {
    const auto twice = [](Millilitres ml) { return ml * 2; };
    const auto doubled =
        rules::bag_check(twice(in.ml("bag_start_mL")), twice(in.ml("bag_left_mL")), twice(in.ml("waste_mL")),
                         twice(in.ml("saline_counted_mL")), in.ml("syringe_mL", in.house().fill.syringe));
    const auto check = rules::bag_check(in.ml("bag_start_mL"), in.ml("bag_left_mL"), in.ml("waste_mL"),
                                        in.ml("saline_counted_mL"), {});
    Outputs out;
    out.put("difference_mL", check.difference).put("hold", doubled.hold);
    return out;
}

Outputs answer_syringes(const Inputs& in) {
    const auto check = rules::syringe_check(in.whole("laid_out"), in.whole("left_over"), in.whole("counted"));
    Outputs out;
    out.put("difference", check.difference).put("hold", check.hold());
    return out;
}

Outputs answer_geometry(const Inputs& in) {
    const Millilitres volume = in.ml("volume_mL");
    if (volume < Millilitres{}) {
        return refused("out-of-range");
    }
    const Decimal density = in.decimal("density_g_per_mL", in.house().fill.saline_g_per_ml);
    Outputs out;
    out.put("diameter_cm", Fraction{rules::sphere_diameter(volume).in_tenths(), 10}, 1)
        .put("mass_g", rules::fill_mass(volume, density), 0)
        .put("mass_lb", rules::fill_mass_lb(volume, density), 1);
    return out;
}

Outputs answer_osmolarity(const Inputs& in) {
    const Decimal molar = in.decimal("molar_mass");
    const int ions = in.whole("ions");
    if (molar <= Decimal{} || ions < 1 || ions > 100) {
        return refused("out-of-range");
    }
    Outputs out;
    out.put("mOsm_per_L", rules::osmolarity(in.decimal("nacl_g_per_L"), molar, ions), 1);
    return out;
}

Outputs answer_read_back(const Inputs& in) {
    const Millilitres counted = in.ml("count_mL");
    const auto judged = rules::judge_read_back(counted, in.ml("read_back_mL"), in.truth("same_person"),
                                               in.house().fill.read_back_tolerance);
    const auto state = rules::fill_state(counted, plan_of(in));
    const bool too_much = rules::withdraw_or_override(state);
    Outputs out;
    out.put("equal", judged.equal)
        .put("confirmed", judged.confirmed && !too_much)  // above the ceiling something comes out first
        .put("state", rules::name_of(state))
        .put("reason_needed", rules::reason_needed(state))
        .put("withdraw_or_override", too_much);
    return out;
}

}  // namespace

std::vector<Rule> fill_rules() {
    return {
        {"fill-sum",
         "syringe_mL?: tenths, band: list of tenths, target?: tenths, ceiling: tenths, "
         "events: list of {e: one of syringe|partial|dye|withdraw|correct, mL?: tenths, syringes?: whole}",
         "running_mL: decimal, syringes: whole, state: text, next_tap: {mL: decimal, state: text}, "
         "to_band: whole, to_target: whole, to_ceiling: whole, refused?: true/false, reason?: text",
         "before.md 13: case design, common practice", answer_sum},
        {"double-tap", "ms_since_last: whole, policy?: {min_s?: whole}", "result: text",
         "before.md 13: common practice", answer_double_tap},
        {"fill-pace",
         "line_connected: time, taps: list of {at: time, mL: tenths}, pauses?: list of list of time, "
         "policy?: {fast_mL_per_min?: whole}",
         "overall_mL_per_min?: whole, last_three_mL_per_min?: whole, too_fast: true/false",
         "before.md 13: usual teaching, common practice", answer_pace},
        {"count-check", "syringes: whole, last_agreed_at: whole, policy?: {every?: whole}", "due: true/false",
         "before.md 13: case design, common practice", answer_count_check},
        {"bag-check",
         "bag_start_mL: tenths, bag_left_mL: tenths, saline_counted_mL: tenths, waste_mL?: tenths, "
         "syringe_mL?: tenths",
         "difference_mL: decimal, hold: true/false", "before.md 13: case design, common practice",
         answer_bag},
        {"syringe-check", "laid_out: whole, left_over: whole, counted: whole",
         "difference: whole, hold: true/false", "before.md 13: case design, refined", answer_syringes},
        {"geometry", "volume_mL: tenths, density_g_per_mL?: decimal",
         "diameter_cm: decimal, mass_g: decimal, mass_lb: decimal, refused?: true/false, reason?: text",
         "before.md 14: geometry; CRC Handbook, concentrative properties of aqueous solutions",
         answer_geometry},
        {"osmolarity", "nacl_g_per_L: decimal, molar_mass: decimal, ions: whole",
         "mOsm_per_L: decimal, refused?: true/false, reason?: text",
         "before.md 14: g/L over molar mass, times ions", answer_osmolarity},
        {"read-back",
         "count_mL: tenths, read_back_mL: tenths, same_person: true/false, band?: list of tenths, "
         "ceiling?: tenths",
         "equal: true/false, confirmed: true/false, state?: text, reason_needed?: true/false, "
         "withdraw_or_override?: true/false",
         "before.md 15: case design; independent double check", answer_read_back},
    };
}

}  // namespace brimline::worked
