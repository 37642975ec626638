// The code of a balloon card: what is written comes back, and what was altered is refused.
#include <rapidcheck.h>

#include "core/record/card_code.h"
#include "tests/catch.h"

using namespace brimline;
using namespace std::chrono;

namespace {

CardFacts facts_of_a_card() {
    CardFacts f;
    f.placed = LocalDate{year{2026}, month{11}, day{25}};
    f.due = LocalDate{year{2027}, month{5}, day{25}};
    f.volume = 500_mL;
    f.dye = 5_mL;
    f.dye_agent = "methylene blue";
    f.lot = "DW-2641";
    f.serial = "0007731";
    f.gtin = "02001234026413";
    f.clinic = "Harrow Mere Day Unit";
    f.phone = "01632 960 100";
    return f;
}

/// The check digits come from Python's binascii.crc_hqx(text, 0xFFFF).
constexpr std::string_view text_of_the_card =
    "BALLOON CARD 1\nPlaced: 2026-11-25\nOut by: 2027-05-25\nVolume: 500 mL\nDye: 5 mL methylene blue\n"
    "Lot: DW-2641\nSerial: 0007731\nDevice: 02001234026413\nClinic: Harrow Mere Day Unit\n"
    "Phone: 01632 960 100\nCheck: 3314";

std::string error_of(std::string_view text) {
    const auto read = read_card_code(text);
    return read ? "none" : read.error().code;
}

std::string replaced(std::string text, const std::string& what, const std::string& by) {
    const auto at = text.find(what);
    REQUIRE(at != std::string::npos);
    return text.replace(at, what.size(), by);
}

}  // namespace

TEST_CASE("a card's code is text that a person can read", "[record][card]") {
    CHECK(card_code(facts_of_a_card()) == text_of_the_card);
}

TEST_CASE("what is not known has no line on a card's code", "[record][card]") {
    CardFacts f;
    f.placed = LocalDate{year{2026}, month{11}, day{25}};
    f.dye = Millilitres{};
    CHECK(card_code(f) == "BALLOON CARD 1\nPlaced: 2026-11-25\nDye: none\nCheck: 58AC");
    CHECK(read_card_code(card_code(f)) == f);
}

TEST_CASE("a phone's line ends and blanks do not damage a card's code", "[record][card]") {
    std::string other;
    for (const char c : text_of_the_card) {
        other += c == '\n' ? std::string{" \r\n"} : std::string{c};
    }
    CHECK(read_card_code(other + "\r\n") == facts_of_a_card());
}

TEST_CASE("any card comes back from its code as it was", "[record][card][property]") {
    const auto ok = rc::check("round trip", [] {
        CardFacts f;
        const auto any_date = [] { return LocalDate{sys_days{days{*rc::gen::inRange(10'000, 40'000)}}}; };
        const auto any_text = [] {
            return *rc::gen::element<std::string>("", "DW-2641", "Szpital Żółtek, 2. piętro", "a: b",
                                                  "0007731");
        };
        f.placed = any_date();
        if (*rc::gen::arbitrary<bool>()) {
            f.due = any_date();
        }
        if (*rc::gen::arbitrary<bool>()) {
            f.volume = Millilitres::of_tenths(*rc::gen::inRange(1, 99'999));
        }
        if (*rc::gen::arbitrary<bool>()) {
            f.dye = Millilitres::of_tenths(*rc::gen::inRange(0, 200));
            f.dye_agent = *f.dye > Millilitres{} ? any_text() : "";
        }
        f.lot = any_text();
        f.serial = any_text();
        f.gtin = any_text();
        f.clinic = any_text();
        f.phone = any_text();
        RC_ASSERT(read_card_code(card_code(f)) == f);
    });
    CHECK(ok);
}

TEST_CASE("one altered character of a card's code is refused", "[record][card]") {
    const std::string good{text_of_the_card};
    for (std::size_t i = 0; i < good.size(); ++i) {
        auto altered = good;
        altered[i] = altered[i] == '7' ? '1' : '7';
        INFO(altered);
        CHECK(error_of(altered) != "none");
    }
    CHECK(error_of(replaced(good, "Volume: 500 mL\n", "")) == "card-code-damaged");
    CHECK(error_of(good.substr(0, good.size() - 12)) == "card-code-damaged");
    CHECK(error_of(good + "\nLot: DW-2642") == "card-code-damaged");
}

TEST_CASE("what is no card, or a later one, is said so", "[record][card]") {
    CHECK(error_of("") == "card-code-not-one");
    CHECK(error_of("https://example.org") == "card-code-not-one");
    CHECK(error_of(std::string(2000, 'x')) == "card-code-not-one");
    CHECK(error_of(replaced(std::string{text_of_the_card}, "CARD 1", "CARD 2")) == "card-code-version");
}

TEST_CASE("a line that cannot be true is refused although its check fits", "[record][card]") {
    auto f = facts_of_a_card();
    f.lot = "DW-1\nVolume: 900 mL";
    const auto one_line = read_card_code(card_code(f));
    REQUIRE(one_line.has_value());
    CHECK(one_line->lot == "DW-1 Volume: 900 mL");
    CHECK(one_line->volume == 500_mL);
    f = facts_of_a_card();
    f.volume = -50_mL;
    CHECK(error_of(card_code(f)) == "card-code-field");
    f.volume = Millilitres{};
    CHECK(error_of(card_code(f)) == "card-code-field");
}

TEST_CASE("a long name is shortened between characters, and the code stays good", "[record][card]") {
    auto f = facts_of_a_card();
    f.clinic.clear();
    for (int i = 0; i < 50; ++i) {
        f.clinic += "Ż";
    }
    const auto read = read_card_code(card_code(f));
    REQUIRE(read.has_value());
    CHECK(read->clinic.size() <= longest_card_text);
    CHECK(read->clinic.ends_with("Ż..."));
    CHECK(f.clinic.starts_with(read->clinic.substr(0, read->clinic.size() - 3)));
}
