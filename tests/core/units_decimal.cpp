// Exact decimals: reading, exact text, and rounding half away from zero in one step.
#include "core/units/decimal.h"
#include "core/units/quantity.h"
#include "tests/catch.h"

namespace brimline {
namespace {

Decimal read(std::string_view text) {
    const auto value = Decimal::parse(text);
    REQUIRE(value.has_value());
    return *value;
}

TEST_CASE("a decimal is read exactly and written without trailing zeros", "[units][decimal]") {
    const std::vector<std::pair<std::string, std::string>> table{{"2.5", "2.5"},
                                                                 {"40", "40"},
                                                                 {"0.041", "0.041"},
                                                                 {"-0.50", "-0.5"},
                                                                 {"1e3", "1000"},
                                                                 {"1.5E-1", "0.15"},
                                                                 {"0", "0"},
                                                                 {"-0", "0"},
                                                                 {"007", "7"},
                                                                 {"0.000001", "0.000001"},
                                                                 {"1.0000000000", "1"},
                                                                 {"9000000000000", "9000000000000"}};
    for (const auto& [typed, text] : table) {
        INFO(typed);
        CHECK(read(typed).text() == text);
    }
}

TEST_CASE("what is no plain number, too fine or too large is not read", "[units][decimal]") {
    for (const auto* text : {"",
                             "-",
                             ".5",
                             "5.",
                             "1,5",
                             "+1",
                             " 1",
                             "1 ",
                             "0x1",
                             "1e",
                             "1e1000",
                             "nan",
                             "inf",
                             "1.2.3",
                             "0.0000001",
                             "1e13",
                             "99999999999999999999",
                             "--1",
                             "1e+",
                             "12a"}) {
        INFO(text);
        CHECK_FALSE(Decimal::parse(text).has_value());
    }
}

TEST_CASE("rounding is half away from zero, once, from the exact value", "[units][decimal]") {
    CHECK(read("0.25").rounded(1) == "0.3");
    CHECK(read("-0.25").rounded(1) == "-0.3");
    CHECK(read("0.249999").rounded(1) == "0.2");
    CHECK(read("2.5").rounded(0) == "3");
    CHECK(read("40").rounded(2) == "40.00");
    CHECK(ratio_text(1, 3, 2) == "0.33");
    CHECK(ratio_text(2, 3, 2) == "0.67");
    CHECK(ratio_text(-1, 8, 2) == "-0.13");
    CHECK(ratio_text(1, -8, 2) == "-0.13");
    CHECK(ratio_text(9'000'000'000'000'000'000, 1, 0) == "9000000000000000000");
    CHECK(ratio_whole(400 * 60, 169) == 142);  // decisions A10
    CHECK(ratio_whole(-5, 2) == -3);
    CHECK(ratio(2, 3, 3) == read("0.667"));
}

TEST_CASE("a decimal answers whole numbers only where nothing is lost", "[units][decimal]") {
    CHECK(read("96.4").whole(10) == 964);
    CHECK_FALSE(read("96.45").whole(10).has_value());
    CHECK(read("12").whole() == 12);
    CHECK(read("2.50").places() == 1);
    CHECK(read("40").places() == 0);
    CHECK(read("0.000001").places() == 6);
    CHECK(read("2.5") + read("0.1") * 3 - read("1") == read("1.8"));
}

TEST_CASE("tenths add up without drift", "[units][quantity]") {
    Millilitres sum;
    for (const int tenths : {173, 173, 174}) {
        sum += Millilitres::of_tenths(tenths);
    }
    CHECK(sum == 52_mL);  // before.md 13
    CHECK(Millilitres{500_mL - 50_mL * 3}.in_tenths() == 3500);
    CHECK(Millilitres{-50_mL}.in_tenths() == -500);
}

}  // namespace
}  // namespace brimline
