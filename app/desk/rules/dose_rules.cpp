// Worked examples of doses: totals, per kg, volumes, and checks of typing. Never advice on a dose.
#include <algorithm>
#include <numeric>

#include "app/desk/rules/rule.h"
#include "core/rules/dose.h"

namespace brimline::worked {
namespace {

/// The house's entry for a drug; a drug that is not on the formulary has no limits.
Drug drug_of(const Inputs& in) {
    const Drug* known = in.house().drug(in.text("drug"));
    return known == nullptr ? Drug{} : *known;
}

Outputs answer_total(const Inputs& in) {
    const auto doses = in.decimals("doses");
    const Decimal total = std::accumulate(doses.begin(), doses.end(), Decimal{});
    const Kilograms weight = in.kg("weight_kg");
    const Decimal per_ml = in.decimal("concentration_per_mL");
    if (total < Decimal{} || weight <= Kilograms{} || per_ml <= Decimal{}) {
        return refused("out-of-range");
    }
    Outputs out;
    out.put("total", total)
        .put_shown("per_kg", rules::per_kg_text(rules::per_kg(total, weight)))
        .put("volume_mL", rules::dose_volume(total, per_ml), 2);
    return out;
}

Outputs answer_span(const Inputs& in) {
    Drug drug = drug_of(in);
    if (const auto usual = in.policy().decimals("usual"); usual.size() == 2) {
        drug.usual_low = usual[0];
        drug.usual_high = usual[1];
    }
    Outputs out;
    out.put("ask", rules::dose_asked(in.decimal("dose"), drug.usual_low, drug.usual_high));
    return out;
}

/// What an example says rules; where it says one limit alone, that one stands for all ages.
Outputs answer_cumulative(const Inputs& in) {
    Drug drug = drug_of(in);
    const Inputs policy = in.policy();
    if (policy.has("limit_mg") || policy.has("limit_mg_from_60")) {
        drug.remind_above = policy.maybe_decimal("limit_mg");
        drug.remind_above_older = policy.maybe_decimal("limit_mg_from_60");
    }
    const auto limit = rules::dose_limit(drug, in.maybe_whole("age_years"), std::nullopt, in.house().dose);
    Outputs out;
    out.put("remind", rules::dose_reminds(in.decimal("total_mg"), limit));
    return out;
}

Outputs answer_lidocaine(const Inputs& in) {
    const Drug* house = in.house().drug("lidocaine");
    Drug drug = house == nullptr ? Drug{} : *house;
    const Inputs policy = in.policy();
    drug.remind_above = policy.has("max_mg") ? policy.maybe_decimal("max_mg") : drug.remind_above;
    drug.remind_per_kg =
        policy.has("max_mg_per_kg") ? policy.maybe_decimal("max_mg_per_kg") : drug.remind_per_kg;
    const auto limit = rules::dose_limit(drug, std::nullopt, in.kg("weight_kg"), in.house().dose);
    Outputs out;
    out.put("limit_mg", limit, 1).put("remind", rules::dose_reminds(in.decimal("total_mg"), limit));
    return out;
}

Outputs answer_dye_dose(const Inputs& in) {
    const Kilograms weight = in.kg("weight_kg");
    if (weight <= Kilograms{}) {
        return refused("out-of-range");
    }
    const Millilitres volume = in.ml("volume_mL");
    const Decimal strength = in.decimal("concentration_mg_per_mL");
    Outputs out;
    out.put("total_mg", rules::dye_mg(volume, strength), 1)
        .put_shown("per_kg", rules::per_kg_text(rules::dye_mg_per_kg(volume, strength, weight)));
    return out;
}

}  // namespace

std::vector<Rule> dose_rules() {
    return {
        {"dose-total",
         "drug: text, unit: one of mg|microgram, doses: list of decimal, concentration_per_mL: decimal, "
         "weight_kg: tenths",
         "total: decimal, per_kg: decimal, volume_mL: decimal, refused?: true/false, reason?: text",
         "before.md 9: arithmetic; two decimals per kg, three below 0.1 (common practice)", answer_total},
        {"dose-span",
         "drug: text, unit: one of mg|microgram, dose: decimal, policy?: {usual?: list of decimal}",
         "ask: true/false",
         "before.md 9: Eur Respir Rev 2013;22:106; Thorax 2013;68 suppl 1; product information 4.2",
         answer_span},
        {"dose-cumulative",
         "drug: text, total_mg: decimal, age_years?: whole, "
         "policy?: {limit_mg?: decimal, limit_mg_from_60?: decimal}",
         "remind: true/false", "before.md 9: midazolam product information 4.2; Thorax 2013;68 suppl 1",
         answer_cumulative},
        {"lidocaine",
         "weight_kg: tenths, total_mg: decimal, policy?: {max_mg?: decimal, max_mg_per_kg?: decimal}",
         "limit_mg?: decimal, remind: true/false",
         "before.md 9: spray label (up to 20 puffs); 4 % solution label (never above 4.5 mg/kg)",
         answer_lidocaine},
        {"dye-dose", "volume_mL: tenths, concentration_mg_per_mL: decimal, weight_kg: tenths",
         "total_mg: decimal, per_kg: decimal, refused?: true/false, reason?: text",
         "before.md 11: arithmetic", answer_dye_dose},
    };
}

}  // namespace brimline::worked
