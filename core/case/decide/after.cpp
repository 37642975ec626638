// Deciding from Release to the record: a device not left in, hand-over, discharge, abandoning, signatures,
// the seal.
#include <fmt/format.h>

#include "core/case/decide/stage.h"
#include "core/case/signer.h"

namespace brimline::deciding {
namespace {

std::string meaning_of(Part part) {
    switch (part) {
        case Part::sedation:
            return "sedation record as it was";
        case Part::nursing:
            return "recovery and discharge as they were";
        case Part::physician:
            return "procedure and everything entered as said by me";
    }
    std::abort();
}

std::optional<Outcome> refused_pin(const Scene& scene) {
    if (scene.setting.pin == PinCheck::right) {
        return std::nullopt;
    }
    if (scene.setting.pin == PinCheck::locked) {
        return refused_attempt(scene,
                               coded("pin-locked", "The PIN is locked: " + scene.setting.pin_say + "."));
    }
    const auto& say = scene.setting.pin_say;
    return refused_attempt(
        scene, say.empty() ? coded("pin-wrong") : coded("pin-wrong", "PIN not right: " + say + "."));
}

/// Open items whose kind the policy does not let stay at the seal.
std::vector<std::string> items_in_the_way(const Scene& scene) {
    const auto& allowed = scene.setting.policy.rules.seal_open_items;
    std::vector<std::string> left;
    for (const auto& item : scene.state.items) {
        const bool may_stay = std::any_of(allowed.begin(), allowed.end(), [&](const std::string& kind) {
            return kind == "*" || item.code == kind || item.code.rfind(kind + "-", 0) == 0;
        });
        if (!item.closed && !may_stay) {
            left.push_back(item.code);
        }
    }
    if (!open_questions(scene.state.device()).empty()) {
        left.emplace_back("double-tap");
    }
    return left;
}

std::string next_number(const Scene& scene) {
    const int year{int{scene.setting.zone.date_of(scene.at()).year()}};
    const auto& given = scene.setting.desk.sealed_in_year;
    const auto found = given.find(year);
    return fmt::format("{}-{}-{:04}", scene.setting.policy.clinic.record_prefix, year,
                       (found == given.end() ? 0 : found->second) + 1);
}

}  // namespace

Outcome decide_one(const Scene& scene, const DeviceNotLeftIn& says) {
    const auto& block = scene.state.device();
    if (!block.label && block.deliveries.empty() && !block.passed) {
        return refused(coded("no-such-entry", "No device was opened in this case."));
    }
    if (block.not_left_in) {
        return refused(coded("no-such-entry", "This device is closed already."));
    }
    if (says.out < Millilitres{}) {
        return refused(coded("out-of-range", "What came out is 0 mL or more."));
    }
    auto [reason, words] = reasoned(scene.setting.policy.lists.refusal_reasons, says.reason, says.words);
    return recorded(Event{DeviceNotLeftIn{std::move(reason), says.out, std::move(words)}});
}

Outcome decide_one(const Scene& scene, const OfferHandover& says) {
    return scene.setting.desk.person(says.to) == nullptr
               ? refused(coded("no-such-person", fmt::format("There is no person \"{}\".", says.to)))
               : recorded(Event{says});
}

Outcome decide_one(const Scene& scene, const AcceptHandover& says) {
    const auto& born = scene.state.patient.born;
    const bool match =
        born ? !says.birth_day_month.unknown() &&
                   unsigned{born->month()} == static_cast<unsigned>(says.birth_day_month.month) &&
                   unsigned{born->day()} == static_cast<unsigned>(says.birth_day_month.day)
             : says.birth_day_month.unknown();
    return match ? recorded(Event{says}) : refused_attempt(scene, coded("identity-mismatch"));
}

Outcome decide_one(const Scene&, const Drink& says) {
    if (says.ml <= Millilitres{} || says.ml > Millilitres::of_tenths(30'000)) {
        return refused(coded("out-of-range", "A drink is above 0 and at most 3000 mL."));
    }
    return recorded(Event{says});
}

Outcome decide_one(const Scene& scene, const Discharge& says) {
    auto unmet = unmet_checks(scene.state, scene.setting.policy, scene.happened());
    return recorded(Event{Discharged{says.disposition, says.with, says.words, std::move(unmet)}});
}

Outcome decide_one(const Scene& scene, const Abandon& says) {
    if (says.inside.ml < Millilitres{}) {
        return refused(coded("out-of-range", "A volume is 0 mL or more."));
    }
    auto [reason, words] = reasoned(scene.setting.policy.lists.refusal_reasons, says.reason, says.words);
    return recorded(Event{Abandon{std::move(reason), says.inside, std::move(words)}});
}

Outcome decide_one(const Scene& scene, const Sign& says) {
    const Role role = signer_of(says.part);
    if (!scene.by_has(role)) {
        return refused_attempt(scene,
                               coded("role-may-not", fmt::format("The part \"{}\" is signed by the {}.",
                                                                 name_of(says.part), name_of(role))));
    }
    if (auto outcome = refused_pin(scene)) {
        return *outcome;
    }
    return recorded(Event{Signed{says.part, meaning_of(says.part)}});
}

Outcome decide_one(const Scene& scene, const Seal&) {
    if (auto outcome = refused_pin(scene)) {
        return *outcome;
    }
    for (const Part part : {Part::sedation, Part::nursing, Part::physician}) {
        if (scene.state.signatures.find(part) == scene.state.signatures.end()) {
            return refused(
                coded("part-unsigned", fmt::format("The part \"{}\" is not signed.", name_of(part))));
        }
    }
    if (const auto left = items_in_the_way(scene); !left.empty()) {
        return refused(coded(
            "item-open", fmt::format("The open item \"{}\" must be closed before the seal.", left.front())));
    }
    return recorded(Event{Sealed{next_number(scene), ""}});
}

}  // namespace brimline::deciding
