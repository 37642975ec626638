// How long one case of 300 events takes to open: its rows read, its chain checked, its events folded. The
// demo's case A up to the end of its sedation, with sets of vital signs until there are 300 events. Usage:
// bench_case FOLDER. The store is made there by the program beside this one.
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <vector>

#include "app/loop/memory.h"
#include "core/store/chain.h"
#include "core/store/journal.h"
#include "tests/source_folder.h"

namespace {

namespace fs = std::filesystem;
using namespace brimline;
constexpr std::size_t events_wanted = 300;

void write_script(const fs::path& file) {
    std::ifstream in{test::in_sources("/demo/case-a.jsonl")};
    std::ofstream out{file};
    std::string vitals;
    for (std::string line; std::getline(in, line) && line.find("\"end-sedation\"") == std::string::npos;) {
        vitals = line.find("\"vitals\"") == std::string::npos ? vitals : line;
        out << line << "\n";
    }
    auto again = parse_json(vitals).value_or(Json::object());
    for (std::size_t i = 0; i < events_wanted; ++i) {
        again["at"] = fmt::format("2026-11-25T{}:{:02}:00+00:00", 12 + i / 60, i % 60);
        out << again.dump() << "\n";
    }
}

/// The program on a script, as a clinic would run it; its lines are not looked at.
void run(const fs::path& folder, const std::string& script) {
    std::error_code error;
    const auto program = fs::read_symlink("/proc/self/exe", error).parent_path() / "brimline";
    const auto line =
        fmt::format("'{}' script '{}' --keep-going --data '{}' --policy '{}' > /dev/null 2> /dev/null",
                    program.string(), script, folder.string(), test::in_sources("/demo/policy"));
    static_cast<void>(std::system(line.c_str()));  // what came of it is counted below
}

/// The case with most events, cut to 300.
store::Id16 longest(store::Journal& journal) {
    std::map<store::Id16, int> counts;
    for (const auto& row : journal.events(0, 0).rows) {
        ++counts[row.case_id];
    }
    return std::max_element(counts.begin(), counts.end(),
                            [](const auto& a, const auto& b) { return a.second < b.second; })
        ->first;
}

/// Opens it once; the number of its events, 0 when its chain does not hold.
std::size_t open_once(store::Journal& journal, const store::Id16& id) {
    auto rows = journal.events_of(id).rows;
    rows.resize(std::min(rows.size(), events_wanted));
    store::ChainHasher hasher;
    store::Hash32 before{};
    for (const auto& row : rows) {
        if (hasher.of(before, row) != row.hash) {
            return 0;
        }
        before = row.hash;
    }
    const auto count = rows.size();
    const auto memory = remember(std::move(rows), journal.kiosk().id);
    return memory.desk.cases.empty() || !memory.unreadable.empty() ? 0 : count;
}

}  // namespace

int main(int argc, char** argv) {
    using clock = std::chrono::steady_clock;
    const fs::path folder = fs::absolute(argc > 1 ? argv[1] : ".") / "bench-case";
    std::error_code error;
    fs::remove_all(folder, error);
    const auto script = folder.string() + ".jsonl";
    write_script(script);
    run(folder, test::in_sources("/demo/people.jsonl"));
    run(folder, script);
    auto journal = store::Journal::open(folder, store::Mode::read_only);
    if (!journal) {
        fmt::print(stderr, "bench_case: {}\n", journal.error().say);
        return 3;
    }
    const auto id = longest(*journal);
    constexpr int rounds = 500;
    std::vector<double> milliseconds;
    for (int i = 0; i < rounds; ++i) {
        const auto start = clock::now();
        const auto events = open_once(*journal, id);
        milliseconds.push_back(std::chrono::duration<double, std::milli>(clock::now() - start).count());
        if (events != events_wanted) {
            fmt::print(stderr, "bench_case: {} events instead of {}\n", events, events_wanted);
            return 3;
        }
    }
    std::sort(milliseconds.begin(), milliseconds.end());
    const double p50 = milliseconds[rounds / 2];
    const double p99 = milliseconds[rounds * 99 / 100];
    constexpr double goal = 5;  // 7-journal
    fmt::print(
        "one case of {} events opened: p50 {:.2f} ms, p99 {:.2f} ms, {:.2f} of the {:.0f} ms allowed: {}\n",
        events_wanted, p50, p99, p99 / goal, goal, p99 <= goal ? "met" : "NOT met");
    fs::remove_all(folder, error);
    fs::remove(script, error);
    return 0;
}
