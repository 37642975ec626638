// Page one of the text record: who, what, when and by whom; then the parts that other files write; at the end
// what is still open, who signed, how much was entered live, and the caution.
#include <fmt/format.h>

#include "core/record/caution.h"
#include "core/record/text_parts.h"
#include "core/rules/body.h"
#include "core/rules/depth.h"

namespace brimline::record {
namespace {

namespace say {
constexpr std::string_view not_sealed = "not sealed yet: this is the case as it stands";
constexpr std::string_view no_clinic = "Procedure record";
constexpr std::string_view placement = "placement of a fluid-filled gastric balloon under sedation";
constexpr std::string_view removal = "removal of a fluid-filled gastric balloon under sedation";
constexpr std::string_view practice = "PRACTICE: nobody was treated; this is no record of a patient.";
constexpr std::string_view not_finished = "not finished";
constexpr std::string_view practised =
    "the patient was real; the marked entries were copied from the store of practice, case";
constexpr std::string_view started_now = "started at once, without an entry on the list";
constexpr std::string_view not_asked = "NOT ASKED";
constexpr std::string_view none_known = "none known";
constexpr std::string_view not_known = "not known";
constexpr std::string_view nothing_inside = "nothing";
constexpr std::string_view no_items = "none";
constexpr std::string_view not_signed = "not signed";
constexpr std::string_view typed_by_hand = "Vital signs are typed by hand; no alarm came from the kiosk.";
}  // namespace say

void patient(Sheet& sheet, const Source& v) {
    const auto& p = v.s.patient;
    std::vector<std::string> parts;
    parts.push_back(p.family_name.value_or("unknown") + (p.given_name ? ", " + *p.given_name : ""));
    if (p.born) {
        parts.push_back("born " + date_words(*p.born));
        parts.push_back(counted(age_on(*p.born, v.day), "year", "years"));
    } else {
        parts.push_back("birth date " + std::string{say::not_known});
    }
    if (p.sex_at_birth) {
        parts.emplace_back(*p.sex_at_birth == Sex::f ? "female" : "male");
    }
    parts.push_back(p.number.value_or("number " + std::string{say::not_known}));
    sheet.field("Patient", joined(parts, " \xC2\xB7 "));
}

/// Whose record it is, where that was settled after the fact.
void identity(Sheet& sheet, const Source& v) {
    for (const auto& moved : v.s.belongs_to) {
        sheet.loud("Identity", fmt::format("{}; {}, {}", entry_words(Event{moved.is}, v), v.who(moved.stamp),
                                           v.when(moved.stamp.at)));
    }
    for (const auto& received : v.s.received) {
        sheet.loud("Identity", fmt::format("{}; {}, {}", entry_words(Event{received.is}, v),
                                           v.who(received.stamp), v.when(received.stamp.at)));
    }
}

void allergies(Sheet& sheet, const Source& v) {
    if (!v.s.allergies) {
        return sheet.loud("Allergies", say::not_asked);
    }
    std::vector<std::string> parts;
    for (const auto& one : v.s.allergies->is.list.value_or(std::vector<Allergy>{})) {
        parts.push_back(one.substance + (one.reaction ? " (" + *one.reaction + ")" : ""));
    }
    return parts.empty() ? sheet.field("Allergies", say::none_known) : sheet.loud("Allergies", joined(parts));
}

void body(Sheet& sheet, const Source& v) {
    auto words = weight_words(v);
    const auto weight = weight_of(v.s);
    const auto height = height_of(v.s);
    if (weight && height) {
        const auto bmi = rules::bmi(weight->weight, *height);
        const auto tall = Decimal::of_millionths(height->in_tenths() * (Decimal::scale / 10));
        words += fmt::format(", {} cm, BMI {} ({}), {} kg at BMI {}", tall.text(), rules::bmi_text(bmi),
                             plain(name_of(rules::bmi_class(bmi))),
                             rules::ideal_weight(*height, v.policy.body.ideal_bmi).text(1),
                             v.policy.body.ideal_bmi.text());
    }
    sheet.field("Weight", words.empty() ? std::string{say::not_known} : words);
}

void outcome(Sheet& sheet, const Source& v) {
    sheet.field("Procedure", v.s.kind == CaseKind::placement ? say::placement : say::removal);
    const auto outcome = outcome_of(v.s);
    std::string words{outcome ? name_of(*outcome) : say::not_finished};
    if (v.s.cancelled) {
        words = "cancelled: " + v.s.cancelled->is.reason;
    } else if (outcome == CaseOutcome::deferred) {
        words += ", no-go: " + lowered(words_of(v.policy.lists.refusal_reasons, v.s.no_go->is.reason));
    } else if (outcome == CaseOutcome::abandoned) {
        words += ": " + lowered(words_of(v.policy.lists.refusal_reasons, v.s.abandoned->is.reason));
    }
    sheet.field("Outcome", words);
    if (v.s.abandoned) {
        const auto& inside = v.s.abandoned->is.inside;
        std::vector<std::string> parts;
        if (inside.device) {
            parts.push_back("the device with " + ml_words(inside.ml));
        }
        if (inside.catheter) {
            parts.emplace_back("the catheter");
        }
        sheet.loud("Inside the patient",
                   (parts.empty() ? std::string{say::nothing_inside} : joined(parts, " and ")) +
                       fmt::format(" when abandoned at {}", v.clock(v.s.abandoned->stamp.happened)));
    }
}

std::string from_to(const Source& v, const std::optional<Stamp>& from, const std::optional<Stamp>& to) {
    if (!from) {
        return "";
    }
    if (!to || to->happened < from->happened) {
        return fmt::format("from {}, end not recorded", v.clock_s(from->happened));
    }
    return fmt::format("{} to {}, {}", v.clock_s(from->happened), v.clock_s(to->happened),
                       span_words(to->happened - from->happened));
}

void when_and_where(Sheet& sheet, const Source& v) {
    std::vector<std::string> parts{day_words(v.day)};
    if (v.s.room) {
        parts.push_back(*v.s.room);
    }
    if (v.s.practised) {
        sheet.loud("Entered in practice", fmt::format("{} {}", say::practised, *v.s.practised));
    } else if (v.s.started_now) {
        parts.emplace_back(say::started_now);
    } else if (v.s.planned) {
        parts.push_back("planned " + v.clock(*v.s.planned));
    }
    sheet.field("When and where", joined(parts));
    sheet.field("Sedation", from_to(v, v.s.sedation_start, v.s.sedation_end));
    sheet.field("Scope", from_to(v, v.s.scope_in, v.s.scope_out));
    for (const auto& move : v.s.moves) {
        sheet.field("List changed",
                    fmt::format("{}, by {}: {}", v.when(move.stamp.at), v.who(move.stamp), move.is.reason));
    }
}

std::string roles_of(const Source& v, const std::string& id) {
    const auto* known = v.desk.person(id);
    std::vector<std::string> roles;
    for (const Role role : known == nullptr ? std::vector<Role>{} : known->roles) {
        roles.push_back(plain(name_of(role)));
    }
    return roles.empty() ? "" : " (" + joined(roles) + ")";
}

void team(Sheet& sheet, const Source& v) {
    std::vector<std::string> seen;
    std::vector<std::string> parts;
    for (const auto& [which, held] : v.s.pauses) {
        for (const auto& id : held.present) {
            if (std::find(seen.begin(), seen.end(), id) == seen.end()) {
                seen.push_back(id);
                parts.push_back(v.person(id) + roles_of(v, id));
            }
        }
    }
    sheet.field("Team present", joined(parts));
    std::vector<std::string> pauses;
    for (const auto& [which, held] : v.s.pauses) {
        pauses.push_back(
            fmt::format("{} {}", plain(name_of(which)), span_words(held.last.at - held.first.happened)));
    }
    sheet.field("Pauses took", joined(pauses));
}

void sedation(Sheet& sheet, const Source& v) {
    sheet.field("Doses", joined(dose_total_words(v)));
    if (const auto lowest = lowest_spo2(v.s)) {
        sheet.field("Lowest SpO2", fmt::format("{} % at {}", lowest->value, v.clock_s(lowest->at)));
    }
    write_airway(sheet, v);
}

void devices(Sheet& sheet, const Source& v) {
    for (const auto& block : v.s.devices) {
        if (!block.label) {
            continue;
        }
        const auto label = label_words(*block.label, v);
        if (block.not_left_in) {
            sheet.loud(
                "Device not left in",
                fmt::format("{}; {}, {} came out", label,
                            lowered(words_of(v.policy.lists.refusal_reasons, block.not_left_in->is.reason)),
                            ml_words(block.not_left_in->is.out)));
        } else {
            sheet.field("Device", label);
        }
    }
    if (v.s.no_go && v.s.no_go->is.returned) {
        const auto& lot = v.s.no_go->is.returned->lot;
        sheet.field("Device", fmt::format("not opened{}, back to stock", lot ? ", lot " + *lot : ""));
    }
}

void items(Sheet& sheet, const Source& v) {
    bool any = false;
    for (const auto& item : v.s.items) {
        if (item.closed) {
            continue;
        }
        any = true;
        sheet.loud("Open item", fmt::format("{} Owner: {}. Due: {}.", item.say,
                                            item.owner ? v.person(*item.owner) : "nobody named yet",
                                            item.due ? day_words(*item.due) : "no date"));
    }
    if (!any) {
        sheet.field("Open items", say::no_items);
    }
}

std::string meaning_of(const Source& v, std::int64_t seq) {
    const auto* kept = v.s.kept(seq);
    const auto* done = kept == nullptr ? nullptr : std::get_if<Signed>(&kept->now.event);
    return done == nullptr ? "" : done->meaning;
}

void signatures(Sheet& sheet, const Source& v) {
    for (const Part part : {Part::sedation, Part::nursing, Part::physician}) {
        const auto found = v.s.signatures.find(part);
        const auto label = fmt::format("Signed, {}", name_of(part));
        if (found == v.s.signatures.end()) {
            sheet.field(label, say::not_signed);
        } else {
            const auto& stamp = found->second;
            sheet.field(label, fmt::format("{}, {}: {}", v.person(stamp.by), v.moment(stamp.at),
                                           meaning_of(v, stamp.seq)));
        }
    }
}

void live_share(Sheet& sheet, const Source& v) {
    std::int64_t all = 0;
    std::int64_t late = 0;
    std::int64_t paper = 0;
    for (const auto& kept : v.s.history) {
        if (!is_entry(kept.first.event)) {
            continue;
        }
        const bool is_paper = kept.first.stamp.how == How::paper;
        ++all;
        paper += is_paper ? 1 : 0;
        late += !is_paper && entered_late(kept.first.stamp, v.policy) ? 1 : 0;
    }
    if (all == 0) {
        return;
    }
    const auto live = all - late - paper;
    auto words = fmt::format("{} of {} entries, {} % (within {} of when they happened)", live, all,
                             live * 100 / all, span_words(v.policy.rules.late_entry));
    words += late > 0 ? fmt::format("; {} marked late", late) : "";
    words += paper > 0 ? fmt::format("; {} from paper", paper) : "";
    sheet.field("Entered live", words);
}

}  // namespace

std::string weight_words(const Source& v) {
    const auto weight = weight_of(v.s);
    if (!weight) {
        return "";
    }
    const auto kg = Decimal::of_millionths(weight->weight.in_tenths() * (Decimal::scale / 10));
    return fmt::format("{} kg ({})", kg.text(), name_of(weight->basis));
}

void write_page_one(Sheet& sheet, const Source& v, std::string_view number) {
    const auto& clinic = v.policy.clinic;
    sheet.title(clinic.name.empty() ? std::string{say::no_clinic} : clinic.name);
    if (v.s.patient.number && v.s.patient.number->rfind("P-", 0) == 0) {
        sheet.line(say::practice);
    }
    sheet.field("Record", number.empty() ? say::not_sealed : number);
    sheet.field("Case", v.s.name);
    sheet.field("Clinic", joined({clinic.address, clinic.phone}).size() > 2
                              ? joined({clinic.address, clinic.phone})
                              : "");
    sheet.blank();
    patient(sheet, v);
    identity(sheet, v);
    allergies(sheet, v);
    body(sheet, v);
    sheet.blank();
    outcome(sheet, v);
    when_and_where(sheet, v);
    team(sheet, v);
    sheet.blank();
    write_removal(sheet, v);
    write_agreed(sheet, v);
    devices(sheet, v);
    sheet.blank();
    write_gates(sheet, v);
    write_holds(sheet, v);
    write_corrections(sheet, v);
    sheet.blank();
    sedation(sheet, v);
    sheet.blank();
    write_dates(sheet, v);
    items(sheet, v);
    sheet.blank();
    signatures(sheet, v);
    live_share(sheet, v);
    sheet.blank();
    sheet.line(say::typed_by_hand);
    sheet.line(caution);
}

}  // namespace brimline::record
