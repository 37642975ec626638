// Doses, airway events and pauses of the text record.
#include <fmt/format.h>

#include "core/record/text_parts.h"

namespace brimline::record {
namespace {

namespace say {
constexpr std::string_view running = "still running at the last entry";
constexpr std::string_view no_weight = "per kg not worked out: the weight is not known";
constexpr std::string_view reversal = "REVERSAL";
constexpr std::string_view not_ended = "NOT ENDED";
}  // namespace say

std::string without_end_zeros(std::string text) {
    const auto value = Decimal::parse(text);
    return value ? value->text() : text;
}

/// "11:42:10  Propofol 40 mg  into a vein  Dr Noor Adeyemi"
Row dose_row(const Source& v, const Noted<Dose>& dose) {
    const auto* drug = v.policy.drug(dose.is.drug);
    const auto route = dose.is.route ? *dose.is.route : drug == nullptr ? "" : drug->route;
    const bool reversal = drug != nullptr && drug->kind == "reversal";
    return {v.clock_s(dose.stamp.happened),
            drug_words(v.policy, dose.is.drug),
            dose.is.amount.text() + " " + unit_words(name_of(dose.is.unit)),
            route,
            v.who(dose.stamp),
            reversal ? std::string{say::reversal} : ""};
}

Row infusion_row(const Source& v, const InfusionRun& run) {
    const auto until = run.stop ? "to " + v.clock_s(run.stop->happened) : std::string{say::running};
    return {v.clock_s(run.start.stamp.happened),
            drug_words(v.policy, run.start.is.drug),
            run.start.is.rate.text() + " " + std::string{name_of(run.start.is.unit)},
            "infusion",
            v.who(run.start.stamp),
            until};
}

std::string actions_of(const Source& v, const AirwayEpisode& e) {
    std::vector<std::string> parts;
    for (const auto& action : e.actions) {
        parts.push_back(lowered(words_of(v.policy.lists.airway_actions, action)));
    }
    return joined(parts);
}

std::string episode_words(const Source& v, const AirwayEpisode& e) {
    auto words = v.clock_s(e.start.happened);
    words += e.end ? fmt::format(" to {}, {}", v.clock_s(*e.end), span_words(*e.end - e.start.happened))
                   : fmt::format(", {}", say::not_ended);
    words += e.lowest_spo2 ? fmt::format(", lowest SpO2 {} %", *e.lowest_spo2) : ", lowest SpO2 not recorded";
    const auto actions = actions_of(v, e);
    words += actions.empty() ? "" : "; " + actions;
    if (e.values && e.end && e.values->at > *e.end) {
        words += fmt::format("; values entered {} after its end", span_words(e.values->at - *e.end));
    }
    return words;
}

void one_pause(Sheet& sheet, const Source& v, PauseKind which, const PauseHeld& held,
               const std::vector<Check>& checks) {
    std::vector<std::string> people;
    for (const auto& id : held.present) {
        people.push_back(v.person(id));
    }
    sheet.field(
        plain(name_of(which)),
        fmt::format("{} to {}, {}; present: {}", v.clock_s(held.first.happened), v.clock_s(held.last.at),
                    span_words(held.last.at - held.first.happened), joined(people)));
    for (const auto& check : checks) {
        const auto found = held.answers.find(check.id);
        if (found == held.answers.end()) {
            sheet.loud("", fmt::format("NOT ASKED: {}", check.words));
        } else if (name_of(found->second) == check.good || found->second == Answered::not_applicable) {
            sheet.field("", fmt::format("{}: {}", plain(name_of(found->second)), check.words));
        } else {
            sheet.loud("", fmt::format("{}: {}", plain(name_of(found->second)), check.words));
        }
    }
}

}  // namespace

std::vector<std::string> dose_total_words(const Source& v) {
    std::vector<std::string> parts;
    const auto weight = weight_of(v.s);
    for (const auto& total : dose_totals(v.s, v.end)) {
        auto words = fmt::format("{} {} {}", lowered(drug_words(v.policy, total.drug)), total.total.text(),
                                 unit_words(total.unit));
        if (total.per_kg && weight) {
            words += fmt::format(" ({} {})", without_end_zeros(*total.per_kg), unit_words(total.per_kg_unit));
        }
        parts.push_back(words);
    }
    if (!parts.empty()) {
        parts.back() += weight ? fmt::format("; per kg of {} kg, {}",
                                             number_words(Decimal::of_millionths(weight->weight.in_tenths() *
                                                                                 (Decimal::scale / 10))),
                                             name_of(weight->basis))
                               : fmt::format("; {}", say::no_weight);
    }
    return parts;
}

void write_doses(Sheet& sheet, const Source& v) {
    if (v.s.doses.empty() && v.s.infusions.empty()) {
        return;
    }
    sheet.section("Doses");
    std::vector<Row> rows;
    for (const auto& dose : v.s.doses) {
        rows.push_back(dose_row(v, dose));
    }
    for (const auto& run : v.s.infusions) {
        rows.push_back(infusion_row(v, run));
    }
    sheet.table({"Time", "Drug", "Amount", "Route", "By", ""}, rows, {15, 24, 12, 14, 24, page_columns});
    sheet.field("Totals", joined(dose_total_words(v)));
}

void write_airway(Sheet& sheet, const Source& v) {
    for (const auto& episode : v.s.airway_events) {
        sheet.loud("Airway event", episode_words(v, episode));
    }
    for (const auto& episode : v.s.emergencies) {
        const auto kind = episode.end
                              ? lowered(words_of(v.policy.lists.emergency_kinds, episode.end->is.kind))
                              : "kind not named";
        sheet.loud("Emergency", fmt::format("{}, {}{}", v.clock_s(episode.start.happened), kind,
                                            episode.end ? ", ended " + v.clock_s(episode.end->stamp.happened)
                                                        : fmt::format(", {}", say::not_ended)));
    }
    if (v.s.secured) {
        sheet.loud(
            "Airway secured",
            fmt::format("tube {} at {}{}", v.s.secured->is.tube.text, v.clock_s(v.s.secured->stamp.happened),
                        v.s.freed ? ", out at " + v.clock_s(v.s.freed->happened) : ""));
    }
}

void write_pauses(Sheet& sheet, const Source& v) {
    if (v.s.pauses.empty()) {
        return;
    }
    sheet.section("Team pauses");
    const auto& lists = v.policy.lists;
    for (const auto& [which, held] : v.s.pauses) {
        const auto& checks = which == PauseKind::before_sedation ? lists.before_sedation
                             : which == PauseKind::before_device ? lists.before_device
                                                                 : lists.before_leaving;
        one_pause(sheet, v, which, held, checks);
    }
}

}  // namespace brimline::record
