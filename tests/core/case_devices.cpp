// Devices: labels read, typed and unreadable, a second device, abandoning, dates of the placement.
#include "tests/catch.h"
#include "tests/core/bed_looks.h"

using namespace brimline;
using namespace brimline::test;

namespace {

Bed bed_after_go() {
    auto bed = bed_with_case();
    bed.at("09:30", R"("by":"tomas","said_by":"ilse","do":"go")");
    return bed;
}
Outcome scan(Bed& bed, const char* time, const std::string& raw) {
    return bed.at(time, R"("by":"tomas","do":"device","how":"scan","raw":")" + raw + "\"");
}
Outcome typed(Bed& bed, const char* time, const std::string& gtin, const char* reader) {
    return bed.at(time, R"("by":"tomas","do":"device","typed":{"gtin":")" + gtin +
                            R"(","lot":"DW-2641","serial":"0007731","expiry":"280531"},"verified_by":")" +
                            reader + "\"");
}

}  // namespace

TEST_CASE("a label with a bad check digit opens nothing (10-decisions A15)", "[devices]") {
    auto bed = bed_after_go();
    CHECK(result_of(scan(bed, "09:31", "(01)02001234026414(17)280531(10)DW-2641(21)1")) ==
          "label-check-digit");
    CHECK_FALSE(bed.state().device().label.has_value());
}

TEST_CASE("scanner junk is refused and kept as an attempt with its string (10-decisions A2, A15)",
          "[devices]") {
    auto bed = bed_after_go();
    CHECK(result_of(scan(bed, "09:31", "xx??junk")) == "label-junk");
    REQUIRE(has_attempt(bed, "device", "label-junk"));
    CHECK(bed.state().attempts.back().is.raw == "xx??junk");
    CHECK_FALSE(bed.state().device().label.has_value());
}

TEST_CASE("a typed label needs another person who reads it (10-decisions A15)", "[devices]") {
    auto bed = bed_after_go();
    CHECK(result_of(typed(bed, "09:31", "02001234026413", "tomas")) == "same-person");
    CHECK(result_of(typed(bed, "09:31", "02001234026413", "nobody")) == "no-such-person");
    CHECK(result_of(typed(bed, "09:31", "02001234026414", "noor")) == "label-check-digit");
    CHECK(result_of(typed(bed, "09:32", "02001234026413", "noor")) == "recorded");
    const auto& label = bed.state().device().label->is;
    CHECK(label.how == LabelHow::typed);
    CHECK(label.verified_by == "noor");
    CHECK(shown(bed, "09:33")["devices"][0]["expiry"] == "2028-05-31");
}

TEST_CASE("an unreadable label is possible and stays open with its owner (8-practice 34)", "[devices]") {
    auto bed = bed_after_go();
    CHECK(result_of(bed.at("09:31", R"("by":"tomas","do":"device","unreadable":true)")) == "recorded");
    REQUIRE(item(bed, "label-unreadable") != nullptr);
    CHECK(item(bed, "label-unreadable")->owner == "tomas");
    CHECK(item(bed, "label-unreadable")->due.has_value());
    scan(bed, "09:32", "(01)02001234026413(17)280531(10)DW-2641(21)0007731");
    CHECK(item(bed, "label-unreadable") == nullptr);
    CHECK(bed.state().devices.size() == 1);
}

TEST_CASE("a device without a profile takes its ceiling from the plan and stays open (10-decisions G18)",
          "[devices]") {
    auto bed = bed_after_go();
    scan(bed, "09:31", "(01)04012345678901(17)280531(10)ZZ-1(21)1");
    CHECK(item(bed, "device-profile") != nullptr);
    CHECK_FALSE(ceiling_of(bed.state(), bed.policy()).has_value());
    bed.at("09:32", R"("by":"tomas","said_by":"ilse","do":"plan","band_low_ml":500,"band_high_ml":600,)"
                    R"("aim_ml":500,"ceiling_ml":650)");
    CHECK(ceiling_of(bed.state(), bed.policy()) == 650_mL);
}

