// The dates that a case gives: when the balloon is due, what to eat until when, when driving is allowed
// again; and how the patient left.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "core/desk/register.h"
#include "core/record/text_parts.h"
#include "core/rules/discharge.h"

namespace brimline::record {
namespace {

namespace say {
constexpr std::string_view none_in = "no balloon stays in by this record: no due date";
constexpr std::string_view by_default = "the device is not known: the shortest dwell of the policy was taken";
constexpr std::string_view none_unmet = "every check was met";
/// The checks that the program works out itself; those that a person answers have their words in the policy.
constexpr std::array<std::pair<std::string_view, std::string_view>, 9> worked_out{{
    {"score", "home-readiness score"},
    {"time", "time since the last dose"},
    {"alert", "fully awake"},
    {"air", "no more oxygen than before"},
    {"drink", "a drink kept down"},
    {"nausea", "nausea low enough"},
    {"pain", "pain low enough"},
    {"escort", "escort present"},
    {"urine", "urine passed"},
}};
}  // namespace say

std::string unmet_words(const Source& v) {
    std::vector<std::string> parts;
    for (const auto& id : v.s.discharged->is.unmet) {
        const auto known = std::find_if(say::worked_out.begin(), say::worked_out.end(),
                                        [&](const auto& pair) { return pair.first == id; });
        parts.push_back(known != say::worked_out.end()
                            ? std::string{known->second}
                            : lowered(words_of(v.policy.lists.discharge_answers, id)));
    }
    return joined(parts, "; ");
}

void diet(Sheet& sheet, const CaseDates& d) {
    if (!d.clear_through) {
        return;
    }
    const auto next = [](LocalDate day) { return date_words(add_days(day, 1)); };
    sheet.field("Diet",
                fmt::format("clear liquids {} to {}; full liquids {} to {}; soft {} to {}; regular from {}",
                            date_words(*d.placed), date_words(*d.clear_through), next(*d.clear_through),
                            date_words(*d.full_through), next(*d.full_through), date_words(*d.soft_through),
                            next(*d.soft_through)));
    sheet.field("Calls", fmt::format("{} and {}", day_words(*d.call_first), day_words(*d.call_second)));
}

void driving(Sheet& sheet, const Source& v, const CaseDates& d) {
    if (d.no_driving_before) {
        const auto printed = rules::next_full_hour(*d.no_driving_before, v.zone);
        sheet.field("No driving before",
                    fmt::format("{} ({} h from going home at {})", v.moment(printed),
                                v.policy.discharge.limits_h, v.clock(v.s.discharged->stamp.happened)));
    }
}

std::string disposition_words(const Source& v) {
    const auto& d = v.s.discharged->is;
    auto words =
        fmt::format("{}, {}", plain(name_of(d.disposition)), v.moment(v.s.discharged->stamp.happened));
    words += d.with ? fmt::format(", with {}", *d.with) : "";
    words += d.words ? fmt::format(", \"{}\"", *d.words) : "";
    return words + "; entered by " + v.person(v.s.discharged->stamp.by);
}

}  // namespace

void write_dates(Sheet& sheet, const Source& v) {
    const auto d = dates_given(v.s, v.desk, v.policy, v.zone);
    if (v.s.discharged) {
        const bool against = v.s.discharged->is.disposition == Disposition::against_advice;
        against ? sheet.loud("Discharge", disposition_words(v))
                : sheet.field("Discharge", disposition_words(v));
        if (!v.s.discharged->is.unmet.empty()) {
            sheet.loud("Checks not met", unmet_words(v));
        }
    }
    if (d.due) {
        sheet.field("Balloon due", fmt::format("{}; book by {}; latest {}", day_words(*d.due),
                                               day_words(*d.book_by), day_words(*d.latest)));
        if (d.dwell_by_default) {
            sheet.loud("", say::by_default);
        }
    } else if (outcome_of(v.s) && v.s.kind == CaseKind::placement) {
        sheet.field("Balloon due", say::none_in);
    }
    diet(sheet, d);
    driving(sheet, v, d);
}

void write_discharge(Sheet& sheet, const Source& v) {
    if (!v.s.discharged && !v.s.leaflet && !v.s.card) {
        return;
    }
    sheet.section("Discharge");
    if (v.s.discharged) {
        sheet.field("Left", disposition_words(v));
        const auto unmet = unmet_words(v);
        unmet.empty() ? sheet.field("Checks", say::none_unmet) : sheet.loud("Checks not met", unmet);
    }
    if (v.s.escort) {
        const auto& e = v.s.escort->is;
        sheet.field("Escort", fmt::format("{}, {}{}", e.name, e.phone,
                                          e.present ? (*e.present ? ", present" : ", not present") : ""));
    }
    if (v.s.leaflet) {
        sheet.field("Leaflet", fmt::format("{}, language {}, {}", name_of(v.s.leaflet->is.how),
                                           v.s.leaflet->is.language, v.clock(v.s.leaflet->stamp.happened)));
    }
    if (v.s.card) {
        sheet.field("Card",
                    fmt::format("{}, {}", name_of(v.s.card->is.how), v.clock(v.s.card->stamp.happened)));
    }
    for (const auto& item : v.policy.lists.discharge_answers) {
        if (const auto found = v.s.answers.find(item.id); found != v.s.answers.end()) {
            const auto& said = found->second;
            sheet.field(item.id, fmt::format("{}: {}, {} {}", item.words, plain(name_of(said.is.value)),
                                             v.clock(said.stamp.happened), v.person(said.stamp.by)));
        }
    }
}

}  // namespace brimline::record
