// Random taps over all people and pages, the sign-in too: nothing breaks, there is no dead end (from wherever
// a finger ends up the corner leads on or says what is waited for, and the list or the sign-in is at most
// three taps away), and the journal verifies at the end. A sample runs always; BRIMLINE_RANDOM_TAPS says how
// many and BRIMLINE_RANDOM_SEED which, for the whole campaign.
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <random>

#include "core/store/verify.h"
#include "tests/app/kiosk_bed.h"
#include "tests/catch.h"

using namespace brimline;
using namespace brimline::test;
using screens::Page;

namespace {

long number_from(const char* name, long otherwise) {
    const char* text = std::getenv(name);
    return text == nullptr ? otherwise : std::strtol(text, nullptr, 10);
}

struct Fingers {
    KioskBed& bed;
    std::mt19937_64 chance;
    std::vector<std::string> trail{};  // the last taps, for the sentence of a failure

    std::size_t below(std::size_t n) { return std::uniform_int_distribution<std::size_t>{0, n - 1}(chance); }

    void note(const std::string& step) {
        trail.push_back(step);
        if (trail.size() > 30) {
            trail.erase(trail.begin());
        }
    }

    void tap(const std::string& name) {
        note(name);
        bed.tap(name);
    }

    /// At the sign-in, where a stranger may ask for rescue and nothing else.
    void nobody() {
        note("nobody at the sign-in");
        bed.kiosk->open("", "", Page::sign_in);
        bed.settle();
    }

    /// Any of the seven people on any page of any case, as a chip or a sign-in brings them; now and then
    /// nobody.
    void somebody_somewhere() {
        if (below(20) == 0) {
            nobody();
            return;
        }
        const auto& desk = bed.room->desk();
        auto person = desk.people.begin();
        std::advance(person, static_cast<std::ptrdiff_t>(below(desk.people.size())));
        const auto& name = desk.case_order[below(desk.case_order.size())];
        const auto pages = names_of(Page{}).size();
        const auto page = static_cast<Page>(1 + below(pages - 1));  // the sign-in has nobody
        note(fmt::format("{} on {} of {}", person->first, names_of(Page{}).at(static_cast<std::size_t>(page)),
                         name));
        bed.kiosk->open(person->first, name, page);
        bed.settle();
    }

    /// One thing that a hand may do.
    void anything() {
        const auto& targets = bed.glass->registry().targets();
        std::vector<std::string> names;
        for (const auto& target : targets) {
            if (target.enabled) {
                names.push_back(target.name);
            }
        }
        const auto dice = below(100);
        if (dice < 2) {
            bed.scan("(01)02001234026413(17)290531(10)DW-2641(21)0004711");
        } else if (dice < 4) {
            bed.glass->pedal(below(2) == 0 ? touch::Pedal::assistant : touch::Pedal::physician);
            bed.settle();
        } else if (dice < 7) {
            bed.pass(std::chrono::seconds{1 + static_cast<int>(below(90))});
        } else if (dice < 9) {
            bed.glass->type("Quill 7.5");
            bed.settle();
        } else if (!names.empty()) {
            tap(names[below(names.size())]);
        }
    }

    /// True when the corner leads on, or says what is waited for.
    bool corner_speaks() const {
        const auto corner = touch::layout_for(bed.glass->registry().traits().size).action;
        const auto within = [&](touch::Rect r) {
            return r.x < corner.right() && corner.x < r.right() && r.y < corner.bottom() &&
                   corner.y < r.bottom();
        };
        const auto& targets = bed.glass->registry().targets();
        const auto& slots = bed.glass->registry().slots();
        return std::any_of(targets.begin(), targets.end(),
                           [&](const auto& t) { return t.enabled && within(t.rect); }) ||
               std::any_of(slots.begin(), slots.end(),
                           [&](const auto& s) { return !s.text.empty() && within(s.rect); });
    }

    /// The taps that lead to the list from here; the letters, a sheet, the rail, the list.
    int taps_to_list() {
        for (int taps = 0; taps <= 4; ++taps) {
            if (bed.glass->has("desk/1") || bed.kiosk->page() == Page::day_list ||
                bed.kiosk->page() == Page::sign_in) {
                return taps;
            }
            const char* way = nullptr;
            for (const char* name :
                 {"letters-done", "another-case", "rail", "far-view", "to-list", "back", "to-desk"}) {
                way = way == nullptr && bed.glass->has(name) ? name : way;
            }
            if (way == nullptr) {
                return 99;
            }
            tap(way);
        }
        return 99;
    }
};

}  // namespace

TEST_CASE("random taps break nothing, leave nobody stuck, and the journal verifies", "[random]") {
    const auto count = number_from("BRIMLINE_RANDOM_TAPS", 1500);
    const auto seed = number_from("BRIMLINE_RANDOM_SEED", 20261125);
    KioskBed bed{{.until = "2026-11-25T13:43:45+00:00",
                  .scripts = {"case-a", "case-b", "case-c", "case-d-placed", "case-d"},
                  .as_script = true}};
    Fingers fingers{bed, std::mt19937_64{static_cast<std::uint64_t>(seed)}};
    long stuck = 0;
    for (long i = 0; i < count; ++i) {
        if (i % 40 == 0) {
            fingers.somebody_somewhere();
        }
        std::string problem;
        try {
            fingers.anything();
        } catch (const std::exception& thrown) {
            problem = thrown.what();
        }
        INFO(fmt::format("seed {}, tap {}: {}", seed, i, fmt::join(fingers.trail, " > ")));
        REQUIRE(problem == "");
        {
            INFO(bed.glass->all_text());
            REQUIRE(fingers.corner_speaks());
        }
        if (i % 25 == 24) {
            const auto taps = fingers.taps_to_list();
            INFO(bed.glass->all_text());
            stuck += taps > 3 ? 1 : 0;
            REQUIRE(taps <= 3);
            fingers.somebody_somewhere();
        }
    }
    CHECK(stuck == 0);
    CHECK(bed.room->broken().empty());
    bed.glass.reset();
    bed.kiosk.reset();
    bed.room.reset();
    const auto report = store::verify(bed.folder.path());
    REQUIRE(report.has_value());
    CHECK(report->findings.empty());
    CHECK(report->events > 500);
}