TEST_CASE("a lot field refuses a hospital number (10-decisions F20)", "[devices]") {
    auto bed = bed_after_go();
    CHECK(result_of(scan(bed, "09:31", "(01)02001234026413(17)280531(10)HM-4471(21)1")) == "out-of-range");
    CHECK(result_of(bed.at("09:31", R"("by":"tomas","do":"saline","method":"row","lot":"HM-4471")")) ==
          "out-of-range");
}

TEST_CASE("syringes filled to another mark count as that mark (10-decisions F4)", "[devices]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:37:55", R"("by":"tomas","do":"saline","method":"row","laid_out":12,"filled_to_ml":48)");
    CHECK(result_of(bed.at("09:37:56", R"("by":"tomas","do":"saline","method":"row","filled_to_ml":480)")) ==
          "out-of-range");
    tap(bed, 2, 38);
    CHECK(volume(bed) == 96_mL);
    CHECK(shown(bed, "09:40")["fill"]["next_ml"] == 144);
}

TEST_CASE("a second device starts at 0, reopens position and read-back, keeps go (10-decisions A16)",
          "[devices]") {
    auto bed = bed_ready_to_fill();
    tap(bed, 2, 38);
    bed.at("09:41", R"("by":"tomas","do":"device-not-left-in","reason":"would-not-unfold","out_ml":100)");
    CHECK(bed.standing().empty());
    CHECK_FALSE(placed_at(bed.state()).has_value());
    scan(bed, "09:43", "(01)02001234026413(17)280531(10)DW-2642(21)0009");
    CHECK(bed.state().devices.size() == 2);
    CHECK(volume(bed) == 0_mL);
    CHECK(gate_go(bed.state()) == GateState::met);
    CHECK(gate_position(bed.state()) == GateState::open);
    CHECK(gate_read_back(bed.state()) == GateState::open);
    const auto list = shown(bed, "09:44")["devices"];
    REQUIRE(list.size() == 2);
    CHECK(list[0]["left_in"] == false);
    CHECK(list[0]["out_ml"] == 100);
    CHECK(list[0]["lot"] == "DW-2641");
    CHECK(list[1]["left_in"] == true);
}

TEST_CASE("what came out of the first device is not settled by a second (10-decisions A16)", "[devices]") {
    auto bed = bed_ready_to_fill();
    tap(bed, 2, 38);
    bed.at("09:41", R"("by":"tomas","do":"device-not-left-in","reason":"leak","out_ml":80)");
    const auto seq = bed.last_seq();
    REQUIRE(bed.state().standing("count-differs") != nullptr);
    scan(bed, "09:43", "(01)02001234026413(17)280531(10)DW-2642(21)0009");
    CHECK(bed.state().standing("count-differs") != nullptr);
    bed.at("09:44", R"("by":"tomas","do":"correct","reason":"20 in the bowl","out_ml":100,"entry":)" +
                        std::to_string(seq));
    CHECK(bed.standing().empty());
}

TEST_CASE("a device is closed once, and only if one was opened (3-case principle 1)", "[devices]") {
    auto bed = bed_with_case();
    const char* out = R"("by":"tomas","do":"device-not-left-in","reason":"leak","out_ml":0)";
    CHECK(result_of(bed.at("09:30", out)) == "no-such-entry");
    scan(bed, "09:31", "(01)02001234026413(17)280531(10)DW-2641(21)1");
    CHECK(result_of(bed.at("09:32", out)) == "recorded");
    CHECK(result_of(bed.at("09:33", out)) == "no-such-entry");
}

TEST_CASE("abandoned with the device inside is due from that day (10-decisions A17)", "[devices]") {
    auto bed = bed_ready_to_fill();
    tap(bed, 2, 38);
    CHECK(result_of(bed.at("09:41", R"("by":"tomas","said_by":"ilse","do":"abandon","reason":"bleeding",)"
                                    R"("inside":{"device":true,"ml":100,"catheter":false})")) == "recorded");
    CHECK(bed.standing().empty());
    CHECK(placed_at(bed.state()) == time_of("09:41"));
    CHECK(shown(bed, "09:42")["dates"]["due"] == "2027-05-25");
    CHECK(shown(bed, "09:42")["outcome"] == "abandoned");
}

