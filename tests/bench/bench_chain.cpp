// How fast the chains of a journal are checked, as a ratio to libsodium hashing the same bytes in pieces of
// the same size in the same run. A measurement, not a test.
// Usage: bench_chain [FOLDER].
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

#include "core/store/checks.h"
#include "core/store/connection.h"
#include "core/store/ids.h"
#include "core/store/journal.h"

namespace {

using namespace brimline;
using namespace brimline::store;
using Clock = std::chrono::steady_clock;

constexpr int commands = 2000;
constexpr int events_each = 100;
constexpr int cases = 600;
constexpr std::size_t payload_bytes = 300;

double seconds_since(Clock::time_point start) {
    return std::chrono::duration<double>(Clock::now() - start).count();
}

[[noreturn]] void give_up(const std::string& why) {
    std::fprintf(stderr, "bench_chain: %s\n", why.c_str());
    std::exit(3);
}

void fill(const std::filesystem::path& data) {
    auto journal = Journal::open(data, Mode::read_write);
    SystemChance chance;
    for (int i = 0; i < commands; ++i) {
        Batch batch;
        batch.command = chance.id();
        for (int part = 0; part < events_each; ++part) {
            NewEvent event;
            const int number = (i * events_each + part) % cases;
            event.case_id[0] = static_cast<std::uint8_t>(number & 255);
            event.case_id[1] = static_cast<std::uint8_t>(number >> 8);
            event.person = "mina";
            event.role = "assistant";
            event.kind = "syringe-in";
            event.payload = "\"" + std::string(payload_bytes - 2, '.') + "\"";
            batch.events.push_back(event);
        }
        if (!journal || !journal->append(batch)) {
            give_up("the journal cannot be filled");
        }
    }
}

double check_all(const std::filesystem::path& data, double& best) {
    auto lock = FolderLock::reading(data);
    auto db = connect_reading(data, *lock);
    Report report;
    const auto start = Clock::now();
    const Counted counted = check_chains(*db, false, report);
    const double seconds = seconds_since(start);
    if (counted.events != commands * events_each || !report.empty()) {
        give_up("the chains do not hold");
    }
    best = std::min(best, seconds);
    return seconds;
}

void measure(const std::filesystem::path& folder) {
    const auto data = folder / "data";
    fill(data);
    constexpr std::size_t hashed = payload_bytes + 290;  // payload, the other columns and their lengths
    constexpr double megabytes =
        static_cast<double>(commands * events_each) * static_cast<double>(hashed) / 1e6;
    const std::string piece(hashed, 'p');
    double chain = 1e9;
    double alone = 1e9;
    unsigned kept = 0;
    for (int round = 0; round < 5; ++round) {
        check_all(data, chain);
        const auto start = Clock::now();
        for (int i = 0; i < commands * events_each; ++i) {
            kept += blake2b(piece)[0];
        }
        alone = std::min(alone, seconds_since(start));
    }
    std::printf("chains of %d events            %7.0f MB/s (%.2f s)\n", commands * events_each,
                megabytes / chain, chain);
    std::printf("libsodium alone, same pieces      %7.0f MB/s (sum %u)\n", megabytes / alone, kept % 10);
    std::printf("ratio                             %7.2f    goal at least 0.6: %s\n", alone / chain,
                alone / chain >= 0.6 ? "met" : "NOT met");
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
