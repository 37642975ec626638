// The ports of the store: ids, hashes, clocks, zones, policy files and room on the disk.
#include <sys/stat.h>

#include <set>

#include "core/store/clock.h"
#include "core/store/ids.h"
#include "core/store/policy_files.h"
#include "core/store/space.h"
#include "core/store/zone_file.h"
#include "core/store/zone_rule.h"
#include "tests/catch.h"
#include "tests/store/scratch.h"

using namespace brimline;
using namespace brimline::store;
using namespace brimline::store::scratch;
using namespace std::chrono_literals;

TEST_CASE("hexadecimal goes both ways and takes nothing else", "[ids]") {
    Id16 id{};
    id[0] = 0x0f;
    id[15] = 0xa0;
    CHECK(hex(id) == "0f0000000000000000000000000000a0");
    CHECK(id_from_hex(hex(id)) == id);
    CHECK(id_from_hex("0F0000000000000000000000000000A0") == id);
    CHECK_FALSE(id_from_hex("0f").has_value());
    CHECK_FALSE(id_from_hex("0g0000000000000000000000000000a0").has_value());
    CHECK_FALSE(hash_from_hex(hex(id)).has_value());
}

TEST_CASE("BLAKE2b gives the 256-bit values that b2sum gives", "[ids]") {
    // Source: `printf '' | b2sum -l 256` and `printf abc | b2sum -l 256`, an implementation not ours.
    CHECK(hex(blake2b("")) == "0e5751c026e543b2e8ab2eb06099daa1d1e5df47778f7787faab45cdf12fe3a8");
    CHECK(hex(blake2b("abc")) == "bddd813c634239723171ef3fee98579b94964e3bb1cb3e427262c8c068d52319");
}

TEST_CASE("random ids do not repeat, counted ones always do", "[ids]") {
    SystemChance chance;
    std::set<Id16> ids;
    for (int i = 0; i < 1000; ++i) {
        ids.insert(chance.id());
    }
    CHECK(ids.size() == 1000);
    CountedChance first{41};
    CountedChance second{41};
    CHECK(hex(first.id()) == "0000000000000000000000000000002a");
    CHECK(first.id() != second.id());
    CHECK(first.id() != second.id());
}

