// The register on the glass: what is overdue stays on top of every part, an entry with its calls, flag,
// closing and the search given up, a lot's people, a month, and the clinic's page.
#include "core/desk/register.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdio>

#include "core/desk/today.h"
#include "tests/app/kiosk_bed.h"
#include "tests/catch.h"
#include "tests/source_folder.h"

using namespace brimline;
using namespace brimline::test;
using screens::Page;

namespace {

using Faults = std::vector<std::string>;

/// The lines of the demo's register, made by its program.
std::vector<std::string> register_lines(int balloons) {
    const auto command = fmt::format("python3 '{}/register.py' {}", in_sources("/demo"), balloons);
    std::unique_ptr<FILE, int (*)(FILE*)> pipe{::popen(command.c_str(), "r"), &::pclose};
    REQUIRE(pipe != nullptr);
    std::string all;
    std::array<char, 65536> part{};
    for (std::size_t n = 0; (n = std::fread(part.data(), 1, part.size(), pipe.get())) > 0;) {
        all.append(part.data(), n);
    }
    std::vector<std::string> lines;
    for (std::size_t from = 0, to = 0; (to = all.find('\n', from)) != std::string::npos; from = to + 1) {
        lines.push_back(all.substr(from, to - from));
    }
    return lines;
}

/// The register of so many balloons, opened by the coordinator on a day of 2026.
std::unique_ptr<KioskBed> on_register(int balloons, const std::string& day = "11-25",
                                      bool long_words = false) {
    KioskBed::Start start;
    start.until = "2026-" + day + "T07:44:00+00:00";
    start.lines = register_lines(balloons);
    start.stretched = long_words;
    auto bed = std::make_unique<KioskBed>(start);
    bed->kiosk->open("pia", "", Page::register_list);
    bed->settle();
    return bed;
}

std::vector<RegisterEntry> entries_of(const KioskBed& bed) {
    const auto& room = *bed.room;
    return register_on(room.desk(), room.policy(), room.zone(), room.zone().date_of(room.now()));
}

/// The entries whose rows are on the glass, from the top.
std::vector<std::string> rows_of(const KioskBed& bed) {
    std::vector<std::pair<float, std::string>> rows;
    for (const auto& target : bed.glass->registry().targets()) {
        if (target.kind == touch::Kind::row) {
            rows.emplace_back(target.rect.y, target.name.substr(target.name.find('/') + 1));
        }
    }
    std::sort(rows.begin(), rows.end());
    std::vector<std::string> names;
    for (auto& [y, name] : rows) {
        names.push_back(std::move(name));
    }
    return names;
}

}  // namespace

