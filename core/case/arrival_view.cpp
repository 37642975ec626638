// What Arrival shows, from the state and the policy alone.
#include "core/case/arrival_view.h"

#include <algorithm>

#include "core/case/where_held.h"
#include "core/rules/body.h"
#include "core/rules/fasting.h"

namespace brimline {
namespace {

constexpr std::string_view blood_thinner = "anticoagulant-or-nsaid";
constexpr std::string_view pregnancy = "pregnancy-or-feeding";
constexpr std::string_view pregnancy_test = "pregnancy-test";

bool starts_with(std::string_view text, std::string_view start) {
    return text.substr(0, start.size()) == start;
}

rules::Intake rule_kind(IntakeKind kind) {
    switch (kind) {
        case IntakeKind::clear:
            return rules::Intake::clear_fluid;
        case IntakeKind::milk:
            return rules::Intake::milk;
        case IntakeKind::full_liquid:
            return rules::Intake::full_liquid;
        case IntakeKind::light_meal:
            return rules::Intake::light_meal;
        case IntakeKind::fatty_meal:
            return rules::Intake::fatty_meal;
        case IntakeKind::meal_unknown:
            return rules::Intake::meal_unknown;
    }
    return rules::Intake::meal_unknown;
}

FastLine::Kind line_of(IntakeKind kind) {
    if (rules::is_solid(rule_kind(kind))) {
        return FastLine::Kind::solids;
    }
    return kind == IntakeKind::clear ? FastLine::Kind::clear : FastLine::Kind::milk;
}

minutes wait_of(IntakeKind kind, CaseKind of, const FastingPolicy& policy) {
    if (of == CaseKind::placement) {
        return rules::fasting_required(rule_kind(kind), policy);
    }
    switch (line_of(kind)) {
        case FastLine::Kind::solids:
            return policy.removal_solid;
        case FastLine::Kind::milk:
            return policy.removal_full_liquid;
        case FastLine::Kind::clear:
            return policy.removal_clear;
    }
    return policy.removal_solid;
}

/// What a line asks for before anything of it is known: the longest of its kinds.
minutes wait_unasked(FastLine::Kind line, CaseKind of, const FastingPolicy& policy) {
    minutes longest{0};
    for (const auto kind : {IntakeKind::clear, IntakeKind::milk, IntakeKind::full_liquid,
                            IntakeKind::light_meal, IntakeKind::fatty_meal, IntakeKind::meal_unknown}) {
        if (line_of(kind) == line) {
            longest = std::max(longest, wait_of(kind, of, policy));
        }
    }
    return longest;
}

bool screen_answered(const CaseState& state, const Policy& policy) {
    const auto checks = screen_checks(policy);
    return std::all_of(checks.begin(), checks.end(),
                       [&](const Check* check) { return is_answered(state, check->id); });
}

bool has_answer(const CaseState& state, const Policy& policy, ArrivalPart part) {
    switch (part) {
        case ArrivalPart::identity:
            return state.identity && state.identity->is.identifiers.size() >= 2;
        case ArrivalPart::consent:
            return state.consent.has_value();
        case ArrivalPart::allergies:
            return state.allergies.has_value();
        case ArrivalPart::body:
            return state.measure.has_value();
        case ArrivalPart::fasting:
            return !state.intakes.empty();
        case ArrivalPart::medicines:
            return is_answered(state, blood_thinner) || !state.medicines.empty();
        case ArrivalPart::screen:  // a balloon that is in has to come out, whatever speaks against one
            return state.kind == CaseKind::removal || screen_answered(state, policy);
        case ArrivalPart::pregnancy:
            return state.patient.sex_at_birth == Sex::m ||
                   ((state.kind == CaseKind::removal || is_answered(state, pregnancy)) &&
                    is_answered(state, pregnancy_test));
        case ArrivalPart::airway:
            return state.airway.has_value();
        case ArrivalPart::escort:
            return state.escort.has_value();
        case ArrivalPart::balloon:
            return state.kind == CaseKind::placement || state.entry || state.elsewhere;
        case ArrivalPart::baseline:
            return !state.vitals.empty();
    }
    return true;
}

}  // namespace

OverrideBy override_by(const CaseState& state, const PersonKnown* chosen) {
    if (chosen != nullptr && chosen->has(Role::physician)) {
        return OverrideBy::own_pin;
    }
    return state.scope_is_in() ? OverrideBy::said : OverrideBy::nobody;
}

bool may_be_overridden(const Hold& hold) {
    return hold.hold_class == HoldClass::absolute || hold.hold_class == HoldClass::relative;
}

ArrivalPart part_of_hold(std::string_view code) {
    if (starts_with(code, "fasting-") || code == "removal-prep") {
        return ArrivalPart::fasting;
    }
    if (code == "medicine-window" || code == "screen-anticoagulant-or-nsaid") {
        return ArrivalPart::medicines;
    }
    if (starts_with(code, "screen-pregnancy")) {
        return ArrivalPart::pregnancy;
    }
    if (starts_with(code, "screen-")) {
        return ArrivalPart::screen;
    }
    return code == "consent-missing" ? ArrivalPart::consent : ArrivalPart::identity;
}

std::vector<const Hold*> arrival_holds(const CaseState& state) {
    std::vector<const Hold*> holds;
    for (const auto& hold : state.holds) {
        if (hold.stands() && stage_of_hold(hold.code) == Stage::arrival &&
            !starts_with(hold.code, "pause-")) {
            holds.push_back(&hold);
        }
    }
    return holds;
}

PartState part_state(const CaseState& state, const Policy& policy, ArrivalPart part) {
    const auto holds = arrival_holds(state);
    const bool held = std::any_of(holds.begin(), holds.end(),
                                  [&](const Hold* hold) { return part_of_hold(hold->code) == part; });
    if (held) {
        return PartState::held;
    }
    return has_answer(state, policy, part) ? PartState::done : PartState::open;
}

std::vector<ArrivalPart> arrival_missing(const CaseState& state, const Policy& policy) {
    std::vector<ArrivalPart> missing;
    for (int i = 0; i <= static_cast<int>(ArrivalPart::baseline); ++i) {
        const auto part = static_cast<ArrivalPart>(i);
        if (!has_answer(state, policy, part)) {
            missing.push_back(part);
        }
    }
    return missing;
}

std::optional<LocalDate> pre_visit_day(const CaseState& state, const Policy& policy, const Zone& zone,
                                       Instant now) {
    const auto today = zone.date_of(now);
    std::optional<LocalDate> day;
    const auto consider = [&](const Stamp& stamp) {
        const auto on = zone.date_of(stamp.happened);
        if (on < today && (!day || on > *day)) {
            day = on;
        }
    };
    for (const auto& kept : state.history) {
        const auto& event = kept.now.event;
        const bool of_arrival =
            std::holds_alternative<Answer>(event) || std::holds_alternative<Airway>(event) ||
            std::holds_alternative<Escort>(event) || std::holds_alternative<Medicine>(event) ||
            std::holds_alternative<Consent>(event);
        if (of_arrival && !kept.withdrawn) {
            consider(kept.now.stamp);
        }
    }
    const bool young = day && days_between(*day, today) <= policy.rules.unchanged_days;
    return young ? day : std::nullopt;
}

bool block_settled(const CaseState& state, Block block, const Zone& zone, Instant now) {
    const auto today = zone.date_of(now);
    const auto of_today = [&](const Stamp& stamp) { return zone.date_of(stamp.at) == today; };
    const bool confirmed = std::any_of(
        state.unchanged.begin(), state.unchanged.end(),
        [&](const Noted<Unchanged>& one) { return one.is.block == block && of_today(one.stamp); });
    switch (block) {
        case Block::medicines:
            return confirmed || std::any_of(state.medicines.begin(), state.medicines.end(),
                                            [&](const auto& m) { return of_today(m.stamp); });
        case Block::airway:
            return confirmed || (state.airway && of_today(state.airway->stamp));
        case Block::escort:
            return confirmed || (state.escort && of_today(state.escort->stamp));
        default:
            return confirmed;
    }
}

FastingView fasting_view(const CaseState& state, const Policy& policy, Instant now) {
    FastingView view;
    const auto start = state.sedation_start ? state.sedation_start->happened : now;
    view.reference = rules::fasting_reference(state.planned.value_or(start), start);
    bool known = true;
    std::optional<Instant> all;
    for (const auto kind : {FastLine::Kind::solids, FastLine::Kind::clear, FastLine::Kind::milk}) {
        FastLine line;
        line.kind = kind;
        line.wait = wait_unasked(kind, state.kind, policy.fasting);
        for (const auto& intake : state.intakes) {
            if (line_of(intake.is.kind) == kind) {
                line.last = intake.is.last;
                line.wait = wait_of(intake.is.kind, state.kind, policy.fasting);
            }
        }
        if (line.last && line.last->kind == LastIntake::Kind::at) {
            const auto fast = rules::judge_fast(line.last->at, view.reference, line.wait);
            line.elapsed_min = fast.elapsed_min;
            line.met = fast.met;
            line.earliest = fast.earliest;
            all = all ? std::max(*all, fast.earliest) : fast.earliest;
        } else if (line.last) {
            known = false;
        }
        view.lines.push_back(line);
    }
    view.all_met_at = known ? all : std::nullopt;
    return view;
}

bool asked_anew(const Check& check) {
    return check.id == blood_thinner || check.id == pregnancy || check.id == pregnancy_test;
}

std::vector<const Check*> screen_checks(const Policy& policy) {
    std::vector<const Check*> checks;
    for (const auto& check : policy.lists.screen) {
        if (!asked_anew(check)) {
            checks.push_back(&check);
        }
    }
    return checks;
}

const Check* screen_check(const Policy& policy, std::string_view id) {
    const auto& list = policy.lists.screen;
    const auto found = std::find_if(list.begin(), list.end(), [&](const Check& c) { return c.id == id; });
    return found == list.end() ? nullptr : &*found;
}

bool is_answered(const CaseState& state, std::string_view check) {
    const auto answer = state.answers.find(std::string{check});
    return answer != state.answers.end() && answer->second.is.value != Answered::not_known;
}

std::optional<BodyView> body_view(const CaseState& state, const Policy& policy) {
    const auto weight = weight_of(state);
    const auto height = height_of(state);
    if (!weight || !height) {
        return std::nullopt;
    }
    const auto bmi = rules::bmi(weight->weight, *height);
    return BodyView{rules::bmi_text(bmi), rules::ideal_weight(*height, policy.body.ideal_bmi).text(1),
                    rules::name_of(rules::bmi_class(bmi))};
}

std::optional<rules::StopBangScore> stop_bang_of(const CaseState& state, const Policy& policy,
                                                 const Zone& zone, Instant now) {
    if (!policy.airway.questionnaire || !state.airway || !state.airway->is.stop_bang) {
        return std::nullopt;
    }
    const auto& asked = *state.airway->is.stop_bang;
    rules::StopBang answers{asked.snores, asked.tired, asked.observed, asked.pressure, {}, {}, {}, {}};
    const auto weight = weight_of(state);
    const auto height = height_of(state);
    if (weight && height) {
        answers.bmi_over = rules::stop_bang_bmi(rules::bmi(weight->weight, *height));
    }
    if (state.patient.born) {
        answers.age_over =
            rules::stop_bang_age(age_on(*state.patient.born, zone.date_of(state.planned.value_or(now))));
    }
    if (asked.neck_cm) {
        answers.neck_over = rules::stop_bang_neck(*asked.neck_cm, policy.airway);
    }
    if (state.patient.sex_at_birth) {
        answers.male = *state.patient.sex_at_birth == Sex::m;
    }
    return rules::stop_bang(answers, policy.airway.two_step);
}

}  // namespace brimline
