// The corpus of every target, and seeded changes of it for a moment: nothing may stop the program. libFuzzer
// runs the same functions for as long as it is told: tests/fuzz/run. BRIMLINE_SEED repeats a run.
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <string>
#include <vector>

#include "tests/catch.h"
#include "tests/fuzz/targets.h"
#include "tests/source_folder.h"

using namespace brimline;

namespace fs = std::filesystem;

namespace {

std::vector<std::string> corpus_of(const std::string& name) {
    std::vector<fs::path> files;
    for (const auto& entry : fs::directory_iterator{test::in_sources("/tests/fuzz/corpus/" + name)}) {
        files.push_back(entry.path());
    }
    std::sort(files.begin(), files.end());
    std::vector<std::string> corpus;
    for (const auto& file : files) {
        std::ifstream in{file, std::ios::binary};
        corpus.emplace_back(std::istreambuf_iterator<char>{in}, std::istreambuf_iterator<char>{});
    }
    return corpus;
}

/// One to eight changes: a byte set, a bit flipped, a piece cut, doubled or taken from another of the corpus.
std::string changed(std::string text, const std::vector<std::string>& corpus, std::mt19937_64& chance) {
    const auto below = [&](std::size_t n) {
        return n == 0 ? std::size_t{0} : static_cast<std::size_t>(chance() % n);
    };
    for (auto left = 1 + below(8); left > 0; --left) {
        const auto at = below(text.size() + 1);
        const auto length = std::min(text.size() - at, 1 + below(16));
        switch (below(6)) {
            case 0:
                text.insert(at, 1, static_cast<char>(chance() & 255U));
                break;
            case 1:
                if (at < text.size()) {
                    text[at] = static_cast<char>(text[at] ^ (1 << below(8)));
                }
                break;
            case 2:
                text.erase(at, length);
                break;
            case 3:
                text.insert(at, text.substr(at, length));
                break;
            case 4: {
                const auto& other = corpus[below(corpus.size())];
                text.insert(at, other.substr(below(other.size() + 1), 1 + below(64)));
                break;
            }
            default:
                text.resize(at);
        }
    }
    return text;
}

}  // namespace

TEST_CASE("no input of the corpus, whole or changed, stops a reader", "[fuzz]") {
    const auto* given = std::getenv("BRIMLINE_SEED");
    const auto seed = given != nullptr ? std::strtoull(given, nullptr, 10) : std::random_device{}();
    for (const auto& target : fuzz::targets) {
        DYNAMIC_SECTION(target.name) {
            INFO("BRIMLINE_SEED=" << seed);
            const auto corpus = corpus_of(target.name);
            REQUIRE(corpus.size() >= 3);
            for (const auto& input : corpus) {
                target.run(input);
            }
            std::mt19937_64 chance{seed};
            long runs = 0;
            const auto end = std::chrono::steady_clock::now() + std::chrono::milliseconds{2000};
            while (std::chrono::steady_clock::now() < end) {
                target.run(changed(corpus[chance() % corpus.size()], corpus, chance));
                ++runs;
            }
            std::printf("%s: %zu of the corpus, %ld changed, seed %llu\n", target.name, corpus.size(), runs,
                        static_cast<unsigned long long>(seed));
            CHECK(runs > 20);
        }
    }
}
