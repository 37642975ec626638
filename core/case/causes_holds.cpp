// The causes of holds. One function a topic; each says the code, the class, and the sentence that a person
// reads.
#include <fmt/format.h>

#include <algorithm>
#include <span>

#include "core/case/causes.h"
#include "core/rules/fasting.h"
#include "core/rules/look.h"
#include "core/rules/screen.h"

namespace brimline {
namespace {

struct View {
    const CaseState& s;
    const Setting& setting;
    Instant now;
    std::vector<HoldCause>& out;

    void add(std::string code, HoldClass hold_class, std::string say, std::optional<Instant> until = {},
             std::int64_t arose = 0) const {
        out.push_back({std::move(code), hold_class, std::move(say), until, arose});
    }
    /// With the sentence of the code.
    void add(std::string_view code, HoldClass hold_class, std::int64_t arose = 0) const {
        add(std::string{code}, hold_class, std::string{code_entry(code).say}, {}, arose);
    }
};

std::string ml_text(Millilitres v) {
    return Decimal::of_millionths(v.in_tenths() * (Decimal::scale / 10)).text() + " mL";
}

// Fasting: judged at the planned time, or at now if that is later, until sedation starts; then frozen.

struct FastingRule {
    std::string_view code, words;
    minutes wait;
};

FastingRule rule_of(IntakeKind kind, const FastingPolicy& p) {
    switch (kind) {
        case IntakeKind::clear:
            return {"fasting-clear-fluid", "clear fluid", p.clear_fluid};
        case IntakeKind::milk:
            return {"fasting-milk", "milk", p.milk};
        case IntakeKind::full_liquid:
            return {"fasting-milk", "full liquid", p.full_liquid};
        case IntakeKind::light_meal:
            return {"fasting-light-meal", "light meal", p.light_meal};
        case IntakeKind::fatty_meal:
            return {"fasting-fatty-meal", "meal", p.fatty_meal};
        case IntakeKind::meal_unknown:
            return {"fasting-fatty-meal", "meal", p.meal_unknown};
    }
    std::abort();
}

bool is_solid(IntakeKind kind) {
    return kind == IntakeKind::light_meal || kind == IntakeKind::fatty_meal ||
           kind == IntakeKind::meal_unknown;
}

minutes removal_wait(IntakeKind kind, const FastingPolicy& p) {
    if (is_solid(kind)) {
        return p.removal_solid;
    }
    return kind == IntakeKind::clear ? p.removal_clear : p.removal_full_liquid;
}

/// The latest answer of each kind of intake.
std::map<IntakeKind, Noted<Intake>> latest_intakes(const CaseState& s) {
    std::map<IntakeKind, Noted<Intake>> latest;
    for (const auto& intake : s.intakes) {
        latest[intake.is.kind] = intake;
    }
    return latest;
}

void one_fast(const View& v, std::string_view code, std::string_view words, const Noted<Intake>& intake,
              minutes wait, Instant reference) {
    const auto last = intake.is.last.at;
    const auto fast = rules::judge_fast(last, reference, wait);
    if (fast.met) {
        return;
    }
    const auto& zone = v.setting.zone;
    v.add(std::string{code}, HoldClass::absolute,
          fmt::format("Last {} {}, {} before {}; {} asked. Met at {}.", words, clock_text(last, zone),
                      duration_words(minutes{fast.elapsed_min}), clock_text(reference, zone),
                      duration_words(wait), clock_text(fast.earliest, zone)),
          fast.earliest, intake.stamp.seq);
}

bool on_glp1(const CaseState& s) {
    return std::any_of(s.medicines.begin(), s.medicines.end(),
                       [](const auto& m) { return m.is.group == MedicineGroup::glp1; });
}

void fasting(const View& v) {
    const auto& policy = v.setting.policy.fasting;
    const auto& start = v.s.sedation_start;
    const auto reference = start ? std::max(v.s.planned.value_or(start->happened), start->happened)
                                 : std::max(v.s.planned.value_or(v.now), v.now);
    std::int64_t unknown = 0;
    for (const auto& [kind, intake] : latest_intakes(v.s)) {
        if (intake.is.last.kind != LastIntake::Kind::at) {
            unknown = std::max(unknown, intake.stamp.seq);
            continue;
        }
        if (v.s.kind == CaseKind::removal) {
            one_fast(v, "removal-prep", rule_of(kind, policy).words, intake, removal_wait(kind, policy),
                     reference);
            continue;
        }
        const auto rule = rule_of(kind, policy);
        one_fast(v, rule.code, rule.words, intake, rule.wait, reference);
        if (on_glp1(v.s) && is_solid(kind)) {
            one_fast(v, "fasting-glp1", "solids", intake, policy.glp1_solids, reference);
        }
    }
    if (unknown != 0) {
        v.add("fasting-not-known", HoldClass::absolute, unknown);
    }
}

void medicines(const View& v) {
    const auto today = v.setting.zone.date_of(v.s.planned.value_or(v.now));
    for (const auto& medicine : v.s.medicines) {
        const auto& m = medicine.is;
        const bool counts = m.group == MedicineGroup::anticoagulant ||
                            m.group == MedicineGroup::antiplatelet || m.group == MedicineGroup::nsaid;
        if (!counts) {
            continue;
        }
        const int window = v.setting.policy.medicine.window_days;
        const auto judged =
            m.last_dose ? std::optional{rules::medicine_window(*m.last_dose, today, window)} : std::nullopt;
        if (judged && !judged->review) {
            continue;
        }
        const auto when = judged ? fmt::format("{} days before", judged->days_since) : "day not known";
        v.add("medicine-window", HoldClass::relative,
              fmt::format("{} ({}), {}; the window is {} days.", m.name, name_of(m.group), when, window), {},
              medicine.stamp.seq);
    }
}

std::optional<HoldClass> class_named(std::string_view name) {
    const auto names = names_of(HoldClass{});
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (names[i] == name) {
            return static_cast<HoldClass>(i);
        }
    }
    return std::nullopt;
}

void screen(const View& v) {
    const bool window =
        std::any_of(v.out.begin(), v.out.end(), [](const auto& c) { return c.code == "medicine-window"; });
    for (const auto& check : v.setting.policy.lists.screen) {
        const auto answer = v.s.answers.find(check.id);
        const auto hold_class = class_named(check.hold_class);
        if (answer == v.s.answers.end() || !hold_class) {
            continue;
        }
        const auto value = answer->second.is.value;
        const bool bad = (value == Answered::yes || value == Answered::no) && name_of(value) != check.good;
        if (bad && !(check.id == "anticoagulant-or-nsaid" && window)) {
            v.add("screen-" + check.id, *hold_class,
                  fmt::format("{} Answered {}.", check.words, name_of(value)));
        }
    }
}

void identity_and_consent(const View& v) {
    if (!v.s.entered.empty() && !v.s.entered.back().is.match) {
        v.add("identity-mismatch", HoldClass::stop);
    }
    const bool crossed = v.s.identity_crossed;
    const bool possible = !v.s.consent || v.s.consent->is.form != ConsentForm::not_possible;
    if (!v.s.consent_settled() && (v.s.consent || crossed)) {
        const bool absolute = !possible && v.s.kind == CaseKind::removal;
        v.add("consent-missing", absolute ? HoldClass::absolute : HoldClass::stop,
              std::string{code_entry("consent-missing").say});
    }
    const bool identified = v.s.identity && v.s.identity->is.identifiers.size() >= 2;
    if (!identified && (v.s.identity || crossed)) {
        v.add("identity-missing", HoldClass::stop);
    }
    if (crossed && !v.s.identity_settled()) {
        v.add("gate-identity", HoldClass::crossing);
    }
}

void pauses(const View& v) {
    for (const auto& [which, held] : v.s.pauses) {
        for (const auto& [check, answer] : held.answers) {
            if (answer == Answered::no) {
                v.add("pause-" + check, HoldClass::relative,
                      fmt::format("Pause {}: {} was answered no.", name_of(which), check));
            }
        }
    }
}

void look(const View& v) {
    std::vector<rules::Seen> seen;
    std::int64_t arose = 0;
    for (const auto& finding : v.s.findings) {
        seen.push_back({finding.is.kind, finding.is.grade, finding.is.size_cm});
        const bool stops = rules::judge_look(std::span{&seen.back(), 1}, v.setting.policy.look).stop();
        arose = stops ? finding.stamp.seq : arose;
    }
    const auto judged = rules::judge_look(seen, v.setting.policy.look);
    // The physician decided: after a no-go that stands there is nothing left to hold back.
    if (judged.stop() && outcome_of(v.s) != CaseOutcome::deferred) {
        v.add("look-stopping-finding", HoldClass::absolute,
              fmt::format("Seen: {}.", fmt::join(judged.stopping, ", ")), {}, arose);
    }
}

void removal(const View& v) {
    if (v.s.kind != CaseKind::removal) {
        return;
    }
    const auto& seen = v.s.balloon_seen;
    const bool food = !seen.empty() && seen.back().is.food;
    if (food && !v.s.out && outcome_of(v.s) != CaseOutcome::deferred) {
        v.add("food-in-stomach", HoldClass::absolute, seen.back().stamp.seq);
    }
    if (v.s.out && !v.s.out->is.complete) {
        v.add("balloon-incomplete", HoldClass::absolute, v.s.out->stamp.seq);
    }
}

bool on_recall_list(const std::string& lot, const Setting& setting) {
    const auto& listed = setting.policy.recalled_lots;
    const auto& desk = setting.desk.recalls;
    return std::find(listed.begin(), listed.end(), lot) != listed.end() ||
           std::any_of(desk.begin(), desk.end(), [&](const Recall& r) { return r.lot == lot; });
}

void device(const View& v) {
    const auto& block = v.s.device();
    if (v.s.go_crossed && !v.s.go) {
        v.add("gate-go", HoldClass::crossing);
    }
    if (!block.label || block.not_left_in) {
        return;
    }
    const auto& label = block.label->is;
    const auto opened = v.setting.zone.date_of(block.label->stamp.happened);
    if (label.expiry && *label.expiry < opened) {
        v.add("label-expired", HoldClass::absolute,
              fmt::format("The device expired on {}.", date_words(*label.expiry)), {},
              block.label->stamp.seq);
    }
    if (label.lot && on_recall_list(*label.lot, v.setting)) {
        v.add("label-recall", HoldClass::absolute, fmt::format("Lot {} is on the recall list.", *label.lot),
              {}, block.label->stamp.seq);
    }
}

void dye(const View& v) {
    const auto& dye = v.s.device().dye;
    if (!dye || !dye->is.ml) {
        return;
    }
    const bool g6pd = std::any_of(v.s.medicines.begin(), v.s.medicines.end(),
                                  [](const auto& m) { return m.is.group == MedicineGroup::g6pd_deficiency; });
    if (g6pd) {
        v.add("dye-g6pd", HoldClass::absolute);
    }
}

// Fill

void gates_of_fill(const View& v) {
    const auto& block = v.s.device();
    if (block.position_crossed && !block.position_seen) {
        v.add("gate-position", HoldClass::crossing);
    }
    if (block.read_back_crossed && !block.read_back_stands) {
        v.add("gate-read-back", HoldClass::crossing);
    }
}

void stops(const View& v) {
    const auto& block = v.s.device();
    for (const auto& stop : block.stops) {
        const bool holds = stop.reason == StopReason::resistance || stop.reason == StopReason::position_lost;
        const bool seen = block.position_seen && block.position_seen->happened > stop.stamp.happened;
        if (holds && !seen && !block.not_left_in) {
            v.add(name_of(stop.reason), HoldClass::absolute, stop.stamp.seq);
        }
    }
}

bool explained_as_left(const DeviceBlock& block) {
    Instant last_change{};
    for (const auto& delivery : block.deliveries) {
        last_change = std::max(last_change, delivery.stamp.at);
    }
    return std::any_of(block.explained.begin(), block.explained.end(), [&](const Noted<Explain>& e) {
        return e.is.what == Explain::What::left_above_ceiling && e.stamp.at >= last_change;
    });
}

void ceiling(const View& v) {
    const auto& block = v.s.device();
    const auto limit = ceiling_of(v.s, v.setting.policy);
    const auto volume = possible_volume(block);
    if (limit && volume > *limit && !block.not_left_in && !explained_as_left(block)) {
        v.add("ceiling-passed", HoldClass::ceiling,
              fmt::format("{} in, the ceiling is {}.", ml_text(volume), ml_text(*limit)));
    }
}

/// The last check differed, and no correction since has brought the two counts together.
bool check_still_differs(const CaseState& s) {
    const auto& block = s.device();
    if (block.checks.empty() || block.checks.back().is.agreed) {
        return false;
    }
    const auto& check = block.checks.back();
    const auto after = [&](Instant at, std::int64_t seq) {
        return at >= check.stamp.at && seq > check.stamp.seq;
    };
    const bool corrected = std::any_of(s.count_corrections.begin(), s.count_corrections.end(),
                                       [&](const auto& c) { return after(c.stamp.at, c.stamp.seq); }) ||
                           std::any_of(s.corrections.begin(), s.corrections.end(),
                                       [&](const auto& c) { return after(c.stamp.at, c.stamp.seq); });
    const int own = syringes_until(block, check.stamp.happened);
    const int pedal = presses_until(block, check.stamp.happened);
    return !corrected || own != (check.is.pedal ? pedal : check.is.said);
}

/// The last read-back differed, or agreed with a count that was corrected since.
std::optional<std::string> read_back_differs(const DeviceBlock& block) {
    if (block.read_backs.empty() || block.read_backs.back().is.ml == running_volume(block)) {
        return std::nullopt;
    }
    const auto& said = block.read_backs.back().is;
    const bool corrected = block.read_back_agreed && !block.read_back_stands;
    if (said.agreed && !corrected) {
        return std::nullopt;
    }
    return fmt::format("Said {}, counted {}.", ml_text(said.ml),
                       ml_text(corrected ? running_volume(block) : said.counted));
}

std::optional<std::string> what_came_out_differs(const CaseState& s) {
    for (const auto& used : s.devices) {  // a second device does not settle the first
        if (used.not_left_in && used.not_left_in->is.out != running_volume(used)) {
            return fmt::format("{} came out, {} are counted in.", ml_text(used.not_left_in->is.out),
                               ml_text(running_volume(used)));
        }
    }
    const auto& block = s.device();
    const auto in = running_volume(block);
    if (in < Millilitres{}) {
        return fmt::format("{} more came out than is counted in.", ml_text(-in));
    }
    const bool abandoned = s.abandoned && s.abandoned->is.inside.device && !block.not_left_in;
    if (abandoned && s.abandoned->is.inside.ml != in) {
        return fmt::format("{} are said to be inside, {} are counted in.", ml_text(s.abandoned->is.inside.ml),
                           ml_text(in));
    }
    return std::nullopt;
}

void counts(const View& v) {
    const auto& block = v.s.device();
    if (check_still_differs(v.s)) {
        const auto& c = block.checks.back().is;
        auto say = fmt::format("Counted {}, said {}", c.own, c.said);
        say += c.pedal ? fmt::format(", pedal {}", *c.pedal) : "";
        say += c.parted_at ? fmt::format("; parted at {}.", clock_text(*c.parted_at, v.setting.zone, true))
                           : ".";
        v.add("count-differs", HoldClass::count, std::move(say));
    } else if (auto said = read_back_differs(block)) {
        v.add("count-differs", HoldClass::count, std::move(*said));
    } else if (auto say = what_came_out_differs(v.s)) {
        v.add("count-differs", HoldClass::count, std::move(*say));
    }
    const auto matter = matter_reading(v.s, v.setting.policy);
    if (!matter || !matter->judged || matter->agrees || block.not_left_in) {
        return;
    }
    v.add("matter-differs", HoldClass::count,
          matter->row_used
              ? fmt::format("{} syringes used, {} counted.", *matter->row_used, *matter->row_counted)
              : fmt::format("The scale says {}, counted {}.", ml_text(*matter->matter_ml),
                            ml_text(*matter->counted_ml)));
}

void size_and_release(const View& v) {
    const auto& block = v.s.device();
    if (!block.sizings.empty()) {
        const auto& s = block.sizings.back().is;
        if (!s.gap || !s.passes || !s.not_wedged || !s.no_blanching) {
            v.add("sizing-not-met", HoldClass::relative, block.sizings.back().stamp.seq);
        }
    }
    const bool dry = !v.s.valve_dry.empty() && !v.s.valve_not_dry.empty() &&
                     v.s.valve_dry.back().stamp.seq > v.s.valve_not_dry.back().stamp.seq;
    if (!v.s.valve_not_dry.empty() && !dry && !block.not_left_in) {
        v.add("valve-not-dry", HoldClass::relative);
    }
    if (v.s.catheter && !v.s.catheter->is.complete) {
        v.add("catheter-incomplete", HoldClass::relative);
    }
}

}  // namespace

std::vector<HoldCause> hold_causes(const CaseState& state, const Setting& setting, Instant now) {
    std::vector<HoldCause> causes;
    const View view{state, setting, now, causes};
    fasting(view);
    medicines(view);
    screen(view);
    identity_and_consent(view);
    pauses(view);
    look(view);
    removal(view);
    device(view);
    dye(view);
    gates_of_fill(view);
    stops(view);
    ceiling(view);
    counts(view);
    size_and_release(view);
    // One hold a code: several causes of the same kind stand as one, with the latest end.
    std::vector<HoldCause> merged;
    for (auto& cause : causes) {
        const auto same =
            std::find_if(merged.begin(), merged.end(), [&](const auto& m) { return m.code == cause.code; });
        if (same == merged.end()) {
            merged.push_back(std::move(cause));
            continue;
        }
        const auto arose = std::max(same->arose, cause.arose);
        if (cause.until && same->until && *cause.until > *same->until) {
            *same = std::move(cause);
        }
        same->arose = arose;
    }
    return merged;
}

}  // namespace brimline
