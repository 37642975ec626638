// PINs: only the right one opens, wrong ones lock for a growing while, and nothing on disk tells the PIN.
#include "core/store/pins.h"

#include "core/store/clock.h"
#include "tests/catch.h"
#include "tests/store/scratch.h"

using namespace brimline;
using namespace brimline::store;
using namespace brimline::store::scratch;
using namespace std::chrono_literals;

namespace {

Journal with_person(const std::filesystem::path& folder) {
    Journal journal = writing(folder);
    Batch batch = one(1, 1);
    batch.people = {
        {.id = "mina", .name = "Mina", .pin_hash = hash_pin("864209"), .roles = {"nurse"}, .one_time = true},
        {.id = "gone", .name = "Gone", .pin_hash = hash_pin("864209"), .active = false}};
    put(journal, batch);
    return journal;
}

/// "right", "wrong 2", "locked 60" (seconds from now), "unknown".
std::string answer(Journal& journal, std::string_view pin, Instant now, const std::string& person = "mina") {
    const auto checked = check_pin(journal, person, pin, now, PinRule{});
    REQUIRE(checked.has_value());
    if (const auto* wrong = std::get_if<PinWrong>(&*checked)) {
        return "wrong " + std::to_string(wrong->tries_left);
    }
    if (const auto* locked = std::get_if<PinLocked>(&*checked)) {
        return "locked " + std::to_string(whole_seconds(locked->until - now));
    }
    return std::holds_alternative<PinRight>(*checked) ? "right" : "unknown";
}

}  // namespace

TEST_CASE("a PIN has six to eight digits and nothing else", "[pin]") {
    for (const char* pin : {"123456", "1234567", "00000000"}) {
        CHECK(pin_has_form(pin, PinRule{}));
    }
    for (const char* pin : {"", "12345", "123456789", "12345a", "12 456", "-12345", "١٢٣"}) {
        CHECK_FALSE(pin_has_form(pin, PinRule{}));
    }
    CHECK(pin_has_form("1234", PinRule{.digits_least = 4}));
}

TEST_CASE("a kept hash holds for its PIN alone, differs each time, and damage makes it hold for none",
          "[pin]") {
    const std::string hash = hash_pin("864209");
    CHECK(hash.find("$argon2id$") == 0);
    CHECK(hash.find("864209") == std::string::npos);
    CHECK(pin_holds("864209", hash));
    CHECK_FALSE(pin_holds("864208", hash));
    CHECK_FALSE(pin_holds("", hash));
    CHECK(hash_pin("864209") != hash);
    CHECK_FALSE(pin_holds("864209", ""));
    CHECK_FALSE(pin_holds("864209", std::string(500, 'x')));
    CHECK(pin_fingerprint(hash).size() == 32);
    CHECK(pin_fingerprint(hash) != pin_fingerprint(hash + " "));
}

TEST_CASE("the right PIN opens and tells whether it was given by another", "[pin]") {
    const Place place;
    Journal journal = with_person(place.data());
    SetClock clock{Instant::of_us(1'800'000'000'000'000)};
    const auto checked = check_pin(journal, "mina", "864209", clock.utc(), PinRule{});
    REQUIRE(checked.has_value());
    REQUIRE(std::holds_alternative<PinRight>(*checked));
    CHECK(std::get<PinRight>(*checked).one_time);
    CHECK(answer(journal, "864209", clock.utc(), "nobody") == "unknown");
    CHECK(answer(journal, "864209", clock.utc(), "gone") == "unknown");
}

TEST_CASE("three wrong tries lock a minute, then two, four, eight and never more than fifteen", "[pin]") {
    const Place place;
    Journal journal = with_person(place.data());
    SetClock clock{Instant::of_us(1'800'000'000'000'000)};
    for (const int seconds : {60, 120, 240, 480, 900, 900}) {
        CHECK(answer(journal, "000000", clock.utc()) == "wrong 2");
        CHECK(answer(journal, "000001", clock.utc()) == "wrong 1");
        CHECK(answer(journal, "000002", clock.utc()) == "locked " + std::to_string(seconds));
        clock.pass(std::chrono::seconds{seconds} - 1s);
        CHECK(answer(journal, "864209", clock.utc()) == "locked 1");
        clock.pass(1s);
    }
    CHECK(answer(journal, "864209", clock.utc()) == "right");
    CHECK(answer(journal, "000000", clock.utc()) == "wrong 2");
}

TEST_CASE("wrong tries and the lock are there after a restart", "[pin]") {
    const Place place;
    const Instant now = Instant::of_us(1'800'000'000'000'000);
    {
        Journal journal = with_person(place.data());
        CHECK(answer(journal, "000000", now) == "wrong 2");
    }
    {
        Journal journal = writing(place.data());
        CHECK(answer(journal, "000000", now) == "wrong 1");
        CHECK(answer(journal, "000000", now) == "locked 60");
    }
    Journal journal = writing(place.data());
    CHECK(answer(journal, "864209", now + 59s) == "locked 1");
    CHECK(answer(journal, "864209", now + 60s) == "right");
}

TEST_CASE("a clock set back ten years locks no one for ten years", "[pin]") {
    const Place place;
    Journal journal = with_person(place.data());
    SetClock clock{Instant::of_us(1'800'000'000'000'000)};
    for (int i = 0; i < 3; ++i) {
        answer(journal, "000000", clock.utc());
    }
    clock.jump(-std::chrono::hours{24 * 3650});
    CHECK(answer(journal, "864209", clock.utc()) == "locked 900");
    clock.pass(900s);
    CHECK(answer(journal, "864209", clock.utc()) == "right");
}

TEST_CASE("no PIN stands anywhere in the data folder", "[pin]") {
    const Place place;
    {
        Journal journal = with_person(place.data());
        answer(journal, "975318", Instant::of_us(5));
        answer(journal, "864209", Instant::of_us(6));
    }
    for (const auto& [name, content] : picture(place.data())) {
        INFO(name);
        CHECK(content.find("864209") == std::string::npos);
        CHECK(content.find("975318") == std::string::npos);
    }
}

TEST_CASE("a journal that may not be written judges no PIN", "[pin]") {
    const Place place;
    { const Journal journal = with_person(place.data()); }
    auto journal = Journal::open(place.data(), Mode::read_only);
    REQUIRE(journal.has_value());
    CHECK_FALSE(check_pin(*journal, "mina", "864209", Instant::of_us(5), PinRule{}).has_value());
}
