// Fuzzes the reader of device labels: any text is a label or a fault, and a label adds to itself without
// contradiction.
#include <cstdlib>

#include "core/label/gs1.h"
#include "core/label/gtin.h"
#include "tests/fuzz/targets.h"

void brimline::fuzz::label(std::string_view bytes) {
    const auto today = parse_date("2026-11-25").value();
    static_cast<void>(parse_gtin(bytes));
    const auto read = parse_label(bytes, today);
    if (read && !add_scan(*read, *read)) {
        std::abort();
    }
}

BRIMLINE_FUZZ_ENTRY(label)
