// Corrections: both values stay, totals follow, and what is corrected is judged like the entry itself.
#include "tests/catch.h"
#include "tests/core/bed_looks.h"

using namespace brimline;
using namespace brimline::test;

namespace {

const char* const a_set =
    R"("by":"noor","do":"vitals","hr":176,"systolic":120,"diastolic":80,"spo2":97,"rr":14)";

Outcome correct(Bed& bed, const char* time, std::int64_t entry, const std::string& changes) {
    return bed.at(time, R"("by":"noor","do":"correct","reason":"typing slip","entry":)" +
                            std::to_string(entry) + "," + changes);
}

}  // namespace

TEST_CASE("a corrected value keeps both values, who, when and why (3-case principle 7)", "[corrections]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:38", a_set);
    const auto seq = bed.last_seq();
    CHECK(result_of(correct(bed, "09:39", seq, R"("hr":76)")) == "recorded");
    CHECK(bed.state().vitals.back().is.hr == 76);
    CHECK(bed.state().vitals.back().is.spo2 == 97);
    REQUIRE(bed.state().corrections.size() == 1);
    const auto& kept = bed.state().corrections.back();
    CHECK(kept.is.before == R"({"hr":176})");
    CHECK(kept.is.after == R"({"hr":76})");
    CHECK(kept.is.reason == "typing slip");
    CHECK(kept.stamp.by == "noor");
    for (const auto& one : bed.state().history) {
        if (one.first.stamp.seq == seq) {
            CHECK(std::get<Vitals>(one.first.event).hr == 176);
            CHECK(std::get<Vitals>(one.now.event).hr == 76);
        }
    }
}

TEST_CASE("totals recompute from a corrected dose (3-case principle 7)", "[corrections]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:38", R"("by":"noor","do":"dose","drug":"propofol","amount":40,"unit":"mg")");
    const auto seq = bed.last_seq();
    bed.at("09:39", R"("by":"noor","do":"dose","drug":"propofol","amount":20,"unit":"mg")");
    correct(bed, "09:40", seq, R"("amount":30)");
    const auto totals = dose_totals(bed.state(), time_of("09:41"));
    REQUIRE(totals.size() == 1);
    CHECK(totals[0].total == Decimal::of(50));
    CHECK(totals[0].per_kg == "0.52");  // 50 mg / 96.4 kg
}

TEST_CASE("a corrected time moves the dose and what follows from it (3-case principle 5)", "[corrections]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:50", R"("by":"noor","do":"dose","drug":"propofol","amount":40,"unit":"mg")");
    const auto seq = bed.last_seq();
    correct(bed, "09:55", seq, R"("happened":"2026-11-25T09:40:00Z")");
    CHECK(last_sedative(bed.state(), bed.policy()) == time_of("09:40"));
    CHECK(bed.state().doses.back().stamp.at == time_of("09:50"));  // when it was entered stays
}

TEST_CASE("a withdrawn entry counts no longer and stays in the history (3-case principle 7)",
          "[corrections]") {
    auto bed = bed_ready_to_fill();
    tap(bed, 2, 38);
    const auto seq = bed.last_seq();
    bed.at("09:41", R"("by":"tomas","do":"correct","reason":"sleeve","withdrawn":true,"entry":)" +
                        std::to_string(seq));
    CHECK(volume(bed) == 50_mL);
    CHECK(syringes_counted(bed.state().device()) == 1);
    const auto& history = bed.state().history;
    CHECK(std::any_of(history.begin(), history.end(),
                      [&](const Kept& kept) { return kept.first.stamp.seq == seq && kept.withdrawn; }));
    const auto again =
        bed.at("09:42",
               R"("by":"tomas","do":"correct","reason":"r","withdrawn":true,"entry":)" + std::to_string(seq));
    CHECK(result_of(again) == "no-such-entry");
}

TEST_CASE("a corrected cause ends its hold (3-case principle 7)", "[corrections]") {
    auto bed = bed_with_case();
    bed.at("08:40", R"("by":"wren","do":"intake","kind":"clear","last":"2026-11-25T08:30:00Z")");
    const auto seq = bed.last_seq();
    REQUIRE(bed.standing().size() == 1);
    correct(bed, "08:45", seq, R"("last":"2026-11-25T06:30:00Z")");
    CHECK(bed.standing().empty());
}

