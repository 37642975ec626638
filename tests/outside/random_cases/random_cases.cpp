// Random cases for tests of what leaves the program: statements of the script language, drawn from a seed,
// decided and folded by the core as ever; refused ones stay refused. Writes each case as a FHIR document.
// Usage: random_cases SEED HOW_MANY FOLDER. Prints one line a case: file, outcome, number of events.
#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <random>

#include "core/record/fhir.h"
#include "tests/core/bed.h"

namespace {

using namespace brimline;
using brimline::test::Bed;

/// Draws from a seed; the same numbers everywhere (the library's own distributions differ from one to
/// another).
class Dice {
public:
    explicit Dice(std::uint64_t seed) : engine_{seed} {}
    int between(int low, int high) {
        return low + static_cast<int>(engine_() % static_cast<std::uint64_t>(high - low + 1));
    }
    bool chance(int percent) { return between(1, 100) <= percent; }
    std::string one(const std::vector<std::string>& of) {
        return of[static_cast<std::size_t>(between(0, static_cast<int>(of.size()) - 1))];
    }

private:
    std::mt19937_64 engine_;
};

/// One case being told, a statement after another, with a clock that runs on.
class Story {
public:
    Story(Bed& bed, Dice& dice) : bed_{bed}, dice_{dice} {}
    void say(const std::string& who, const std::string& fields) {
        minute_ += 1 + (dice_.chance(10) ? dice_.between(1, 4) : 0);
        if (minute_ >= 24 * 60) {
            return;
        }
        const auto time = fmt::format("{:02}:{:02}:{:02}", minute_ / 60, minute_ % 60, dice_.between(0, 59));
        const auto said_by = who.find('/');
        const auto by = who.substr(0, said_by);
        const auto envelope =
            said_by == std::string::npos ? "" : fmt::format(R"("said_by":"{}",)", who.substr(said_by + 1));
        const auto outcome =
            bed_.at(time, fmt::format(R"("by":"{}",{}"sure":true,{})", by, envelope, fields));
        recorded_ += outcome.refusal ? 0 : 1;
    }
    void maybe(int percent, const std::string& who, const std::string& fields) {
        if (dice_.chance(percent)) {
            say(who, fields);
        }
    }
    [[nodiscard]] int recorded() const { return recorded_; }

private:
    Bed& bed_;
    Dice& dice_;
    int minute_{7 * 60 + 40};
    int recorded_{0};
};

/// Free words that bite: markup, quotes, letters of other languages, a formula.
std::string words(Dice& dice) {
    return dice.one({"as expected", "a < b & c > d", "\\\"quoted\\\"", "<script>alert(1)</script>", "=1+1",
                     "Żółtek, Łódź", "ángel; coma, punto", "5 \xC2\xB5L", "]]>", "&amp;", "a\\nb"});
}

void people(Bed& bed) {
    const auto add = [&](const char* id, const char* role) {
        bed.at("07:00", fmt::format(R"("by":"pia","do":"add-person","id":"{0}","name":"Person {0} <&>",)"
                                    R"("roles":["{1}"],"pin":"123456")",
                                    id, role));
    };
    add("pia", "coordinator");
    add("ilse", "physician");
    add("tomas", "assistant");
    add("noor", "sedation-provider");
    add("wren", "nurse");
}

void book(Bed& bed, Dice& dice, bool removal) {
    if (dice.chance(10)) {
        bed.at(
            "07:30",
            fmt::format(R"("by":"wren","do":"start-now","kind":"{}","patient":{{"family_name":"unknown"}},)"
                        R"("weight_kg":{},"weight_basis":"estimated")",
                        removal ? "removal" : "placement", dice.between(60, 180)));
        return;
    }
    const auto language =
        dice.chance(50) ? fmt::format(R"(,"language":"{}")", dice.one({"en", "es", "pl"})) : "";
    bed.at(
        "07:30",
        fmt::format(R"("by":"pia","do":"book","kind":"{}","patient":{{"number":"HM-{}","family_name":"{}",)"
                    R"("given_name":"{}","born":"19{}-0{}-{}","sex_at_birth":"{}"{}}},)"
                    R"("planned":"2026-11-25T09:30:00Z","room":"Room {}")",
                    removal ? "removal" : "placement", dice.between(1000, 9999), words(dice),
                    dice.one({"Ada", "Zoë", "Łucja"}), dice.between(50, 99), dice.between(1, 9),
                    dice.between(10, 28), dice.one({"f", "m"}), language, dice.between(1, 2)));
}

void arrival(Story& story, Dice& dice) {
    story.maybe(80, "wren", R"("do":"enter-room","room":"Room 1","birth_day_month":"unknown")");
    story.maybe(95, "wren", R"("do":"identity","identifiers":["name","born"])");
    story.maybe(90, "wren", R"("do":"consent","signed":true)");
    const auto allergy = fmt::format(R"([{{"substance":"{}","reaction":"{}"}},{{"substance":"latex"}}])",
                                     words(dice), words(dice));
    story.maybe(90, "wren",
                R"("do":"allergies",)" +
                    (dice.chance(50) ? std::string{R"("none_known":true)"} : R"("list":)" + allergy));
    story.maybe(90, "wren",
                fmt::format(R"("do":"measure","weight_kg":{}.{},"weight_basis":"{}","height_cm":{})",
                            dice.between(60, 160), dice.between(0, 9), dice.one({"measured", "stated"}),
                            dice.between(150, 195)));
    story.maybe(60, "wren", R"("do":"intake","kind":"clear","last":"2026-11-25T03:00:00Z")");
    story.maybe(30, "wren", R"("do":"intake","kind":"meal-unknown","last":"not-known")");
    story.maybe(50, "wren",
                fmt::format(R"("do":"medicine","group":"nsaid","name":"{}","last_dose":"2026-11-1{}")",
                            words(dice), dice.between(0, 9)));
    story.maybe(60, "wren",
                fmt::format(R"("do":"answer","check":"varices","value":"{}","note":"{}")",
                            dice.one({"yes", "no", "not-known"}), words(dice)));
    story.maybe(70, "wren",
                fmt::format(R"("do":"airway","asa":{},"mallampati":{},"earlier_trouble":{},"own_cpap":false)",
                            dice.between(1, 6), dice.between(1, 4), dice.one({"true", "false"})));
    story.maybe(40, "wren", R"("do":"override","hold":"fasting-not-known","reason":"benefit")");
    story.maybe(70, "wren",
                R"("do":"pause","which":"before-sedation","present":["ilse","noor","wren"],)"
                R"("answers":{"allergies":"yes","fasting":"no"})");
}

void set_of_signs(Story& story, Dice& dice) {
    if (dice.chance(10)) {
        return story.say("noor", fmt::format(R"("do":"vitals","not_taken":"{}")", words(dice)));
    }
    const auto etco2 = dice.chance(30) ? fmt::format(R"(,"etco2":{})", dice.between(25, 55)) : "";
    const auto low = dice.between(40, 90);
    story.say("noor", fmt::format(R"("do":"vitals","hr":{},"systolic":{},"diastolic":{},"spo2":{},"rr":{}{})",
                                  dice.between(35, 170), low + dice.between(20, 80), low,
                                  dice.between(80, 100), dice.between(6, 30), etco2));
}

void sedation(Story& story, Dice& dice) {
    story.maybe(90, "noor", R"("do":"start-sedation")");
    for (int i = dice.between(1, 6); i > 0; --i) {
        set_of_signs(story, dice);
        story.maybe(
            50, "noor",
            fmt::format(R"("do":"dose","drug":"propofol","amount":{},"unit":"mg")", dice.between(1, 9) * 10));
        story.maybe(
            20, "noor",
            fmt::format(R"("do":"dose","drug":"fentanyl","amount":{},"unit":"ug")", dice.between(1, 4) * 25));
        story.maybe(
            15, "noor",
            fmt::format(R"("do":"dose","drug":"{}","amount":1.5,"unit":"mL","free":true,"route":"{}")",
                        words(dice), words(dice)));
        story.maybe(40, "noor", fmt::format(R"("do":"depth","moaas":{})", dice.between(0, 5)));
        story.maybe(30, "noor", fmt::format(R"("do":"oxygen","l_min":{}.5)", dice.between(0, 9)));
    }
    story.maybe(20, "noor", R"("do":"infusion-start","drug":"propofol","rate":120,"unit":"mg/h")");
    story.maybe(10, "noor", R"("do":"airway-event")");
    story.maybe(15, "wren", R"("do":"emergency")");
    story.maybe(15, "wren", R"("do":"emergency-end","kind":"bleeding","action":"clip")");
    story.maybe(15, "noor", R"("do":"infusion-stop","drug":"propofol")");
}

void look(Story& story, Dice& dice) {
    story.maybe(95, "tomas", R"("do":"scope-in")");
    story.maybe(30, "tomas/ilse",
                fmt::format(R"("do":"finding","kind":"hiatal-hernia","size_cm":{},"note":"{}")",
                            dice.between(1, 5), words(dice)));
    story.maybe(20, "tomas/ilse", R"("do":"finding","kind":"oesophagitis","grade":"B")");
    story.maybe(60, "tomas/ilse", R"("do":"no-findings","list_read":true)");
    story.maybe(
        25, "tomas",
        R"("do":"sample","kind":"biopsy","site":"antrum","pieces":2,"owner":"pia","due":"2026-12-02")");
}

void label(Story& story, Dice& dice) {
    const auto which = dice.between(1, 3);
    if (which == 1) {
        return story.say("tomas", R"("do":"device","unreadable":true)");
    }
    if (which == 2) {
        return story.say(
            "tomas", R"("do":"device","verified_by":"wren",)"
                     R"("typed":{"gtin":"02001234026413","lot":"DW-9","serial":"S1","expiry":"2028-05-31"})");
    }
    story.say("tomas",
              fmt::format(R"("do":"device","raw":"(01)02001234026413(11)26010{}(17)280531(10)DW-{}(21)00{}")",
                          dice.between(1, 9), dice.between(1000, 9999), dice.between(10, 99)));
}

void fill(Story& story, Dice& dice) {
    story.maybe(95, "tomas/ilse", R"("do":"go")");
    label(story, dice);
    const auto low = dice.between(40, 55) * 10;
    story.maybe(90, "tomas/ilse",
                fmt::format(R"("do":"plan","band_low_ml":{},"band_high_ml":{},"aim_ml":{},"ceiling_ml":{})",
                            low, low + 100, low + 50, low + 200));
    story.maybe(60, "tomas", R"("do":"saline","method":"row","laid_out":14)");
    story.maybe(50, "tomas",
                dice.chance(50) ? R"("do":"dye","none":true)"
                                : R"("do":"dye","agent":"methylene blue","ml":5,"in_first_syringe":true)");
    story.maybe(90, "tomas", R"("do":"balloon-passed")");
    story.maybe(90, "tomas/ilse", R"("do":"position-seen")");
    story.maybe(90, "tomas", R"("do":"ready-to-fill")");
    for (int i = dice.between(0, 14); i > 0; --i) {
        story.say("tomas", R"("do":"syringe-in")");
        story.maybe(60, "ilse", R"("do":"second-count")");
    }
    story.maybe(40, "tomas", fmt::format(R"("do":"part-syringe","ml":{}.5)", dice.between(1, 40)));
    story.maybe(15, "tomas", R"("do":"draw-back","ml":20)");
    story.maybe(70, "tomas/ilse", fmt::format(R"("do":"count-check","count":{})", dice.between(8, 12)));
    story.maybe(40, "tomas", R"("do":"matter","full_left":3)");
    story.maybe(
        80, "tomas/ilse",
        fmt::format(
            R"("do":"sizing","gap":{},"passes":true,"not_wedged":true,"no_blanching":true,"position":"{}")",
            dice.one({"true", "false"}), dice.one({"antrum", "body", "fundus"})));
    story.maybe(80, "noor/ilse", fmt::format(R"("do":"read-back","ml":{})", dice.between(8, 14) * 50));
    story.maybe(85, "tomas", R"("do":"device-off")");
    story.maybe(
        10, "tomas",
        fmt::format(R"("do":"device-not-left-in","reason":"leak","out_ml":{})", dice.between(0, 60) * 10));
    story.maybe(70, "tomas", R"("do":"catheter-complete","complete":true)");
}

void take_out(Story& story, Dice& dice) {
    story.maybe(
        60, "pia",
        fmt::format(
            R"("do":"placed-elsewhere","placed":"2026-0{}-1{}","ml":{},"lot":"{}","weight_kg":{}.5,"source":"card")",
            dice.between(1, 6), dice.between(0, 9), dice.between(40, 70) * 10, words(dice),
            dice.between(80, 160)));
    story.maybe(80, "tomas/ilse",
                fmt::format(R"("do":"balloon-seen","state":"tense","food":{})", dice.one({"true", "false"})));
    story.maybe(85, "tomas", R"("do":"canister","ml":0,"moment":"start")");
    story.maybe(85, "tomas", R"("do":"puncture")");
    story.maybe(80, "tomas",
                fmt::format(R"("do":"canister","ml":{},"moment":"end")", dice.between(30, 70) * 10));
    story.maybe(40, "tomas", fmt::format(R"("do":"aspirated","ml":{}.5)", dice.between(1, 90)));
    story.maybe(60, "tomas", R"("do":"fluid","colour":"pale-blue")");
    story.maybe(60, "tomas/ilse", R"("do":"seen-empty")");
    story.maybe(80, "tomas",
                fmt::format(R"("do":"out","complete":{},"kept":true)", dice.one({"true", "false"})));
    story.maybe(60, "tomas/ilse",
                fmt::format(R"("do":"second-look","finding":"scratch","words":"{}")", words(dice)));
}

void recovery(Story& story, Dice& dice) {
    story.maybe(90, "tomas", R"("do":"scope-out")");
    story.maybe(90, "noor", R"("do":"end-sedation")");
    story.maybe(60, "noor", R"("do":"offer-handover","to":"wren")");
    for (int i = dice.between(0, 3); i > 0; --i) {
        story.say("wren", fmt::format(R"("do":"score","scale":"aldrete","activity":{},"respiration":2,)"
                                      R"("circulation":{},"consciousness":1,"oxygen":2)",
                                      dice.between(0, 2), dice.between(0, 2)));
        set_of_signs(story, dice);
    }
    story.maybe(40, "wren", fmt::format(R"("do":"symptom","kind":"nausea","value":{})", dice.between(0, 10)));
    story.maybe(30, "wren", fmt::format(R"("do":"symptom","kind":"pain","value":{})", dice.between(0, 10)));
    story.maybe(20, "wren", R"("do":"symptom","kind":"vomiting","ml":50,"blood":true)");
    story.maybe(40, "wren", R"("do":"drink","ml":100,"kept":true)");
    story.maybe(
        40, "wren",
        R"("do":"score","scale":"padss","vital_signs":2,"walking":1,"nausea":2,"pain":2,"bleeding":2)");
    story.maybe(70, "wren",
                fmt::format(R"("do":"discharge","disposition":"{}","with":"{}")",
                            dice.one({"home", "ward", "transfer", "against-advice"}), words(dice)));
}

void sign(Story& story, Dice& dice) {
    story.maybe(80, "noor", R"("do":"sign","part":"sedation","pin":"123456")");
    story.maybe(80, "wren", R"("do":"sign","part":"nursing","pin":"123456")");
    story.maybe(80, "ilse", R"("do":"sign","part":"physician","pin":"123456")");
    story.maybe(80, "ilse", R"("do":"seal","pin":"123456")");
    story.maybe(30, "wren", fmt::format(R"("do":"addendum","text":"{}")", words(dice)));
}

void tell(Bed& bed, Story& story, Dice& dice) {
    const bool removal = dice.chance(30);
    people(bed);
    book(bed, dice, removal);
    if (dice.chance(6)) {
        return story.say("pia", fmt::format(R"("do":"cancel","reason":"{}")", words(dice)));
    }
    arrival(story, dice);
    sedation(story, dice);
    look(story, dice);
    const int way = dice.between(1, 100);
    if (removal) {
        take_out(story, dice);
    } else if (way <= 15) {
        story.say("tomas/ilse", fmt::format(R"("do":"no-go","reason":"ulcer","words":"{}")", words(dice)));
    } else {
        fill(story, dice);
    }
    if (way > 85) {
        story.say("tomas/ilse",
                  fmt::format(
                      R"("do":"abandon","reason":"airway","inside":{{"device":{},"ml":{},"catheter":false}})",
                      dice.one({"true", "false"}), dice.between(0, 50) * 10));
    }
    recovery(story, dice);
    sign(story, dice);
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 4) {
        fmt::print(stderr, "Usage: random_cases SEED HOW_MANY FOLDER\n");
        return 2;
    }
    const auto seed = static_cast<std::uint64_t>(std::stoull(argv[1]));
    const std::filesystem::path folder{argv[3]};
    for (int n = 1; n <= std::stoi(argv[2]); ++n) {
        Dice dice{seed * 1000 + static_cast<std::uint64_t>(n)};
        Bed bed{test::demo_policy()};
        Story story{bed, dice};
        tell(bed, story, dice);
        const auto& state = bed.state();
        const FhirAsk ask{state,      bed.desk, bed.policy(),
                          bed.zone(), "test",   state.sealed ? "a signature file" : ""};
        const auto document = fhir_document(ask);
        if (document != fhir_document(ask)) {
            fmt::print(stderr, "case {}: two documents of one case differ\n", n);
            return 1;
        }
        const auto name = fmt::format("random-{:03}.json", n);
        std::ofstream{folder / name, std::ios::binary} << document;
        const auto outcome = outcome_of(state);
        fmt::print("{} {} {} {} {}\n", name, name_of(state.kind), outcome ? name_of(*outcome) : "open",
                   state.sealed ? "sealed" : "not-sealed", state.history.size());
        for (std::size_t i = 0; state.sealed && i < state.addenda.size(); ++i) {
            std::ofstream{folder / fmt::format("random-{:03}-addendum-{}.json", n, i + 1), std::ios::binary}
                << fhir_addendum(ask, i);
        }
    }
    return 0;
}
