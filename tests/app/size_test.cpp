// Size: the questions in two blocks, and a read-back that nobody can copy from the glass.
#include <regex>

#include "core/case/prompts.h"
#include "core/case/size_view.h"
#include "tests/app/kiosk_bed.h"
#include "tests/catch.h"

using namespace brimline;
using namespace brimline::test;
using screens::Page;
using screens::Sheet;

namespace {

using Faults = std::vector<std::string>;

const std::string matter_agreed = "2026-11-25T09:41:55+00:00";  // 10 syringes, both counts and the row agree

/// Case A on Size at that moment, by that person.
std::unique_ptr<KioskBed> on_size(const std::string& until, const std::string& person,
                                  bool long_words = false, std::vector<std::string> lines = {}) {
    auto bed = std::make_unique<KioskBed>(KioskBed::Start{
        .until = until, .scripts = {"case-a"}, .lines = std::move(lines), .stretched = long_words});
    bed->kiosk->open(person, "A", Page::size);
    bed->settle();
    (void)bed->new_kinds();
    return bed;
}

/// Every text that names a volume or a number of syringes.
std::vector<std::string> volumes_on(const KioskBed& bed) {
    static const std::regex volume{R"(\d+(\.\d+)?\s*mL|\d+\s*×|500|550|450)"};
    std::vector<std::string> found;
    for (const auto& slot : bed.glass->registry().slots()) {
        if (std::regex_search(slot.text, volume)) {
            found.push_back(slot.name + ": " + slot.text);
        }
    }
    return found;
}

void answer_five(KioskBed& bed) {
    bed.tap_all({"gap/yes", "passes/yes", "in-body/yes", "wedged/no", "blanching/no"});
}

}  // namespace

