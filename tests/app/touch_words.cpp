// Words by key: placeholders, plural forms, loud gaps, and the stretch that layout tests use.
#include "app/kiosk/touch/words.h"
#include "tests/catch.h"
#include "tests/source_folder.h"

using namespace brimline::touch;

namespace {

Words words_of(std::string_view text) {
    auto words = Words::parse(text, "test");
    REQUIRE(words.has_value());
    return std::move(*words);
}

}  // namespace

TEST_CASE("placeholders are filled by name, in any order", "[touch][words]") {
    const Words words = words_of(R"({"language":"en","makes":"{which} makes {volume}"})");
    CHECK(words.say("makes", {{"volume", "500 mL"}, {"which", "Next"}}) == "Next makes 500 mL");
    CHECK(words.missing().empty());
}

TEST_CASE("a missing key shows itself and is remembered", "[touch][words]") {
    const Words words = words_of(R"({"language":"en","a":"{gap} mL"})");
    CHECK(words.say("fill.syringe-in") == "fill.syringe-in");
    CHECK(words.say("a") == "{gap} mL");
    CHECK(words.missing() ==
          std::set<std::string>{"no value for {gap} in \"a\"", "no words for \"fill.syringe-in\""});
}

TEST_CASE("each language takes its own plural forms", "[touch][words]") {
    CHECK(plural_form("en", 1) == Plural::one);
    CHECK(plural_form("en", 0) == Plural::other);
    CHECK(plural_form("fr", 0) == Plural::one);
    CHECK(plural_form("pl", 1) == Plural::one);
    CHECK(plural_form("pl", 3) == Plural::few);
    CHECK(plural_form("pl", 13) == Plural::many);
    CHECK(plural_form("pl", 22) == Plural::few);
    CHECK(plural_form("pl", 21) == Plural::many);
    CHECK(plural_form("ru", 21) == Plural::one);
    CHECK(plural_form("ru", 11) == Plural::many);
    CHECK(plural_form("cs", 4) == Plural::few);
    CHECK(plural_form("cs", 5) == Plural::other);
}

TEST_CASE("a count chooses the form and fills the number", "[touch][words]") {
    const Words words = words_of(
        R"({"language":"pl","taps":{"one":"{n} raz","few":"{n} razy","many":"{n} razów","other":"x"}})");
    CHECK(words.count("taps", 1) == "1 raz");
    CHECK(words.count("taps", 2) == "2 razy");
    CHECK(words.count("taps", 5) == "5 razów");
}

TEST_CASE("a broken language file is refused with file and key", "[touch][words]") {
    CHECK(Words::parse("[]", "f.json").error() == "Language file f.json is not one JSON object.");
    CHECK_FALSE(Words::parse(R"({"language":"en","a":1})", "f.json").has_value());
    CHECK_FALSE(Words::parse(R"({"language":"en","a":{"two":"b","other":"c"}})", "f.json").has_value());
    CHECK_FALSE(Words::parse(R"({"a":"b"})", "f.json").has_value());
    CHECK(Words::load("/nowhere/en.json").error() == "Language file /nowhere/en.json cannot be opened.");
}

TEST_CASE("stretched words are 1.4 times as long, values and units are not", "[touch][words]") {
    const Words words =
        words_of(R"({"language":"en","a":"Syringe number {n} in","unit.ml":"mL"})").stretched();
    const std::string text = words.say("a", {{"n", "10"}});
    CHECK(text == "SyringeSyr numbernum 10 ini");
    CHECK(words.say("unit.ml") == "mL");
}

TEST_CASE("the English file loads and its keyboard has ten letters a row", "[touch][words]") {
    const auto words = Words::load(brimline::test::in_sources("/assets/words/en.json"));
    REQUIRE(words.has_value());
    CHECK(words->language() == "en");
    CHECK(words->say("keyboard.row-1") == "qwertyuiop");
    CHECK(words->missing().empty());
}
