// Deciding in Fill and Size: taps, parts, draw-backs, the question of a double tap, counts, the matter, the
// blind read-back, and corrections. A syringe that went in is never refused for clinical reasons.
#include "core/rules/fill.h"

#include <fmt/format.h>

#include "core/case/decide/stage.h"

namespace brimline::deciding {
namespace {

std::string ml_text(Millilitres v) {
    return Decimal::of_millionths(v.in_tenths() * (Decimal::scale / 10)).text();
}

/// Volumes of one delivery: refused when they cannot be, asked about when larger than any syringe of the
/// policy.
std::optional<Outcome> judged_volume(const Scene& scene, Millilitres ml) {
    const auto& fill = scene.setting.policy.fill;
    if (ml <= Millilitres{} || ml > fill.single_most) {
        return refused(
            coded("out-of-range", fmt::format("{} mL cannot be one syringe; above 0 and at most {} mL.",
                                              ml_text(ml), ml_text(fill.single_most))));
    }
    if (ml > fill.syringe_most && !scene.command.sure) {
        return implausible("ml", fmt::format("{} mL is more than one syringe holds ({} mL). Is it right?",
                                             ml_text(ml), ml_text(fill.syringe_most)));
    }
    return std::nullopt;
}

/// Too soon after the last tap of any kind, on the monotonic tick; never asked of entries made from paper.
bool is_double_tap(const Scene& scene) {
    const auto& last = scene.state.device().last_tap;
    if (!last || scene.command.how == How::paper || last->boot != scene.setting.boot) {
        return false;
    }
    return rules::is_double_tap(Duration{scene.setting.tick_us - last->tick_us},
                                scene.setting.policy.fill.double_tap);
}

Outcome asked_double_tap(const Question& question, bool with_event) {
    Outcome outcome;
    if (with_event) {
        outcome.events.push_back({DoubleTapAsked{question.id, question.ml}, {}, false});
    }
    outcome.asked = Asked{"double-tap", question.id, "", std::string{code_entry("double-tap").say}};
    return outcome;
}

template <class... T>
bool event_is(const Event& event) {
    return (std::holds_alternative<T>(event) || ...);
}
/// What the core concluded, or what is said again rather than corrected.
bool is_beyond_correction(const Event& event) {
    return event_is<Booked, EnteredRoom, Overridden, DoubleTapAsked, DoubleTapWas, CountsCompared,
                    ReadBackSaid, Corrected, Signed, Sealed, Addendum, HoldRaised, HoldEnded, ItemOpened,
                    ItemClosed, Attempt>(event);
}

Json changes_of(const Correct& says) {
    auto changes = parse_json(says.changes).value_or(Json::object());
    if (says.ml) {
        changes["ml"] = Json::parse(ml_text(*says.ml));
    }
    if (says.syringes) {
        changes["syringes"] = *says.syringes;
    }
    return changes;
}

/// What a correction says must be as possible as the entry itself: refused or asked about by the same rules.
/// Left out are statements that are judged by what stands now, not by their own values.
std::optional<Outcome> judged_anew(const Scene& scene, const Event& event) {
    return std::visit(
        [&](const auto& e) -> std::optional<Outcome> {
            using T = std::decay_t<decltype(e)>;
            using Judged =
                std::variant<Measure, Intake, Medicine, Answer, Airway, Consent, Vitals, Pause, Dose,
                             InfusionStart, Oxygen, AirwayEventEnd, EmergencyEnd, Finding, Sample, NoGo, Plan,
                             Saline, Dye, PartSyringe, Matter, Drink, Abandon, Depth, Symptom, Score>;
            if constexpr (std::is_same_v<T, SyringeCounted>) {
                return judged_volume(scene, e.ml);
            } else if constexpr (std::is_same_v<T, DrawBack>) {
                return e.ml <= Millilitres{}
                           ? std::optional{refused(coded("out-of-range", "A draw-back is more than 0 mL."))}
                           : std::nullopt;
            } else if constexpr (std::is_constructible_v<Judged, T>) {
                if (const auto fault = fault_of_whole(Statement{e})) {
                    return refused(
                        coded("out-of-range", fmt::format("Field {} {}.", fault->field, fault->say)));
                }
                auto outcome = decide_one(scene, e);
                return outcome.refusal || outcome.asked ? std::optional{std::move(outcome)} : std::nullopt;
            } else {
                return std::nullopt;
            }
        },
        event);
}

Outcome corrected_entry(const Scene& scene, const Correct& says) {
    const auto* kept = scene.state.kept(says.entry->seq);
    if (kept == nullptr || kept->withdrawn) {
        return refused(
            coded("no-such-entry", fmt::format("There is no entry {} in this case.", says.entry->seq)));
    }
    if (is_beyond_correction(kept->now.event)) {
        return refused(
            coded("no-such-entry", fmt::format("Entry {} ({}) is not corrected; say it again instead.",
                                               says.entry->seq, kind_of(kept->now.event))));
    }
    const auto changes = changes_of(says);
    const auto event = with_fields(kept->now.event, changes);
    if (!event) {
        return refused(
            coded("out-of-range", fmt::format("Field {} {}.", event.error().field, event.error().say)));
    }
    if (!says.withdrawn.value_or(false)) {
        if (auto outcome = judged_anew(scene, *event)) {
            return *outcome;
        }
    }
    const auto before = fields_json(kept->now.event);
    const auto after = fields_json(*event);
    Json old = Json::object();
    for (const auto& [key, value] : changes.items()) {
        old[key] = before.contains(key) ? before[key] : Json{};
    }
    Corrected done;
    done.entry = says.entry->seq;
    done.before = old.dump();
    done.after = changes.dump();
    done.reason = says.reason;
    done.with = says.with;
    done.evidence = says.evidence;
    done.withdrawn = says.withdrawn.value_or(false);
    done.happened_now = scene.command.happened;
    return recorded({{Event{done}, scene.at(), false}});
}

std::optional<Outcome> judged_correction(const Scene& scene, const Correct& says) {
    if (says.with && scene.setting.desk.person(*says.with) == nullptr) {
        return refused(coded("no-such-person", fmt::format("There is no person \"{}\".", *says.with)));
    }
    if (says.with == scene.command.by) {
        return refused(coded("same-person", "A correction is made with another person."));
    }
    if (says.reason.empty()) {
        return refused(coded("out-of-range", "A correction needs its reason."));
    }
    return std::nullopt;
}

}  // namespace

Outcome decide_one(const Scene& scene, const SyringeIn& says) {
    const auto ml = says.ml.value_or(nominal_syringe(scene.state, scene.setting.policy));
    if (auto outcome = judged_volume(scene, ml)) {
        return *outcome;
    }
    if (is_double_tap(scene)) {
        return asked_double_tap({next_question_id(scene.state), ml, {}, {}}, true);
    }
    return recorded(Event{SyringeCounted{ml}});
}

Outcome decide_one(const Scene& scene, const PartSyringe& says) {
    if (auto outcome = judged_volume(scene, says.ml)) {
        return *outcome;
    }
    return recorded(Event{says});
}

Outcome decide_one(const Scene& scene, const DrawBack& says) {
    if (says.ml <= Millilitres{}) {
        return refused(coded("out-of-range", "A draw-back is more than 0 mL."));
    }
    const auto in = possible_volume(scene.state.device());
    if (says.ml > in) {
        return refused(coded("nothing-to-draw", fmt::format("{} mL would come out, {} mL are in.",
                                                            ml_text(says.ml), ml_text(in))));
    }
    return recorded(Event{says});
}

Outcome decide_one(const Scene& scene, const DoubleTapWas& says) {
    for (const auto* question : open_questions(scene.state.device())) {
        if (question->id == says.question) {
            return recorded(Event{says});
        }
    }
    return refused(
        coded("no-such-entry", fmt::format("No open question \"{}\" in this case.", says.question)));
}

Outcome decide_one(const Scene& scene, const GoOnFilling& says) {
    const auto nominal = nominal_syringe(scene.state, scene.setting.policy);
    WentOn on{says.pushed_meanwhile, 0, {}};
    if (says.pushed_meanwhile == Pushed::one) {
        on = {says.pushed_meanwhile, 1, nominal};
    } else if (says.syringes) {
        if (*says.syringes < 1 || *says.syringes > 20) {
            return refused(coded("out-of-range", "1 to 20 syringes are allowed."));
        }
        on = {says.pushed_meanwhile, *says.syringes, nominal * *says.syringes};
    } else if (says.ml) {
        if (*says.ml <= Millilitres{} || *says.ml > nominal * 20) {
            return refused(coded("out-of-range", "What was pushed meanwhile is more than 0 mL."));
        }
        const auto whole = ratio_whole(
            says.ml->in_tenths() + nominal.in_tenths() - 1 - nominal.in_tenths() / 2, nominal.in_tenths());
        on = {says.pushed_meanwhile, std::max(1, static_cast<int>(whole)), *says.ml};
    }
    return recorded(Event{on});
}

Outcome decide_one(const Scene& scene, const CountCheck& says) {
    if (says.count < 0 || says.count > 100) {
        return refused(coded("out-of-range", "A count of syringes is 0 to 100."));
    }
    const auto& block = scene.state.device();
    if (const auto open = open_questions(block); !open.empty()) {
        return asked_double_tap(*open.front(), false);
    }
    CountsCompared counts;
    counts.said = says.count;
    counts.own = syringes_counted(block);
    counts.agreed = counts.said == counts.own;
    if (!block.presses.empty()) {
        counts.pedal = static_cast<int>(block.presses.size());
        counts.agreed = counts.agreed && *counts.pedal == counts.own;
        if (*counts.pedal != counts.own) {
            counts.parted_at = parted_at(block, scene.happened(), scene.setting.policy.fill.double_tap);
        }
    }
    return recorded(Event{counts});
}

Outcome decide_one(const Scene& scene, const Matter& says) {
    if ((says.full_left && (*says.full_left < 0 || *says.full_left > 100)) ||
        (says.scale_g && *says.scale_g < Decimal{})) {
        return refused(coded("out-of-range", "What is left is 0 or more."));
    }
    const auto& saline = scene.state.device().saline;
    const bool row = saline && saline->is.method == SalineMethod::row;
    const bool tap = saline && saline->is.method == SalineMethod::closed_tap;
    if ((says.full_left && tap) || (says.scale_g && row)) {
        return refused(
            coded("out-of-range", fmt::format("The saline is drawn as {}; the matter is given as {}.",
                                              name_of(saline->is.method), row ? "full_left" : "scale_g")));
    }
    return recorded(Event{says});
}

Outcome decide_one(const Scene& scene, const ReadBack& says) {
    const auto& block = scene.state.device();
    const auto* by = scene.setting.desk.person(scene.command.by);
    const bool only_assistant = by->roles.size() == 1 && by->has(Role::assistant);
    const bool tapped = std::any_of(block.deliveries.begin(), block.deliveries.end(), [&](const Delivery& d) {
        return d.kind == Delivery::Kind::syringe && d.stamp.by == scene.command.by;
    });
    if (!says.from && (only_assistant || tapped)) {
        return refused(
            coded("role-may-not", "The assistant holds the count and does not enter the read-back."));
    }
    const auto whose = scene.command.said_by.value_or(scene.command.by);
    if (!says.from && whose == scene.command.by && scene.state.scope_is_in()) {
        return refused(
            coded("same-person", "While the scope is in, another person enters what the physician says."));
    }
    ReadBackSaid said;
    said.from_pedal = says.from.has_value();
    if (says.from) {
        const auto pause = scene.state.pauses.find(PauseKind::before_device);
        if (pause == scene.state.pauses.end() || pause->second.present.size() != 2) {
            return refused(coded("role-may-not",
                                 "The pedal counts as read-back only where pause two lists two people."));
        }
        const auto nominal = nominal_syringe(scene.state, scene.setting.policy);
        said.ml = nominal * static_cast<std::int64_t>(block.presses.size());
    } else {
        said.ml = *says.ml;
    }
    if (said.ml < Millilitres{}) {
        return refused(coded("out-of-range", "A volume is 0 mL or more."));
    }
    said.counted = running_volume(block);
    const auto gap = said.ml > said.counted ? said.ml - said.counted : said.counted - said.ml;
    said.agreed =
        Millilitres{gap} <= scene.setting.policy.fill.read_back_tolerance && open_questions(block).empty();
    return recorded(Event{said});
}

Outcome decide_one(const Scene& scene, const Correct& says) {
    if (auto outcome = judged_correction(scene, says)) {
        return *outcome;
    }
    if (says.entry) {
        return corrected_entry(scene, says);
    }
    const auto nominal = nominal_syringe(scene.state, scene.setting.policy);
    const auto in = running_volume(scene.state.device());
    if (*says.ml == Millilitres{} || in + *says.ml < Millilitres{} || *says.ml > nominal * 20) {
        return refused(
            coded("out-of-range", fmt::format("A correction of {} mL cannot be; {} mL are counted.",
                                              ml_text(*says.ml), ml_text(in))));
    }
    CountCorrected done{*says.ml, 0, says.reason, says.with, says.evidence};
    const bool one = *says.ml == nominal || *says.ml == -nominal;
    const int sign = *says.ml > Millilitres{} ? 1 : -1;
    done.syringes = sign * std::abs(says.syringes.value_or(one ? 1 : 0));
    return recorded(Event{done});
}

}  // namespace brimline::deciding
