// Practice beside the real store, "this was real", badges, and the desk that locks when it is left alone.
// Sources: 10-decisions F9; 8-practice row 54; 4-screens (practice, person chips).
#include "app/loop/practice.h"

#include "app/kiosk/screens/stores.h"
#include "tests/app/kiosk_bed.h"
#include "tests/catch.h"
#include "tests/source_folder.h"

using namespace brimline;
using namespace brimline::test;
using screens::Page;

namespace {

using Faults = std::vector<std::string>;

/// A real kiosk with the day's people, and the way into practice, under one finger.
struct TwoBeds {
    explicit TwoBeds(std::vector<std::string> scripts = {}, const std::string& time = "09:00")
        : real{{.until = "2026-11-25T" + time + ":00+00:00", .scripts = std::move(scripts)}},
          stores{*real.room, {}, [this](LiveRoom& room) { return open(room); }},
          glass{stores, english()} {
        stores.shown().open("pia", "", Page::kiosk);
        glass.frame();
    }

    tl::expected<std::unique_ptr<LiveRoom>, std::string> open(LiveRoom& room) {
        LiveRoom::Options options;
        options.room.data = practice_folder.path();
        auto opened = open_practice(room, std::move(options), real.clock, real.chance);
        if (!opened) {
            return tl::unexpected{opened.error().say};
        }
        return std::move(*opened);
    }
    void tap(const std::string& name) {
        glass.tap(name);
        settle();
    }
    void settle() {
        REQUIRE(stores.wait_until_saved(std::chrono::seconds{5}));
        glass.frame();
    }
    void picture(const std::string& name) {
        if (const char* folder = std::getenv("BRIMLINE_PICTURES")) {
            CHECK(touch::write_png(glass.picture(), std::string{folder} + "/" + name + ".png").has_value());
        }
    }
    void pass(std::chrono::minutes time) {
        real.clock.pass(time);
        glass.pass(1);
        settle();
    }
    /// Two syringes into the first patient of practice.
    void fill_two() {
        auto& room = stores.shown().room();
        for (int i = 0; i < 2; ++i) {
            real.clock.pass(std::chrono::seconds{30});
            Command command;
            command.by = "tomas";
            command.case_name = "P-0001";
            command.says = SyringeIn{};
            CHECK(room.say(command).result == Reply::Result::recorded);
        }
        settle();
    }

    KioskBed real;
    TempFolder practice_folder;
    screens::Stores stores;
    touch::Headless glass;
};

std::int64_t entries(const LiveRoom& room) { return room.desk().last_seq; }

}  // namespace

TEST_CASE("practice begins on the kiosk's page with patients of its own; the real store takes nothing (F9)",
          "[practice]") {
    TwoBeds beds;
    const auto before = entries(*beds.real.room);
    beds.tap("practice");
    REQUIRE(beds.stores.practises());
    beds.glass.frame();
    CHECK(beds.glass.shows("PRACTICE, Ida"));
    CHECK(beds.glass.text_of("practice") == "Practice");
    CHECK(beds.stores.shown().room().desk().cases.size() == 3);
    CHECK(beds.stores.shown().room().check_pin("tomas", "000000").has_value());
    beds.fill_two();
    CHECK(entries(*beds.real.room) == before);
    CHECK(beds.real.room->desk().cases.empty());
    CHECK(beds.glass.faults() == Faults{});
}

TEST_CASE("practice knows the PINs of the real people, and no name of today's list (F9)", "[practice]") {
    TwoBeds beds{{"case-c"}};
    beds.real.clock.pass(std::chrono::hours{5});  // case C has gone home
    const auto hers = beds.real.room->desk().find_case("C")->patient.family_name;
    REQUIRE(hers.has_value());
    REQUIRE(beds.stores.begin("pia").has_value());
    auto& room = beds.stores.shown().room();
    const auto right = room.check_pin("noor", "917354");
    REQUIRE(right.has_value());
    CHECK(std::holds_alternative<store::PinRight>(*right));
    Command command;
    command.by = "pia";
    command.case_name = "P-0009";
    Book book;
    book.patient.number = "P-0009";
    book.patient.family_name = *hers;
    book.patient.born = *parse_date("1980-01-01");
    book.room = "Room 1";
    command.says = book;
    const auto reply = room.say(command);
    REQUIRE(reply.refusal.has_value());
    CHECK(reply.refusal->code == "not-in-practice");
}

TEST_CASE("practice does not begin while a case is open, and says which (F9)", "[practice]") {
    TwoBeds beds{{"case-a"}, "09:38"};
    beds.tap("practice");
    beds.picture("practice-refused");
    CHECK_FALSE(beds.stores.practises());
    CHECK(beds.glass.shows("A case is open."));
    CHECK(beds.glass.shows("Practice begins when case A is over."));
}