TEST_CASE("what is said to be inside and is not what was counted is a count hold (10-decisions A17)",
          "[devices]") {
    auto bed = bed_ready_to_fill();
    tap(bed, 2, 38);
    bed.at("09:41", R"("by":"ilse","do":"abandon","reason":"bleeding","inside":{"device":true,"ml":150,)"
                    R"("catheter":false})");
    CHECK(class_of(bed, "count-differs") == HoldClass::count);
}

TEST_CASE("abandoned without a device has no dates of a placement (10-decisions A17)", "[devices]") {
    auto bed = bed_after_go();
    bed.at(
        "09:41",
        R"("by":"ilse","do":"abandon","reason":"airway","inside":{"device":false,"ml":0,"catheter":false})");
    CHECK_FALSE(shown(bed, "09:42")["dates"].contains("due"));
}

TEST_CASE("dates follow the placement: six months, eight weeks before, diet by days (10-decisions F10, G14)",
          "[devices]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:50", R"("by":"tomas","do":"device-off")");
    const auto dates = shown(bed, "10:00")["dates"];
    CHECK(dates["placed"] == "2026-11-25");
    CHECK(dates["due"] == "2027-05-25");
    CHECK(dates["book_by"] == "2027-03-30");
    CHECK(dates["diet"]["clear_through"] == "2026-11-27");  // day 1 = the day of placement
    CHECK(dates["diet"]["full_through"] == "2026-12-11");
    CHECK(dates["diet"]["soft_through"] == "2026-12-18");
    CHECK_FALSE(dates.contains("dwell_by_default"));
    CHECK_FALSE(dates.contains("no_driving_before"));
}

TEST_CASE("a device that is not known has the shortest dwell, marked, and stays open (10-decisions F10, H9)",
          "[devices]") {
    auto policy = demo_policy();
    policy.devices.front().dwell_months = 4;
    auto bed = bed_with_case(policy);
    bed.at("09:50", R"("by":"tomas","do":"device-off")");
    CHECK(shown(bed, "10:00")["dates"]["due"] == "2027-03-25");
    CHECK(shown(bed, "10:00")["dates"]["dwell_by_default"] == true);
    REQUIRE(item(bed, "device-profile") != nullptr);
    CHECK(item(bed, "device-profile")->owner == "pia");
}

TEST_CASE("a leaflet or a policy that counts days: the sooner date rules (after.md 5)", "[devices]") {
    auto policy = demo_policy();
    const auto due_with = [&](int policy_days, int leaflet_days) {
        policy.dwell.days = policy_days;
        policy.devices.front().dwell_days = leaflet_days;
        auto bed = bed_ready_to_fill(policy);
        bed.at("09:50", R"("by":"tomas","do":"device-off")");
        return shown(bed, "10:00")["dates"]["due"];
    };
    CHECK(due_with(0, 0) == "2027-05-25");      // 181 days by six calendar months
    CHECK(due_with(0, 180) == "2027-05-24");    // the leaflet's day comes first
    CHECK(due_with(0, 182) == "2027-05-25");    // the months come first
    CHECK(due_with(120, 180) == "2027-03-25");  // the policy's days come first
}

TEST_CASE("six months from the end of August end on the last of February (10-decisions F10)", "[devices]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:50", R"("by":"tomas","do":"device-off","happened":"2026-08-31T10:00:00Z")");
    CHECK(shown(bed, "10:00")["dates"]["due"] == "2027-02-28");
}

TEST_CASE("a reason that is not on the list is other, with these words (10-decisions C)", "[devices]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:40", R"("by":"tomas","do":"device-not-left-in","reason":"smelled odd","out_ml":0)");
    CHECK(bed.state().device().not_left_in->is.reason == "other");
    CHECK(bed.state().device().not_left_in->is.words == "smelled odd");
    bed.at("09:41",
           R"("by":"tomas","said_by":"ilse","do":"abandon","reason":"fire alarm","words":"left calmly",)"
           R"("inside":{"device":false,"ml":0,"catheter":false})");
    CHECK(bed.state().abandoned->is.reason == "other");
    CHECK(bed.state().abandoned->is.words == "fire alarm: left calmly");
    bed.at("09:42", R"("by":"tomas","said_by":"ilse","do":"no-go","reason":"ulcer")");
    CHECK(bed.state().no_go->is.reason == "ulcer");
    CHECK_FALSE(bed.state().no_go->is.words.has_value());
}
