// How long the record of a sealed case takes as a PDF, and as text: the demo's case B, from an open store.
// Usage: bench_print FOLDER. The store is made there by the program beside this one.
#include <fmt/format.h>

#include <chrono>
#include <cstdlib>
#include <filesystem>

#include "app/desk/prints.h"
#include "core/record/text.h"
#include "tests/source_folder.h"

namespace {

namespace fs = std::filesystem;
using clock_type = std::chrono::steady_clock;

template <class Work>
double milliseconds_each(int times, Work work) {
    const auto start = clock_type::now();
    for (int i = 0; i < times; ++i) {
        work();
    }
    return std::chrono::duration<double, std::milli>(clock_type::now() - start).count() / times;
}

}  // namespace

int main(int argc, char** argv) {
    using namespace brimline;
    const fs::path folder = fs::path{argc > 1 ? argv[1] : "."} / "bench-print";
    std::error_code error;
    fs::remove_all(folder, error);
    const auto program = fs::read_symlink("/proc/self/exe", error).parent_path() / "brimline";
    for (const char* file : {"people", "case-b"}) {
        const auto line = fmt::format("'{}' script '{}' --data '{}' --policy '{}' > /dev/null",
                                      program.string(), test::in_sources(fmt::format("/demo/{}.jsonl", file)),
                                      folder.string(), test::in_sources("/demo/policy"));
        if (std::system(line.c_str()) != 0) {
            fmt::print(stderr, "{} did not run\n", file);
            return 1;
        }
    }
    const auto reading = read_store(folder);
    const auto* state = reading ? reading->memory.desk.find_case("B") : nullptr;
    if (state == nullptr) {
        fmt::print(stderr, "the store cannot be read\n");
        return 1;
    }
    std::size_t bytes = 0;
    constexpr int times = 20;
    const auto first =
        milliseconds_each(1, [&] { bytes = record_pdf_of(*reading, *state, print::a4)->size(); });
    const auto pdf =
        milliseconds_each(times, [&] { bytes = record_pdf_of(*reading, *state, print::a4)->size(); });
    const auto text = milliseconds_each(times, [&] {
        bytes +=
            record_text(*state, reading->memory.desk, reading->in_force.policy, reading->in_force.zone, "")
                .size();
    });
    fmt::print(
        "PDF of one sealed case: first {:.0f} ms (fonts are found), then {:.0f} ms; the goal is 300 ms\n",
        first, pdf);
    fmt::print("text of the same case: {:.1f} ms; the goal is 50 ms\n", text);
    fs::remove_all(folder, error);
    return bytes > 0 ? 0 : 1;
}
