// Properties of a whole case: a refusal changes nothing, and totals do not depend on the order of entry.
#include <fmt/format.h>
#include <rapidcheck.h>

#include <algorithm>
#include <map>

#include "tests/catch.h"
#include "tests/core/bed_looks.h"

using namespace brimline;
using namespace brimline::test;

namespace {

std::string clock_of(int minute) { return fmt::format("{:02}:{:02}", minute / 60, minute % 60); }

/// Statements of which many are refused: wrong roles, unknown ids, impossible values, things that are not
/// there.
std::string any_statement() {
    return *rc::gen::element<std::string>(
        R"("by":"wren","do":"syringe-in")", R"("by":"tomas","do":"syringe-in")",
        R"("by":"tomas","do":"draw-back","ml":900)", R"("by":"tomas","do":"draw-back","ml":20)",
        R"("by":"tomas","do":"part-syringe","ml":0)", R"("by":"tomas","do":"part-syringe","ml":12.5)",
        R"("by":"nobody","do":"go")", R"("by":"tomas","said_by":"wren","do":"go")",
        R"("by":"tomas","said_by":"ilse","do":"finding","kind":"dragon")",
        R"("by":"wren","do":"vitals","hr":999,"systolic":120,"diastolic":70,"spo2":97,"rr":14)",
        R"("by":"wren","do":"vitals","hr":70,"systolic":70,"diastolic":90,"spo2":97,"rr":14)",
        R"("by":"wren","do":"vitals","hr":70,"systolic":120,"diastolic":70,"spo2":97,"rr":14)",
        R"("by":"noor","do":"dose","drug":"no-such-drug","amount":10,"unit":"mg")",
        R"("by":"noor","do":"dose","drug":"propofol","amount":20,"unit":"mg")",
        R"("by":"tomas","do":"dose","drug":"propofol","amount":20,"unit":"mg")",
        R"("by":"ilse","do":"sign","part":"physician","pin":"000000")",
        R"("by":"ilse","do":"seal","pin":"123456")", R"("by":"wren","do":"addendum","text":"too early")",
        R"("by":"tomas","do":"correct","entry":99999,"ml":10,"reason":"r")",
        R"("by":"ilse","do":"override","hold":"no-such-hold","reason":"other","pin":"123456")",
        R"("by":"tomas","do":"read-back","ml":500,"said_by":"ilse")",
        R"("by":"tomas","do":"double-tap-was","question":"q77","answer":"same")");
}

/// Doses, vital signs and parts of syringes, each with the minute when it happened.
struct Fact {
    int minute{0};
    std::string fields;
};
std::vector<Fact> any_facts() {
    std::vector<Fact> facts;
    int minute = 9 * 60 + 38;
    const int count = *rc::gen::inRange(2, 9);
    for (int i = 0; i < count; ++i) {
        minute += *rc::gen::inRange(1, 3);
        const int amount = *rc::gen::inRange(1, 10);
        facts.push_back(
            {minute,
             *rc::gen::element<std::string>(
                 fmt::format(R"("by":"noor","do":"dose","drug":"propofol","amount":{},"unit":"mg")",
                             10 * amount),
                 fmt::format(
                     R"("by":"noor","do":"dose","drug":"midazolam","amount":0.{},"unit":"mg","sure":true)",
                     amount),
                 fmt::format(
                     R"("by":"noor","do":"vitals","hr":7{0},"systolic":12{0},"diastolic":70,"spo2":8{0},"rr":14)",
                     amount % 10),
                 fmt::format(R"("by":"tomas","do":"part-syringe","ml":1{}.5)", amount % 10))});
    }
    return facts;
}

/// What a case adds up to, as far as the order of entry must not matter.
std::string totals_of(const Bed& bed) {
    const auto& state = bed.state();
    std::map<std::string, std::string> drugs;
    for (const auto& total : dose_totals(state, time_of("11:00"))) {
        drugs[total.drug] = total.total.text() + total.unit + total.per_kg.value_or("");
    }
    std::string text;
    for (const auto& [drug, total] : drugs) {
        text += drug + " " + total + "; ";
    }
    const auto lowest = lowest_spo2(state);
    const auto due = next_vitals_due(state, bed.policy());
    const auto sedative = last_sedative(state, bed.policy());
    return text + fmt::format("{} mL, {} syringes, lowest {} at {}, due {}, last sedative {}",
                              volume(bed).in_tenths(), syringes_counted(state.device()),
                              lowest ? lowest->value : 0, lowest ? lowest->at.in_us() : 0,
                              due ? due->in_us() : 0, sedative ? sedative->in_us() : 0);
}

std::string entered(const std::vector<Fact>& facts) {
    Bed bed = bed_ready_to_fill();
    int now = 10 * 60 + 5;
    for (const Fact& fact : facts) {
        const auto outcome = bed.at(clock_of(++now), fmt::format(R"("happened":"2026-11-25T{}:00+00:00",{})",
                                                                 clock_of(fact.minute), fact.fields));
        RC_ASSERT(result_of(outcome) == "recorded");
    }
    return totals_of(bed);
}

}  // namespace

TEST_CASE("a refusal leaves the case as it stood", "[property][case]") {
    int refusals = 0;
    CHECK(rc::check("refusals", [&] {
        Bed bed = bed_ready_to_fill();
        int minute = 9 * 60 + 38;
        const int count = *rc::gen::inRange(1, 25);
        for (int i = 0; i < count; ++i) {
            const auto now = clock_of(++minute);
            bed.pass_to(now);
            const auto before = shown(bed, "11:30").dump() + totals_of(bed);
            const auto holds = bed.standing();
            const auto items = bed.open_items();
            const auto outcome = bed.at(now, any_statement());
            if (outcome.refusal) {
                ++refusals;
                RC_LOG() << outcome.refusal->code << '\n';
                RC_ASSERT(shown(bed, "11:30").dump() + totals_of(bed) == before);
                RC_ASSERT(bed.standing() == holds);
                RC_ASSERT(bed.open_items() == items);
            }
        }
    }));
    CHECK(refusals > 200);
}

TEST_CASE("totals do not depend on the order of entry, for the same moments", "[property][case]") {
    CHECK(rc::check("order", [] {
        auto facts = any_facts();
        const auto in_order = entered(facts);
        for (std::size_t i = facts.size(); i > 1; --i) {
            std::swap(facts[i - 1], facts[*rc::gen::inRange<std::size_t>(0, i)]);
        }
        RC_ASSERT(entered(facts) == in_order);
    }));
}
