// The register against a model that knows nothing of the program: what was said of a balloon as a plain list,
// read from the start for every question. Sources: after.md 5; 10-decisions A6, F11, H2.
#include <random>
#include <set>

#include "core/desk/desk_book.h"
#include "core/desk/today.h"
#include "core/record/register_sheet.h"
#include "tests/catch.h"
#include "tests/core/bed_looks.h"

using namespace brimline;
using namespace brimline::test;

namespace {

LocalDate date(const char* text) { return *parse_date(text); }

/// Case A with 500 mL, its catheter off on 25 Nov 2026: due 25 May 2027, book by 30 March (issue: register).
const Bed& bed_placed() {
    static const Bed placed = [] {
        auto bed = bed_ready_to_fill();
        tap(bed, 10, 38);
        bed.at("09:50", R"("by":"noor","said_by":"ilse","do":"read-back","ml":500)");
        bed.at("09:51", R"("by":"tomas","do":"device-off")");
        return bed;
    }();
    return placed;
}

enum class What {
    reached,
    failed,
    other_call,
    leak,
    intolerance,
    proved,
    unproved,
    declined,
    lost,
    booked,
    out
};

struct Said {
    LocalDate day;
    What what;
};

/// The list of what was said, and the questions that one asks of it.
struct Model {
    LocalDate due = date("2027-05-25"), latest = date("2027-05-25"), book_by = date("2027-03-30");
    std::vector<Said> said;

    [[nodiscard]] bool any(What what) const {
        return std::any_of(said.begin(), said.end(), [&](const Said& s) { return s.what == what; });
    }
    [[nodiscard]] std::optional<LocalDate> first(What what) const {
        for (const auto& s : said) {
            if (s.what == what) {
                return s.day;
            }
        }
        return std::nullopt;
    }
    /// The last of the closings; a later one stands in the place of an earlier.
    [[nodiscard]] std::optional<What> closing() const {
        std::optional<What> last;
        for (const auto& s : said) {
            if (s.what == What::proved || s.what == What::unproved || s.what == What::declined) {
                last = s.what;
            }
        }
        return last;
    }
    [[nodiscard]] bool is_out() const { return any(What::out) || closing() == What::proved; }
    [[nodiscard]] bool not_reached() const {
        int failed = 0;
        std::set<LocalDate> days;
        for (const auto& s : said) {
            if (s.what == What::failed) {
                ++failed;
                days.insert(s.day);
            } else if (s.what == What::reached || s.what == What::other_call) {
                failed = 0;
                days.clear();
            }
        }
        return failed >= 3 && days.size() >= 3;
    }
    [[nodiscard]] bool lost() const {
        bool lost = false;
        for (const auto& s : said) {
            lost = s.what == What::lost || (lost && s.what != What::reached);
        }
        return lost;
    }
    [[nodiscard]] std::set<std::string> flags() const {
        std::set<std::string> all;
        const auto put = [&](bool is, const char* flag) {
            if (is) {
                all.insert(flag);
            }
        };
        put(any(What::leak), "leak-suspected");
        put(any(What::intolerance), "intolerance");
        put(not_reached(), "not-reached");
        put(lost(), "lost-to-follow-up");
        return all;
    }
    [[nodiscard]] LocalDate latest_now() const {
        const auto leak = first(What::leak);
        return leak && *leak < due && !any(What::out) ? *leak : latest;
    }
    [[nodiscard]] LocalDate due_now() const {
        const auto leak = first(What::leak);
        return leak && *leak < due && !any(What::out) ? *leak : due;
    }
    [[nodiscard]] std::string status(LocalDate on) const {
        if (any(What::out)) {
            return "removed";
        }
        if (closing() == What::proved) {
            return "passed";
        }
        if (closing() == What::unproved) {
            return "closed, not verified";
        }
        return on > latest_now()                    ? "overdue"
               : on >= due_now()                    ? "due"
               : on >= std::min(book_by, due_now()) ? "book by"
                                                    : "in place";
    }
    [[nodiscard]] bool overdue(LocalDate on) const { return !is_out() && on > latest_now(); }
};

/// Every step as it is said; `day` where the step's own fields need one.
struct Step {
    What what;
    const char* fields;
};
constexpr Step steps[] = {
    {What::failed, R"("do":"call","entry":"A","outcome":"not-reached")"},
    {What::failed, R"("do":"call","entry":"A","outcome":"wrong-number","way":"message")"},
    {What::failed, R"("do":"call","entry":"A","outcome":"not-reached","way":"letter")"},
    {What::failed, R"("do":"call","entry":"A","outcome":"not-reached")"},
    {What::reached, R"("do":"call","entry":"A","outcome":"reached")"},
    {What::other_call, R"("do":"call","entry":"A","outcome":"relative-reached","owner":"wren")"},
    {What::leak, R"("do":"flag","entry":"A","flag":"leak-suspected")"},
    {What::intolerance, R"("do":"flag","entry":"A","flag":"intolerance")"},
    {What::declined, R"("do":"close-entry","entry":"A","outcome":"declined","known_from":"x")"},
    {What::unproved, R"("do":"close-entry","entry":"A","outcome":"passed","known_from":"x")"},
    {What::proved, R"("do":"close-entry","entry":"A","outcome":"passed","known_from":"x","proof":"image")"},
    {What::lost,
     R"("do":"lost-to-follow-up","entry":"A","second":"ilse","pins":{"pia":"123456","ilse":"123456"})"},
};

bool say_on(Bed& bed, LocalDate day, const std::string& fields) {
    const auto outcome = bed.say(R"({"at":")" + date_text(day) + R"(T10:00:00Z",)" + fields + "}");
    return result_of(outcome) == "recorded";
}

/// Books a removal, or takes the balloon out of the one that is booked.
void removal_step(Bed& bed, Model& model, LocalDate day) {
    if (!model.any(What::booked)) {
        const bool done =
            say_on(bed, day,
                   R"("by":"pia","case":"R","do":"book","kind":"removal","patient":{"number":"HM-4471",)"
                   R"("family_name":"Quill","given_name":"Marta","born":"1986-03-14","sex_at_birth":"f"},)"
                   R"("planned":")" +
                       date_text(add_days(day, 20)) + R"(T09:30:00Z","room":"Room 1","entry":"A")");
        if (done) {
            model.said.push_back({day, What::booked});
        }
    } else if (!model.any(What::out) &&
               say_on(bed, day, R"("by":"tomas","case":"R","do":"out","complete":true,"kept":false)")) {
        model.said.push_back({day, What::out});
    }
}

