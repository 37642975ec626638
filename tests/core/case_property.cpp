// Any sequence of fill commands: the running volume is the sum of its deliveries, and the history folded anew
// is the live state.
#include <fmt/format.h>

#include <random>

#include "tests/catch.h"
#include "tests/core/bed_looks.h"

using namespace brimline;
using namespace brimline::test;

namespace {

std::string clock_of(int seconds) {
    return fmt::format("{:02}:{:02}:{:02}", seconds / 3600, seconds / 60 % 60, seconds % 60);
}

/// One random statement of the fill; refusals are as welcome as records.
std::string any_fill_command(std::mt19937& random, const std::vector<std::int64_t>& seqs) {
    const auto below = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
    const auto entry =
        seqs.empty() ? 1 : seqs[static_cast<std::size_t>(below(static_cast<int>(seqs.size())))];
    switch (below(11)) {
        case 0:
            return fmt::format(R"("by":"tomas","do":"part-syringe","ml":{}.{})", below(60), below(10));
        case 1:
            return fmt::format(R"("by":"tomas","do":"draw-back","ml":{})", below(120));
        case 2:
            return fmt::format(R"("by":"tomas","do":"double-tap-was","question":"q{}","answer":"{}")",
                               1 + below(4), below(2) == 0 ? "second" : "same");
        case 3:
            return R"("by":"tomas","do":"stop-filling","reason":"resistance")";
        case 4:
            return R"("by":"tomas","do":"go-on-filling","pushed_meanwhile":"one")";
        case 5:
            return fmt::format(R"("by":"tomas","said_by":"ilse","do":"count-check","count":{})", below(12));
        case 6:
            return fmt::format(R"("by":"tomas","do":"correct","ml":{},"reason":"r")", below(200) - 100);
        case 7:
            return fmt::format(R"("by":"tomas","do":"correct","entry":{},"ml":{},"reason":"r")", entry,
                               below(60));
        case 8:
            return fmt::format(R"("by":"noor","said_by":"ilse","do":"read-back","ml":{})", below(14) * 50);
        default:
            return R"("by":"tomas","do":"syringe-in")";
    }
}

Millilitres sum_of(const DeviceBlock& block) {
    Millilitres sum;
    for (const auto& delivery : block.deliveries) {
        sum += delivery.ml;
    }
    return sum;
}

}  // namespace

TEST_CASE("any fill keeps volume = sum of deliveries, and its history folds to the same state",
          "[property]") {
    const auto seed = std::random_device{}();
    INFO("seed " << seed);
    std::mt19937 random{seed};
    for (int round = 0; round < 12; ++round) {
        auto bed = bed_ready_to_fill();
        std::vector<std::int64_t> seqs;
        int now = 9 * 3600 + 38 * 60;
        for (int i = 0; i < 40; ++i) {
            now += 1 + static_cast<int>(random() % 20);
            const auto outcome = bed.at(clock_of(now), any_fill_command(random, seqs));
            if (!outcome.events.empty()) {
                seqs.push_back(bed.last_seq());
            }
            REQUIRE(running_volume(bed.state().device()) == sum_of(bed.state().device()));
        }
        std::vector<Recorded> events;
        for (const auto& kept : bed.state().history) {
            events.push_back(kept.first);
        }
        auto again = bed;
        again.desk.cases[bed.state().id] = fold(events);
        CHECK(shown(again, "11:00") == shown(bed, "11:00"));
        CHECK(again.standing() == bed.standing());
        CHECK(again.open_items() == bed.open_items());
    }
}
