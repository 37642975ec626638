// At the door and in the pauses: who is the patient, who is there, one check a tap, one entry a pause.
#include <algorithm>

#include "tests/app/kiosk_bed.h"
#include "tests/catch.h"

using namespace brimline;
using namespace brimline::test;
using screens::Page;
using screens::Sheet;

namespace {

using Faults = std::vector<std::string>;
using Kinds = std::vector<std::string>;

std::unique_ptr<KioskBed> on(Page page, const std::string& until, bool long_words = false) {
    auto bed = std::make_unique<KioskBed>(
        KioskBed::Start{.until = until, .scripts = {"case-a"}, .stretched = long_words});
    bed->kiosk->open("tomas", "A", page);
    bed->settle();
    (void)bed->new_kinds();
    return bed;
}

bool in_corner(const KioskBed& bed, std::string_view name) {
    const auto* target = bed.glass->registry().find(name);
    return target != nullptr && target->kind == touch::Kind::action;
}

const std::string before_room = "2026-11-25T09:19:00+00:00";
const std::string in_room = "2026-11-25T09:23:00+00:00";     // entered, pause 1 not yet held
const std::string after_plan = "2026-11-25T09:34:50+00:00";  // go and plan are said
const std::string after_fill = "2026-11-25T09:48:00+00:00";  // the device is off

}  // namespace

