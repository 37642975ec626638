// The patient's sheet: whole in each language, with its dates, and with the signs that the source lists.
#include <fstream>
#include <iterator>

#include "core/case/discharge_view.h"
#include "core/record/leaflet.h"
#include "tests/catch.h"
#include "tests/core/bed.h"
#include "tests/source_folder.h"

using namespace brimline;
using namespace brimline::test;
using namespace std::chrono;

namespace {

std::string file_text(const std::string& name) {
    std::ifstream in{in_sources("/assets/leaflet/" + name)};
    return {std::istreambuf_iterator<char>{in}, {}};
}

SheetWords words_in(const std::string& language) {
    auto words = SheetWords::read(language, file_text(language + ".json"));
    REQUIRE(words.has_value());
    return *words;
}

LocalDate on(int y, unsigned m, unsigned d) { return LocalDate{year{y}, month{m}, day{d}}; }

}  // namespace

TEST_CASE("a span of days names each weekday, and the month where it changes", "[record][leaflet]") {
    const auto en = words_in("en");
    CHECK(en.span(on(2026, 11, 25), on(2026, 11, 27)) == "Wed 25 to Fri 27 Nov");
    CHECK(en.span(on(2026, 11, 28), on(2026, 12, 11)) == "Sat 28 Nov to Fri 11 Dec");
    CHECK(en.span(on(2026, 12, 28), on(2027, 1, 3)) == "Mon 28 Dec 2026 to Sun 3 Jan 2027");
    CHECK(words_in("es").day(on(2027, 5, 25), true) == "mar 25 de mayo de 2027");
    CHECK(words_in("pl").span(on(2026, 11, 25), on(2026, 11, 27)) == "śr. 25 – pt. 27 listopada");
}

TEST_CASE("a language file that lacks a word is not used at all", "[record][leaflet]") {
    const auto whole = file_text("en.json");
    const auto without = [&](const std::string& key) {
        auto text = whole;
        text.erase(text.find("\"" + key + "\""),
                   text.find('\n', text.find("\"" + key + "\"")) - text.find("\"" + key + "\""));
        return text;
    };
    CHECK(SheetWords::read("en", whole).has_value());
    CHECK(SheetWords::read("en", without("emergency.fever")).error().say ==
          "assets/leaflet/en.json: \"emergency.fever\" is missing.");
    CHECK_FALSE(SheetWords::read("en", "[]").has_value());
    CHECK_FALSE(SheetWords::read("en", R"({"nonsense": "x"})").has_value());
}

TEST_CASE("a name is never read as a placeholder", "[record][leaflet]") {
    const auto en = words_in("en");
    CHECK(en.say("for", {{"name", "{name} {date}"}}) == "For {name} {date}");
}

TEST_CASE("the sheet prints in the patient's language only where the clinic approved it",
          "[record][leaflet]") {
    auto bed = bed_with_case();
    auto state = bed.state();
    state.patient.language = "pl";
    CHECK(sheet_language(state, demo_policy()) == "pl");
    CHECK(sheet_language(state, house_policy()) == "en");
    state.patient.language = "nl";
    CHECK(sheet_language(state, demo_policy()) == "en");
    state.patient.language.reset();
    CHECK(sheet_language(state, demo_policy()) == "en");
}

TEST_CASE("a sheet in another language than the patient reads opens an item until it is replaced",
          "[record][leaflet]") {
    auto bed = bed_with_case();
    const auto has_item = [&] {
        const auto items = bed.open_items();
        return std::find(items.begin(), items.end(), "leaflet-language") != items.end();
    };
    bed.at("11:00:00", R"("by":"wren","case":"A","do":"patient","language":"nl","reason":"asked again")");
    bed.at("11:34:00", R"("by":"wren","case":"A","do":"leaflet","how":"print","language":"en")");
    CHECK(has_item());
    bed.at("11:36:00", R"("by":"wren","case":"A","do":"leaflet","how":"print","language":"nl")");
    CHECK_FALSE(has_item());
}