void compare(const Bed& bed, const Model& model, LocalDate on) {
    const auto found = entry_on(bed.state(), bed.desk, bed.policy(), bed.zone(), on);
    REQUIRE(found);
    REQUIRE(std::string{name_of(found->status)} == model.status(on));
    REQUIRE(is_overdue(*found, on) == model.overdue(on));
    REQUIRE(std::set<std::string>(found->flags.begin(), found->flags.end()) == model.flags());
    REQUIRE(found->open() == !model.is_out());
    if (found->open()) {
        REQUIRE_FALSE(found->next->say.empty());
        REQUIRE(found->next->date.ok());
        REQUIRE(bed.desk.person(found->next->owner) != nullptr);
    }
}

/// The book that was kept up to date gives what folding anew gives, in the same order.
void compare_book(const DeskBook& book, const Bed& bed, LocalDate on) {
    const auto anew = register_on(bed.desk, bed.policy(), bed.zone(), on);
    REQUIRE(book.size() == anew.size());
    std::size_t late = 0;
    for (std::size_t i = 0; i < anew.size(); ++i) {
        REQUIRE(book.at(i).placement.entry == anew[i].placement.entry);
        REQUIRE(book.at(i).status == anew[i].status);
        REQUIRE(book.at(i).flags == anew[i].flags);
        REQUIRE(book.at(i).open() == anew[i].open());
        late += is_overdue(anew[i], on) ? 1U : 0U;
    }
    REQUIRE(book.overdue() == late);
}

/// The desk again, from nothing but its events in the order of their numbers.
Desk rebuilt(const Bed& bed) {
    std::map<std::int64_t, std::pair<std::string, Recorded>> events;
    for (const auto& [id, state] : bed.desk.cases) {
        for (const auto& kept : state.history) {
            events[kept.first.stamp.seq] = {id, kept.first};
        }
    }
    Desk desk;
    desk.kiosk_id = bed.desk.kiosk_id;
    desk.people = bed.desk.people;
    for (const auto& [seq, event] : events) {
        evolve(desk, event.first, event.second);
    }
    return desk;
}

constexpr int histories = 10'000;

}  // namespace