TEST_CASE("a correction cannot say what an entry could not (3-case principle 1)", "[corrections]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:38", a_set);
    const auto set = bed.last_seq();
    CHECK(result_of(correct(bed, "09:39", set, R"("hr":1760)")) == "out-of-range");
    CHECK(result_of(correct(bed, "09:39", set, R"("diastolic":130)")) == "out-of-range");
    CHECK(result_of(correct(bed, "09:39", set, R"("hr":25)")) == "asked implausible");
    CHECK(bed.state().vitals.back().is.hr == 176);
    CHECK(result_of(correct(bed, "09:40", set, R"("hr":25,"sure":true)")) == "recorded");
    CHECK(bed.state().vitals.back().is.hr == 25);
    tap(bed, 1, 41);
    const auto syringe = bed.last_seq();
    CHECK(result_of(correct(bed, "09:42", syringe, R"("ml":-500)")) == "out-of-range");
    CHECK(volume(bed) == 50_mL);
    bed.at("09:43", R"("by":"noor","do":"dose","drug":"propofol","amount":40,"unit":"mg")");
    CHECK(result_of(correct(bed, "09:44", bed.last_seq(), R"("amount":-40)")) == "out-of-range");
}

TEST_CASE("a corrected weight has at most one decimal, like the weight itself (10-decisions B3)",
          "[corrections]") {
    auto bed = bed_with_case();
    bed.at("08:47",
           R"("by":"wren","do":"measure","weight_kg":96.4,"weight_basis":"measured","height_cm":167)");
    const auto seq = bed.last_seq();
    CHECK(result_of(correct(bed, "08:48", seq, R"("weight_kg":69.44)")) == "out-of-range");
    CHECK(result_of(correct(bed, "08:49", seq, R"("weight_kg":69.4)")) == "recorded");
    CHECK(weight_of(bed.state())->weight.in_tenths() == 694);
}

TEST_CASE("a field that the entry does not have is refused (10-decisions B7)", "[corrections]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:38", a_set);
    CHECK(result_of(correct(bed, "09:39", bed.last_seq(), R"("weight_kg":76)")) == "out-of-range");
}

TEST_CASE("an entry that is not there, or was concluded, is not corrected (3-case principle 1)",
          "[corrections]") {
    auto bed = bed_with_case();
    CHECK(result_of(correct(bed, "08:39", 9999, R"("hr":76)")) == "no-such-entry");
    bed.at("08:40", R"("by":"wren","do":"consent","signed":false)");
    CHECK(result_of(correct(bed, "08:41", bed.last_seq() + 1, R"("ml":1)")) == "no-such-entry");
    CHECK(bed.state().standing("consent-missing") != nullptr);
}

TEST_CASE("a correction of the count stores its witness and its second name (10-decisions F18)",
          "[corrections]") {
    auto bed = bed_ready_to_fill();
    tap(bed, 1, 38);
    bed.at("09:40",
           R"("by":"tomas","do":"correct","ml":50,"reason":"not tapped","with":"ilse","evidence":"memory")");
    CHECK(volume(bed) == 100_mL);
    CHECK(syringes_counted(bed.state().device()) == 2);  // one nominal is one syringe
    CHECK(bed.state().count_corrections.back().is.evidence == Evidence::memory);
    CHECK(bed.state().count_corrections.back().is.with == "ilse");
    bed.at("09:41", R"("by":"tomas","do":"correct","ml":-20,"reason":"spilt")");
    CHECK(volume(bed) == 80_mL);
    CHECK(syringes_counted(bed.state().device()) == 2);  // part of one changes no number
}

TEST_CASE("a correction is made with another person, for a reason, of what can be (10-decisions B7)",
          "[corrections]") {
    auto bed = bed_ready_to_fill();
    tap(bed, 1, 38);
    const auto tried = [&](const char* rest) {
        return result_of(bed.at("09:40", std::string{R"("by":"tomas","do":"correct",)"} + rest));
    };
    CHECK(tried(R"("ml":50,"reason":"r","with":"tomas")") == "same-person");
    CHECK(tried(R"("ml":50,"reason":"r","with":"nobody")") == "no-such-person");
    CHECK(tried(R"("ml":50,"reason":"")") == "out-of-range");
    CHECK(tried(R"("ml":0,"reason":"r")") == "out-of-range");
    CHECK(tried(R"("ml":-50.1,"reason":"r")") == "out-of-range");
    CHECK(volume(bed) == 50_mL);
}

TEST_CASE("entered later than ten minutes after it happened is late (3-case principle 5)", "[corrections]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:48", R"("by":"noor","do":"dose","drug":"propofol","amount":40,"unit":"mg",)"
                    R"("happened":"2026-11-25T09:38:00Z")");
    CHECK_FALSE(entered_late(bed.state().doses.back().stamp, bed.policy()));
    bed.at("09:49", R"("by":"noor","do":"dose","drug":"propofol","amount":30,"unit":"mg",)"
                    R"("happened":"2026-11-25T09:38:59Z")");
    CHECK(entered_late(bed.state().doses.back().stamp, bed.policy()));
    CHECK(result_of(
              bed.at("09:50", R"("by":"noor","do":"depth","moaas":3,"happened":"2026-11-25T09:50:01Z")")) ==
          "out-of-range");
}
