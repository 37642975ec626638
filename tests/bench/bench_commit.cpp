// How long one command takes until it is on disk, as a ratio to what the same disk needs, in the same run, to
// write and sync 4 KiB over existing bytes. A measurement, not a test: it prints the goals and whether they
// were met, and always ends with 0. Usage: bench_commit [FOLDER], a folder on the disk to be measured; what
// it makes there it removes.
#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

#include "core/store/ids.h"
#include "core/store/journal.h"
#include "core/store/small_file.h"

namespace {

using namespace brimline;
using namespace brimline::store;
using Clock = std::chrono::steady_clock;

constexpr int blocks = 40;
constexpr int block_size = 100;
constexpr std::size_t raw_bytes = 4096;
constexpr std::int64_t raw_places = 256;

/// Milliseconds, ascending.
struct Times {
    std::vector<double> all;
    [[nodiscard]] double part(double p) const {
        return all[static_cast<std::size_t>(p * static_cast<double>(all.size() - 1))];
    }
};

template <class Work>
double milliseconds(Work work) {
    const auto start = Clock::now();
    work();
    return std::chrono::duration<double, std::milli>(Clock::now() - start).count();
}

Batch command(SystemChance& chance) {
    NewEvent event;
    event.case_id[0] = 1;
    event.utc = Instant::of_us(1'800'000'000'000'000);
    event.person = "mina";
    event.role = "assistant";
    event.kind = "syringe-in";
    event.payload = "{\"ml\":\"50\",\"words\":\"" + std::string(270, '.') + "\"}";  // about 300 bytes
    Batch batch;
    batch.command = chance.id();
    batch.events = {event};
    return batch;
}

[[noreturn]] void give_up(const std::string& why) {
    std::fprintf(stderr, "bench_commit: %s\n", why.c_str());
    std::exit(3);
}

void print(const char* what, const Times& times) {
    std::printf("%-34s p50 %7.3f ms   p99 %7.3f ms   max %7.3f ms\n", what, times.part(0.5), times.part(0.99),
                times.all.back());
}

void goal(const char* what, double value, double most, const char* unit) {
    std::printf("%-34s %7.2f %s   goal at most %.0f %s: %s\n", what, value, unit, most, unit,
                value <= most ? "met" : "NOT met");
}

void measure(const std::filesystem::path& folder) {
    auto journal = Journal::open(folder / "data", Mode::read_write);
    if (!journal || journal->read_only()) {
        give_up(journal ? journal->why_read_only() : journal.error().say);
    }
    const std::string page(raw_bytes, 'b');
    auto raw = open_file(folder / "raw", O_RDWR | O_CREAT);
    for (std::int64_t i = 0; raw && i < raw_places; ++i) {
        if (write_at(raw->get(), page, i * static_cast<std::int64_t>(raw_bytes)) != 0) {
            give_up("the raw file cannot be written");
        }
    }
    if (!raw || ::fsync(raw->get()) != 0) {
        give_up("the raw file cannot be written");
    }
    SystemChance chance;
    Times commits;
    Times writes;
    for (int block = 0; block < blocks; ++block) {  // in turn, so that both meet the same disk
        for (int i = 0; i < block_size; ++i) {
            const std::int64_t place =
                (block * block_size + i) % raw_places * static_cast<std::int64_t>(raw_bytes);
            writes.all.push_back(milliseconds([&] {
                if (write_at(raw->get(), page, place) != 0 || ::fdatasync(raw->get()) != 0) {
                    give_up("the raw file cannot be written");
                }
            }));
        }
        for (int i = 0; i < block_size; ++i) {
            const Batch batch = command(chance);
            commits.all.push_back(milliseconds([&] {
                if (!journal->append(batch)) {
                    give_up("an event was not appended");
                }
            }));
        }
    }
    std::sort(commits.all.begin(), commits.all.end());
    std::sort(writes.all.begin(), writes.all.end());
    journal->close_day();
    const auto size = static_cast<double>(std::filesystem::file_size(folder / "data" / "brimline.db"));
    print("write + fdatasync 4 KiB", writes);
    print("commit of one event (300 B)", commits);
    goal("ratio at p50", commits.part(0.5) / writes.part(0.5), 2, "x");
    goal("ratio at p99", commits.part(0.99) / writes.part(0.99), 3, "x");
    goal("commit at p99", commits.part(0.99), 50, "ms");
    goal("size of an event on disk", size / static_cast<double>(commits.all.size()), 800, "B");
}

}  // namespace

int main(int argc, char* argv[]) {
    SystemChance chance;
    const std::filesystem::path folder =
        std::filesystem::absolute(argc > 1 ? argv[1] : ".") / ("bench-" + hex(chance.id()).substr(0, 12));
    std::filesystem::create_directories(folder);
    measure(folder);
    std::filesystem::remove_all(folder);
    return 0;
}