TEST_CASE("day and month that match open the room and lead to pause 1", "[room]") {
    const auto bed = on(Page::enter_room, before_room);
    CHECK_FALSE(bed->glass->shows("14 Mar 1986 · 40 y · HM-4471"));  // covered while it is asked
    bed->keys("pad", "1403");
    bed->picture("enter-room");
    REQUIRE(in_corner(*bed, "open-in-room"));
    bed->tap("open-in-room");
    CHECK(bed->new_kinds() == Kinds{"entered-room"});
    const auto& entered = std::get<EnteredRoom>(bed->last_of("entered-room").event);
    CHECK(entered.match);
    CHECK(entered.room == "Room 1");
    CHECK(bed->kiosk->page() == Page::pause_sedation);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("a day that does not match shuts what leads on and never the rescue", "[room]") {
    const auto bed = on(Page::enter_room, before_room);
    bed->keys("pad", "1408");
    bed->tap("open-in-room");
    bed->picture("enter-room-mismatch");
    CHECK(bed->state().standing("identity-mismatch") != nullptr);
    CHECK(bed->kiosk->page() == Page::enter_room);
    CHECK(bed->glass->has("vitals"));
    CHECK(bed->glass->has("airway-event"));
    CHECK(in_corner(*bed, "ask-again"));
    CHECK_FALSE(bed->glass->has("pad/1"));
    bed->tap("ask-again");
    bed->keys("pad", "1403");
    bed->tap("open-in-room");
    CHECK(bed->state().standing("identity-mismatch") == nullptr);
    CHECK(bed->kiosk->page() == Page::pause_sedation);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("a day that does not exist is never offered", "[room]") {
    const auto bed = on(Page::enter_room, before_room);
    bed->keys("pad", "3102");
    CHECK_FALSE(bed->glass->has("open-in-room"));
    CHECK(bed->glass->shows("No such day"));
    bed->keys("pad", "1");  // no room for more digits
    CHECK(bed->glass->text_of("born/month/value") == "02");
}

TEST_CASE("pause 1 is one tap a check in the same place and one entry at its start", "[pause]") {
    const auto bed = on(Page::pause_sedation, in_room);
    CHECK_FALSE(bed->glass->has("said-1"));  // nobody is there by default
    bed->tap_all({"present/ilse", "present/noor", "present/tomas", "present/wren"});
    bed->pass(std::chrono::seconds{50});
    for (int check = 1; check <= 7; ++check) {
        const auto name = "said-" + std::to_string(check);
        REQUIRE(in_corner(*bed, name));
        if (check == 4) {
            bed->picture("pause");
            CHECK(bed->glass->text_of("question/who") == "Dr Adeyemi answers aloud");
        }
        CHECK(bed->new_kinds().empty());
        bed->tap(name);
    }
    CHECK(bed->new_kinds() == Kinds{"pause"});
    const auto& held = bed->state().pauses.at(PauseKind::before_sedation);
    CHECK(held.answers.size() == 7);
    CHECK(held.present.size() == 4);
    CHECK(held.last.at - held.first.happened >= std::chrono::seconds{50});
    CHECK(in_corner(*bed, "go-on"));
    bed->tap("go-on");
    CHECK(bed->kiosk->page() == Page::sedation);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("not ready yet is entered at once and raises its hold; the pause keeps its place", "[pause]") {
    const auto bed = on(Page::pause_sedation, in_room);
    bed->tap_all({"present/noor", "said-1", "said-2", "said-3", "not-ready"});
    CHECK(bed->new_kinds().front() == "pause");
    CHECK(bed->state().standing("pause-airway-plan") != nullptr);
    bed->tap("vitals");
    bed->tap("back");
    bed->tap_all({"said-5", "said-6", "said-7"});
    REQUIRE(in_corner(*bed, "said-4"));  // what was not ready comes last
    bed->tap("said-4");
    CHECK(bed->state().standing("pause-airway-plan") == nullptr);
    CHECK(bed->state().pauses.at(PauseKind::before_sedation).answers.size() == 7);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("pause 2 knows who was there and leads to Place", "[pause]") {
    const auto bed = on(Page::pause_device, after_plan);
    CHECK(bed->glass->is_checked("present/ilse"));
    bed->tap("present/wren");  // left the room
    bed->tap_all({"said-1", "said-2", "said-3", "said-4"});
    bed->picture("pause-device");
    CHECK(bed->state().pauses.at(PauseKind::before_device).present.size() == 3);
    bed->tap("go-on");
    CHECK(bed->kiosk->page() == Page::place);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("pause 3 looks at the matter again, and the patient leaves the room", "[pause]") {
    const auto bed = on(Page::pause_leaving, after_fill);
    CHECK(bed->glass->text_of("still/title") == "Still 2 full on the table?");
    bed->tap("still/yes");
    CHECK(bed->new_kinds() == Kinds{"matter"});
    CHECK(bed->state().device().matters.back().is.full_left == 2);
    bed->picture("pause-leaving");
    bed->tap_all({"said-1", "said-2", "said-3", "said-4", "leave-room"});
    CHECK(bed->new_kinds().front() == "pause");
    CHECK(bed->state().left_room.has_value());
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("a row that is not the same leads to the matter check", "[pause]") {
    const auto bed = on(Page::pause_leaving, after_fill);
    bed->tap("still/no");
    CHECK(bed->kiosk->page() == Page::fill);
    CHECK(bed->kiosk->sheet() == Sheet::matter);
}

TEST_CASE("door and pauses keep their layout with words 1.4 times as long", "[pause][room][layout]") {
    const auto door = on(Page::enter_room, before_room, true);
    door->picture("enter-room-long");
    door->keys("pad", "1408");
    door->tap("open-in-room");
    door->picture("enter-room-mismatch-long");
    CHECK(door->glass->faults() == Faults{});
    const auto one = on(Page::pause_sedation, in_room, true);
    one->tap_all({"present/noor", "said-1", "not-ready"});
    one->picture("pause-long");
    CHECK(one->glass->faults() == Faults{});
    const auto two = on(Page::pause_device, after_plan, true);
    two->tap_all({"said-1", "said-2", "said-3", "said-4"});
    CHECK(two->glass->faults() == Faults{});
    const auto three = on(Page::pause_leaving, after_fill, true);
    three->tap_all({"said-1", "still/yes"});
    three->picture("pause-leaving-long");
    CHECK(three->glass->faults() == Faults{});
}
