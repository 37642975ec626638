// What Place still misses and how a typed label stands; who may type the read-back and what it rests on.
#include "core/case/place_view.h"
#include "core/case/size_view.h"
#include "tests/catch.h"
#include "tests/core/bed.h"

using namespace brimline;
using namespace brimline::test;
using namespace std::chrono_literals;

namespace {

constexpr LocalDate today{std::chrono::year{2026}, std::chrono::month{11}, std::chrono::day{25}};

TypedLabel typed(const std::string& number, const std::string& serial) {
    TypedLabel label;
    label.gtin = number;
    label.expiry = "280531";
    label.serial = serial.empty() ? std::nullopt : std::optional{serial};
    return label;
}

}  // namespace

TEST_CASE("Place misses everything before go and nothing when it is ready", "[place-view]") {
    const auto fresh = bed_with_case();
    CHECK(place_missing(fresh.state()).size() == 7);
    CHECK(place_missing(fresh.state()).front() == PlaceStep::label);
    auto ready = bed_ready_to_fill();
    CHECK(place_missing(ready.state()) == std::vector{PlaceStep::saline, PlaceStep::dye});
    ready.at("09:37:54", R"("by":"tomas","case":"A","do":"saline","method":"row","laid_out":12)");
    ready.at("09:37:55", R"("by":"tomas","case":"A","do":"dye","none":true)");
    CHECK(place_missing(ready.state()).empty());
}

TEST_CASE("gate 3 is asked only until the position is seen or something is in", "[place-view]") {
    auto bed = bed_with_case();
    CHECK(fill_asks_position(bed.state()));
    bed.at("09:38:00", R"("by":"tomas","case":"A","do":"syringe-in")");
    CHECK_FALSE(fill_asks_position(bed.state()));
    CHECK_FALSE(fill_asks_position(bed_ready_to_fill().state()));
}

TEST_CASE("a typed label is complete when the check digit fits and the last four read aloud are the same",
          "[place-view]") {
    const auto good = typed_standing(typed("02001234026413", "0007902"), "7902", today);
    CHECK(good.complete());
    CHECK_FALSE(typed_standing(typed("02001234026414", "0007902"), "7902", today).complete());
    CHECK_FALSE(typed_standing(typed("02001234026413", "0007902"), "7903", today).complete());
    CHECK_FALSE(typed_standing(typed("02001234026413", "0007902"), "790", today).complete());
    CHECK(typed_standing(typed("02001234026413", ""), "6413", today).complete());
}

TEST_CASE("a date that is none keeps a typed label from being complete", "[place-view]") {
    auto label = typed("02001234026413", "0007902");
    label.expiry = "281331";
    const auto stands = typed_standing(label, "7902", today);
    CHECK(stands.expiry_wrong);
    CHECK_FALSE(stands.complete());
}

TEST_CASE("a label stands by its date and by both recall lists", "[place-view]") {
    auto bed = bed_with_case();
    const auto stands = [&](const std::string& lot, LocalDate expiry) {
        return label_standing(lot, expiry, bed.desk, bed.policy(), today);
    };
    CHECK(stands("DW-1", today).in_date == true);
    CHECK(stands("DW-1", add_days(today, -1)).in_date == false);
    CHECK(stands("DW-1", today).lot_free == true);
    bed.at("08:10:00", R"("by":"pia","do":"recall","lot":"DW-1","note":"valve")");
    CHECK(stands("DW-1", today).lot_free == false);
    CHECK_FALSE(
        label_standing(std::nullopt, std::nullopt, bed.desk, bed.policy(), today).in_date.has_value());
}

TEST_CASE("scans that failed are told until a device is opened", "[place-view]") {
    auto bed = bed_with_case();
    bed.at("09:34:00", R"("by":"tomas","case":"A","do":"device","raw":"~~junk")");
    CHECK(failed_scans(bed.state()).size() == 1);
    bed.at("09:34:30", R"("by":"tomas","case":"A","do":"device","unreadable":true)");
    CHECK(failed_scans(bed.state()).empty());
}

TEST_CASE("the read-back waits for the matter and for a person other than the assistant", "[size-view]") {
    auto bed = bed_ready_to_fill();
    const auto bar = [&](const char* id) { return read_back_bar(bed.state(), bed.desk.person(id), "ilse"); };
    bed.at("09:38:23", R"("by":"tomas","case":"A","do":"syringe-in")");
    CHECK(bar("noor") == ReadBackBar::matter_first);
    bed.at("09:39:00", R"("by":"tomas","case":"A","do":"matter","full_left":11)");
    CHECK(bar("noor") == ReadBackBar::none);
    CHECK(bar("tomas") == ReadBackBar::assistant);
    CHECK(bar("nobody") == ReadBackBar::assistant);
}

TEST_CASE("what an agreed read-back rests on ends when something more goes in", "[size-view]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:38:23", R"("by":"tomas","case":"A","do":"syringe-in")");
    bed.at("09:38:25", R"("by":"ilse","case":"A","how":"pedal","do":"second-count")");
    bed.at("09:39:00", R"("by":"tomas","case":"A","do":"matter","full_left":11)");
    CHECK_FALSE(agreed_by(bed.state(), bed.policy()).has_value());
    bed.at("09:40:00", R"("by":"noor","said_by":"ilse","case":"A","do":"read-back","ml":50)");
    const auto by = agreed_by(bed.state(), bed.policy());
    REQUIRE(by.has_value());
    CHECK(by->pedal == 1);
    CHECK_FALSE(read_back_differs(bed.state()));
    bed.at("09:41:00", R"("by":"tomas","case":"A","do":"syringe-in")");
    CHECK_FALSE(agreed_by(bed.state(), bed.policy()).has_value());
}

TEST_CASE("an unequal read-back differs until its hold ends", "[size-view]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:38:23", R"("by":"tomas","case":"A","do":"syringe-in")");
    bed.at("09:40:00", R"("by":"noor","said_by":"ilse","case":"A","do":"read-back","ml":100)");
    CHECK(read_back_differs(bed.state()));
    bed.at("09:41:00", R"("by":"noor","said_by":"ilse","case":"A","do":"read-back","ml":50)");
    CHECK_FALSE(read_back_differs(bed.state()));
}
