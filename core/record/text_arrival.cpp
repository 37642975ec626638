// What was asked before sedation: identity, consent, fasting, medicines, contraindications, airway, escort.
#include <fmt/format.h>

#include <algorithm>

#include "core/record/text_parts.h"
#include "core/rules/airway.h"
#include "core/rules/body.h"

namespace brimline::record {
namespace {

namespace say {
constexpr std::string_view screen = "Contraindications asked";
constexpr std::string_view not_asked = "not asked";
constexpr std::string_view not_given = "NOT GIVEN";
constexpr std::string_view mismatch = "did NOT match";
}  // namespace say

template <class List, class Words>
std::string each(const List& list, Words words) {
    std::vector<std::string> parts;
    for (const auto& one : list) {
        parts.push_back(words(one));
    }
    return joined(parts, "; ");
}

void identity(Sheet& sheet, const Source& v) {
    if (v.s.identity) {
        const auto stated =
            each(v.s.identity->is.identifiers, [](Identifier i) { return std::string{name_of(i)}; });
        sheet.field("Identity", fmt::format("stated: {}; {}, {}", stated, v.who(v.s.identity->stamp),
                                            v.clock(v.s.identity->stamp.happened)));
    } else {
        sheet.field("Identity", say::not_asked);
    }
    for (const auto& entered : v.s.entered) {
        const auto words = fmt::format("{}, birth day and month typed again at {}, {}", entered.is.room,
                                       v.clock(entered.stamp.happened), v.person(entered.stamp.by));
        entered.is.match ? sheet.field("Entered", words + ": match")
                         : sheet.loud("Entered", fmt::format("{}: {}", words, say::mismatch));
    }
}

void consent(Sheet& sheet, const Source& v) {
    if (!v.s.consent) {
        return sheet.field("Consent", say::not_asked);
    }
    const auto& c = v.s.consent->is;
    const bool given = c.form ? *c.form != ConsentForm::not_possible : c.is_signed.value_or(false);
    auto words = c.form ? plain(name_of(*c.form)) : std::string{given ? "signed" : say::not_given};
    words += c.reason ? ", " + *c.reason : "";
    words += c.decided_by ? ", decided by " + v.person(*c.decided_by) : "";
    words += fmt::format("; {}, {}", v.who(v.s.consent->stamp), v.clock(v.s.consent->stamp.happened));
    given ? sheet.field("Consent", words) : sheet.loud("Consent", words);
}

std::string last_taken(const Source& v, const Intake& intake) {
    const auto kind = intake_words(intake.kind);
    switch (intake.last.kind) {
        case LastIntake::Kind::at:
            return fmt::format("{} {}", kind, v.moment(intake.last.at));
        case LastIntake::Kind::not_known:
            return kind + " not known";
        case LastIntake::Kind::vomiting:
            return kind + ": vomiting";
    }
    return kind;
}

void fasting_and_medicines(Sheet& sheet, const Source& v) {
    const auto eaten = each(v.s.intakes, [&](const auto& i) { return last_taken(v, i.is); });
    sheet.field("Last taken", eaten.empty() ? std::string{say::not_asked} : eaten);
    sheet.field("Medicines", each(v.s.medicines, [&](const auto& m) {
                    return fmt::format("{} ({}{})", m.is.name, group_words(m.is.group),
                                       m.is.last_dose ? ", last " + date_words(*m.is.last_dose) : "");
                }));
    sheet.field("Unchanged since", each(v.s.unchanged, [&](const auto& u) {
                    return fmt::format("{} {}", plain(name_of(u.is.block)), date_words(u.is.since));
                }));
}

void screen(Sheet& sheet, const Source& v) {
    std::vector<Row> rows;
    for (const auto& check : v.policy.lists.screen) {
        const auto found = v.s.answers.find(check.id);
        if (found == v.s.answers.end()) {
            rows.push_back({"", std::string{say::not_asked}, "", check.words});
            continue;
        }
        const auto& answer = found->second.is;
        const bool good = name_of(answer.value) == check.good || answer.value == Answered::not_applicable;
        const auto words = check.words + (answer.note ? " \"" + *answer.note + "\"" : "");
        rows.push_back(
            {good ? "" : "!!", plain(name_of(answer.value)), v.when(found->second.stamp.happened), words});
    }
    sheet.table({"", "Answer", "When", "Asked"}, rows, {2, 14, 17, page_columns});
}

/// The total of the sleep apnoea questions; BMI, age and sex come from the record.
std::string stop_bang_words(const Source& v, const StopBang& asked) {
    rules::StopBang answers{asked.snores, asked.tired, asked.observed, asked.pressure, {}, {}, {}, {}};
    const auto weight = weight_of(v.s);
    const auto height = height_of(v.s);
    if (weight && height) {
        answers.bmi_over = rules::stop_bang_bmi(rules::bmi(weight->weight, *height));
    }
    if (v.s.patient.born) {
        answers.age_over = rules::stop_bang_age(age_on(*v.s.patient.born, v.day));
    }
    if (asked.neck_cm) {
        answers.neck_over = rules::stop_bang_neck(*asked.neck_cm, v.policy.airway);
    }
    if (v.s.patient.sex_at_birth) {
        answers.male = *v.s.patient.sex_at_birth == Sex::m;
    }
    const auto score = rules::stop_bang(answers, v.policy.airway.two_step);
    const auto total = score.least == score.most ? std::to_string(score.least)
                                                 : fmt::format("{} to {}", score.least, score.most);
    return fmt::format("STOP-Bang {}, {}", total, plain(name_of(score.risk)));
}

std::string question(const char* name, const std::optional<bool>& answer) {
    return answer ? fmt::format("{} {}", name, yes_no(*answer)) : fmt::format("{} not answered", name);
}

void airway(Sheet& sheet, const Source& v) {
    if (!v.s.airway) {
        return sheet.field("Airway", say::not_asked);
    }
    const auto& a = v.s.airway->is;
    auto words = fmt::format("ASA {}, Mallampati {}", a.asa, a.mallampati);
    words += a.earlier_trouble ? ", EARLIER TROUBLE with sedation" : ", no earlier trouble with sedation";
    words += a.own_cpap ? ", own CPAP" : "";
    sheet.field("Airway", fmt::format("{}; {}", words, v.who(v.s.airway->stamp)));
    if (a.stop_bang) {
        const auto& q = *a.stop_bang;
        sheet.field("Sleep apnoea",
                    joined({stop_bang_words(v, q), question("snores", q.snores), question("tired", q.tired),
                            question("observed", q.observed), question("pressure", q.pressure),
                            q.neck_cm ? fmt::format("neck {} cm", q.neck_cm->text()) : "neck not measured"}));
    }
}

}  // namespace

void write_arrival(Sheet& sheet, const Source& v) {
    sheet.section("Before sedation");
    identity(sheet, v);
    consent(sheet, v);
    fasting_and_medicines(sheet, v);
    airway(sheet, v);
    if (v.s.escort) {
        sheet.field("Escort", fmt::format("{}, {}", v.s.escort->is.name, v.s.escort->is.phone));
    }
    if (v.s.monitor_clock) {
        sheet.field("Monitor clock",
                    fmt::format("{} against the kiosk at {}", offset_words(v.s.monitor_clock->is.offset_s),
                                v.clock(v.s.monitor_clock->stamp.happened)));
    }
    sheet.blank();
    sheet.line(say::screen, 3);
    screen(sheet, v);
}

}  // namespace brimline::record