TEST_CASE("practice whose folder holds real patients does not begin, and says why", "[practice]") {
    TwoBeds beds;
    {
        auto opened = Room::open({beds.practice_folder.path(), in_sources("/demo/policy")}, beds.real.clock,
                                 beds.real.chance);
        REQUIRE(opened.has_value());
        Command add;
        add.by = "pia";
        add.says = AddPerson{"pia", "Pia Holm", {Role::coordinator}, "470215"};
        CHECK(opened->run(add, opened->now(beds.real.clock)).result == Reply::Result::recorded);
        Command start;
        start.by = "pia";
        start.case_name = "N1";
        start.says = Book{CaseKind::placement, {}, beds.real.clock.utc(), "Room 1", {}};
        std::get<Book>(start.says).patient.number = "HM-4471";
        std::get<Book>(start.says).patient.born = *parse_date("1986-03-14");
        CHECK(opened->run(start, opened->now(beds.real.clock)).result == Reply::Result::recorded);
    }
    beds.tap("practice");
    CHECK_FALSE(beds.stores.practises());
    CHECK(beds.glass.shows("Practice cannot begin."));
    CHECK(beds.glass.shows("The folder of practice holds real patients."));
}

TEST_CASE("practice ends when it is left alone, and begins with new patients (F9)", "[practice]") {
    TwoBeds beds;
    beds.tap("practice");
    beds.pass(std::chrono::minutes{14});
    CHECK(beds.stores.practises());
    beds.pass(std::chrono::minutes{1});
    CHECK_FALSE(beds.stores.practises());
    CHECK(beds.stores.shown().page() == Page::sign_in);
    CHECK_FALSE(beds.glass.has("practice"));
    REQUIRE(beds.stores.begin("pia").has_value());
    CHECK(beds.stores.shown().room().ahead().find_case("P-0004") != nullptr);
}

TEST_CASE("this was real: the fill goes on in the real store with what practice counted (F9)", "[practice]") {
    TwoBeds beds;
    beds.tap("practice");
    beds.fill_two();
    beds.stores.shown().open("tomas", "P-0001", Page::fill);
    beds.settle();
    CHECK(beds.glass.shows("Practice patient P-0001, no real one"));
    beds.picture("practice");
    CHECK(beds.glass.faults() == Faults{});
    beds.real.clock.pass(std::chrono::seconds{20});
    beds.tap("was-real");
    REQUIRE_FALSE(beds.stores.practises());
    const auto& kiosk = beds.stores.shown();
    const auto* now = beds.real.room->desk().find_case(kiosk.case_name());
    REQUIRE(now != nullptr);
    CHECK(running_volume(now->device()) == Millilitres::of_tenths(1000));
    CHECK(now->device().deliveries.front().stamp.practice);
    CHECK(now->has_open("identity"));
    CHECK(kiosk.person() == "tomas");
    CHECK_FALSE(beds.glass.shows("Practice"));
}

TEST_CASE("a kiosk for practice alone says where a real one is entered", "[practice]") {
    KioskBed bed{{.until = "2026-11-25T09:00:00+00:00", .setting = {.practice = true}}};
    screens::Stores stores{*bed.room, {.practice = true}};
    touch::Headless glass{stores, english()};
    stores.shown().open("pia", "", Page::kiosk);
    glass.frame();
    glass.tap("practice");
    glass.frame();
    CHECK(stores.shown().page() == Page::sign_in);
    CHECK(stores.shown().person().empty());
}

TEST_CASE("a badge brings its name at the sign-in, and changes who enters later", "[practice]") {
    KioskBed bed{{.until = "2026-11-25T09:38:00+00:00",
                  .scripts = {"case-a"},
                  .lines = {R"({"by":"pia","do":"badge","id":"noor","badge":"00421177"})"}}};
    bed.kiosk->open("", "", Page::sign_in);
    bed.settle();
    bed.scan("00421177");
    CHECK(bed.kiosk->page() == Page::sign_in);  // the PIN is still asked
    CHECK(bed.kiosk->person().empty());
    bed.keys("pad", "917354");
    CHECK(bed.kiosk->person() == "noor");
    bed.kiosk->open("tomas", "A", Page::place);
    bed.settle();
    bed.scan("00421177");
    CHECK(bed.kiosk->person() == "noor");
    bed.kiosk->open("", "A", Page::sedation);  // a rescue page without a PIN: a badge is no way round it
    bed.settle();
    bed.scan("00421177");
    CHECK(bed.kiosk->person().empty());
}

TEST_CASE("the desk asks for the PIN again when it was left alone; the same person goes on where it stood",
          "[practice]") {
    KioskBed bed{{.until = "2026-11-25T09:38:00+00:00", .scripts = {"case-a"}}};
    bed.kiosk->open("pia", "", Page::register_list);
    bed.settle();
    bed.pass(std::chrono::minutes{4});
    CHECK(bed.kiosk->page() == Page::register_list);
    bed.pass(std::chrono::minutes{1});
    REQUIRE(bed.kiosk->page() == Page::sign_in);
    CHECK(bed.glass->shows("PIN for Pia Holm"));
    bed.keys("pad", "470215");
    CHECK(bed.kiosk->page() == Page::register_list);
    bed.kiosk->open("tomas", "A", Page::fill);
    bed.settle();
    bed.pass(std::chrono::minutes{20});
    CHECK(bed.kiosk->page() == Page::fill);  // never in the room
    CHECK(bed.kiosk->person() == "tomas");
}
