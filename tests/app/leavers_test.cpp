// People who left: their names stay on what they entered, and nothing is offered to them or to be given to
// them.
#include "app/loop/room.h"
#include "core/record/text.h"
#include "tests/app/kiosk_bed.h"
#include "tests/catch.h"

using namespace brimline;
using namespace brimline::test;
using screens::Page;

namespace {

/// Somebody leaves by the coordinator's word.
void leaves(KioskBed& bed, const std::string& id) {
    Command command;
    command.by = "pia";
    command.says = PersonLeft{id};
    const auto reply = bed.room->say(command);
    REQUIRE_FALSE(reply.refusal.has_value());
    bed.settle();
}

void open(KioskBed& bed, const std::string& person, const std::string& name, Page page) {
    bed.kiosk->open(person, name, page);
    bed.settle();
}

}  // namespace

TEST_CASE("who left is not offered at the sign-in, in a pause or at the hand-over", "[leavers]") {
    KioskBed bed{{.until = "2026-11-25T09:50:00+00:00", .scripts = {"case-a"}}};
    open(bed, "", "", Page::sign_in);
    CHECK(bed.glass->has("person/ilse"));
    open(bed, "noor", "A", Page::recovery);
    CHECK(bed.glass->has("to/wren"));
    open(bed, "noor", "A", Page::pause_leaving);
    CHECK(bed.glass->has("present/wren"));
    leaves(bed, "wren");
    leaves(bed, "ilse");
    CHECK_FALSE(bed.glass->has("present/wren"));
    CHECK(bed.glass->has("present/noor"));
    open(bed, "noor", "A", Page::recovery);
    CHECK_FALSE(bed.glass->has("to/wren"));
    open(bed, "", "", Page::sign_in);
    CHECK_FALSE(bed.glass->has("person/ilse"));
    CHECK(bed.glass->has("person/tomas"));
    CHECK(bed.room->desk().person("wren")->name == "Wren Castell");
    CHECK_FALSE(bed.room->desk().person("wren")->active);
}

TEST_CASE("who left enters nothing and signs nothing, and stays by name in the record", "[leavers]") {
    KioskBed bed{{.until = "2026-11-25T12:40:00+00:00", .scripts = {"case-a"}}};
    const auto told = [&] {
        return record_text(bed.state(), bed.room->desk(), bed.room->policy(), bed.room->zone(), "");
    };
    const auto name = bed.room->desk().person("wren")->name;
    REQUIRE(told().find(name) != std::string::npos);
    const auto before = told();
    leaves(bed, "wren");
    CHECK(told() == before);
    Command command;
    command.by = "wren";
    command.case_name = "A";
    command.says = Addendum{"called"};
    const auto reply = bed.room->say(command);
    REQUIRE(reply.refusal.has_value());
    CHECK(reply.refusal->code == "no-such-person");
    CHECK(reply.refusal->say.find("has left") != std::string::npos);
    const auto pin = bed.room->check_pin("wren", "540872");
    CHECK((!pin || !std::holds_alternative<store::PinRight>(*pin)));
}
