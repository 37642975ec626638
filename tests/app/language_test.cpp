// Every page and what a hand opens on it, in each language of the product: no word is missing, none is cut or
// runs out of its place, and the other promises of a frame hold too. Source: 4-screens (tests); issue:
// languages. BRIMLINE_LANGUAGE_TAPS says how many taps on each case's pages are tried instead of the sample.
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <random>

#include "tests/app/kiosk_bed.h"
#include "tests/catch.h"

using namespace brimline;
using namespace brimline::test;
using screens::Page;

namespace {

struct Moment {
    const char* time;
    std::vector<std::string> scripts;
    std::vector<std::string> cases;
};
const Moment moments[] = {{"08:50", {"case-a"}, {"A"}},
                          {"09:31", {"case-a", "case-b"}, {"A", "B"}},
                          {"09:39", {"case-a", "case-b"}, {"A"}},
                          {"09:43", {"case-a"}, {"A"}},
                          {"10:12", {"case-a"}, {"A"}},
                          {"11:28", {"case-a", "case-b"}, {"A", "B"}},
                          {"13:45", {"case-d-placed", "case-d", "case-c"}, {"D", "C"}},
                          {"20:30", {"case-d-placed", "case-d", "case-e"}, {"D", "E"}}};

int taps_a_page() {
    const char* asked = std::getenv("BRIMLINE_LANGUAGE_TAPS");
    return asked == nullptr ? 3 : std::atoi(asked);
}

/// Opens every page for somebody who works on it, and what some of its targets open.
void look_at_all(KioskBed& bed, const std::string& name, std::mt19937& chance) {
    const char* people[] = {"wren", "tomas", "noor", "ilse", "pia"};
    for (std::size_t page = 1; page < names_of(Page{}).size(); ++page) {
        for (int tap = 0; tap <= taps_a_page(); ++tap) {
            bed.kiosk->open(people[chance() % std::size(people)], name, static_cast<Page>(page));
            bed.glass->frame();
            std::vector<std::string> names;
            for (const auto& target : bed.glass->registry().targets()) {
                if (target.enabled && target.name != "practice") {
                    names.push_back(target.name);
                }
            }
            if (tap > 0 && !names.empty()) {
                bed.tap(names[chance() % names.size()]);
            }
        }
    }
}

std::string told(const std::vector<std::string>& faults) {
    constexpr std::size_t most = 400;
    std::string all = fmt::format("{} faults", faults.size());
    for (std::size_t i = 0; i < faults.size() && i < most; ++i) {
        all += "\n" + faults[i];
    }
    return all;
}

void check_language(const std::string& language) {
    std::mt19937 chance{20261126};
    std::vector<std::string> faults;
    for (const auto& moment : moments) {
        KioskBed bed{{.until = fmt::format("2026-11-25T{}:00+00:00", moment.time),
                      .scripts = moment.scripts,
                      .language = language,
                      .as_script = true}};
        for (const auto& name : moment.cases) {
            if (bed.room->desk().find_case(name) != nullptr) {
                look_at_all(bed, name, chance);
            }
        }
        const auto found = bed.glass->faults();
        faults.insert(faults.end(), found.begin(), found.end());
    }
    std::sort(faults.begin(), faults.end());
    faults.erase(std::unique(faults.begin(), faults.end()), faults.end());
    INFO(told(faults));
    CHECK(faults.empty());
}

}  // namespace

TEST_CASE("every page in English", "[language][layout]") { check_language("en"); }
TEST_CASE("every page in Spanish", "[language][layout]") { check_language("es"); }
TEST_CASE("every page in Polish", "[language][layout]") { check_language("pl"); }