TEST_CASE("what is overdue stands on every part of the register, and every row has action, owner and date",
          "[register]") {
    const auto bed = on_register(500);
    bed->picture("register");
    const auto all = entries_of(*bed);
    const auto open = static_cast<std::size_t>(
        std::count_if(all.begin(), all.end(), [](const RegisterEntry& e) { return e.open(); }));
    std::vector<std::string> late;
    for (const auto& entry : all) {
        if (is_overdue(entry, bed->room->zone().date_of(bed->room->now()))) {
            late.push_back(entry.placement.entry);
        }
    }
    REQUIRE(late.size() > 3);
    CHECK(bed->glass->shows(
        fmt::format("{} overdue: {}", late.size(), bed->glass->text_of("entry/" + late[0] + "/who"))));
    const auto due = due_out(bed->room->desk(), bed->room->policy(), bed->room->zone(), bed->room->now());
    CHECK(late.size() == static_cast<std::size_t>(std::count_if(
                             due.begin(), due.end(), [](const DueOut& one) { return one.overdue; })));
    late.resize(3);  // those that are pinned
    std::vector<std::string> seen;
    for (int part = 0; part < 200; ++part) {
        const auto rows = rows_of(*bed);
        REQUIRE(rows.size() >= 3);
        CHECK(std::vector<std::string>(rows.begin(), rows.begin() + 3) == late);
        for (const auto& row : rows) {
            CHECK_FALSE(bed->glass->text_of("entry/" + row + "/next").empty());
            CHECK_FALSE(bed->glass->text_of("entry/" + row + "/by-below").empty());
            CHECK_FALSE(bed->glass->text_of("entry/" + row + "/by").empty());
            if (std::find(seen.begin(), seen.end(), row) == seen.end()) {
                seen.push_back(row);
            }
        }
        if (seen.size() == open) {
            break;
        }
        bed->tap("next-part");
    }
    CHECK(seen.size() == open);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("a call is logged with its way, outcome and the day to call again", "[register]") {
    const auto bed = on_register(40);
    const auto rows = rows_of(*bed);
    REQUIRE_FALSE(rows.empty());
    bed->tap("entry/" + rows.front());
    CHECK(bed->kiosk->page() == Page::entry);
    bed->picture("register-entry");
    bed->tap_all({"log-a-call", "way/phone"});
    CHECK_FALSE(bed->glass->has("enter-call"));
    bed->tap_all({"outcome/not-reached", "again/3", "call-words"});
    bed->glass->type("Rang out");
    bed->tap("letters-done");
    bed->picture("register-call");
    bed->tap("enter-call");
    const auto& calls = bed->room->desk().case_of_entry(rows.front())->calls;
    REQUIRE_FALSE(calls.empty());
    CHECK(calls.back().is.way == "phone");
    CHECK(calls.back().is.outcome == "not-reached");
    CHECK(calls.back().is.words == "Rang out");
    CHECK(calls.back().is.next->date == *parse_date("2026-11-28"));
    CHECK(bed->glass->has("log-a-call"));
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("an entry is flagged, and closed without proof it stays on the list as not verified",
          "[register]") {
    const auto bed = on_register(40);
    const auto entry = rows_of(*bed).front();
    bed->tap_all({"entry/" + entry, "flag-it", "flag/intolerance"});
    CHECK(bed->room->desk().case_of_entry(entry)->flags.back().is.flag == "intolerance");
    bed->tap_all({"close-it", "closing/passed", "proof/none"});
    CHECK_FALSE(bed->glass->has("close-entry"));  // known from whom?
    bed->tap("known-from");
    bed->glass->type("Husband by phone");
    bed->tap("letters-done");
    bed->picture("register-close");
    bed->tap("close-entry");
    const auto all = entries_of(*bed);
    const auto found = std::find_if(all.begin(), all.end(),
                                    [&](const RegisterEntry& e) { return e.placement.entry == entry; });
    REQUIRE(found != all.end());
    CHECK(found->status == EntryStatus::not_verified);
    CHECK(found->open());
    CHECK(bed->glass->faults() == Faults{});
}

namespace {

/// Coordinator and physician, a PIN each, on the entry that is open.
void give_up(KioskBed& bed) {
    bed.tap_all({"lost", "second/ilse"});
    bed.picture("register-lost");
    bed.keys("pad", "470215");
    CHECK_FALSE(bed.glass->has("enter-lost"));
    bed.keys("pad", "381946");
    bed.tap("enter-lost");
}

}  // namespace

TEST_CASE("two people give up the search with a PIN each, after three failed calls", "[register]") {
    const auto bed = on_register(500);
    bed->tap("filter/not-reached");
    bed->picture("register-not-reached");
    const auto rows = rows_of(*bed);
    REQUIRE_FALSE(rows.empty());
    bed->tap("entry/" + rows.front());
    give_up(*bed);
    CHECK(bed->room->desk().case_of_entry(rows.front())->lost.size() == 1);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("a search cannot be given up before the date; one sentence says what is missing", "[register]") {
    const auto bed = on_register(40);
    const auto all = entries_of(*bed);
    const auto young = std::find_if(all.begin(), all.end(),
                                    [](const RegisterEntry& e) { return e.status == EntryStatus::in_place; });
    REQUIRE(young != all.end());
    const auto entry = young->placement.entry;
    for (int part = 0; part < 40 && !bed->glass->has("entry/" + entry); ++part) {
        bed->tap("next-part");
    }
    bed->tap("entry/" + entry);
    give_up(*bed);
    CHECK(bed->room->desk().case_of_entry(entry)->lost.empty());
    CHECK(bed->glass->all_text().find("Lost to follow-up is not allowed yet") != std::string::npos);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("a lot goes in, people and telephones come out, and the lot is recalled", "[register]") {
    const auto bed = on_register(60);
    const auto all = entries_of(*bed);
    const auto lot = all.front().placement.lot.value_or("");
    REQUIRE_FALSE(lot.empty());
    bed->tap_all({"to-lots", "type-lot"});
    bed->glass->type(lot);
    bed->tap("letters-done");
    bed->picture("lots");
    CHECK(bed->glass->text_of("lot/1/phone").substr(0, 9) == "01632 960");
    bed->tap("recall-note");
    bed->glass->type("Valve may leak");
    bed->tap_all({"letters-done", "recall-lot"});
    REQUIRE_FALSE(bed->room->desk().recalls.empty());
    CHECK(bed->room->desk().recalls.back().lot == lot);
    CHECK(bed->glass->has("desk/1"));
    bed->tap("lot/1");
    CHECK(bed->kiosk->page() == Page::entry);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("part of a name or of a number finds the entry, open or closed", "[register]") {
    const auto bed = on_register(60);
    const auto all = entries_of(*bed);
    const auto& wanted = all[all.size() / 2];
    const auto number = wanted.state->patient.number.value_or("");
    REQUIRE_FALSE(number.empty());
    bed->tap("find");
    bed->glass->type(number);
    bed->tap("letters-done");
    CHECK(rows_of(*bed) == std::vector<std::string>{wanted.placement.entry});
    bed->picture("register-find");
    bed->tap("find");
    bed->glass->type("nobody of this name");
    bed->tap("letters-done");
    CHECK(rows_of(*bed).empty());
    bed->tap("filter/what-is-next");
    CHECK_FALSE(rows_of(*bed).empty());
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("a month shows each figure with its denominator, and the one before", "[register]") {
    const auto bed = on_register(120);
    bed->tap_all({"to-month", "month/before"});
    bed->picture("month");
    CHECK(bed->glass->text_of("month/which") == "Oct 2026");
    CHECK(bed->glass->text_of("month/on-time/value").find(" of ") != std::string::npos);
    bed->tap("month/after");
    CHECK(bed->glass->text_of("month/which") == "Nov 2026");
    CHECK_FALSE(bed->glass->has("month/after"));
    bed->kiosk->open("pia", "", Page::kiosk);
    bed->settle();
    bed->tap("to-clinic");
    bed->picture("clinic");
    CHECK(bed->glass->has("to-kiosk"));
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("the register keeps its layout with words 1.4 times as long", "[register][layout]") {
    const auto bed = on_register(40, "11-25", true);
    const auto entry = rows_of(*bed).front();
    bed->tap_all({"filter/not-reached", "filter/by-due", "filter/closed", "filter/what-is-next",
                  "entry/" + entry, "flag-it", "entry-back", "close-it", "closing/passed", "entry-back",
                  "lost", "entry-back", "log-a-call", "way/phone", "entry-back", "back-to-register",
                  "to-month"});
    bed->picture("month-long");
    bed->tap_all({"to-register", "to-lots"});
    bed->kiosk->open("pia", "", Page::clinic);
    bed->settle();
    bed->picture("clinic-long");
    CHECK(bed->glass->faults() == Faults{});
}
