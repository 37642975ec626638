// Deciding at Look and Place: findings, samples, no-go, the device and its label, plan, saline, dye.
#include <fmt/format.h>

#include "core/case/decide/stage.h"
#include "core/label/gs1.h"

namespace brimline::deciding {
namespace {

struct Read {
    DeviceOpened device;
    std::optional<Outcome> refused;
};

std::optional<Refusal> bad_lot(const Scene& scene, const std::optional<std::string>& lot) {
    for (const auto& [id, other] : scene.setting.desk.cases) {
        if (lot && other.patient.number == lot) {
            return coded("out-of-range", fmt::format("\"{}\" is a hospital number, not a lot.", *lot));
        }
    }
    return std::nullopt;
}

Read read_scan(const Scene& scene, const std::string& raw) {
    const auto label = parse_label(raw, scene.setting.zone.date_of(scene.at()));
    if (!label) {
        const bool digit = label.error().code == "bad_check_digit";
        auto refusal = coded(digit ? "label-check-digit" : "label-junk", label.error().sentence);
        return {{}, digit ? refused(std::move(refusal)) : refused_attempt(scene, std::move(refusal), raw)};
    }
    Read read;
    read.device.how = LabelHow::scan;
    read.device.raw = raw;
    read.device.gtin = label->gtin14;
    read.device.lot = label->lot;
    read.device.serial = label->serial;
    read.device.expiry = label->expiry;
    for (const auto& element : label->elements) {
        read.device.elements.push_back({element.ai, element.value});
    }
    return read;
}

/// 2028-05-31, or YYMMDD as printed behind (17).
std::optional<LocalDate> typed_expiry(const std::string& text, LocalDate today) {
    if (const auto date = parse_date(text)) {
        return date;
    }
    const auto label = parse_label("17" + text, today);
    return label && text.size() == 6 ? label->expiry : std::nullopt;
}

Read read_typed(const Scene& scene, const Device& says) {
    const auto& typed = *says.typed;
    const auto* checker = scene.setting.desk.person(*says.verified_by);
    if (checker == nullptr) {
        return {
            {},
            refused(coded("no-such-person", fmt::format("There is no person \"{}\".", *says.verified_by)))};
    }
    if (*says.verified_by == scene.command.by) {
        return {{}, refused(coded("same-person", "A typed label is read by a second person."))};
    }
    const auto gtin = parse_gtin(typed.gtin);
    if (!gtin) {
        const bool digit = gtin.error().code == "bad_check_digit";
        return {{}, refused(coded(digit ? "label-check-digit" : "out-of-range", gtin.error().sentence))};
    }
    Read read;
    read.device.how = LabelHow::typed;
    read.device.gtin = *gtin;
    read.device.lot = typed.lot;
    read.device.serial = typed.serial;
    read.device.verified_by = says.verified_by;
    if (typed.expiry) {
        read.device.expiry = typed_expiry(*typed.expiry, scene.setting.zone.date_of(scene.at()));
        if (!read.device.expiry) {
            return {{},
                    refused(coded(
                        "out-of-range",
                        fmt::format("\"{}\" is no date; 2028-05-31 or 280531 is allowed.", *typed.expiry)))};
        }
    }
    return read;
}

template <class T>
bool agrees(const std::optional<T>& a, const std::optional<T>& b) {
    return !a || !b || *a == *b;
}

/// The same device read again, or its second symbol: only before it was passed, and nothing contradicts.
bool same_device(const DeviceBlock& block, const DeviceOpened& device) {
    if (!block.label || block.not_left_in || block.passed || !block.deliveries.empty()) {
        return false;
    }
    const auto& label = block.label->is;
    return agrees(label.gtin, device.gtin) && agrees(label.lot, device.lot) &&
           agrees(label.serial, device.serial) && agrees(label.expiry, device.expiry);
}

/// The lot of the same pack read again while it is in use changes nothing and opens nothing new.
bool same_pack_in_use(const DeviceBlock& block, const DeviceOpened& device) {
    return block.label && !block.not_left_in && device.serial && block.label->is.serial == device.serial &&
           block.label->is.gtin == device.gtin;
}

std::optional<Refusal> bad_order(const Plan& says, const std::optional<Millilitres>& ceiling,
                                 const DeviceProfile* profile) {
    const auto ml = [](Millilitres v) {
        return Decimal::of_millionths(v.in_tenths() * (Decimal::scale / 10)).text();
    };
    if (says.band_low > says.aim || says.aim > says.band_high) {
        return coded("out-of-range", fmt::format("The aim {} mL is not inside the band {} to {} mL.",
                                                 ml(says.aim), ml(says.band_low), ml(says.band_high)));
    }
    if (ceiling && says.band_high > *ceiling) {
        return coded("out-of-range", fmt::format("The band ends at {} mL, above the ceiling of {} mL.",
                                                 ml(says.band_high), ml(*ceiling)));
    }
    if (profile != nullptr && says.band_low < profile->least) {
        return coded("out-of-range",
                     fmt::format("The band begins at {} mL, below the device's least of {} mL.",
                                 ml(says.band_low), ml(profile->least)));
    }
    return says.band_low <= Millilitres{} ? std::optional{coded("out-of-range", "A band begins above 0 mL.")}
                                          : std::nullopt;
}

}  // namespace

Outcome decide_one(const Scene& scene, const Finding& says) {
    const auto kinds = ids_of(scene.setting.policy.lists.findings);
    if (!holds_id(kinds, says.kind)) {
        return refused(not_on_list("Finding", says.kind, kinds));
    }
    if (says.size_cm && (*says.size_cm <= Decimal{} || *says.size_cm > Decimal::of(30))) {
        return refused(coded("out-of-range", "A size is above 0 and at most 30 cm."));
    }
    if (says.grade && !holds_id({"A", "B", "C", "D"}, *says.grade)) {
        return refused(not_on_list("Grade", *says.grade, {"A", "B", "C", "D"}));
    }
    return recorded(Event{says});
}

Outcome decide_one(const Scene& scene, const Sample& says) {
    const auto kinds = ids_of(scene.setting.policy.lists.samples);
    const auto sites = ids_of(scene.setting.policy.lists.sample_sites);
    if (!holds_id(kinds, says.kind)) {
        return refused(not_on_list("Sample", says.kind, kinds));
    }
    if (!holds_id(sites, says.site)) {
        return refused(not_on_list("Site", says.site, sites));
    }
    if (scene.setting.desk.person(says.owner) == nullptr) {
        return refused(coded("no-such-person", fmt::format("There is no person \"{}\".", says.owner)));
    }
    return recorded(Event{says});
}

Outcome decide_one(const Scene& scene, const NoGo& says) {
    if (says.look_again && scene.setting.desk.person(says.look_again->owner) == nullptr) {
        return refused(
            coded("no-such-person", fmt::format("There is no person \"{}\".", says.look_again->owner)));
    }
    auto [reason, words] = reasoned(scene.setting.policy.lists.refusal_reasons, says.reason, says.words);
    return recorded(Event{NoGo{std::move(reason), says.look_again, says.returned, std::move(words)}});
}

Outcome decide_one(const Scene& scene, const Device& says) {
    Read read;
    if (says.raw) {
        read = read_scan(scene, *says.raw);
    } else if (says.typed) {
        read = read_typed(scene, says);
    } else {
        read.device.how = LabelHow::unreadable;
    }
    if (read.refused) {
        return *read.refused;
    }
    if (auto refusal = bad_lot(scene, read.device.lot)) {
        return refused(*refusal);
    }
    const auto& block = scene.state.device();
    read.device.again = same_device(block, read.device) || same_pack_in_use(block, read.device);
    return recorded(Event{read.device});
}

Outcome decide_one(const Scene& scene, const Plan& says) {
    const auto& policy = scene.setting.policy;
    const auto* profile = profile_of(scene.state.device(), policy);
    auto ceiling = says.ceiling;
    if (profile != nullptr) {
        ceiling = ceiling ? std::min(*ceiling, profile->ceiling) : profile->ceiling;
    }
    if (auto refusal = bad_order(says, ceiling, profile)) {
        return refused(*refusal);
    }
    const auto& fill = policy.fill;
    if (says.syringe && (*says.syringe < fill.syringe_least || *says.syringe > fill.syringe_most)) {
        return refused(coded("out-of-range", "This is no size of a syringe that the policy allows."));
    }
    return recorded(Event{says});
}

Outcome decide_one(const Scene& scene, const Saline& says) {
    if (says.scale_g && *says.scale_g <= Decimal{}) {
        return refused(coded("out-of-range", "A bag on the scale weighs more than 0 g."));
    }
    if (auto refusal = bad_lot(scene, says.lot)) {
        return refused(*refusal);
    }
    const auto& most = scene.setting.policy.fill.syringe_most;
    if (says.filled_to && (*says.filled_to <= Millilitres{} || *says.filled_to > most)) {
        return refused(coded("out-of-range", "A syringe is filled to more than 0 mL, at most its size."));
    }
    return recorded(Event{says});
}

Outcome decide_one(const Scene& scene, const Dye& says) {
    const auto& most = scene.setting.policy.fill.syringe_most;
    if (says.ml && (*says.ml <= Millilitres{} || *says.ml > most)) {
        return refused(coded("out-of-range", "The dye is more than 0 mL and at most one syringe."));
    }
    return recorded(Event{says});
}

}  // namespace brimline::deciding
