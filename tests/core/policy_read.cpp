// The policy's files as they ship, what an overlay may do, and the faults that a clinic is told.
#include <algorithm>

#include "core/clinic/nearest.h"
#include "core/clinic/policy_schema.h"
#include "tests/catch.h"
#include "tests/core/policy_files.h"

namespace brimline {
namespace {

using test::demo_policy;
using test::files_in;
using test::house_policy;

std::vector<PolicyFault> faults_with(const std::vector<PolicyFile>& overlay) {
    const auto read = read_policy(files_in("assets/policy"), overlay);
    REQUIRE_FALSE(read.has_value());
    return read.error();
}

std::vector<std::string> ids(const std::vector<Check>& checks) {
    std::vector<std::string> out;
    std::transform(checks.begin(), checks.end(), std::back_inserter(out),
                   [](const Check& c) { return c.id; });
    return out;
}

TEST_CASE("the house defaults are the published figures", "[policy]") {
    const Policy& p = house_policy();
    // before.md 1, 3, 7, 13; after.md 10; 10-decisions A8, A9, F21, G2
    CHECK(p.fasting.clear_fluid == minutes{120});
    CHECK(p.fasting.fatty_meal == minutes{480});
    CHECK(p.fasting.removal_solid == std::chrono::hours{72});
    CHECK(p.fasting.removal_clear == std::chrono::hours{12});
    CHECK(p.fasting.oldest_unasked == std::chrono::hours{72});
    CHECK(p.fasting.glp1_apply == "all");
    CHECK(p.body.weight_kg.ask_low == Decimal::of(45));
    CHECK(p.body.height_cm.hard_high == Decimal::of(230));
    CHECK_FALSE(p.airway.questionnaire);
    CHECK(p.vitals.interval == seconds{300});
    CHECK(p.vitals.hr.ask_high == Decimal::of(180));
    CHECK(p.look.hernia_ceiling_cm == Decimal::of(5));
    CHECK(p.fill.double_tap == seconds{8});
    CHECK(p.fill.count_check_every == 5);
    CHECK(p.fill.syringe == 50_mL);
    CHECK(p.fill.saline_g_per_ml == Decimal::of_millionths(1'004'600));
    CHECK(p.recovery.first_set == minutes{3});
    CHECK(p.recovery.since_reversal == minutes{120});
    CHECK(p.discharge.padss_consecutive == 2);
    CHECK(p.dwell.book_by_days == 56);
    CHECK(p.reg.visit_months == std::vector<int>{1, 2, 3, 4, 5, 9, 12});
    CHECK(p.devices.empty());
    CHECK(p.recalled_lots.empty());
}

TEST_CASE("the checks stand in the order that was decided", "[policy]") {
    const Policy& p = house_policy();
    CHECK(ids(p.lists.screen) ==
          std::vector<std::string>{"earlier-surgery", "balloon-in-place", "pregnancy-or-feeding",
                                   "hiatal-hernia-known", "active-ulcer-or-bleeding", "varices",
                                   "oesophagus-or-emptying", "bowel-inflammation", "bleeding-disorder",
                                   "severe-organ-disease", "dependence", "eating-or-mental-disorder",
                                   "anticoagulant-or-nsaid", "silicone-allergy", "pregnancy-test"});
    for (const Check& check : p.lists.screen) {
        const bool reviewed = check.id == "pregnancy-test";  // a pregnancy has its own absolute check
        CHECK(check.hold_class == (reviewed                               ? "review"
                                   : check.id == "anticoagulant-or-nsaid" ? "relative"
                                                                          : "absolute"));
    }
    CHECK(p.lists.before_sedation.size() == 7);
    CHECK(p.lists.before_device.size() == 4);
    CHECK(p.lists.before_leaving.size() == 4);
    CHECK(p.discharge.placed_checks == std::vector<std::string>{"score", "time", "alert", "air", "drink",
                                                                "nausea", "pain", "escort", "cannula",
                                                                "prescriptions", "advice", "card"});
    CHECK(p.discharge.deferred_checks == std::vector<std::string>{"score", "time", "alert", "air", "drink",
                                                                  "nausea", "pain", "escort", "cannula",
                                                                  "advice"});
}

TEST_CASE("the demo's clinic differs only where it says so", "[policy]") {
    const Policy& p = demo_policy();
    CHECK(p.discharge.padss_consecutive == 1);
    CHECK(p.airway.questionnaire);
    CHECK(p.clinic.zone == "Europe/London");
    CHECK(p.clinic.rooms == std::vector<std::string>{"Room 1", "Room 2"});
    CHECK(p.clinic.phone.substr(0, 9) == "01632 960");
    CHECK(p.fill.double_tap == house_policy().fill.double_tap);
    CHECK(p.recalled_lots == std::vector<std::string>{"DW-2399"});
    const DeviceProfile* device = p.device("02001234026413");
    REQUIRE(device != nullptr);
    CHECK(device->least == 420_mL);
    CHECK(device->ceiling == 700_mL);
    CHECK(device->aim == 500_mL);
    CHECK(device->dwell_months == 6);
    CHECK(p.device("02000000047119") == nullptr);
    CHECK(device->maker == "Demo Device Works");
    CHECK(p.print.paper == "a4");
    REQUIRE(p.sheet("pl") != nullptr);
    CHECK(p.sheet("pl")->version == "1");
    CHECK(p.sheet("de") == nullptr);
    CHECK(house_policy().sheet("en") == nullptr);
    REQUIRE(p.drug("fentanyl") != nullptr);
    CHECK(p.drug("fentanyl")->unit == "ug");
    CHECK(p.drug("fentanyl")->unit_words == "mcg");
    CHECK(p.drug("flumazenil")->per_ml == Decimal::of_millionths(100'000));
    CHECK(p.drug("suxamethonium") != nullptr);
    CHECK(house_policy().drug("suxamethonium") == nullptr);
    CHECK(p.drug("propofol")->usual_high == Decimal::of(100));
}

TEST_CASE("a policy reads back from its canonical text unchanged", "[policy]") {
    for (const Policy* policy : {&house_policy(), &demo_policy()}) {
        const auto again = read_policy_text(policy->text);
        REQUIRE(again.has_value());
        CHECK(again->text == policy->text);
        CHECK(again->formulary.size() == policy->formulary.size());
        CHECK(again->lists.screen[12].hold_class == "relative");
        CHECK(again->lists.screen[12].roles == policy->lists.screen[12].roles);
    }
    CHECK(house_policy().text != demo_policy().text);
    CHECK(house_policy().text.find("\"fill.saline-g-per-ml\":1.0046,") != std::string::npos);
    CHECK(house_policy().text.find("source") == std::string::npos);
}

TEST_CASE("a broken canonical text is refused by key", "[policy]") {
    std::string text = house_policy().text;
    const std::string from = "\"fill.double-tap-s\":8";
    text.replace(text.find(from), from.size(), "\"fill.double-tap-s\":80");
    const auto read = read_policy_text(text);
    REQUIRE_FALSE(read.has_value());
    CHECK(read.error() == std::vector<PolicyFault>{
                              {"policy of the journal", "fill.double-tap-s", "is 80, allowed is 1 to 15 s"}});
    CHECK_FALSE(read_policy_text("{}").has_value());
    CHECK(read_policy_text("{}").error().size() == schema::keys().size());
    CHECK_FALSE(read_policy_text("no").has_value());
}

TEST_CASE("every fault of an overlay is named with file, key, value and range", "[policy]") {
    struct Row {
        const char* file;
        const char* text;
        const char* key;
        const char* say;
    };
    const std::vector<Row> table{
        {"fill.json", R"({"fill.double-tap-s": {"value": 0}})", "fill.double-tap-s",
         "is 0, allowed is 1 to 15 s"},
        {"fill.json", R"({"fill.double-tap-s": {"value": 2.5}})", "fill.double-tap-s",
         "is 2.5, finer than is kept; allowed is 1 to 15 s in whole numbers"},
        {"fill.json", R"({"fill.double-tap-s": {"value": "8"}})", "fill.double-tap-s",
         "must be a number of at most six decimals, 1 to 15 s, and is a text"},
        {"fill.json", R"({"fill.double-tap-s": 8})", "fill.double-tap-s", "needs {\"value\": ...}"},
        {"fill.json", R"({"fill.double-tpa-s": {"value": 8}})", "fill.double-tpa-s",
         "is no key of the policy, did you mean \"fill.double-tap-s\"?"},
        {"fill.json", R"({"recovery.threshold": {"value": 9}})", "recovery.threshold",
         "belongs in recovery.json"},
        {"fill.json", R"({"fill.double-tap-s": {"value": 8, "unit": "min"}})", "fill.double-tap-s",
         "must have the unit \"s\""},
        {"fill.json", R"({"fill.double-tap-s": {"value": 8, "range": [0, 60]}})", "fill.double-tap-s",
         "must have the range of the program; it is part of the rule, not of the clinic"},
        {"fill.json", R"({"fill.double-tap-s": {"value": 8, "sorce": "x"}})", "fill.double-tap-s",
         "has \"sorce\", which is not known, did you mean \"source\"?"},
        {"fil.json", "{}", "", "is no file of the policy, did you mean \"fill.json\"?"},
        {"fill.json", "[]", "", "must be an object of keys, and is a list"},
        {"vitals.json", R"({"vitals.etco2-expected": {"value": "always"}})", "vitals.etco2-expected",
         "is \"always\", allowed is never, deep, moderate"},
        {"vitals.json", R"({"vitals.hr": {"value": {"ask": [35, 180], "hard": [0, 400]}}})", "vitals.hr",
         "has hard whose end is 400, allowed is 0 to 300 /min"},
        {"vitals.json", R"({"vitals.hr": {"value": {"ask": [35, 180], "hard": [40, 300]}}})", "vitals.hr",
         "has ask reaching outside hard"},
        {"airway.json", R"({"airway.two-step": {"value": 1}})", "airway.two-step",
         "must be true or false, and is a number"},
        {"print.json", R"({"print.paper": {"value": "a5"}})", "print.paper",
         "is \"a5\", allowed is a4, letter"},
        {"print.json",
         R"({"print.sheets": {"value": [{"language": "pl", "version": "1", "approver": "x", "date": "2 May"}]}})",
         "print.sheets", "has \"date\" that is no date like 2026-11-02"},
        {"print.json",
         R"({"print.sheets": {"value": [{"language": "pl", "version": "1", "date": "2026-11-02"}]}})",
         "print.sheets", "has \"approver\" that must be a text"},
        {"recall.json", R"({"recall.lots": {"value": ["DW-1", "DW-1"]}})", "recall.lots",
         "holds \"DW-1\" twice"},
        {"diet.json", R"({"diet.full-through": {"value": 21}, "diet.soft-through": {"value": 20}})",
         "diet.full-through", "must lie between diet.clear-days and diet.soft-through"},
        {"register.json", R"({"register.lost-dates": {"value": 4}})", "register.lost-dates",
         "must not exceed register.lost-attempts"},
        {"recovery.json",
         R"({"recovery.since-sedative-min": {"value": 90}, "recovery.since-reversal-min": {"value": 60}})",
         "recovery.since-reversal-min", "must not be shorter than recovery.since-sedative-min"},
        {"recovery.json", R"({"recovery.vitals-min": {"value": 5}})", "recovery.vitals-after-reversal-min",
         "must not be longer than recovery.vitals-min"},
        {"clinic.json", R"({"clinic.closed-dates": {"value": ["2026-02-30"]}})", "clinic.closed-dates",
         "holds \"2026-02-30\", which is no date like 2026-12-25"},
        {"clinic.json", R"({"clinic.zone": {"value": "../etc/passwd"}})", "clinic.zone",
         "must be a zone like Europe/London, or empty for the system's own"},
        {"look.json", R"({"look.stopping-findings": {"value": ["retained-food", "ulcre"]}})",
         "look.stopping-findings",
         "names \"ulcre\", which list.findings does not hold, did you mean \"ulcer\"?"},
        {"discharge.json",
         R"({"discharge.placed-checks": {"value": ["score", "time", "alert", "air", "nausea", "pain",)"
         R"( "escort", "cannula", "advice"]}})",
         "discharge.placed-checks", "must keep \"drink\" while discharge.drink-required is true"}};
    for (const auto& row : table) {
        INFO(row.text);
        CHECK(faults_with({{row.file, row.text}}) == std::vector<PolicyFault>{{row.file, row.key, row.say}});
    }
}

TEST_CASE("faults in lists name the item and its member", "[policy]") {
    const auto say = [](const char* file, const std::string& text) {
        const auto faults = faults_with({{file, text}});
        return faults.front().say;
    };
    const auto drug = [](const std::string& members) {
        return R"({"formulary.drugs": {"value": [{"id": "a", "words": "A", "unit": "mg", "route": "x",)"
               R"( "kind": "other")" +
               members + "}]}}";
    };
    CHECK(say("formulary.json", drug(R"(, "chips": [5], "usual": [10, 20])")) ==
          "has a: \"chips\" that hold 5, outside the usual 10 to 20");
    CHECK(say("formulary.json", drug(R"(, "per_ml": 0)")) ==
          "has a: \"per_ml\" that must be a number above 0 of at most six decimals");
    CHECK(say("formulary.json", drug(R"(, "per-ml": 10)")) ==
          "has a: \"per-ml\" that is no member of this list, did you mean \"per_ml\"?");
    CHECK(say("formulary.json", drug(R"(, "usual": [20, 10])")) ==
          "has a: \"usual\" that must be [low, high]");
    CHECK(say("formulary.json", R"({"formulary.drugs": {"value": [{"id": "a", "words": "A", "unit": "g",)"
                                R"( "route": "x", "kind": "other"}]}})") ==
          "has a: \"unit\" that is \"g\", allowed is mg, ug, mL");
    const auto device = [](const std::string& gtin, const std::string& band,
                           const std::string& dwell = R"("dwell_months": 6)") {
        return R"({"device.profiles": {"value": [{"gtin": ")" + gtin +
               R"(", "words": "D", "range_ml": [420, 700], "syringe_ml": 50, "band_ml": )" + band +
               R"(, "aim_ml": 500, )" + dwell + R"(, "ready_words": "ready"}]}})";
    };
    CHECK(say("device.json", device("02001234026414", "[500, 600]")).find("check digit") !=
          std::string::npos);
    CHECK(say("device.json", device("02001234026413", "[510, 600]")) ==
          "has 02001234026413: \"band_ml\" that breaks the order: least, band start, aim, band end, ceiling");
    CHECK(say("device.json", device("02001234026413", "[500, 600]", R"("dwell_days": 29)")) ==
          "has 02001234026413: \"dwell_days\" that must be 30 to 365 days");
    CHECK(say("dwell.json", R"({"dwell.days": {"value": 29}})").find("0 (months alone) or 30 to 365") !=
          std::string::npos);
    CHECK(say("pause.json", R"({"pause.before-device": {"value": [{"id": "patient-and-go", "words": "w",)"
                            R"( "good": "yes", "hold_class": "absolute", "roles": ["surgeon"]}]}})")
              .find("roles only") != std::string::npos);
}

TEST_CASE("a clinic may replace the last three checks before sedation and no earlier one", "[policy]") {
    const auto pause = [](const std::vector<std::string>& check_ids) {
        std::string text = R"({"pause.before-sedation": {"value": [)";
        for (const auto& id : check_ids) {
            text += (id == check_ids.front() ? "" : ", ") + (R"({"id": ")" + id) +
                    R"(", "words": "w", "good": "yes", "hold_class": "absolute"})";
        }
        return std::vector<PolicyFile>{{"pause.json", text + "]}}"}};
    };
    const std::vector<std::string> four{"identity-procedure-consent", "allergies", "fasting", "airway-plan"};
    auto with = [&](std::vector<std::string> more) {
        auto all = four;
        all.insert(all.end(), more.begin(), more.end());
        return pause(all);
    };
    CHECK(read_policy(files_in("assets/policy"), with({"own-one", "own-two", "own-three"})).has_value());
    CHECK(faults_with(with({"a", "b", "c", "d"})).front().say == "holds 8 checks, allowed are 1 to 7");
    CHECK(faults_with(pause({"allergies", "identity-procedure-consent", "fasting", "airway-plan"}))
              .front()
              .say == "must begin with identity-procedure-consent, allergies, fasting, airway-plan");
}