TEST_CASE("the register equals a naive model over 10,000 random histories (seeded)", "[register][property]") {
    std::mt19937 chance{20261126};
    int removed = 0, late = 0, lost = 0;
    for (int history = 0; history < histories; ++history) {
        auto bed = bed_placed();
        Model model;
        DeskBook book;
        auto day = date("2026-12-01");
        for (int step = 0; step < 10; ++step) {
            day = add_days(day, static_cast<int>(chance() % 45));
            const auto which = chance() % (std::size(steps) + 1);
            if (which == std::size(steps)) {
                removal_step(bed, model, day);
            } else if (say_on(bed, day, std::string{R"("by":"pia",)"} + steps[which].fields)) {
                model.said.push_back({day, steps[which].what});
            }
            compare(bed, model, day);
            if (step % 2 == 0) {  // on odd steps it falls behind by a step
                book.follow(bed.desk, bed.policy(), bed.zone(), day);
                compare_book(book, bed, day);
            }
            compare(bed, model, add_days(day, static_cast<int>(chance() % 90)));
        }
        removed += model.is_out() ? 1 : 0;
        late += model.overdue(day) ? 1 : 0;
        lost += model.lost() ? 1 : 0;
        const auto again = rebuilt(bed);
        const RegisterAsk here{bed.desk, bed.policy(), bed.zone(), day, {}, true};
        const RegisterAsk there{again, bed.policy(), bed.zone(), day, {}, true};
        REQUIRE(register_csv(here) == register_csv(there));
    }
    CHECK(removed > histories / 20);  // each end was reached
    CHECK(late > histories / 20);
    CHECK(lost > 0);
}

TEST_CASE(
    "the book of the desk follows many balloons: order, search, lot and the day's list stay those of the "
    "desk",
    "[register][property]") {
    std::mt19937 chance{7};
    auto bed = bed_placed();
    const std::vector<std::string> names{"Brandt", "Sorrel", "Vance", "Okafor", "Bell"};
    DeskBook book;
    for (int i = 0; i < 60; ++i) {
        const auto name = "E" + std::to_string(i);
        const auto placed = date_text(add_days(date("2026-06-01"), static_cast<int>(chance() % 170)));
        REQUIRE(say_on(
            bed, date("2026-12-01"),
            R"("by":"pia","case":")" + name + R"(","do":"book","kind":"removal","patient":{"number":"HM-)" +
                std::to_string(5000 + i) + R"(","family_name":")" + names[chance() % names.size()] +
                R"(","given_name":"Kim","born":"1980-01-01","sex_at_birth":"f"},)"
                R"("planned":"2026-12-20T09:00:00Z","room":"Room 1")"));
        REQUIRE(say_on(bed, date("2026-12-01"),
                       R"("by":"pia","case":")" + name + R"(","do":"placed-elsewhere","placed":")" + placed +
                           R"(","ml":500,"lot":"DW-)" + std::to_string(chance() % 3) +
                           R"(","source":"card")"));
        book.follow(bed.desk, bed.policy(), bed.zone(), date("2026-12-01"));
        if (i % 7 == 3) {
            (void)say_on(bed, date("2026-12-01"),
                         R"("by":"pia","do":"flag","entry":"E)" + std::to_string(i - 2) +
                             R"(","flag":"leak-suspected")");
        }
    }
    const auto today = date("2026-12-02");
    book.follow(bed.desk, bed.policy(), bed.zone(), today);
    compare_book(book, bed, today);
    std::size_t found = 0;
    for (const auto place : book.named("sorREL")) {
        CHECK(book.at(place).state->patient.family_name == "Sorrel");
        ++found;
    }
    std::size_t there = 0, of_lot = 0;
    for (const auto& entry : register_on(bed.desk, bed.policy(), bed.zone(), today)) {
        there += entry.state->patient.family_name == "Sorrel" ? 1U : 0U;
        of_lot += entry.placement.lot == "DW-1" ? 1U : 0U;
    }
    CHECK(found == there);
    CHECK(there > 0);
    CHECK(book.of_lot("DW-1").size() == of_lot);
    CHECK(of_lot > 0);
    CHECK(book.named("HM-5007").size() == 1);
    CHECK(book.named("nobody").empty());
    const auto now = bed.zone().start_of(date("2026-12-20")) + std::chrono::hours{8};
    book.follow(bed.desk, bed.policy(), bed.zone(), date("2026-12-20"));
    const auto by_book = list_of_day(book, bed.zone(), now);
    const auto by_desk = list_of_day(bed.desk, bed.zone(), now);
    REQUIRE(by_book.size() == by_desk.size());
    for (std::size_t i = 0; i < by_desk.size(); ++i) {
        CHECK(by_book[i].state == by_desk[i].state);
    }
    CHECK(by_desk.size() > 50);
    const auto due = due_out(book, bed.policy());
    CHECK(due.size() == due_out(bed.desk, bed.policy(), bed.zone(), now).size());
}
