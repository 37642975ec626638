// Worked examples of going home: checks, the hours after, diet, medicines, visits, warning lines, the card.
#include "app/desk/rules/rule.h"
#include "core/rules/card.h"
#include "core/rules/dates.h"
#include "core/rules/discharge.h"
#include "core/rules/fasting.h"
#include "core/rules/warning.h"

namespace brimline::worked {
namespace {

Outputs answer_drink(const Inputs& in) {
    const auto minute = [&](std::string_view name) -> std::optional<Instant> {
        const auto n = in.maybe_whole(name);
        return n ? std::optional{Instant{} + minutes{*n}} : std::nullopt;
    };
    const minutes keep{in.whole("keep_min", static_cast<int>(in.house().discharge.drink_kept.count()))};
    Outputs out;
    out.put("met", rules::drink_kept(minute("last_drink_minute"), minute("last_vomit_minute"),
                                     minute("now_minute").value_or(Instant{}), keep));
    return out;
}

/// Passing urine is recorded and never asked for.
Outputs answer_checks(const Inputs& in) {
    const DischargePolicy& house = in.house().discharge;
    const Inputs given = in.within("met");
    std::set<std::string, std::less<>> met;
    for (const std::string& id : given.names()) {
        if (given.truth(id)) {
            met.insert(id);
        }
    }
    if (rules::rating_met(in.maybe_whole("nausea_0_10"), house.max_nausea)) {
        met.insert("nausea");
    }
    if (rules::rating_met(in.maybe_whole("pain_0_10"), house.max_pain)) {
        met.insert("pain");
    }
    const auto missing = rules::discharge_missing(house.placed_checks, met, house);
    Outputs out;
    out.put("ready", missing.empty()).put("missing", missing);
    return out;
}

/// A reading that occurs twice is the later one: the limits end no earlier than they should.
Outputs answer_limits(const Inputs& in) {
    const Zone& zone = in.zone("zone");
    const Written written = in.written("discharged_local").value_or(Written{});
    const auto left =
        written.offset ? Expected<Instant>{written.as_utc()} : rules::intake_moment(written.reading(), zone);
    if (!left) {
        return refused(left.error().code);
    }
    const Instant until = rules::limits_until(*left, in.whole("hours", in.house().discharge.limits_h));
    Outputs out;
    out.put("until_utc", Moment{until}).put("until_local", Moment{until, &zone});
    return out;
}

Outputs answer_diet(const Inputs& in) {
    DietPolicy diet = in.house().diet;
    const Inputs policy = in.policy();
    diet.clear_days = policy.whole("clear_days", diet.clear_days);
    diet.full_through = policy.whole("full_liquids_through_day", diet.full_through);
    diet.soft_through = policy.whole("soft_through_day", diet.soft_through);
    if (diet.clear_days < 1 || diet.full_through <= diet.clear_days ||
        diet.soft_through <= diet.full_through) {
        return refused("plan-order");
    }
    const LocalDate placed = rules::placement_date(in.utc("released_utc"), in.zone("zone"));
    const auto plan = rules::diet_plan(placed, diet);
    Outputs out;
    out.put("placement_date", placed)
        .put("clear liquids", DateSpan{plan.clear_from, plan.clear_through})
        .put("full liquids", DateSpan{plan.full_from, plan.full_through})
        .put("soft food", DateSpan{plan.soft_from, plan.soft_through})
        .put("regular from", plan.regular_from);
    return out;
}

Outputs answer_visits(const Inputs& in) {
    const auto plan =
        rules::visit_plan(in.date("placement_date"), in.house().discharge, in.house().reg.visit_months,
                          rules::OpenDays{in.dates("closed_dates")});
    Outputs out;
    out.put("phone", plan.first_call).put("week 1", plan.second_call);
    for (const auto& [months, date] : plan.months) {
        out.put("month " + std::to_string(months), date);
    }
    return out;
}

Outputs answer_medicines(const Inputs& in) {
    const LocalDate placed = in.date("placement_date");
    Outputs out;
    out.put("antiemetic_last_day",
            rules::antiemetic_through(placed, in.whole("antiemetic_days", in.house().diet.antiemetic_days)))
        .put("acid_suppression_planned_to", rules::due_date(placed, in.house().dwell.months));
    return out;
}

Outputs answer_warnings(const Inputs& in) {
    const Millilitres dye = in.ml("dye_ml");
    Outputs out;
    out.put("coloured_urine_line", rules::coloured_urine_line(dye))
        .put("propofol_note_for_staff", rules::propofol_note(dye, in.truth("propofol_given")));
    return out;
}

Outputs answer_card(const Inputs& in) {
    std::vector<rules::CardLine> lines;
    const auto names = in.names();
    lines.reserve(names.size());
    for (const std::string& name : names) {
        lines.push_back({name, in.text(name)});
    }
    const auto missing = rules::implant_card_missing(lines);
    Outputs out;
    out.put("complete", missing.empty()).put("missing", missing);
    return out;
}

std::vector<Rule> before_home() {
    return {
        {"implant-card-complete",
         "device_name?: text, device_type?: text, serial?: text, lot?: text, udi?: text, maker_name?: text, "
         "maker_address?: text, maker_website?: text, patient?: text, implant_date?: text, "
         "institution_name?: text, institution_address?: text",
         "complete: true/false, missing: set of text",
         "after.md 1: Regulation (EU) 2017/745 Art. 18(1)(a), 18(2); MDCG 2019-8 v2 (summaries)",
         answer_card},
        {"discharge-drink-kept",
         "last_drink_minute?: whole, last_vomit_minute?: whole, now_minute: whole, keep_min?: whole",
         "met: true/false", "after.md 3: ASA 2002 (selected patients); common practice", answer_drink},
        {"discharge-checks",
         "met: {score?: true/false, time?: true/false, alert?: true/false, air?: true/false, "
         "drink?: true/false, escort?: true/false, cannula?: true/false, prescriptions?: true/false, "
         "advice?: true/false, card?: true/false}, nausea_0_10?: whole, pain_0_10?: whole, "
         "has_passed_urine?: true/false",
         "ready: true/false, missing: set of text",
         "after.md 3: ASA 2002 and 2013; RCEM list; Art. 18(2); the ratings are our reading", answer_checks},
        {"after-sedation-limits", "zone: zone, discharged_local: time, hours?: whole",
         "until_utc: time, until_local: time, refused?: true/false, reason?: text",
         "after.md 3: hospital leaflet after propofol; 10.1055/s-0034-1393414 (title)", answer_limits},
    };
}

}  // namespace

std::vector<Rule> going_home_rules() {
    std::vector<Rule> rules = before_home();
    const std::vector<Rule> afterwards{
        {"diet-plan",
         "zone: zone, released_utc: time, policy?: {clear_days?: whole, full_liquids_through_day?: whole, "
         "soft_through_day?: whole}",
         "placement_date: time, clear liquids: span of time, full liquids: span of time, "
         "soft food: span of time, regular from: time, refused?: true/false, reason?: text",
         "after.md 4.2: common practice, sources disagree; careful end kept", answer_diet},
        {"visit-plan", "placement_date: time, closed_dates?: list of time, open_weekdays?: one of Mon-Fri",
         "phone: time, week 1: time, month 1: time, month 2: time, month 3: time, month 4: time, "
         "month 5: time, month 9: time, month 12: time",
         "after.md 4.4: common practice", answer_visits},
        {"medicine-dates", "placement_date: time, antiemetic_days?: whole, acid_suppression?: text",
         "antiemetic_last_day: time, acid_suppression_planned_to: time",
         "after.md 4.2: AGA guideline 2021, recommendations 3 and 4; the dates are our reading",
         answer_medicines},
        {"warning-signs", "dye_ml: tenths, propofol_given: true/false",
         "coloured_urine_line: true/false, propofol_note_for_staff: true/false",
         "after.md 4.3: 10.1007/s11695-018-3205-0; PMID 14738690", answer_warnings},
    };
    rules.insert(rules.end(), afterwards.begin(), afterwards.end());
    return rules;
}

}  // namespace brimline::worked