TEST_CASE("no volume stands anywhere on Size before the number is confirmed", "[size][blind]") {
    const auto bed = on_size(matter_agreed, "noor");
    bed->picture("size");
    CHECK(volumes_on(*bed) == std::vector<std::string>{});
    answer_five(*bed);
    CHECK(volumes_on(*bed) == std::vector<std::string>{});
    CHECK(bed->glass->shows("covered"));
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("the only number on Size is the one that was typed", "[size][blind]") {
    const auto bed = on_size(matter_agreed, "noor");
    bed->keys("pad", "73");
    CHECK(bed->glass->shows("Confirm 73 mL"));
    CHECK(volumes_on(*bed) == std::vector<std::string>{"confirm/title: Confirm 73 mL"});
}

TEST_CASE("the core's high reminders do not tell a volume on Size", "[size][blind]") {
    const std::string part = R"({"by":"tomas","case":"A","do":"part-syringe","ml":49})";
    const auto bed = on_size(matter_agreed, "noor", false, {part, part, part, part, part});
    const auto all = prompts(bed->state(), bed->room->now(), bed->room->policy());
    REQUIRE_FALSE(all.empty());
    REQUIRE(all.front().priority == rules::Priority::high);
    CHECK(volumes_on(*bed) == std::vector<std::string>{});
    CHECK(bed->glass->text_of("prompt/title") == "Nobody says the number until it is confirmed");
}

TEST_CASE("sizing is entered once the five are answered, as the physician's word", "[size]") {
    const auto bed = on_size(matter_agreed, "noor");
    bed->tap_all({"gap/yes", "passes/yes", "in-body/yes", "wedged/no"});
    CHECK(bed->new_kinds().empty());
    bed->tap("blanching/no");
    CHECK(bed->new_kinds().front() == "sizing");
    const auto& entered = bed->state().device().sizings.back();
    CHECK(entered.is == Sizing{true, true, true, true, Position::body, std::nullopt});
    CHECK(entered.stamp.said_by == "ilse");
    CHECK(entered.stamp.by == "noor");
}

TEST_CASE("a changed answer and a later tolerance are entered anew, the same answer is not", "[size]") {
    const auto bed = on_size(matter_agreed, "noor");
    answer_five(*bed);
    bed->tap("distress/no");
    CHECK(bed->state().device().sizings.back().is.tolerated == true);
    bed->tap("gap/no");
    CHECK(bed->state().device().sizings.size() == 3);
    CHECK_FALSE(bed->state().device().sizings.back().is.gap);
    bed->tap("gap/no");
    CHECK(bed->state().device().sizings.size() == 3);
}

TEST_CASE("not in the body asks where it lies before anything is entered", "[size]") {
    const auto bed = on_size(matter_agreed, "noor");
    bed->tap_all({"gap/yes", "passes/yes", "in-body/no", "wedged/no", "blanching/no"});
    CHECK(bed->state().device().sizings.empty());
    bed->tap("position/antrum");
    CHECK(bed->state().device().sizings.back().is.position == Position::antrum);
    bed->tap("position/body");
    CHECK(bed->state().device().sizings.back().is.position == Position::body);
}

TEST_CASE("No stands before Yes in every question of Size", "[size][layout]") {
    const auto bed = on_size(matter_agreed, "noor");
    int pairs = 0;
    for (const auto& yes : bed->glass->registry().targets()) {
        if (yes.kind == touch::Kind::answer_yes) {
            const auto* no = bed->glass->registry().find(yes.name.substr(0, yes.name.rfind('/')) + "/no");
            REQUIRE(no != nullptr);
            CHECK(no->rect.right() <= yes.rect.x);
            ++pairs;
        }
    }
    CHECK(pairs == 6);
}

TEST_CASE("an equal read-back is confirmed by two names and shows what stands behind it",
          "[size][read-back]") {
    const auto bed = on_size(matter_agreed, "noor");
    answer_five(*bed);
    (void)bed->new_kinds();
    bed->keys("pad", "500");
    bed->tap("confirm");
    CHECK(bed->new_kinds().front() == "read-back");
    const auto& said = bed->state().device().read_backs.back();
    CHECK(said.is.agreed);
    CHECK(said.stamp.by == "noor");
    CHECK(said.stamp.said_by == "ilse");
    bed->picture("read-back");
    CHECK(bed->glass->text_of("page-one/line") == "said 500, pedal 10, row 10");
    CHECK(bed->glass->shows("Equal: 500 mL"));
    CHECK(bed->glass->has("to-release"));
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("an unequal read-back is a count hold and opens the sheet for it", "[size][read-back]") {
    const auto bed = on_size(matter_agreed, "noor");
    bed->keys("pad", "550");
    bed->tap("confirm");
    bed->settle();
    CHECK_FALSE(bed->state().device().read_backs.back().is.agreed);
    CHECK(bed->state().standing("count-differs") != nullptr);
    CHECK(bed->kiosk->sheet() == Sheet::counts_differ);
}

TEST_CASE("reading back again covers the count again, and both stay", "[size][read-back]") {
    const auto bed = on_size(matter_agreed, "noor");
    bed->keys("pad", "500");
    bed->tap("confirm");
    bed->tap("read-back-again");
    CHECK(volumes_on(*bed) == std::vector<std::string>{});
    bed->keys("pad", "500");
    bed->tap("confirm");
    CHECK(bed->state().device().read_backs.size() == 2);
    CHECK(bed->glass->shows("Equal: 500 mL"));
}

TEST_CASE("the assistant is shown no keypad for the read-back", "[size][read-back]") {
    const auto bed = on_size(matter_agreed, "tomas");
    bed->picture("size-assistant");
    CHECK_FALSE(bed->glass->has("pad/1"));
    CHECK_FALSE(bed->glass->has("confirm"));
    CHECK_FALSE(bed->glass->has("pedal-serves"));
    bed->tap("person/noor");
    CHECK(bed->glass->has("pad/1"));
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("the physician who says the number does not type it while the scope is in", "[size][read-back]") {
    const auto bed = on_size(matter_agreed, "ilse");
    CHECK_FALSE(bed->glass->has("pad/1"));
}

TEST_CASE("the read-back does not open before the matter was looked at", "[size][read-back]") {
    const auto bed = on_size("2026-11-25T09:41:46+00:00", "noor");
    CHECK_FALSE(bed->glass->has("pad/1"));
    CHECK(bed->glass->text_of("matter") == "Matter not checked yet");
    bed->tap("matter-first");
    CHECK(bed->kiosk->sheet() == Sheet::matter);
}

TEST_CASE("where two are in the room the pedal's count serves", "[size][read-back]") {
    const auto bed = on_size(
        matter_agreed, "tomas", false,
        {R"({"by":"tomas","case":"A","do":"pause","which":"before-device","present":["ilse","tomas"],"answers":{}})"});
    if (pedal_serves(bed->state())) {
        bed->tap("pedal-serves");
        CHECK(bed->state().device().read_backs.back().is.from_pedal);
        CHECK(bed->glass->text_of("page-one/line") == "said 500, pedal 10, row 10");
    } else {
        CHECK_FALSE(bed->glass->has("pedal-serves"));
    }
}

TEST_CASE("Size keeps its layout with words 1.4 times as long", "[size][layout]") {
    const auto bed = on_size(matter_agreed, "noor", true);
    bed->picture("size-long");
    bed->tap_all({"in-body/no", "position/body"});
    answer_five(*bed);
    bed->keys("pad", "500");
    bed->tap("confirm");
    bed->picture("read-back-long");
    CHECK(bed->glass->faults() == Faults{});
    CHECK(on_size(matter_agreed, "tomas", true)->glass->faults() == Faults{});
    CHECK(on_size("2026-11-25T09:41:46+00:00", "noor", true)->glass->faults() == Faults{});
}
