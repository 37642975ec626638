// Widgets say what they were given and return what was tapped.
#include <fmt/format.h>

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

const Words& stretched() {
    static const Words words = english().stretched();
    return words;
}

}  // namespace

TEST_CASE("the keypad has 1-2-3 on top and types what is tapped", "[touch][widgets]") {
    NumberDraft draft{4, 1};
    Headless glass{[&](Glass& g) {
                       if (const auto k = keypad(g, "pad", {864, 278, 400, 386}, true)) {
                           draft.press(*k);
                       }
                       value_box(g, "typed", {864, 186, 400, 82}, {.digits = draft.shown("."), .unit = "mL"});
                   },
                   english()};
    for (const char* k : {"pad/5", "pad/3", "pad/0", "pad/point", "pad/5"}) {
        glass.tap(k);
    }
    CHECK(glass.text_of("typed/value") == "530.5");
    glass.tap("pad/erase");
    glass.tap("pad/erase");
    CHECK(draft.whole() == 530);
    glass.type("7");
    glass.key(Key::backspace);
    glass.key(Key::backspace);
    CHECK(draft.whole() == 53);
    const auto y = [&](const char* name) { return glass.registry().find(name)->rect.y; };
    CHECK(y("pad/1") < y("pad/4"));
    CHECK(y("pad/7") < y("pad/0"));
    CHECK(glass.faults() == std::vector<std::string>{});
}

TEST_CASE("a stepper starts unasked, takes its first value and stays in its range", "[touch][widgets]") {
    std::optional<int> pain;
    Headless glass{
        [&](Glass& g) {
            if (const auto v = stepper(g, "pain", {100, 100, 400, 88}, {.value = pain, .most = 2})) {
                pain = v;
            }
        },
        english()};
    CHECK(glass.text_of("pain/value") == "–");
    glass.tap("pain/more");
    CHECK(pain == 0);
    for (int i = 0; i < 4; ++i) {
        glass.tap("pain/more");
    }
    CHECK(pain == 2);
    glass.tap("pain/less");
    CHECK(glass.text_of("pain/value") == "1");
}

TEST_CASE("a hold's ways out are its buttons, and the hold itself is none", "[touch][widgets]") {
    std::optional<std::size_t> way;
    Headless glass{
        [&](Glass& g) {
            const auto tapped = card_with_ways(
                g, "hold", {864, 104, 400, 200},
                {.kind = CardKind::hold, .title = "Clear fluids too recent", .lines = {"until 11:10"}},
                {{"wait", "Wait", "", {}}, {"override", "Override", "", {}}});
            way = tapped ? tapped : way;
        },
        english()};
    CHECK_FALSE(glass.has("hold"));
    glass.tap("override");
    CHECK(way == 1U);
    CHECK(glass.text_of("hold/line-1") == "until 11:10");
}

TEST_CASE("the prompt's bar and its chips are told apart", "[touch][widgets]") {
    std::string heard;
    Headless glass{
        [&](Glass& g) {
            const PromptTap tap = prompt_bar(
                g, landscape().prompt,
                {Urgency::medium, "Vital signs due", "at 09:42", {{"trend", "Trend"}, {"more", "2 more"}}});
            heard += tap.bar ? "bar " : "";
            heard += tap.chip ? fmt::format("chip {} ", *tap.chip) : "";
        },
        english()};
    glass.tap("prompt");
    glass.tap("more");
    glass.tap("trend");
    CHECK(heard == "bar chip 1 chip 0 ");
    CHECK(glass.faults() == std::vector<std::string>{});
}

TEST_CASE("the action with Go on leaves 18 px between the two and tells them apart", "[touch][widgets]") {
    std::vector<ActionTap> taps;
    Headless glass{
        [&](Glass& g) {
            const Action shown{
                .command = "next-position", .title = "Next: position", .look = ActionLook::next_missing};
            const ActionTap tap = action(g, landscape().action, shown, GoOn{"Go on", "2 open items"});
            if (tap != ActionTap::none) {
                taps.push_back(tap);
            }
        },
        english()};
    glass.tap("go-on");
    glass.tap("next-position");
    CHECK(taps == std::vector{ActionTap::go_on, ActionTap::action});
    const float gap =
        glass.registry().find("next-position")->rect.x - glass.registry().find("go-on")->rect.right();
    CHECK(gap == 18);
    CHECK(glass.faults() == std::vector<std::string>{});
}

TEST_CASE("the sheet row has the sheet's own action at its left end and Back at its right",
          "[touch][widgets]") {
    std::vector<SheetTap> taps;
    Headless glass{[&](Glass& g) {
                       const Layout page = landscape();
                       const SheetTap tap = sheet_row(g, page, {.command = "part-in", .title = "Part, 30 mL"},
                                                      "Fill: 500 mL", "10 × 50 mL");
                       action(g, page.action, {.command = "syringe-in", .title = "Syringe in"});
                       if (tap != SheetTap::none) {
                           taps.push_back(tap);
                       }
                   },
                   english()};
    glass.tap("part-in");
    glass.tap("back");
    CHECK(taps == std::vector{SheetTap::action, SheetTap::back});
    CHECK(glass.text_of("sheet/count") == "Fill: 500 mL");
    CHECK(glass.faults() == std::vector<std::string>{});
}

