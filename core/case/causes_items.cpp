// The causes of open items, and the events that bring holds and items in line with their causes.
#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "core/case/causes.h"
#include "core/desk/register.h"
#include "core/rules/airway.h"
#include "core/rules/body.h"

namespace brimline {
namespace {

struct View {
    const CaseState& s;
    const Setting& setting;
    Instant now;
    std::vector<ItemCause>& out;

    /// Somebody of that role: present at the latest pause, else the first known.
    [[nodiscard]] std::optional<std::string> owner(Role role) const {
        if (const auto held = s.role_holder.find(std::string{name_of(role)}); held != s.role_holder.end()) {
            return held->second;
        }
        for (auto pause = s.pauses.rbegin(); pause != s.pauses.rend(); ++pause) {
            for (const auto& id : pause->second.present) {
                const auto* person = setting.desk.person(id);
                if (person != nullptr && person->has(role)) {
                    return id;
                }
            }
        }
        for (const auto& [id, person] : setting.desk.people) {
            if (person.has(role)) {
                return id;
            }
        }
        return std::nullopt;
    }
    /// The day of the case: what is open from it is due on it, unless it says otherwise.
    [[nodiscard]] LocalDate day() const { return setting.zone.date_of(s.planned.value_or(now)); }
    void add(std::string code, std::string say, std::optional<std::string> whose, LocalDate due) const {
        out.push_back({std::move(code), std::move(say), std::move(whose), due});
    }
    void add(std::string code, std::string say, Role role) const {
        add(std::move(code), std::move(say), owner(role), day());
    }
    /// Review cards stay until the physician has seen them: said so, or signed.
    void review(std::string what, std::string say) const {
        const std::string code = "review-" + what;
        const bool seen = std::find(s.seen.begin(), s.seen.end(), code) != s.seen.end();
        if (!seen && !is_signed(Part::physician)) {
            add(code, std::move(say), Role::physician);
        }
    }
    [[nodiscard]] bool is_signed(Part part) const { return s.signatures.find(part) != s.signatures.end(); }
};

/// What was not answered when sedation began.
void unanswered(const View& v) {
    if (!v.s.sedation_start) {
        return;
    }
    const auto missing = [&](bool there, const char* what, std::string say) {
        if (!there) {
            v.add(std::string{"unanswered-"} + what, std::move(say), Role::nurse);
        }
    };
    missing(v.s.allergies.has_value(), "allergies", "Allergies were not asked.");
    missing(weight_of(v.s).has_value(), "weight", "The weight is not known.");
    missing(!v.s.intakes.empty(), "fasting", "The last meal and drink were not asked.");
    missing(v.s.airway.has_value(), "airway", "The airway was not looked at.");
    missing(v.s.escort.has_value(), "escort", "The escort is not named.");
    const auto& screen = v.setting.policy.lists.screen;
    const auto left = std::count_if(screen.begin(), screen.end(), [&](const Check& check) {
        const auto answer = v.s.answers.find(check.id);
        return answer == v.s.answers.end() || answer->second.is.value == Answered::not_known;
    });
    missing(left == 0 || v.s.kind == CaseKind::removal, "screen",
            fmt::format("{} of {} contraindication checks have no answer.", left, screen.size()));
}

std::optional<Fraction> bmi_of(const CaseState& s) {
    const auto weight = weight_of(s);
    const auto height = height_of(s);
    return weight && height ? std::optional{rules::bmi(weight->weight, *height)} : std::nullopt;
}

std::optional<int> age_of(const View& v) {
    const auto on = v.setting.zone.date_of(v.s.planned.value_or(v.now));
    return v.s.patient.born ? std::optional{age_on(*v.s.patient.born, on)} : std::nullopt;
}

/// BMI, age and sex come from the record; the rest was asked.
rules::ApnoeaRisk apnoea_risk(const View& v) {
    const auto& policy = v.setting.policy.airway;
    if (!policy.questionnaire || !v.s.airway || !v.s.airway->is.stop_bang) {
        return rules::ApnoeaRisk::incomplete;
    }
    const auto& asked = *v.s.airway->is.stop_bang;
    rules::StopBang answers{asked.snores, asked.tired, asked.observed, asked.pressure, {}, {}, {}, {}};
    if (const auto bmi = bmi_of(v.s)) {
        answers.bmi_over = rules::stop_bang_bmi(*bmi);
    }
    if (const auto age = age_of(v)) {
        answers.age_over = rules::stop_bang_age(*age);
    }
    if (asked.neck_cm) {
        answers.neck_over = rules::stop_bang_neck(*asked.neck_cm, policy);
    }
    if (v.s.patient.sex_at_birth) {
        answers.male = *v.s.patient.sex_at_birth == Sex::m;
    }
    return rules::stop_bang(answers, policy.two_step).risk;
}

void reviews(const View& v) {
    const auto& body = v.setting.policy.body;
    if (const auto bmi = bmi_of(v.s); bmi && rules::bmi_reviewed(*bmi, body)) {
        v.review("bmi", fmt::format("BMI {}.", rules::bmi_text(*bmi)));
    }
    if (const auto age = age_of(v); age && rules::age_reviewed(*age, body)) {
        v.review("age", fmt::format("Age {} years.", *age));
    }
    if (v.s.airway) {
        const auto& a = v.s.airway->is;
        const auto risk = apnoea_risk(v);
        if (rules::airway_reviewed(a.asa, a.mallampati, risk, a.earlier_trouble, v.setting.policy.airway)) {
            v.review("airway",
                     fmt::format("ASA {}, Mallampati {}{}{}.", a.asa, a.mallampati,
                                 risk == rules::ApnoeaRisk::high ? ", high risk of sleep apnoea" : "",
                                 a.earlier_trouble ? ", earlier trouble with sedation" : ""));
        }
    }
    const auto has = [&](MedicineGroup group) {
        return std::any_of(v.s.medicines.begin(), v.s.medicines.end(),
                           [&](const auto& m) { return m.is.group == group; });
    };
    if (has(MedicineGroup::glp1)) {
        v.review("glp1", "A drug that slows the stomach: plan for the airway.");
    }
    const auto& dye = v.s.device().dye;
    if (dye && dye->is.ml && (has(MedicineGroup::serotonergic) || has(MedicineGroup::maoi))) {
        v.review("dye", "Methylene blue beside a serotonergic drug: the physician confirms, or no dye.");
    }
}

/// Checks whose bad answer is for the physician to look at, without a hold.
void reviewed_answers(const View& v) {
    for (const auto& check : v.setting.policy.lists.screen) {
        const auto answer = v.s.answers.find(check.id);
        if (check.hold_class != "review" || answer == v.s.answers.end()) {
            continue;
        }
        const auto value = answer->second.is.value;
        if ((value == Answered::yes || value == Answered::no) && name_of(value) != check.good) {
            v.review(check.id, fmt::format("{} Answered {}.", check.words, name_of(value)));
        }
    }
}

void look(const View& v) {
    for (const auto& sample : v.s.samples) {
        const auto& s = sample.is;
        v.add(fmt::format("sample-{}", sample.stamp.seq),
              fmt::format("{} from the {}, {} {}: result.", s.kind, s.site, s.pieces,
                          s.pieces == 1 ? "piece" : "pieces"),
              s.owner, s.due);
    }
    if (v.s.no_go && v.s.no_go->is.look_again) {
        const auto& again = *v.s.no_go->is.look_again;
        v.add("look-again", fmt::format("Look again, not before {}.", date_words(again.not_before)),
              again.owner, again.not_before);
    }
}

bool explained(const CaseState& s, Explain::What what) {
    const auto& said = s.device().explained;
    return std::any_of(said.begin(), said.end(), [&](const auto& e) { return e.is.what == what; });
}

void devices(const View& v) {
    const auto& block = v.s.device();
    if (!block.label && (block.passed || !block.deliveries.empty() || block.off) && !block.not_left_in) {
        v.add("device-profile", "Which device it is, is not known: the shortest dwell counts.",
              Role::coordinator);
    } else if (block.label && block.label->is.how == LabelHow::unreadable) {
        v.add("label-unreadable", "The device label could not be read.", Role::assistant);
    } else if (block.label && !profile_of(block, v.setting.policy)) {
        v.add("device-profile",
              "The device is not among the clinic's profiles; the ceiling comes from the plan.",
              Role::coordinator);
    }
    if (!block.off || block.not_left_in) {
        return;
    }
    const auto state = band_state(running_volume(block), v.s, v.setting.policy);
    if (state == FillBand::above_band && !explained(v.s, Explain::What::above_band)) {
        v.add("explain-above-band", "The volume is above the band: the reason is missing.", Role::physician);
    } else if (state == FillBand::below_band && !explained(v.s, Explain::What::below_band)) {
        v.add("explain-below-band", "The volume is below the band: the reason is missing.", Role::physician);
    }
}

void overrides(const View& v) {
    for (const auto& hold : v.s.holds) {
        if (hold.overrides.empty()) {
            continue;
        }
        const bool worded = std::any_of(hold.overrides.begin(), hold.overrides.end(),
                                        [](const auto& o) { return o.is.words && !o.is.words->empty(); });
        if (!worded) {
            v.add("words-" + hold.code, fmt::format("The override of {} has no words yet.", hold.code),
                  Role::physician);
        }
        if (hold.overrides.back().is.to_countersign && !v.is_signed(Part::physician)) {
            v.add("countersign-" + hold.code, fmt::format("The override of {} is to countersign.", hold.code),
                  hold.overrides.back().stamp.said_by, v.day());
        }
    }
    for (const auto& proviso : v.s.provisos) {
        const auto names = names_of(Stage{});
        const auto found = std::find(names.begin(), names.end(), proviso.said.stage);
        const auto stage = static_cast<Stage>(found - names.begin());
        if (!proviso.answer && stage_reached(v.s, stage)) {
            v.add("proviso-" + proviso.id, proviso.said.condition, Role::physician);
        }
    }
}

void paper(const View& v) {
    if (!v.s.leaflet && !v.s.card) {
        return;
    }
    const auto& reads = v.s.patient.language;
    if (v.s.leaflet && reads && v.s.leaflet->is.language != *reads) {
        v.add("leaflet-language",
              fmt::format("The sheet was given in another language ({}) than the patient reads ({}).",
                          v.s.leaflet->is.language, *reads),
              Role::nurse);
    }
    const auto given = std::max(v.s.leaflet ? v.s.leaflet->stamp.seq : 0, v.s.card ? v.s.card->stamp.seq : 0);
    const auto changed = [&](std::int64_t seq, std::int64_t entry) {
        const auto* kept = v.s.kept(entry);
        const bool printed = kept != nullptr && (std::holds_alternative<DeviceOff>(kept->now.event) ||
                                                 std::holds_alternative<DeviceOpened>(kept->now.event) ||
                                                 std::holds_alternative<Dye>(kept->now.event));
        return seq > given && printed;
    };
    const bool counts = std::any_of(v.s.count_corrections.begin(), v.s.count_corrections.end(),
                                    [&](const auto& c) { return c.stamp.seq > given; });
    const bool entries = std::any_of(v.s.corrections.begin(), v.s.corrections.end(),
                                     [&](const auto& c) { return changed(c.stamp.seq, c.is.entry); });
    if (counts || entries) {
        v.add("printed-sheet-out-of-date", "The printed sheet is out of date: replace it, call.",
              Role::nurse);
    }
}

void without_a_name(const View& v) {
    const auto entries = nameless(v.s);
    if (!entries.empty()) {
        v.add(
            "who-it-was",
            fmt::format("{} made while nobody was signed in, from {}: who was it?",
                        entries.size() == 1 ? "1 entry was" : fmt::format("{} entries were", entries.size()),
                        clock_text(entries.front().at, v.setting.zone)),
            Role::nurse);
    }
}

void signatures(const View& v) {
    const auto name = v.s.patient.family_name.value_or("unknown");
    if (name == "unknown" || !v.s.patient.number) {
        v.add("identity", "Who the patient is, is not complete.", Role::nurse);
    }
    if (!v.s.discharged || v.s.sealed) {
        return;
    }
    const std::array<std::pair<Part, Role>, 3> parts{{{Part::sedation, Role::sedation_provider},
                                                      {Part::nursing, Role::nurse},
                                                      {Part::physician, Role::physician}}};
    for (const auto& [part, role] : parts) {
        if (!v.is_signed(part)) {
            v.add(fmt::format("sign-{}", name_of(part)),
                  fmt::format("The part \"{}\" is not signed.", name_of(part)), role);
        }
    }
}

void removal_steps(const View& v) {
    if ((v.s.grasp || v.s.out) && !v.s.seen_empty) {
        v.add("seen-empty", "The balloon was taken out before it was seen empty.", Role::physician);
    }
    const auto& readings = v.s.canister;
    const bool started = !readings.empty() && (readings.front().is.moment == CanisterMoment::start ||
                                               readings.front().is.moment == CanisterMoment::change);
    if (v.s.puncture && !started) {
        v.add("canister-start", "The canister was not read before the puncture.", Role::assistant);
    }
    if (v.s.out && v.s.out->is.kept) {
        const auto due = add_days(v.day(), v.setting.policy.dwell.soon_days);
        v.add("explant-report", "The balloon was kept: report to its maker.", v.owner(Role::coordinator),
              due);
    }
}

rules::FluidOut fluid_class(const std::string& colour) {
    const bool blue = colour == "pale-blue" || colour == "blue";
    return blue                ? rules::FluidOut::dyed
           : colour == "clear" ? rules::FluidOut::clear
                               : rules::FluidOut::cloudy_or_brown;
}

void removal_figures_told(const View& v) {
    const auto figures = removal_figures(v.s, v.setting.desk, v.setting.policy, v.setting.zone);
    const auto state = figures.compared.state;
    const bool differs = state == rules::Recovered::less || state == rules::Recovered::more;
    if (v.s.out && differs && !explained(v.s, Explain::What::recovered_differs)) {
        v.add("explain-recovered-differs",
              "What came out differs from what was put in: the reason is missing.", Role::physician);
    }
    if (figures.timing == rules::RemovalTiming::early && !explained(v.s, Explain::What::early_removal)) {
        v.add("explain-early-removal", "Removed early: the reason is missing.", Role::physician);
    }
    if (!v.s.fluid.empty() && figures.placement && figures.placement->dye) {
        const auto reading =
            rules::read_fluid(*figures.placement->dye, fluid_class(v.s.fluid.back().is.colour));
        if (reading != rules::FluidReading::expected) {
            v.review("fluid", fmt::format("The fluid: {}.", rules::name_of(reading)));
        }
    }
}

/// Flags of an entry whose balloon is still in, for the physician to look at; on its removal as well.
void flagged(const View& v) {
    const auto* placed = v.s.entry ? v.setting.desk.case_of_entry(*v.s.entry) : &v.s;
    if (placed == nullptr || removal_of(*placed, v.setting.desk) != nullptr || v.s.out) {
        return;
    }
    for (const auto& flag : placed->flags) {
        const std::string code = "review-" + flag.is.flag;
        const bool seen = std::find(v.s.seen.begin(), v.s.seen.end(), code) != v.s.seen.end();
        if (flag.is.flag != "not-reached" && !seen) {
            v.add(code, flag_words(flag.is.flag), Role::physician);
        }
    }
}

void not_reached_yet(const View& v) {
    if (not_reached(v.s, v.setting.policy, v.setting.zone) && v.s.closings.empty()) {
        const auto& call = v.s.calls.back();
        v.add("letter", "Not reached: a letter, and the responsible physician.", v.owner(Role::physician),
              call.is.next && call.is.next->date ? *call.is.next->date
                                                 : v.setting.zone.date_of(call.stamp.happened));
    }
}

/// Overridden once is overridden, unless its cause came anew since or its proviso was answered no: then it
/// stands again.
bool set_aside(const CaseState& s, const HoldCause& cause) {
    for (auto hold = s.holds.rbegin(); hold != s.holds.rend(); ++hold) {
        if (hold->code != cause.code) {
            continue;
        }
        if (hold->ended_how != HoldEnd::overridden || cause.arose > hold->overrides.back().stamp.seq) {
            return false;
        }
        return std::none_of(s.provisos.begin(), s.provisos.end(), [&](const Proviso& p) {
            return p.hold == cause.code && p.answer && p.answer->is.value == YesNo::no &&
                   p.answer->stamp.happened >= *hold->ended;
        });
    }
    return false;
}

/// The cause is the one the hold was raised for; with another minute or class it is ended and raised anew.
bool is_for(const Hold& hold, const HoldCause& cause) {
    return hold.code == cause.code && hold.until == cause.until && hold.hold_class == cause.hold_class;
}

HoldEnd how_it_ended(const Hold& hold, const CaseState& after, Instant now, bool moved) {
    if (hold.hold_class == HoldClass::ceiling && possible_volume(after.device()) > Millilitres{}) {
        const auto& explained = after.device().explained;
        const bool said = !explained.empty() && explained.back().is.what == Explain::What::left_above_ceiling;
        return said ? HoldEnd::explained : HoldEnd::resolved;
    }
    if (!hold.until) {
        return HoldEnd::resolved;
    }
    return moved && now < *hold.until ? HoldEnd::plan_moved
           : now >= *hold.until       ? HoldEnd::time
                                      : HoldEnd::resolved;
}

}  // namespace

std::string flag_words(std::string_view flag) { return fmt::format("Flagged: {}.", flag); }

std::vector<ItemCause> item_causes(const CaseState& state, const Setting& setting, Instant now) {
    std::vector<ItemCause> causes;
    const View view{state, setting, now, causes};
    signatures(view);
    unanswered(view);
    reviews(view);
    reviewed_answers(view);
    look(view);
    devices(view);
    if (state.kind == CaseKind::removal) {
        removal_steps(view);
        removal_figures_told(view);
    }
    flagged(view);
    not_reached_yet(view);
    overrides(view);
    paper(view);
    without_a_name(view);
    return causes;
}

std::vector<NewEvent> follow_up(const CaseState& after, const Setting& setting, Instant now, bool moved) {
    std::vector<NewEvent> events;
    const auto causes = hold_causes(after, setting, now);
    for (const auto& hold : after.holds) {
        const bool still =
            std::any_of(causes.begin(), causes.end(), [&](const auto& c) { return is_for(hold, c); });
        if (hold.stands() && !still) {
            events.push_back({HoldEnded{hold.code, how_it_ended(hold, after, now, moved)}, {}, false, {}});
        }
    }
    for (const auto& cause : causes) {
        const auto* hold = after.standing(cause.code);
        const bool stands = hold != nullptr && is_for(*hold, cause);
        if (!stands && (hold != nullptr || !set_aside(after, cause))) {
            events.push_back(
                {HoldRaised{cause.code, cause.hold_class, cause.say, cause.until}, {}, false, {}});
        }
    }
    const auto items = item_causes(after, setting, now);
    for (const auto& item : after.items) {
        const bool still =
            std::any_of(items.begin(), items.end(), [&](const auto& c) { return c.code == item.code; });
        if (!item.closed && !still) {
            events.push_back({ItemClosed{item.code}, {}, false, {}});
        }
    }
    for (const auto& item : items) {
        if (!after.has_open(item.code)) {
            events.push_back({ItemOpened{item.code, item.say, item.owner, item.due}, {}, false, {}});
        }
    }
    return events;
}

}  // namespace brimline
