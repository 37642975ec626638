// How many syringes a second the kiosk takes without a display: each tap is found by name, drawn, decided, put on
// disk and drawn again. Printed beside the raw limit of the same run: the page drawn alone, and the same command
// decided and written without a page. A measurement, not a test.
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <vector>

#include "tests/app/kiosk_bed.h"

namespace {

using namespace brimline;
using Clock = std::chrono::steady_clock;

constexpr int taps = 200;
constexpr std::chrono::seconds apart{21};  // as on the reference day, so that none is a question

/// Milliseconds, ascending.
template <class Work>
std::vector<double> measure(Work work) {
    std::vector<double> times;
    for (int i = 0; i < taps; ++i) {
        const auto start = Clock::now();
        work();
        times.push_back(std::chrono::duration<double, std::milli>(Clock::now() - start).count());
    }
    std::sort(times.begin(), times.end());
    return times;
}

double part(const std::vector<double>& times, double p) {
    return times[static_cast<std::size_t>(p * static_cast<double>(times.size() - 1))];
}

void line(const char* what, const std::vector<double>& times) {
    fmt::print("{:44} p50 {:7.3f} ms   p99 {:7.3f} ms\n", what, part(times, 0.5), part(times, 0.99));
}

}  // namespace

int main() {
    test::KioskBed::Start start;
    start.until = "2026-11-25T09:37:55+00:00";
    start.scripts = {"case-a"};
    test::KioskBed bed{start};
    bed.kiosk->open("tomas", "A", screens::Page::fill);
    bed.settle();
    const auto drawn = measure([&] { bed.glass->frame(); });
    const auto said = measure([&] {
        bed.clock.pass(apart);
        Command command;
        command.by = "ilse";
        command.case_name = "A";
        command.says = SecondCount{};
        bed.room->say(std::move(command));
        bed.room->wait_until_saved(std::chrono::seconds{5});
    });
    const auto tapped = measure([&] {
        bed.clock.pass(apart);
        bed.tap("syringe-in");
    });
    line("limit: the Fill page drawn once", drawn);
    line("limit: one press decided and on disk, no page", said);
    line("a syringe by tap, until it is saved and shown", tapped);
    const double limit = part(drawn, 0.5) * 3 + part(said, 0.5);  // press, release, and the page with the new count
    fmt::print("{:.0f} taps a second; {:.2f} times the limit of {:.3f} ms (goal: at most 3 times)\n",
               1000.0 / part(tapped, 0.5), part(tapped, 0.5) / limit, limit);
    return 0;
}