TEST_CASE("the strip is touched over its full height and says what was tapped", "[touch][widgets]") {
    StripTap last = StripTap::none;
    Headless glass{[&](Glass& g) {
                       Strip strip{.surname = "ŻÓŁTEK", .given = "Zofia"};
                       strip.born = "1 Jan 1990 · 36 y";
                       strip.born_covered = true;
                       strip.number = "HM-4600";
                       strip.allergy_text = "Not asked";
                       strip.vitals_title = "Vitals\nDose";
                       strip.airway_title = "Airway\nevent";
                       strip.clock = "09:41";
                       strip.person = "Dr Noor Adeyemi";
                       const StripTap tap = patient_strip(g, landscape(), strip);
                       last = tap == StripTap::none ? last : tap;
                   },
                   english()};
    glass.frame();
    glass.pass(1.0);  // the airway button may change its command, so it is dead for a moment after it appears
    glass.tap_at({1090, 2});
    CHECK(last == StripTap::airway);
    glass.tap_at({990, 86});
    CHECK(last == StripTap::vitals);
    glass.tap("allergy");
    CHECK(last == StripTap::allergy);
    glass.tap("patient");
    CHECK(last == StripTap::patient);
    CHECK_FALSE(glass.shows("1 Jan 1990 · 36 y · HM-4600"));
    CHECK(glass.text_of("patient/born") == "covered");
    CHECK(glass.faults() == std::vector<std::string>{});
}

TEST_CASE("a long surname is never cut, the given name gives way", "[touch][widgets]") {
    Headless glass{[&](Glass& g) {
                       Strip strip{.surname = "VON HOHENBRUCK-QUILL", .given = "Maximiliane"};
                       strip.allergy_text = "Latex";
                       strip.clock = "09:41";
                       strip.with_buttons = false;
                       patient_strip(g, landscape(), strip);
                   },
                   english()};
    CHECK_FALSE(glass.registry().find_slot("patient/surname")->cut);
    CHECK(glass.faults() == std::vector<std::string>{});
}

TEST_CASE("the keyboard types letters, capitals, accents and spaces into its draft", "[touch][widgets]") {
    KeyboardState state;
    TextDraft draft{60};
    Headless glass{[&](Glass& g) {
                       g.dress({Theme::light, false, false});
                       keyboard(g, {16, 312, 1248, 476}, state, draft);
                       text_field(g, "escort", {36, 112, 792, 152}, {.label = "Escort: full name"}, draft);
                   },
                   english()};
    for (const char* k : {"letter/2-7", "letter/1-9", "letter/3-6", "letter/space", "letter/1-1"}) {
        glass.tap(k);
    }
    CHECK(draft.text() == "Jon Q");
    glass.tap("letter/accents");
    glass.tap("letter/3-3");
    CHECK(draft.text() == "Jon Qó");
    glass.tap("letter/erase");
    CHECK(glass.text_of("escort/text") == "Jon Q");
    CHECK(glass.text_of("escort/letters") == "5 of 60 letters");
    CHECK(glass.faults() == std::vector<std::string>{});
}

TEST_CASE("the gauge shows every block, band, target and ceiling, and no figure touches another",
          "[touch][widgets]") {
    for (const int target : {4500, 5000, 5300, 5500, 5900, 6000, 6900}) {
        Gauge shown{.band_from_tenths = 5000, .band_to_tenths = 6000, .target_tenths = target};
        shown.target_word = "target";
        for (int i = 0; i < 14; ++i) {
            shown.blocks.push_back({i * 500, (i + 1) * 500, fmt::format("{}", i + 1)});
        }
        Headless glass{[&](Glass& g) { gauge(g, {176, 104, 252, 560}, shown); }, english()};
        INFO("target " << target);
        CHECK(glass.text_of("gauge/block-14") == "14");
        CHECK(glass.text_of("gauge/ceiling") == "700");
        CHECK(glass.text_of("gauge/target") == "target");
        CHECK(glass.faults() == std::vector<std::string>{});
    }
}

TEST_CASE("the two-line record takes one beat, none, or many", "[touch][widgets]") {
    for (const int beats : {0, 1, 14}) {
        TwoLineRecord shown{.taps_word = "taps", .pedal_word = "pedal"};
        for (int i = 0; i < beats; ++i) {
            shown.taps.push_back({i * 14.0, false, fmt::format("{}", i + 1)});
            shown.pedal.push_back({i * 14.0 + 1, i == 6, ""});
        }
        Headless glass{[&](Glass& g) {
                           two_line_record(g, "beats", {196, 326, 632, 130}, shown);
                       },
                       english()};
        CHECK(glass.has("beats") == false);
        CHECK((glass.registry().find_slot("beats/number-1") != nullptr) == (beats > 0));
        CHECK(glass.faults() == std::vector<std::string>{});
    }
}

TEST_CASE("the toolkit's own words fit when they are 1.4 times as long", "[touch][widgets]") {
    KeyboardState state;
    TextDraft draft{60};
    Headless page{[&](Glass& g) {
                      g.dress({Theme::dark, true, true});
                      covered(g, "covered", {1132, 112, 124, 56});
                      answer_pair(g, "sizing", {192, 190, 298, 88}, {});
                      sheet_row(g, landscape(), {.command = "part-in", .title = "Part"}, "Fill",
                                "10 × 50 mL");
                  },
                  stretched()};
    CHECK(page.faults() == std::vector<std::string>{});
    Headless keys{[&](Glass& g) {
                      g.dress({Theme::light, false, false});
                      keyboard(g, {16, 312, 1248, 476}, state, draft);
                      text_field(g, "escort", {36, 112, 792, 152}, {.label = "Escort"}, draft);
                  },
                  stretched()};
    CHECK(keys.faults() == std::vector<std::string>{});
}
