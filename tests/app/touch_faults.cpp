// The layout check finds each fault it promises to find, and passes a page that has none.
#include <algorithm>

#include "app/kiosk/touch/faults.h"
#include "app/kiosk/touch/headless.h"
#include "app/kiosk/touch/widgets.h"
#include "tests/catch.h"
#include "tests/source_folder.h"

using namespace brimline::touch;

namespace {

const Words& english() {
    static const Words words = std::move(*Words::load(brimline::test::in_sources("/assets/words/en.json")));
    return words;
}

using Faults = std::vector<std::string>;

Faults faults_of(std::function<void(Glass&)> draw, Size size = {}) {
    Headless glass{std::move(draw), english(), size};
    return glass.faults();
}

void key(Glass& g, const char* name, Rect rect) { button(g, name, rect, {.title = "a"}); }

/// A Fill page, roughly: every fixed part, a gauge and the tall corner.
void whole_page(Glass& g, bool left_handed) {
    const Layout page = layout_for(g.size(), left_handed);
    page_ground(g, page);
    Strip strip{.surname = "QUILL", .given = "Marta"};
    strip.born = "14 Mar 1986 · 40 y";
    strip.number = "HM-4471";
    strip.allergy = AllergyState::known;
    strip.allergy_text = "Latex";
    strip.vitals_title = "Vitals\nDose";
    strip.airway_title = "Airway\nevent";
    strip.clock = "09:41";
    strip.person = "Tomas Reyle";
    patient_strip(g, page, strip);
    stage_rail(g, page, {{"Arrival", StageState::done}, {"Fill", StageState::on_screen}, {"Size"}});
    person_chips(g, page, {{"ilse", "IV"}, {"noor", "NA"}, {"tomas", "TR", true}});
    prompt_bar(g, page.prompt, {Urgency::low, "Count check after the next syringe", "Say it aloud", {}});
    action(g, page.fill_action, {.command = "syringe-in", .title = "Syringe in", .acts_on_press = true});
}

}  // namespace

TEST_CASE("a sound page has no faults, either hand, either way up", "[touch][faults]") {
    CHECK(faults_of([](Glass& g) { whole_page(g, false); }) == Faults{});
    CHECK(faults_of([](Glass& g) { whole_page(g, true); }) == Faults{});
    CHECK(faults_of([](Glass& g) { whole_page(g, false); }, {800, 1280}) == Faults{});
}

TEST_CASE("targets below 88 px in the room and 72 px at the desk are named", "[touch][faults]") {
    const auto small = [](bool in_room, float side) {
        return faults_of([=](Glass& g) {
            g.dress({Theme::dark, in_room, false});
            key(g, "k", {100, 100, side, 100});
        });
    };
    CHECK(small(true, 88) == Faults{});
    CHECK(small(true, 86) == Faults{"target k: 86 px, at least 88"});
    CHECK(small(false, 72) == Faults{});
    CHECK(small(false, 70) == Faults{"target k: 70 px, at least 72"});
}

TEST_CASE("overlaps, gaps below 8 px, doubled names and leaving the glass are named", "[touch][faults]") {
    const auto two = [](Rect a, Rect b, const char* second) {
        return faults_of([=](Glass& g) {
            g.registry().add(Target{.name = "a", .rect = a, .hit = a});
            g.registry().add(Target{.name = second, .rect = b, .hit = b});
        });
    };
    CHECK(two({0, 0, 100, 100}, {108, 0, 100, 100}, "b") == Faults{});
    CHECK(two({0, 0, 100, 100}, {106, 0, 100, 100}, "b") == Faults{"targets a and b: gap 6 px"});
    CHECK(two({0, 0, 100, 100}, {90, 0, 100, 100}, "b") == Faults{"targets a and b overlap"});
    CHECK(two({0, 0, 100, 100}, {300, 0, 100, 100}, "a") == Faults{"target a stands 2 times"});
    CHECK(two({0, 0, 100, 100}, {1200, 0, 100, 100}, "b") == Faults{"target b leaves the glass"});
}

TEST_CASE("a text that does not fit is stepped down, then wrapped, then cut and named", "[touch][faults]") {
    const auto setting = [](float width, float height) {
        Headless glass{[=](Glass& g) {
                           text(g, "t", {100, 100, width, height}, "Correct a tap", {.em = step::act});
                       },
                       english()};
        const Slot slot = *glass.registry().find_slot("t");
        return std::tuple{slot.em, slot.lines, slot.cut, glass.faults().size()};
    };
    CHECK(setting(300, 40) == std::tuple{step::act, 1, false, 0U});
    CHECK(setting(120, 80) == std::tuple{step::act, 2, false, 0U});
    CHECK(setting(140, 40) == std::tuple{step::note, 1, false, 0U});
    CHECK(setting(60, 30) == std::tuple{step::note, 1, true, 1U});
}

TEST_CASE("given names alone may end in an ellipsis", "[touch][faults]") {
    CHECK(faults_of([](Glass& g) {
              text(g, "given", {100, 100, 60, 30}, "Wilhelmina", {.lines = 1, .may_cut = true});
          }) == Faults{});
}

TEST_CASE("texts over each other and over an edge are named", "[touch][faults]") {
    CHECK(faults_of([](Glass& g) {
              text(g, "a", {100, 100, 200, 30}, "Syringe in");
              text(g, "b", {120, 104, 200, 30}, "number 10");
          }) == Faults{"texts a and b overlap"});
    CHECK(faults_of([](Glass& g) {
              key(g, "k", {200, 100, 100, 100});
              text(g, "t", {150, 100, 120, 30}, "Syringe in");
          }) == Faults{"text t crosses the edge of k"});
}

TEST_CASE("two actions, and No right of Yes, are named", "[touch][faults]") {
    CHECK(faults_of([](Glass& g) {
              action(g, {864, 692, 400, 96}, {.command = "one", .title = "One"});
              action(g, {864, 440, 400, 96}, {.command = "two", .title = "Two"});
          }) == Faults{"2 actions in the corner"});
    const auto pair = [](float no, float yes) {
        return faults_of([=](Glass& g) {
            const Rect n{no, 100, 100, 100};
            const Rect y{yes, 100, 100, 100};
            g.registry().add(Target{.name = "q/no", .rect = n, .hit = n, .kind = Kind::answer_no});
            g.registry().add(Target{.name = "q/yes", .rect = y, .hit = y, .kind = Kind::answer_yes});
        });
    };
    CHECK(pair(100, 300) == Faults{});
    CHECK(pair(300, 100) == Faults{"q/no does not stand before Yes"});
}

TEST_CASE("a colon belongs to times of day and never to a duration", "[touch][faults]") {
    CHECK_FALSE(has_colon_duration("Last 09:41:12, 15 s ago"));
    CHECK_FALSE(has_colon_duration("11:25:30 to 11:30:35"));
    CHECK_FALSE(has_colon_duration("1 h 56 min"));
    CHECK(has_colon_duration("1:56 h"));
    CHECK(has_colon_duration("75:10"));
    CHECK(has_colon_duration("01:56 min"));
    CHECK(has_colon_duration("sedated 4:05"));
}

TEST_CASE("a missing word is a fault of the page", "[touch][faults]") {
    CHECK(faults_of([](Glass& g) {
              text(g, "t", {100, 100, 300, 30}, g.words().say("no.such-key"));
          }) == Faults{"no words for \"no.such-key\""});
}
