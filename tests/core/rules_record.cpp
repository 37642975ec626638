// Rules of card, signature, trail, elapsed time and warning lines. Figures and examples: after.md 1, 4.3, 8
// and 9.
#include <algorithm>

#include "core/label/gs1.h"
#include "core/rules/audit.h"
#include "core/rules/card.h"
#include "core/rules/elapsed.h"
#include "core/rules/signature.h"
#include "core/rules/warning.h"
#include "tests/catch.h"
#include "tests/core/zones.h"

namespace brimline::rules {
namespace {

using test::at;
using Ids = std::vector<std::string>;

TEST_CASE("an implant card names what is missing in its order, serial or lot last", "[rules][card]") {
    CHECK(implant_card_missing({}).size() == 11);
    CHECK(implant_card_missing({}).back() == "serial or lot");
    const std::vector<CardLine> card{{"device_name", "Demo balloon"},
                                     {"device_type", "intragastric balloon"},
                                     {"lot", "DW-1"},
                                     {"udi", "x"},
                                     {"maker_name", "Demo"},
                                     {"maker_address", "1 Mere Rd"},
                                     {"maker_website", "  "},
                                     {"patient", "P-1"},
                                     {"implant_date", "2026-11-25"},
                                     {"institution_name", "Unit"},
                                     {"institution_address", "a"}};
    CHECK(implant_card_missing(card) == Ids{"maker_website"});
}

TEST_CASE("a signature never goes without the PIN", "[rules][signature]") {
    for (const bool first : {true, false}) {
        for (const bool broken : {true, false}) {
            CHECK_FALSE(signature_accepted({true, false}, first, broken));
            CHECK(signature_accepted({true, true}, first, broken));
            CHECK(signature_accepted({false, true}, first, broken) == (!first && !broken));
        }
    }
    CHECK(signature_lacks("", false, "") == Ids{"name", "time", "meaning"});
    CHECK(signature_lacks("Dr A", true, "agreed").empty());
}

TEST_CASE("a correction needs a reason and an entry that is there, and hides nothing", "[rules][audit]") {
    const std::vector<TrailEntry> entries{{1, std::nullopt, 4, ""},
                                          {2, 1, 6, "wrong row"},
                                          {3, 1, 7, " "},
                                          {4, 9, 8, "no such"},
                                          {5, 2, 5, "misheard"}};
    const Trail trail = audit_trail(entries);
    CHECK(trail.effective == 5);
    CHECK(trail.visible == std::vector<int>{4, 6, 5});
    CHECK(trail.reason_missing);
    CHECK(trail.no_such_entry);
    CHECK_FALSE(audit_trail({}).effective.has_value());
}

TEST_CASE("time that passed is the monotonic clock's, and never negative", "[rules][elapsed]") {
    const auto clocks = [](const char* wall, int seconds_since_start) {
        return TwoClocks{at(wall), seconds{seconds_since_start}};
    };
    const auto set_back = passed_between(clocks("2026-11-25T10:00:00Z", 1000),
                                         clocks("2026-11-25T09:59:00Z", 1060), seconds{2});
    CHECK(set_back.passed == seconds{60});
    CHECK(set_back.wall == -seconds{60});
    CHECK(set_back.jumped);
    const auto started_anew =
        passed_between(clocks("2026-11-25T10:00:00Z", 1000), clocks("2026-11-25T10:00:30Z", 5), seconds{2});
    CHECK(started_anew.passed == seconds{0});
    CHECK(started_anew.jumped);
}

TEST_CASE("the line on coloured urine stands where dye is in, the note beside it", "[rules][warning]") {
    CHECK_FALSE(coloured_urine_line({}));
    CHECK(coloured_urine_line(Millilitres::of_tenths(1)));
    CHECK_FALSE(propofol_note({}, true));
    CHECK_FALSE(propofol_note(2_mL, false));
    CHECK(propofol_note(2_mL, true));
}

TEST_CASE("every way to refuse a label has its code in the table", "[label]") {
    const std::vector<std::pair<std::string, std::string>> refused{{"", "empty"},
                                                                   {"]A0x", "bad_prefix"},
                                                                   {"08X", "unknown_ai"},
                                                                   {"172803", "truncated"},
                                                                   {"10", "empty_value"},
                                                                   {"21ABCDEFGHIJKLMNOPQRSTU", "too_long"},
                                                                   {"10A B", "bad_charset"},
                                                                   {"0102000000047110", "bad_check_digit"},
                                                                   {"17281301", "bad_date"},
                                                                   {"10A\x1d"
                                                                    "10B",
                                                                    "duplicate_ai"},
                                                                   {"()1", "bad_brackets"},
                                                                   {"]E4123", "bad_length"}};
    CHECK(refused.size() == label_codes().size());
    for (const auto& [text, code] : refused) {
        INFO(text);
        const auto label = parse_label(text, test::day("2026-03-10"));
        REQUIRE_FALSE(label.has_value());
        CHECK(label.error().code == code);
        CHECK(std::any_of(label_codes().begin(), label_codes().end(),
                          [&](const LabelCode& c) { return c.code == code; }));
    }
}

}  // namespace
}  // namespace brimline::rules
