// Every stage at which demo/run --at opens the kiosk: the person signs in, taps the patient, and is on the
// page that demo/stages promises, without a broken promise of the layout.
#include <fstream>
#include <sstream>

#include "tests/app/play.h"
#include "tests/catch.h"
#include "tests/source_folder.h"

using namespace brimline;
using namespace brimline::test;
using screens::Page;

namespace {

struct Stage {
    std::string name, time, person, page;
};

std::vector<Stage> stages() {
    std::ifstream file{in_sources("/demo") + "/stages"};
    std::vector<Stage> all;
    for (std::string line; std::getline(file, line);) {
        Stage stage;
        if (line.rfind('#', 0) != 0 &&
            std::istringstream{line} >> stage.name >> stage.time >> stage.person >> stage.page) {
            all.push_back(stage);
        }
    }
    return all;
}

const std::map<std::string, std::string> pins{
    {"wren", "540872"}, {"tomas", "625083"}, {"noor", "917354"}, {"ilse", "381946"}};

}  // namespace

TEST_CASE("the kiosk opens on case A at every stage of the demo", "[stages]") {
    const auto all = stages();
    REQUIRE(all.size() >= 11);
    for (const auto& stage : all) {
        INFO(stage.name);
        Play play{"A", "2026-11-25", stage.time, {"case-a"}};
        play.bed.kiosk->open("", "", Page::sign_in);
        play.bed.settle();
        play.sign_in(stage.person, pins.at(stage.person));
        play.tap({"case/A"});
        CHECK(std::string{names_of(Page{})[static_cast<std::size_t>(play.bed.kiosk->page())]} == stage.page);
        CHECK(play.faults() == Normal{});
    }
}
