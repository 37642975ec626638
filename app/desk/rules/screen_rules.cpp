// Worked examples of pauses, the contraindication screen, medicines, pregnancy, findings and dye.
#include <algorithm>
#include <array>

#include "app/desk/rules/rule.h"
#include "core/rules/dye.h"
#include "core/rules/look.h"
#include "core/rules/pause.h"
#include "core/rules/screen.h"

namespace brimline::worked {
namespace {

struct NamedRole {
    std::string_view word;
    Role role;
};
constexpr std::array<NamedRole, 3> roles{{{"physician", Role::physician},
                                          {"assistant", Role::assistant},
                                          {"sedation-provider", Role::sedation_provider}}};

Outputs answer_pause(const Inputs& in) {
    std::vector<Check> required;
    for (const std::string& id : in.texts("required")) {
        required.push_back({id, "", "yes", "absolute", {}});
    }
    std::map<std::string, rules::PauseAnswer, std::less<>> answers;
    const Inputs given = in.within("answers");
    for (const std::string& id : given.names()) {
        const std::string word = given.text(id);
        if (!word.empty()) {
            answers[id] = word == "yes"  ? rules::PauseAnswer::yes
                          : word == "no" ? rules::PauseAnswer::no
                                         : rules::PauseAnswer::not_applicable;
        }
    }
    Roles present;
    for (const std::string& word : in.texts("present")) {
        for (const NamedRole& named : roles) {
            if (named.word == word) {
                present.add(named.role);
            }
        }
    }
    const auto outcome = rules::judge_pause(required, answers, present);
    std::vector<std::string> absent;
    for (const NamedRole& named : roles) {
        if (std::find(outcome.absent.begin(), outcome.absent.end(), named.role) != outcome.absent.end()) {
            absent.emplace_back(named.word);
        }
    }
    Outputs out;
    out.put("complete", outcome.complete)
        .put("missing", outcome.missing)
        .put("holds", outcome.bad)
        .put("absent_roles", absent);
    return out;
}

Outputs answer_screen(const Inputs& in) {
    std::vector<rules::ScreenItem> items;
    for (const Inputs& given : in.objects("answers")) {
        rules::ScreenItem item{given.text("kind") != "relative", std::nullopt};
        if (const std::string answer = given.text("answer"); answer == "yes" || answer == "no") {
            item.bad = answer == "yes";
        }
        items.push_back(item);
    }
    const auto outcome = rules::judge_screen(items);
    Outputs out;
    out.put("hold", outcome.hold)
        .put("review", outcome.review)
        .put("missing", outcome.missing)
        .put("complete", outcome.complete());
    return out;
}

Outputs answer_window(const Inputs& in) {
    const auto window =
        rules::medicine_window(in.date("last_dose_date"), in.date("on"),
                               in.policy().whole("window_days", in.house().medicine.window_days));
    Outputs out;
    out.put("days_since", window.days_since).put("review", window.review);
    return out;
}

Outputs answer_pregnancy(const Inputs& in) {
    const std::string word = in.text("test");
    const auto test = word == "negative"         ? rules::PregnancyTest::negative
                      : word == "positive"       ? rules::PregnancyTest::positive
                      : word == "declined"       ? rules::PregnancyTest::declined
                      : word == "not-applicable" ? rules::PregnancyTest::not_applicable
                                                 : rules::PregnancyTest::not_answered;
    const int most = in.policy().whole("max_age_h", in.house().medicine.pregnancy_test_h);
    const auto outcome =
        rules::judge_pregnancy(in.truth("childbearing_potential"), test, in.whole("test_age_h"), most);
    Outputs out;
    out.put("satisfied", outcome.satisfied);
    if (outcome.hold) {
        out.put("hold", "absolute");
    }
    return out;
}

Outputs answer_hernia(const Inputs& in) {
    const Decimal ceiling = in.policy().decimal("ceiling_cm", in.house().look.hernia_ceiling_cm);
    Outputs out;
    out.put("stop", rules::hernia_stops(in.decimal("size_cm"), ceiling));
    return out;
}

/// A word of worked examples, what the house's list calls it, and its grade.
struct FindingWord {
    std::string_view word, id, grade;
};
constexpr std::array<FindingWord, 14> finding_list{{{"retained-solid-food", "retained-food", ""},
                                                    {"erosions-few", "erosions", ""},
                                                    {"active-ulcer", "ulcer", ""},
                                                    {"ulcer", "ulcer", ""},
                                                    {"bleeding", "bleeding", ""},
                                                    {"varices", "varices", ""},
                                                    {"mass", "mass", ""},
                                                    {"stricture", "stricture", ""},
                                                    {"earlier-stomach-surgery", "earlier-surgery-seen", ""},
                                                    {"small-hernia", "hiatal-hernia", ""},
                                                    {"oesophagitis-A", "oesophagitis", "A"},
                                                    {"oesophagitis-B", "oesophagitis", "B"},
                                                    {"oesophagitis-C", "oesophagitis", "C"},
                                                    {"oesophagitis-D", "oesophagitis", "D"}}};

std::string finding_words() {
    std::string words;
    for (const FindingWord& finding : finding_list) {
        words += (words.empty() ? "" : "|") + std::string{finding.word};
    }
    return words;
}

Outputs answer_look(const Inputs& in) {
    std::vector<rules::Seen> findings;
    for (const std::string& word : in.texts("findings")) {
        for (const FindingWord& finding : finding_list) {
            if (finding.word == word) {
                const std::string grade{finding.grade};
                findings.push_back({std::string{finding.id},
                                    grade.empty() ? std::nullopt : std::optional{grade}, std::nullopt});
            }
        }
    }
    const auto outcome = rules::judge_look(findings, in.house().look);
    Outputs out;
    out.put("stop", outcome.stop()).put("review", !outcome.review.empty());
    return out;
}

Outputs answer_dye(const Inputs& in) {
    Outputs out;
    const bool used = in.text("dye") != "none";
    bool caution = false;
    if (in.has("drug")) {
        const rules::Serotonergic medicine{in.text("drug") == "fluoxetine", in.maybe_date("last_dose_date")};
        const auto judged = rules::dye_caution(medicine, in.date("on"), in.house().medicine);
        out.put("days_since", judged.days_since).put("needed_days", judged.needed_days);
        caution = used && judged.caution;
    }
    out.put("caution", caution)
        .put("dye_hold", used && rules::dye_held(in.truth("g6pd_deficiency"), in.truth("pregnant")))
        .put("case_hold", false);  // the dye is held, the case goes on without
    return out;
}

}  // namespace

std::vector<Rule> screen_rules() {
    return {
        {"pause",
         "pause?: text, required: list of text, answers: words, "
         "present: list of one of physician|assistant|sedation-provider|nurse|coordinator",
         "complete: true/false, missing?: set of text, holds?: set of text, absent_roles?: set of text",
         "before.md 6: WHO Surgical Safety Checklist 2009 (structure)", answer_pause},
        {"screen", "answers: list of {item: text, kind: one of absolute|relative, answer?: one of yes|no}",
         "hold: true/false, review: true/false, missing: whole, complete?: true/false",
         "before.md 5: case design; items from memory of society reviews", answer_screen},
        {"medicine-window", "drug?: text, last_dose_date: time, on: time, policy?: {window_days?: whole}",
         "days_since: whole, review: true/false", "before.md 5: house; compare 10.1055/s-0042-102652",
         answer_window},
        {"pregnancy",
         "childbearing_potential: true/false, test?: one of negative|positive|declined|not-applicable, "
         "test_age_h?: whole, policy?: {max_age_h?: whole}",
         "satisfied: true/false, hold?: text", "before.md 5: NICE NG45 (2016), 1.3; the age is a house rule",
         answer_pregnancy},
        {"hiatal-hernia", "size_cm: decimal, policy?: {ceiling_cm?: decimal}", "stop: true/false",
         "before.md 10: common practice", answer_hernia},
        {"look", "findings: list of one of " + finding_words(), "stop: true/false, review?: true/false",
         "before.md 10: from memory; house", answer_look},
        {"dye",
         "dye: one of methylene-blue|methylene blue|none, "
         "drug?: text, last_dose_date?: time, on?: time, g6pd_deficiency?: "
         "true/false, "
         "pregnant?: true/false",
         "days_since?: whole, needed_days?: whole, caution?: true/false, dye_hold?: true/false, "
         "case_hold?: true/false",
         "before.md 11: FDA Drug Safety Communications 2011 (as reported); label", answer_dye},
    };
}

}  // namespace brimline::worked
