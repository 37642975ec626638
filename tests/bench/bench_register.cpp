// The register at the size of a life's work: what the start-of-day page, a search and the month's audit cost
// at up to 100,000 balloons, each after somebody has just logged a call, and the memory that they take.
// Usage: bench_register [FOLDER] [MOST]. Everything is in memory; FOLDER is not used. The limit is a frame,
// 16 ms.
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <fstream>
#include <random>

#include "core/desk/audit.h"
#include "core/desk/today.h"
#include "tests/core/bed.h"

namespace {

using namespace brimline;
using clock_type = std::chrono::steady_clock;

constexpr double limit_ms = 16;

double mebibytes() {
    std::ifstream file{"/proc/self/statm"};
    long pages = 0, resident = 0;
    file >> pages >> resident;
    return static_cast<double>(resident) * static_cast<double>(sysconf(_SC_PAGESIZE)) / (1 << 20);
}

/// What is needed of a placement so that an entry stands: about a tenth of what a real case holds.
bool is_needed(const Event& event) {
    return std::holds_alternative<Booked>(event) || std::holds_alternative<Measure>(event) ||
           std::holds_alternative<DeviceOpened>(event) || std::holds_alternative<Plan>(event) ||
           std::holds_alternative<SyringeCounted>(event) || std::holds_alternative<ReadBackSaid>(event) ||
           std::holds_alternative<DeviceOff>(event);
}

std::vector<Recorded> template_of_a_case() {
    auto bed = test::bed_ready_to_fill();
    for (int i = 0; i < 10; ++i) {
        bed.at(fmt::format("09:{}:00", 38 + i), R"("by":"tomas","do":"syringe-in")");
    }
    bed.at("09:50", R"("by":"noor","said_by":"ilse","do":"read-back","ml":500)");
    bed.at("09:51", R"("by":"tomas","do":"device-off")");
    std::vector<Recorded> needed;
    for (const auto& kept : bed.state().history) {
        if (is_needed(kept.now.event)) {
            needed.push_back(kept.now);
        }
    }
    Recorded sealed = needed.back();
    sealed.event = Sealed{"R-2026-0001", {}};
    needed.push_back(std::move(sealed));
    return needed;
}

/// Balloon number i, placed on some day of the three years before the template's.
void add_balloon(Desk& desk, const std::vector<Recorded>& of_one, int i, std::mt19937& chance) {
    const auto name = fmt::format("C{}", i);
    const std::chrono::hours earlier{24 * static_cast<int>(chance() % 1095)};
    for (auto recorded : of_one) {
        recorded.stamp.seq = desk.last_seq + 1;
        recorded.stamp.at = recorded.stamp.at - earlier;
        recorded.stamp.happened = recorded.stamp.happened - earlier;
        if (auto* booked = std::get_if<Booked>(&recorded.event)) {
            booked->id = booked->name = name;
            booked->patient.number = fmt::format("HM-{}", 100'000 + i);
            booked->patient.family_name = fmt::format("Name{}", chance() % 5000);
            booked->planned = *booked->planned - earlier;
        } else if (auto* device = std::get_if<DeviceOpened>(&recorded.event)) {
            device->lot = fmt::format("DW-{}", 2000 + chance() % 800);
        }
        evolve(desk, name, recorded);
    }
    constexpr std::chrono::hours half_a_year{24 * 190};
    if (earlier > half_a_year && chance() % 50 != 0) {  // out and proved, as nearly all are
        Recorded closed = of_one.back();
        closed.stamp.seq = desk.last_seq + 1;
        closed.stamp.at = closed.stamp.happened = closed.stamp.at - earlier + half_a_year;
        EntryClosed out;
        out.entry = name;
        out.outcome = Closing::removed;
        out.verified = true;
        closed.event = std::move(out);
        evolve(desk, name, closed);
    }
}

void log_a_call(Desk& desk, int of, std::mt19937& chance, Instant at) {
    const auto name = fmt::format("C{}", static_cast<int>(chance() % static_cast<unsigned>(of)));
    Recorded call;
    call.stamp.seq = desk.last_seq + 1;
    call.stamp.at = call.stamp.happened = at;
    call.stamp.by = "pia";
    call.stamp.role = Role::coordinator;
    Call says;
    says.entry = name;
    says.outcome = chance() % 2 == 0 ? "reached" : "not-reached";
    call.event = says;
    evolve(desk, name, call);
}

struct Spread {
    std::vector<double> times;
    template <class Work>
    void measure(Work work) {
        const auto start = clock_type::now();
        work();
        times.push_back(std::chrono::duration<double, std::milli>(clock_type::now() - start).count());
    }
    [[nodiscard]] double at(double share) {
        std::sort(times.begin(), times.end());
        return times[static_cast<std::size_t>(share * static_cast<double>(times.size() - 1))];
    }
    void tell(const char* what) {
        fmt::print("  {:<34} p50 {:6.2f} ms  p99 {:6.2f} ms  {:5.2f} of the limit\n", what, at(0.5), at(0.99),
                   at(0.99) / limit_ms);
    }
};

}  // namespace

int main(int argc, char** argv) {
    const int most = argc > 2 ? std::atoi(argv[2]) : 100'000;
    const auto of_one = template_of_a_case();
    const auto bed = test::bed_with_case();
    const auto& policy = bed.policy();
    const auto& zone = bed.zone();
    const auto now = test::time_of("12:00");
    const auto today = zone.date_of(now);
    std::mt19937 chance{20261126};
    Desk desk;
    desk.kiosk_id = "k";
    desk.people = bed.desk.people;
    DeskBook book;
    int count = 0;
    std::size_t seen = 0;
    fmt::print("{} events a balloon; each figure after a call was logged; the limit is {} ms at p99\n",
               of_one.size(), limit_ms);
    for (const int size : {most / 8, most / 4, most / 2, most}) {
        const auto start = clock_type::now();
        for (; count < size; ++count) {
            add_balloon(desk, of_one, count, chance);
        }
        const std::chrono::duration<double> folded = clock_type::now() - start;
        const auto begin = clock_type::now();
        DeskBook fresh;
        fresh.follow(desk, policy, zone, today);
        const std::chrono::duration<double, std::milli> first = clock_type::now() - begin;
        book.follow(desk, policy, zone, today);
        Spread start_of_day, search, audit;
        for (int i = 0; i < 200; ++i) {
            log_a_call(desk, size, chance, now);
            start_of_day.measure([&] {
                book.follow(desk, policy, zone, today);
                seen += due_out(book, policy).size() + list_of_day(book, zone, now).size();
            });
            const auto name = fmt::format("name{}", chance() % 5000);
            const auto lot = fmt::format("DW-{}", 2000 + chance() % 800);
            search.measure([&] { seen += book.named(name).size() + book.of_lot(lot).size(); });
            const auto month = today.year() / today.month() - std::chrono::months{static_cast<int>(i % 36)};
            audit.measure(
                [&] { seen += static_cast<std::size_t>(month_figures(book, policy, month).placements); });
        }
        fmt::print("{} balloons, {:.0f} MiB, folded the last of them in {:.1f} s, the first page {:.0f} ms\n",
                   size, mebibytes(), folded.count(), first.count());
        start_of_day.tell("start of day: due and list");
        search.tell("search by name and by lot");
        audit.tell("a month's audit");
    }
    return seen > 0 ? 0 : 1;
}
