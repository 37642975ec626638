// The real window under a virtual display: no tap lost while the disk stalls, pedals, and the painter's
// pixels.
#include "app/kiosk/window.h"

#include <fmt/format.h>

#include <atomic>
#include <chrono>
#include <functional>
#include <thread>

#include "app/kiosk/touch/headless.h"
#include "app/kiosk/touch/widgets.h"
#include "tests/catch.h"
#include "tests/source_folder.h"
#include "tests/window/display.h"

using namespace brimline;
using namespace brimline::touch;
using namespace std::chrono_literals;

namespace {

constexpr auto quiet_before_the_end = 700ms;

/// A Fill page with a gauge and the corner; each syringe stalls the loop as a slow disk would.
struct FillPage : Application {
    int syringes{0};
    int pedals{0};
    int drawings{0};
    std::chrono::milliseconds stall{0};
    std::function<void()> end{};
    std::atomic<bool> over{false};

    Drawn draw(Glass& glass) override {
        ++drawings;
        const Layout page = layout_for(glass.size());
        page_ground(glass, page);
        Gauge shown{.band_from_tenths = 5000, .band_to_tenths = 6000, .target_tenths = 5500};
        for (int i = 0; i < syringes; ++i) {
            shown.blocks.push_back({i * 500, (i + 1) * 500, fmt::format("{}", i + 1)});
        }
        gauge(glass, {176, 104, 252, 560}, shown);
        figure(glass, "running", {464, 160, 360, 110}, fmt::format("{}", syringes * 50), "mL", step::count,
               step::glance);
        prompt_bar(glass, page.prompt, {Urgency::high, "Stop. 750 mL is in", "Above the maximum", {}});
        const Action corner{
            .command = "syringe-in", .title = "Syringe in", .note = "number", .acts_on_press = true};
        if (action(glass, page.fill_action, corner) == ActionTap::action) {
            ++syringes;
            std::this_thread::sleep_for(stall);
            return Drawn::stale;
        }
        return Drawn::final;
    }
    void on_pedal(const PedalPress&) override { ++pedals; }
    void on_scan(const std::string&, Seconds) override {}
    Seconds next_wake(Seconds) override { return -1; }
    void on_wake(Seconds) override {
        if (over) {
            end();
        }
    }
};

const Words& english() {
    static const Words words = std::move(*Words::load(brimline::test::in_sources("/assets/words/en.json")));
    return words;
}

/// Opens the window, lets `hands` work from another thread, and ends when they are done and all is quiet.
void work(FillPage& page, const std::function<void()>& hands) {
    auto window = kiosk::Window::open({.fullscreen = true}, english());
    REQUIRE(window.has_value());
    page.end = [&] { (*window)->close(); };
    std::thread other{[&] {
        std::this_thread::sleep_for(1000ms);  // the dead time of a corner that has just appeared
        hands();
        std::this_thread::sleep_for(quiet_before_the_end);
        page.over = true;
        (*window)->wake();
    }};
    (*window)->run(page);
    other.join();
    CHECK((*window)->dropped().bounces == 0);
}

}  // namespace

TEST_CASE("twenty quick taps all count while every commit stalls the loop", "[window]") {
    tests::Display display{1280, 800};
    FillPage page;
    page.stall = 60ms;
    work(page, [&] {
        display.move(1064, 600);
        for (int i = 0; i < 20; ++i) {
            display.finger(true);
            std::this_thread::sleep_for(8ms);
            display.finger(false);
            std::this_thread::sleep_for(62ms);
        }
        std::this_thread::sleep_for(2000ms);
    });
    CHECK(page.syringes == 20);
}

TEST_CASE("twenty flicks all count although the finger is elsewhere by then", "[window]") {
    tests::Display display{1280, 800};
    FillPage page;
    page.stall = 60ms;
    work(page, [&] {
        for (int i = 0; i < 20; ++i) {
            display.move(1064, 600);
            display.finger(true);
            display.finger(false);
            display.move(300, 300);
            std::this_thread::sleep_for(70ms);
        }
        std::this_thread::sleep_for(2000ms);
    });
    CHECK(page.syringes == 20);
}

TEST_CASE("both pedals arrive, and a window that nobody touches draws nothing", "[window]") {
    tests::Display display{1280, 800};
    FillPage page;
    int before = 0;
    int after = 0;
    work(page, [&] {
        display.key(191);
        std::this_thread::sleep_for(200ms);
        display.key(192);
        std::this_thread::sleep_for(300ms);
        before = page.drawings;
        std::this_thread::sleep_for(1500ms);
        after = page.drawings;
    });
    CHECK(page.pedals == 2);
    CHECK(page.syringes == 0);
    CHECK(after == before);
}

TEST_CASE("the painter without a window draws what the window shows", "[window]") {
    tests::Display display{1280, 800};
    FillPage page;
    page.syringes = 9;
    Picture shown;
    work(page, [&] { shown = display.picture(); });
    FillPage same;
    same.syringes = 9;
    const Picture painted = Headless{same, english()}.picture();
    REQUIRE(shown.pixels.size() == painted.pixels.size());
    int far_off = 0;
    for (std::size_t i = 0; i < shown.pixels.size(); ++i) {
        for (const unsigned shift : {0U, 8U, 16U}) {
            const int a = static_cast<int>((shown.pixels[i] >> shift) & 0xFFU);
            const int b = static_cast<int>((painted.pixels[i] >> shift) & 0xFFU);
            far_off += std::abs(a - b) > 4 ? 1 : 0;
        }
    }
    // Edges that fall exactly on a pixel's middle may be settled either way.
    CHECK(far_off < 150);
    CHECK(shown.at(1000, 460) == palette(Theme::dark).action);
}
