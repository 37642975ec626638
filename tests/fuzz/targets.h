// What is fuzzed: every reader of something that people, devices or disks hand in. The same functions are
// driven by libFuzzer (tests/fuzz/run) and by a replayer with seeded changes in every tests/run.
#pragma once
#include <cstddef>
#include <cstdint>
#include <string_view>

namespace brimline::fuzz {

void script(std::string_view bytes);   // a line of a script: JSON, command, fields
void label(std::string_view bytes);    // a scan of a device label
void policy(std::string_view bytes);   // a policy file on top of nothing, and a recorded policy
void journal(std::string_view bytes);  // a stored event: its kind, a line end, its payload
void backup(std::string_view bytes);   // the file of a backup
void image(std::string_view bytes);    // brimline.db itself

/// A target's name is its folder in tests/fuzz/corpus.
struct Target {
    const char* name;
    void (*run)(std::string_view);
};
inline constexpr Target targets[] = {{"script", script},   {"label", label},   {"policy", policy},
                                     {"journal", journal}, {"backup", backup}, {"image", image}};

}  // namespace brimline::fuzz

/// With BRIMLINE_LIBFUZZER each target is a program of its own; libFuzzer's entry calls it.
#ifdef BRIMLINE_LIBFUZZER
#define BRIMLINE_FUZZ_ENTRY(target)                                                      \
    extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) { \
        brimline::fuzz::target({reinterpret_cast<const char*>(bytes), size});            \
        return 0;                                                                        \
    }
#else
#define BRIMLINE_FUZZ_ENTRY(target)
#endif