TEST_CASE("a missing house key and several faults at once are all named", "[policy]") {
    auto house = files_in("assets/policy");
    house.erase(
        std::remove_if(house.begin(), house.end(), [](const auto& f) { return f.name == "look.json"; }),
        house.end());
    const auto read =
        read_policy(house, {{"fill.json", R"({"fill.stalled-s": {"value": 1}, "x": {"value": 1}})"}});
    REQUIRE_FALSE(read.has_value());
    CHECK(read.error().size() == 6);
    CHECK(read.error()[0] == PolicyFault{"look.json", "look.hernia-ceiling-cm", "is missing"});
    CHECK(read.error()[4] == PolicyFault{"fill.json", "fill.stalled-s", "is 1, allowed is 30 to 600 s"});
}

TEST_CASE("JSON that is broken or says a thing twice is refused with its place", "[policy][json]") {
    CHECK(
        faults_with({{"fill.json", "{\n\"fill.stalled-s\": {\"value\": 60,}}"}}).front().say.find("line 2") !=
        std::string::npos);
    CHECK(
        faults_with({{"fill.json", R"({"fill.stalled-s": {"value": 60}, "fill.stalled-s": {"value": 90}})"}})
            .front()
            .say == "cannot be read: \"fill.stalled-s\" stands twice");
    CHECK(faults_with({{"clinic.json", "{\"clinic.name\": {\"value\": \"\xff\"}}"}}).front().key.empty());
    CHECK_FALSE(read_json(std::string(200'000, '[')).has_value());
    CHECK(read_json(R"({"a": [0.1, 1e2, -3]})")->find("a")->items[0].text == "0.1");
    CHECK(read_json(R"([1e2])")->items[0].whole() == 100);
    CHECK_FALSE(read_json("1 2").has_value());
    CHECK_FALSE(read_json("").has_value());
}

TEST_CASE("every house key has a true unit, range, source and sentence", "[policy]") {
    auto house = files_in("assets/policy");
    for (auto& file : house) {
        if (file.name == "dwell.json") {
            const std::string from = "\"range\": [1, 12]";
            file.text.replace(file.text.find(from), from.size(), "\"range\": [1, 36]");
        }
        if (file.name == "outcome.json") {
            const auto source = file.text.find("\"source\"");
            file.text.erase(source, file.text.find('\n', source) - source);
        }
    }
    const auto read = read_policy(house, {});
    REQUIRE_FALSE(read.has_value());
    REQUIRE(read.error().size() == 2);
    CHECK(read.error()[0].key == "dwell.months");
    CHECK(read.error()[1] == PolicyFault{"outcome.json", "outcome.responder-percent", "needs a source"});
}

TEST_CASE("the nearest word is near, or none is offered", "[policy][nearest]") {
    const std::vector<std::string> list{"oesophagitis", "ulcer", "erosions", "hiatal-hernia", "other"};
    CHECK(nearest_id("ulcre", list) == "ulcer");
    CHECK(nearest_id("oesofagitis", list) == "oesophagitis");
    CHECK(nearest_id("HIATAL-HERNIA", list) == "hiatal-hernia");
    CHECK(nearest_id("zzzzzzzz", list).empty());
    CHECK(nearest_id("", list).empty());
    CHECK(nearest_id(std::string(100'000, 'u'), list).empty());
    CHECK(edit_distance("abcd", "abdc") == 1);
    CHECK(edit_distance("kitten", "sitting") == 3);
    CHECK(edit_distance("", "abc") == 3);
    CHECK(did_you_mean("ulser", list) == ", did you mean \"ulcer\"?");
}

}  // namespace
}  // namespace brimline
