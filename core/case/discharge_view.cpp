// What Discharge shows, worked out from the case.
#include "core/case/discharge_view.h"

#include <algorithm>

#include "core/rules/discharge.h"

namespace brimline {
namespace {

struct Checks {
    const CaseState& s;
    const Policy& policy;
    std::vector<std::string> required, unmet;

    [[nodiscard]] bool needs(std::string_view id) const {
        return std::find(required.begin(), required.end(), id) != required.end();
    }
    [[nodiscard]] bool met(std::string_view id) const {
        return std::find(unmet.begin(), unmet.end(), id) == unmet.end();
    }
    /// When a check was answered by hand.
    [[nodiscard]] std::optional<Instant> answered(const char* id) const {
        const auto answer = s.answers.find(id);
        return answer == s.answers.end() ? std::nullopt : std::optional{answer->second.stamp.happened};
    }
};

HomeLine fit_line(const Checks& c) {
    const bool met = (!c.needs("time") || c.met("time")) && (!c.needs("alert") || c.met("alert")) &&
                     (!c.needs("air") || c.met("air"));
    return {HomeCheck::fit, met, fit_since(c.s, c.policy), {}, {}};
}

HomeLine score_line(const Checks& c) {
    HomeLine line{HomeCheck::score, c.met("score"), {}, {}, {}};
    for (const auto& score : c.s.scores) {
        if (score.is.scale == Scale::padss) {
            line.at = score.stamp.happened;
            line.value = total_of(score.is);
        }
    }
    return line;
}

HomeLine drink_line(const Checks& c) {
    HomeLine line{HomeCheck::drink, c.met("drink"), {}, {}, {}};
    if (!c.s.drinks.empty()) {
        line.at = c.s.drinks.back().stamp.happened;
        line.ml = c.s.drinks.back().is.ml;
    }
    return line;
}

HomeLine rating_line(const Checks& c, HomeCheck check, const char* id, SymptomKind kind) {
    HomeLine line{check, c.met(id), {}, last_rating(c.s, kind), {}};
    for (const auto& symptom : c.s.symptoms) {
        line.at = symptom.is.kind == kind ? std::optional{symptom.stamp.happened} : line.at;
    }
    return line;
}

}  // namespace

std::vector<HomeLine> home_lines(const CaseState& s, const Policy& policy, Instant now) {
    const auto& d = policy.discharge;
    const Checks c{s, policy, placed_at(s) ? d.placed_checks : d.deferred_checks,
                   unmet_checks(s, policy, now)};
    std::vector<HomeLine> lines;
    const auto add = [&](const char* id, HomeLine line) {
        if (c.needs(id)) {
            lines.push_back(line);
        }
    };
    add("time", fit_line(c));
    add("score", score_line(c));
    if (c.policy.discharge.drink_required) {
        add("drink", drink_line(c));
    }
    add("nausea", rating_line(c, HomeCheck::nausea, "nausea", SymptomKind::nausea));
    add("pain", rating_line(c, HomeCheck::pain, "pain", SymptomKind::pain));
    add("cannula", {HomeCheck::cannula, c.met("cannula"), c.answered("cannula"), {}, {}});
    add("prescriptions",
        {HomeCheck::prescriptions, c.met("prescriptions"), c.answered("prescriptions"), {}, {}});
    if (s.kind == CaseKind::removal && !c.needs("prescriptions")) {
        const auto said = c.answered("prescriptions");
        lines.push_back({HomeCheck::prescriptions, said.has_value(), said, {}, {}, false});
    }
    const auto given = s.leaflet ? std::optional{s.leaflet->stamp.happened} : std::nullopt;
    lines.push_back({HomeCheck::sheet, s.leaflet.has_value(), given, {}, {}});
    const auto card = s.card ? std::optional{s.card->stamp.happened} : c.answered("card");
    add("card", {HomeCheck::card, c.met("card"), card, {}, {}});
    const bool said_back = c.answered("advice").has_value() && c.met("advice");
    add("advice", {HomeCheck::advice, said_back, c.answered("advice"), {}, {}});
    const auto asked = s.escort ? std::optional{s.escort->stamp.happened} : std::nullopt;
    add("escort", {HomeCheck::escort, c.met("escort"), asked, {}, {}});
    const auto left = s.discharged ? std::optional{s.discharged->stamp.happened} : std::nullopt;
    lines.push_back({HomeCheck::goes, s.discharged.has_value(), left, {}, {}});
    return lines;
}

std::string sheet_language(const CaseState& s, const Policy& policy) {
    const auto& own = s.patient.language;
    return own && policy.sheet(*own) != nullptr ? *own : policy.clinic.language;
}

HomeSheet home_sheet(const CaseState& s, const Policy& policy, const Zone& zone, Instant now) {
    const auto dates = dates_of(s, policy, zone);
    HomeSheet sheet;
    if (dates.placed) {
        sheet.volume = running_volume(s.device());
        sheet.dye = s.device().dye && s.device().dye->is.ml.has_value();
    }
    sheet.placed = dates.placed;
    const auto next = [](const std::optional<LocalDate>& day) {
        return day ? std::optional{add_days(*day, 1)} : std::nullopt;
    };
    sheet.clear_to = dates.clear_through;
    sheet.full_from = next(dates.clear_through);
    sheet.full_to = dates.full_through;
    sheet.soft_from = next(dates.full_through);
    sheet.soft_to = dates.soft_through;
    sheet.usual_from = next(dates.soft_through);
    if (s.sedation_start) {
        const auto left = s.discharged ? s.discharged->stamp.happened : now;
        sheet.no_driving = rules::next_full_hour(rules::limits_until(left, policy.discharge.limits_h), zone);
    }
    sheet.first_call = dates.call_first;
    sheet.second_call = dates.call_second;
    sheet.book_by = dates.book_by;
    sheet.due = dates.due;
    return sheet;
}

}  // namespace brimline
