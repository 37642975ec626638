// Fuzzes the reader of stored events: any kind and payload is an event or a sentence, and an event that is
// folded into an empty case changes it or nothing, and never stops the program.
#include "app/loop/memory.h"
#include "tests/fuzz/targets.h"

void brimline::fuzz::journal(std::string_view bytes) {
    store::Id16 kiosk{};
    kiosk[0] = 1;
    std::vector<store::StoredEvent> rows;
    while (!bytes.empty() && rows.size() < 16) {  // kind, payload, kind, payload …: each a line
        const auto kind_end = bytes.find('\n');
        if (kind_end == std::string_view::npos) {
            break;
        }
        const auto payload_end = bytes.find('\n', kind_end + 1);
        store::StoredEvent row;
        row.kind = bytes.substr(0, kind_end);
        row.payload = bytes.substr(
            kind_end + 1, payload_end == std::string_view::npos ? payload_end : payload_end - kind_end - 1);
        row.seq = static_cast<std::int64_t>(rows.size()) + 1;
        row.kiosk_id = kiosk;
        row.case_id[0] = 2;
        row.person = "tomas";
        row.role = "assistant";
        rows.push_back(std::move(row));
        bytes.remove_prefix(payload_end == std::string_view::npos ? bytes.size() : payload_end + 1);
    }
    static_cast<void>(remember(std::move(rows), kiosk));
}

BRIMLINE_FUZZ_ENTRY(journal)
