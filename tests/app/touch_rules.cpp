// The rules of touching: when a press counts, when it must not, and that a driver's finger cannot cheat.
#include <fmt/format.h>

#include "app/kiosk/touch/headless.h"
#include "app/kiosk/touch/widgets.h"
#include "tests/catch.h"
#include "tests/source_folder.h"

using namespace brimline::touch;

namespace {

constexpr Rect corner{864, 692, 400, 96};

const Words& english() {
    static const Words words = std::move(*Words::load(brimline::test::in_sources("/assets/words/en.json")));
    return words;
}

/// A page with a corner whose command can be set, and a counter.
struct Page {
    std::string command{"save"};
    bool on_press{false};
    int fired{0};
    std::string next_command{};  // what the corner becomes when it fires

    void draw(Glass& glass) {
        const Action shown{.command = command, .title = "Now", .acts_on_press = on_press};
        if (action(glass, corner, shown) == ActionTap::action) {
            ++fired;
            command = next_command.empty() ? command : next_command;
        }
    }
};

}  // namespace

TEST_CASE("the action fires on release inside, not on press", "[touch][rules]") {
    Page page;
    Headless glass{[&](Glass& g) { page.draw(g); }, english()};
    glass.pass(1);
    glass.press("save");
    CHECK(page.fired == 0);
    glass.release();
    CHECK(page.fired == 1);
}

TEST_CASE("a finger that slides off before it lifts does nothing", "[touch][rules]") {
    Page page;
    Headless glass{[&](Glass& g) { page.draw(g); }, english()};
    glass.pass(1);
    glass.press("save");
    glass.move({400, 300});
    glass.release();
    CHECK(page.fired == 0);
    glass.move({1000, 740});
    glass.release();
    CHECK(page.fired == 0);
}

TEST_CASE("Syringe in fires on press, at once, every time", "[touch][rules]") {
    Page page{.command = "syringe-in", .on_press = true};
    Headless glass{[&](Glass& g) { page.draw(g); }, english()};
    glass.pass(1);
    for (int i = 1; i <= 20; ++i) {
        glass.press("syringe-in");
        CHECK(page.fired == i);
        glass.release();
        glass.pass(0.07);
    }
}

TEST_CASE("a second tap 100 ms after the corner changed does nothing", "[touch][rules]") {
    Page page{.next_command = "open"};
    Headless glass{[&](Glass& g) { page.draw(g); }, english()};
    glass.tap("save");
    REQUIRE(page.fired == 1);
    glass.hasty_tap("open");
    CHECK(page.fired == 1);
    CHECK(glass.glass().too_soon() == 1);
    glass.pass(0.8);
    glass.hasty_tap("open");
    CHECK(page.fired == 2);
}

TEST_CASE("a finger that was down before the corner changed does nothing, however long it waits",
          "[touch][rules]") {
    Page page;
    Headless glass{[&](Glass& g) { page.draw(g); }, english()};
    glass.pass(1);
    glass.press("save");
    page.command = "discard";
    glass.pass(2);
    glass.release();
    CHECK(page.fired == 0);
}

TEST_CASE("an answer that has just appeared is dead for 0.8 s, then it is taken", "[touch][rules]") {
    std::optional<Answer> given;
    bool asked = false;
    Headless glass{[&](Glass& g) {
                       if (asked) {
                           if (const auto a = answer_pair(g, "seen", {864, 300, 400, 88}, {.given = given})) {
                               given = a;
                           }
                       }
                   },
                   english()};
    asked = true;
    glass.frame();
    glass.hasty_tap("seen/yes");
    CHECK_FALSE(given.has_value());
    glass.tap("seen/yes");
    CHECK(given == Answer::yes);
    glass.tap("seen/no");
    CHECK(given == Answer::no);
    CHECK(glass.is_checked("seen/no"));
}