TEST_CASE("the system's clock runs forward within one boot", "[clock]") {
    SystemClock clock;
    const auto tick = clock.tick_us();
    const auto utc = clock.utc();
    CHECK(tick > 0);
    CHECK(clock.tick_us() >= tick);
    CHECK(clock.utc() - utc < 10s);
    CHECK(utc.in_us() > 1'700'000'000'000'000);
    CHECK(clock.boot() == SystemClock{}.boot());
    CHECK(clock.boot() != Id16{});
}

TEST_CASE("the settable clock passes on both hands, jumps on one, and starts again", "[clock]") {
    SetClock clock{Instant::of_us(100), 7};
    clock.pass(5us);
    CHECK(clock.utc().in_us() == 105);
    CHECK(clock.tick_us() == 12);
    clock.jump(-50us);
    CHECK(clock.utc().in_us() == 55);
    CHECK(clock.tick_us() == 12);
    clock.move_to(Instant::of_us(50));
    CHECK(clock.utc().in_us() == 50);
    CHECK(clock.tick_us() == 12);
    const Id16 boot = clock.boot();
    clock.start_again();
    CHECK(clock.tick_us() == 0);
    CHECK(clock.boot() != boot);
}

TEST_CASE("a zone comes from the system's tables with its transitions", "[zone]") {
    const auto zone = load_zone("Europe/London");
    REQUIRE(zone.has_value());
    CHECK(zone->name() == "Europe/London");
    const auto offset = [&](const char* text) { return zone->offset_at(parse_instant(text).value()); };
    CHECK(offset("2026-11-25T09:00:00Z") == 0h);
    CHECK(offset("2027-03-28T00:59:59Z") == 0h);
    CHECK(offset("2027-03-28T01:00:00Z") == 1h);
    CHECK(offset("2027-10-31T00:59:59Z") == 1h);
    CHECK(offset("2027-10-31T01:00:00Z") == 0h);
    CHECK(offset("1970-06-01T00:00:00Z") == 1h);  // the years of standard time one hour ahead
    CHECK(load_zone("Asia/Kathmandu")->offset_at(Instant::of_us(1'800'000'000'000'000)) == 5h + 45min);
}

TEST_CASE("a zone goes on by its rule where the tables end", "[zone]") {
    // Source: python3's zoneinfo, an implementation not ours, of the same system.
    const auto offset = [&](const char* zone, const char* text) {
        return load_zone(zone)->offset_at(parse_instant(text).value());
    };
    CHECK(offset("Europe/London", "2060-03-28T00:59:59Z") == 0h);
    CHECK(offset("Europe/London", "2060-03-28T01:00:00Z") == 1h);
    CHECK(offset("Europe/London", "2060-10-31T01:00:00Z") == 0h);
    CHECK(offset("Australia/Sydney", "2071-01-15T00:00:00Z") == 11h);
    CHECK(offset("Australia/Sydney", "2071-07-15T00:00:00Z") == 10h);
    CHECK(offset("Europe/Dublin", "2099-07-15T00:00:00Z") == 1h);
    CHECK(offset("Asia/Tokyo", "2099-07-15T00:00:00Z") == 9h);
}

TEST_CASE("the rule of a zone is read in every form that POSIX allows, and nothing else", "[zone]") {
    const auto of = [](const char* text) { return parse_zone_rule(text); };
    CHECK(of("JST-9")->standard == 9h);
    CHECK_FALSE(of("JST-9")->change.has_value());
    CHECK(of("<+0330>-3:30")->standard == 3h + 30min);
    CHECK(of("NST3:30NDT,M3.2.0,M11.1.0")->summer == -2h - 30min);
    CHECK(of("IST-1GMT0,M10.5.0,M3.5.0/1")->summer == 0h);
    CHECK(of("IST-2IDT,M3.4.4/26,M10.5.0")->change->summer_begins.at == 26h);
    CHECK(of("<-02>2<-01>,M3.5.0/-1,M10.5.0/0")->change->summer_begins.at == -1h);
    const auto julian = of("AAA0BBB,J60,J300");
    CHECK(changes_in(*julian, 2028).at(0).from == parse_instant("2028-03-01T02:00:00Z"));
    CHECK(changes_in(*julian, 2027).at(0).from == parse_instant("2027-03-01T02:00:00Z"));
    CHECK(changes_in(*of("AAA0BBB,59/0,300"), 2028).at(0).from == parse_instant("2028-02-29T00:00:00Z"));
    for (const char* wrong :
         {"", "A0", "GMT", "GMT0BST", "GMT0BST,M3.5.0", "GMT0BST,M13.5.0,M10.5.0", "GMT0BST,M3.6.0,M10.5.0",
          "GMT0BST,M3.5.0,M10.5.0 ", "<GMT0", "GMT25", "GMT0:60"}) {
        INFO(wrong);
        CHECK_FALSE(of(wrong).has_value());
    }
}

TEST_CASE("a zone nobody knows is answered with a sentence", "[zone]") {
    for (const char* name : {"Europe/Nowhere", "", "../etc/passwd"}) {
        const auto zone = load_zone(name);
        REQUIRE_FALSE(zone.has_value());
        CHECK(zone.error().code == "zone-unknown");
        CHECK(zone.error().say.find("is not known on this system") != std::string::npos);
    }
}

TEST_CASE("policy files are read by name, and a folder that cannot be read says so", "[policy]") {
    const Place place;
    write_whole(place.path() / "b.json", "{\"b\":1}");
    write_whole(place.path() / "a.json", "{}");
    write_whole(place.path() / "notes.txt", "not policy");
    const auto files = read_policy_folder(place.path());
    REQUIRE(files.has_value());
    REQUIRE(files->size() == 2);
    CHECK(files->at(0).name == "a.json");
    CHECK(files->at(1).text == "{\"b\":1}");
    const auto missing = read_policy_folder(place.path() / "none");
    REQUIRE_FALSE(missing.has_value());
    CHECK(missing.error().at(0).say == "The policy folder cannot be read: No such file or directory.");
    write_whole(place.path() / "c.json", std::string(5'000'000, ' '));
    std::filesystem::create_directory(place.path() / "d.json");
    const auto faults = read_policy_folder(place.path());
    REQUIRE_FALSE(faults.has_value());
    REQUIRE(faults.error().size() == 2);
    CHECK(faults.error()[0].file == "c.json");
    CHECK(faults.error()[1].file == "d.json");
}

TEST_CASE("room on the disk is judged by the journal's two limits", "[space]") {
    CHECK(space_for(200'000'000) == Space::enough);
    CHECK(space_for(199'999'999) == Space::low);
    CHECK(space_for(50'000'000) == Space::low);
    CHECK(space_for(49'999'999) == Space::none);
    CHECK(free_bytes("/").value_or(-1) >= 0);
    CHECK_FALSE(free_bytes("/no/such/folder").has_value());
}
