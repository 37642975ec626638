// Properties of the rules, tried on values that RapidCheck makes up and makes small again when one fails.
#include <rapidcheck.h>

#include <algorithm>
#include <numeric>

#include "core/rules/dates.h"
#include "core/rules/dose.h"
#include "core/rules/fasting.h"
#include "core/rules/fill.h"
#include "core/rules/glp1.h"
#include "core/rules/look.h"
#include "core/rules/read_back.h"
#include "core/rules/recovery.h"
#include "core/rules/screen.h"
#include "tests/catch.h"
#include "tests/core/policy_files.h"
#include "tests/core/zones.h"

using namespace brimline;
using namespace brimline::test;

namespace {

using rules::FillEntry;

FillEntry any_entry() {
    const auto kind = *rc::gen::element(FillEntry::Kind::dye, FillEntry::Kind::syringe, FillEntry::Kind::part,
                                        FillEntry::Kind::withdrawn, FillEntry::Kind::correction);
    const bool correction = kind == FillEntry::Kind::correction;
    return {kind, Millilitres::of_tenths(*rc::gen::inRange(correction ? -2000 : 0, 2000)),
            correction ? *rc::gen::inRange(-3, 4) : 0};
}

std::vector<FillEntry> any_fill() {
    std::vector<FillEntry> entries(*rc::gen::inRange<std::size_t>(0, 40));
    std::generate(entries.begin(), entries.end(), any_entry);
    return entries;
}

/// Tenths of a millilitre, added up by hand.
std::int64_t naive_sum(const std::vector<FillEntry>& entries) {
    std::int64_t sum = 0;
    for (const auto& entry : entries) {
        sum +=
            entry.kind == FillEntry::Kind::withdrawn ? -entry.volume.in_tenths() : entry.volume.in_tenths();
    }
    return sum;
}

Instant any_moment() {
    return Instant::of_us(*rc::gen::inRange<std::int64_t>(1'767'225'600, 1'830'297'600) * 1'000'000);
}
minutes any_wait() { return minutes{*rc::gen::inRange(0, 3000)}; }

std::vector<rules::AldreteScore> any_scores() {
    std::vector<rules::AldreteScore> scores;
    Instant at;
    const int count = *rc::gen::inRange(0, 16);
    for (int i = 0; i < count; ++i) {
        at = at + minutes{*rc::gen::inRange(0, 30)};
        rules::AldreteItems items{};
        std::generate(items.begin(), items.end(), [] {
            return *rc::gen::weightedElement<int>({{40, 2}, {3, 1}, {1, 0}});
        });
        scores.push_back({at, items});
    }
    return scores;
}

rules::RecoveryTimes any_times() {
    const auto maybe = [] {
        return *rc::gen::arbitrary<bool>() ? std::optional{Instant{} + minutes{*rc::gen::inRange(0, 60)}}
                                           : std::nullopt;
    };
    return {maybe(), maybe(), maybe()};
}

}  // namespace

TEST_CASE("the running volume is the naive sum of any sequence, corrections included", "[property][fill]") {
    CHECK(rc::check("sum", [] {
        const auto entries = any_fill();
        RC_ASSERT(rules::fill_sum(entries).running.in_tenths() == naive_sum(entries));
    }));
}

TEST_CASE("no total of a fill depends on the order of entry", "[property][fill]") {
    CHECK(rc::check("order", [] {
        auto entries = any_fill();
        const auto before = rules::fill_sum(entries);
        for (std::size_t i = entries.size(); i > 1; --i) {
            std::swap(entries[i - 1], entries[*rc::gen::inRange<std::size_t>(0, i)]);
        }
        RC_ASSERT(rules::fill_sum(entries) == before);
    }));
}

TEST_CASE("what still fits stays within the ceiling, and what is left reaches the mark", "[property][fill]") {
    CHECK(rc::check("marks", [] {
        const auto running = Millilitres::of_tenths(*rc::gen::inRange(0, 9000));
        const auto mark = Millilitres::of_tenths(*rc::gen::inRange(0, 9000));
        const auto syringe = Millilitres::of_tenths(*rc::gen::inRange(1, 700));
        const int fits = rules::syringes_that_fit(running, mark, syringe);
        const int due = rules::syringes_until(running, mark, syringe);
        RC_ASSERT(fits == 0 || running + syringe * fits <= mark);
        RC_ASSERT(running + syringe * (fits + 1) > mark);
        RC_ASSERT(running + syringe * due >= mark);
        RC_ASSERT(due == 0 || running + syringe * (due - 1) < mark);
    }));
}

TEST_CASE("a later intake never gives an earlier time, nor a longer fast", "[property][fasting]") {
    CHECK(rc::check("one intake", [] {
        const auto last = any_moment();
        const auto later = last + minutes{*rc::gen::inRange(0, 3000)};
        const auto at = any_moment();
        const auto wait = any_wait();
        const auto before = rules::judge_fast(last, at, wait);
        const auto after = rules::judge_fast(later, at, wait);
        RC_ASSERT(after.earliest >= before.earliest);
        RC_ASSERT(after.elapsed_min <= before.elapsed_min);
        RC_ASSERT(!after.met || before.met);
    }));
    CHECK(rc::check("several", [] {
        std::vector<rules::FastingItem> items(*rc::gen::inRange<std::size_t>(1, 6));
        const auto at = any_moment();
        for (auto& item : items) {
            item = {any_moment(), any_wait(), *rc::gen::inRange(0, 5) == 0};
        }
        const auto before = rules::combine_fasts(items, at);
        auto& moved = items[*rc::gen::inRange<std::size_t>(0, items.size())];
        moved.last = *moved.last + minutes{*rc::gen::inRange(0, 3000)};
        const auto after = rules::combine_fasts(items, at);
        RC_ASSERT((after.all_from >= before.all_from));
        RC_ASSERT(!after.all_met || before.all_met);
    }));
}