TEST_CASE("tapping the answer that is already given says nothing", "[touch][rules]") {
    int said = 0;
    Headless glass{
        [&](Glass& g) {
            said += answer_pair(g, "seen", {864, 300, 400, 88}, {.given = Answer::yes}).has_value();
        },
        english()};
    glass.tap("seen/yes");
    CHECK(said == 0);
    glass.tap("seen/no");
    CHECK(said == 1);
}

TEST_CASE("a finger between two keys means the nearer one, and far off means none", "[touch][rules]") {
    std::string last;
    Headless glass{[&](Glass& g) {
                       last = button(g, "left", {100, 100, 100, 100}, {.title = "a"}) ? "left" : last;
                       last = button(g, "right", {212, 100, 100, 100}, {.title = "b"}) ? "right" : last;
                   },
                   english()};
    glass.tap_at({204, 150});
    CHECK(last == "left");
    glass.tap_at({208, 150});
    CHECK(last == "right");
    last.clear();
    glass.tap_at({330, 150});
    CHECK(last.empty());
}

TEST_CASE("a button that waits for the disk takes no touch", "[touch][rules]") {
    int fired = 0;
    Headless glass{[&](Glass& g) {
                       const Button face{.title = "a", .look = Look::pending};
                       fired += button(g, "slow", {100, 100, 100, 100}, face) ? 1 : 0;
                   },
                   english()};
    CHECK_THROWS_AS(glass.tap("slow"), CannotTouch);
    glass.tap_at({150, 150});
    CHECK(fired == 0);
}

TEST_CASE("a driver's tap on an unknown, doubled or covered name throws", "[touch][headless]") {
    Headless glass{[&](Glass& g) {
                       button(g, "twice", {100, 100, 100, 100}, {.title = "a"});
                       button(g, "twice", {300, 100, 100, 100}, {.title = "a"});
                       button(g, "below", {500, 100, 100, 100}, {.title = "a"});
                       button(g, "above", {480, 80, 200, 200}, {.title = "a"});
                   },
                   english()};
    CHECK_THROWS_AS(glass.tap("nobody"), CannotTouch);
    CHECK_THROWS_AS(glass.tap("twice"), CannotTouch);
    CHECK_THROWS_AS(glass.tap("below"), CannotTouch);
    CHECK_THROWS_AS(glass.text_of("nothing"), CannotTouch);
}

namespace {

/// An application that writes down what reaches it.
struct Listener : Application {
    TextDraft draft;
    std::string heard;
    int pressed{0};
    int drawings_left{0};
    int drawings{0};

    Drawn draw(Glass& glass) override {
        ++drawings;
        pressed += button(glass, "key", {100, 100, 100, 100}, {.title = "a"}) ? 1 : 0;
        draft.take(glass.input().typing);
        return drawings_left-- > 0 ? Drawn::stale : Drawn::final;
    }
    void on_pedal(const PedalPress& press) override { heard += press.pedal == Pedal::assistant ? "A" : "P"; }
    void on_scan(const std::string& characters, Seconds) override { heard += "[" + characters + "]"; }
    Seconds next_wake(Seconds) override { return -1; }
};

}  // namespace

TEST_CASE("scans and pedals reach the application and never a field or a button", "[touch][headless]") {
    Listener listener;
    Headless glass{listener, english()};
    glass.pedal(Pedal::assistant);
    glass.scan(
        "0102001234026413\x1d"
        "10DW-2641");
    glass.pedal(Pedal::physician);
    CHECK(listener.heard ==
          "A[0102001234026413\x1d"
          "10DW-2641]P");
    CHECK(listener.draft.text().empty());
    CHECK(listener.pressed == 0);
    glass.type("Żó 12");
    glass.key(Key::backspace);
    CHECK(listener.draft.text() == "Żó 1");
}

TEST_CASE("a frame drawn from old state is drawn again, without its input, before it is shown",
          "[touch][headless]") {
    Listener listener;
    Headless glass{listener, english()};
    glass.press("key");
    listener.drawings = 0;
    listener.drawings_left = 2;
    glass.release();
    CHECK(listener.drawings == 3);
    CHECK(listener.pressed == 1);
}
