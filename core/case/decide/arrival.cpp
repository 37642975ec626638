// Deciding at Arrival: who is in the room, the body, what was eaten, medicines, answers, airway.
#include <fmt/format.h>

#include "core/case/decide/stage.h"
#include "core/rules/body.h"

namespace brimline::deciding {
namespace {

bool same_day(const PatientKnown& patient, const DayMonth& said) {
    if (!patient.born) {
        return said.unknown();
    }
    return !said.unknown() && unsigned{patient.born->month()} == static_cast<unsigned>(said.month) &&
           unsigned{patient.born->day()} == static_cast<unsigned>(said.day);
}

std::vector<std::string> answerable(const Policy& policy) {
    std::vector<std::string> ids;
    for (const auto& check : policy.lists.screen) {
        ids.push_back(check.id);
    }
    for (const auto& item : policy.lists.discharge_answers) {
        ids.push_back(item.id);
    }
    return ids;
}

std::optional<Outcome> judged_neck(const Scene& scene, const Airway& says) {
    if (!says.stop_bang || !says.stop_bang->neck_cm) {
        return std::nullopt;
    }
    return judged(scene, "stop_bang.neck_cm", *says.stop_bang->neck_cm, scene.setting.policy.body.neck_cm,
                  "cm");
}

}  // namespace

Outcome decide_one(const Scene& scene, const EnterRoom& says) {
    return recorded(
        EnteredRoom{says.room, says.birth_day_month, same_day(scene.state.patient, says.birth_day_month)});
}

Outcome decide_one(const Scene& scene, const Measure& says) {
    const auto& body = scene.setting.policy.body;
    if (const auto in_cm = rules::height_suggested(says.height_cm, body.height_cm)) {
        return refused(
            coded("out-of-range", fmt::format("height_cm {} is a height in metres; in cm it is {}.",
                                              says.height_cm.text(), in_cm->text())));
    }
    if (auto outcome = judged(scene, "weight_kg", says.weight_kg, body.weight_kg, "kg")) {
        return *outcome;
    }
    if (auto outcome = judged(scene, "height_cm", says.height_cm, body.height_cm, "cm")) {
        return *outcome;
    }
    if (!says.weight_kg.whole(10) || !says.height_cm.whole(10)) {
        return refused(coded("out-of-range", "Weight in kg and height in cm have at most one decimal."));
    }
    return recorded(Event{says});
}

Outcome decide_one(const Scene& scene, const Intake& says) {
    if (says.last.kind == LastIntake::Kind::at) {
        if (says.last.at > scene.at()) {
            return refused(coded("out-of-range", "This intake lies in the future."));
        }
        const auto age = std::chrono::floor<minutes>(scene.at() - says.last.at);
        if (age > scene.setting.policy.fasting.oldest_unasked && !scene.command.sure) {
            return implausible(
                "last", fmt::format("The last intake was {} ago. Is that right?", duration_words(age)));
        }
    }
    return recorded(Event{says});
}

Outcome decide_one(const Scene& scene, const Medicine& says) {
    if (says.last_dose && *says.last_dose > scene.setting.zone.date_of(scene.at())) {
        return refused(coded("out-of-range", "The last dose lies in the future."));
    }
    return recorded(Event{says});
}

Outcome decide_one(const Scene& scene, const Answer& says) {
    const auto ids = answerable(scene.setting.policy);
    if (std::find(ids.begin(), ids.end(), says.check) == ids.end()) {
        return refused(not_on_list("Check", says.check, ids));
    }
    for (const auto& check : scene.setting.policy.lists.screen) {
        if (check.id != says.check || check.roles.empty()) {
            continue;
        }
        const bool may =
            std::any_of(check.roles.begin(), check.roles.end(), [&](Role r) { return scene.by_has(r); });
        if (!may) {
            return refused(
                coded("role-may-not", fmt::format("Check {} is answered by another role.", says.check)));
        }
    }
    return recorded(Event{says});
}

Outcome decide_one(const Scene& scene, const Airway& says) {
    if (auto outcome = judged_neck(scene, says)) {
        return *outcome;
    }
    return recorded(Event{says});
}

Outcome decide_one(const Scene& scene, const Unchanged& says) {
    const auto today = scene.setting.zone.date_of(scene.at());
    if (says.since > today) {
        return refused(coded("out-of-range", "The earlier answers cannot lie in the future."));
    }
    const int most = scene.setting.policy.rules.unchanged_days;
    if (days_between(says.since, today) > most) {
        return refused(
            coded("out-of-range", fmt::format("The answers of {} are older than {} days and are asked anew.",
                                              date_words(says.since), most)));
    }
    return recorded(Event{says});
}

Outcome decide_one(const Scene& scene, const Consent& says) {
    if (says.decided_by && scene.setting.desk.person(*says.decided_by) == nullptr) {
        return refused(coded("no-such-person", fmt::format("There is no person \"{}\".", *says.decided_by)));
    }
    return recorded(Event{says});
}

}  // namespace brimline::deciding