TEST_CASE("a clock reading, whatever the zone does, is a moment that shows it", "[property][fasting]") {
    CHECK(rc::check("readings", [] {
        const Zone& zone = *rc::gen::element(&london(), &berlin()) == &london() ? london() : berlin();
        const LocalTime reading = zone.local(any_moment());
        const auto moment = rules::intake_moment(reading, zone);
        RC_ASSERT(moment.has_value());
        RC_ASSERT(zone.local(*moment) == reading);
        const auto first = rules::intake_moment(reading, zone, true);
        RC_ASSERT(*first <= *moment);
    }));
}

TEST_CASE("a stricter policy is never laxer: fasting, drugs, findings, counts", "[property][policy]") {
    CHECK(rc::check("waits", [] {
        const auto last = any_moment();
        const auto at = any_moment();
        const auto wait = any_wait();
        const auto longer = wait + any_wait();
        RC_ASSERT(!rules::judge_fast(last, at, longer).met || rules::judge_fast(last, at, wait).met);
        RC_ASSERT(rules::judge_fast(last, at, longer).earliest >= rules::judge_fast(last, at, wait).earliest);
        RC_ASSERT(rules::with_liquid_day(wait, longer, true) >= rules::with_liquid_day(wait, longer, false));
    }));
    CHECK(rc::check("windows", [] {
        const auto dose = rules::placement_date(any_moment(), london());
        const auto on = rules::placement_date(any_moment(), london());
        const int days = *rc::gen::inRange(0, 40);
        const int more = days + *rc::gen::inRange(0, 40);
        RC_ASSERT(!rules::medicine_window(dose, on, days).review ||
                  rules::medicine_window(dose, on, more).review);
        RC_ASSERT(!rules::glp1_hold(dose, on, more).met || rules::glp1_hold(dose, on, days).met);
        const int age = *rc::gen::inRange(0, 300);
        const auto judged = [&](int most) {
            return rules::judge_pregnancy(true, rules::PregnancyTest::negative, age, most);
        };
        RC_ASSERT(!judged(days).satisfied || judged(more).satisfied);
    }));
    CHECK(rc::check("limits", [] {
        const auto value = Decimal::of_millionths(*rc::gen::inRange<std::int64_t>(0, 20'000'000));
        const auto low = Decimal::of_millionths(*rc::gen::inRange<std::int64_t>(0, 20'000'000));
        const auto high = low + Decimal::of_millionths(*rc::gen::inRange<std::int64_t>(0, 20'000'000));
        RC_ASSERT(!rules::hernia_stops(value, high) || rules::hernia_stops(value, low));
        RC_ASSERT(!rules::dose_reminds(value, Fraction{high}) || rules::dose_reminds(value, Fraction{low}));
        const auto said = Millilitres::of_tenths(*rc::gen::inRange(4000, 7000));
        const auto counted = Millilitres::of_tenths(*rc::gen::inRange(4000, 7000));
        const auto strict = rules::judge_read_back(counted, said, false, Millilitres::of_tenths(0));
        const auto lax =
            rules::judge_read_back(counted, said, false, Millilitres::of_tenths(*rc::gen::inRange(0, 50)));
        RC_ASSERT(!strict.equal || lax.equal);
    }));
}

TEST_CASE("a stricter policy never lets anybody leave recovery earlier", "[property][policy]") {
    CHECK(rc::check("fit", [] {
        const auto scores = any_scores();
        const auto times = any_times();
        RecoveryPolicy lax = house_policy().recovery;
        lax.threshold = *rc::gen::inRange(7, 10);
        lax.consecutive = *rc::gen::inRange(1, 3);
        lax.gap = minutes{*rc::gen::inRange(0, 20)};
        RecoveryPolicy strict = lax;
        strict.threshold += *rc::gen::inRange(0, 2);
        strict.consecutive += *rc::gen::inRange(0, 2);
        strict.item_floor += *rc::gen::inRange(0, 2);
        strict.gap += minutes{*rc::gen::inRange(0, 15)};
        strict.since_sedative += minutes{*rc::gen::inRange(0, 60)};
        strict.since_reversal += minutes{*rc::gen::inRange(0, 60)};
        const auto early = rules::fit_from(scores, times, lax);
        const auto late = rules::fit_from(scores, times, strict);
        RC_CLASSIFY(late.has_value(), "fit under the strict policy");
        RC_ASSERT(!late || (early && *early <= *late));
    }));
}

TEST_CASE("months never leave their month, and come back no later than they went", "[property][dates]") {
    CHECK(rc::check("months", [] {
        const auto day = rules::placement_date(any_moment(), london());
        const int months = *rc::gen::inRange(1, 25);
        const auto due = rules::due_date(day, months);
        RC_ASSERT(due.ok());
        const int crossed = 12 * (static_cast<int>(due.year()) - static_cast<int>(day.year())) +
                            static_cast<int>(static_cast<unsigned>(due.month())) -
                            static_cast<int>(static_cast<unsigned>(day.month()));
        RC_ASSERT(crossed == months);
        RC_ASSERT(due.day() <= day.day());
        RC_ASSERT(add_months(due, -months) <= day);
        RC_ASSERT(rules::due_date(add_days(day, 1), months) >= due);
    }));
}
