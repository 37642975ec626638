// The check of the hash chains: one pass over the events, with the last event of every case in hand.
#include <map>
#include <nlohmann/json.hpp>

#include "core/store/chain.h"
#include "core/store/checks.h"
#include "core/store/rows.h"

namespace brimline::store {
namespace {

/// The last event of a case that the pass has met.
struct Link {
    Hash32 hash{};
    std::int64_t case_seq{0}, kiosk{0}, seq{0};
};

std::string numbered(const StoredEvent& event, const Report& report) {
    return "Event " + std::to_string(event.case_seq) + " of case " + report.name(event.case_id) +
           " (number " + std::to_string(event.seq) + ", " + event.kind + ")";
}

void check_place(const StoredEvent& event, const Link& last, Report& report) {
    if (event.case_seq <= last.case_seq) {
        report.add("order", hex(event.case_id), numbered(event, report) + " stands in the wrong place.");
    } else if (event.case_seq != last.case_seq + 1) {
        const std::string first = std::to_string(last.case_seq + 1);
        const std::string end = std::to_string(event.case_seq - 1);
        report.add("missing-event", hex(event.case_id),
                   first == end ? "Event " + first + " of case " + report.name(event.case_id) + " is missing."
                                : "Events " + first + " to " + end + " of case " +
                                      report.name(event.case_id) + " are missing.");
    }
    if (last.case_seq > 0 && event.case_seq > last.case_seq && event.kiosk == last.kiosk &&
        event.seq <= last.seq) {
        report.add("order", hex(event.case_id),
                   numbered(event, report) + " was written before the one it follows.");
    }
}

void check_event(const StoredEvent& event, const Link& last, bool json, ChainHasher& hasher, Report& report) {
    check_place(event, last, report);
    if (hasher.of(last.hash, event) != event.hash) {
        report.add("chain", hex(event.case_id),
                   numbered(event, report) + " was changed after it was written" +
                       (event.case_seq > 1 ? ", or the event before it was." : "."));
    }
    if (json && !nlohmann::json::accept(event.payload)) {
        report.add("json", hex(event.case_id), numbered(event, report) + " does not hold well-formed JSON.");
    }
}

}  // namespace

Counted check_chains(Database& db, Depth depth, bool json, Report& report) {
    // In the order of writing the file is read from front to back; several kiosks may take turns in one case,
    // and then only the order of the cases follows each chain.
    const KioskIds kiosks = read_kiosk_ids(db);
    const std::string order = depth == Depth::full && kiosks.size() < 2 ? "ORDER BY j.kiosk, j.seq"
                                                                        : "ORDER BY j.case_id, j.case_seq";
    const std::string open_only = "WHERE j.case_id NOT IN (SELECT case_id FROM sealed) ";
    Statement rows = db.prepare(select_events + (depth == Depth::quick ? open_only : std::string{}) + order);
    ChainHasher hasher;
    Counted counted;
    std::map<Id16, Link> cases;
    StoredEvent event;
    while (rows.next()) {
        ++counted.events;
        if (!read_event(rows, kiosks, event)) {
            report.add("row", "journal",
                       "An event near number " + std::to_string(event.seq) + " cannot be read.");
            continue;
        }
        Link& last = cases[event.case_id];
        check_event(event, last, json, hasher, report);
        last = Link{event.hash, event.case_seq, event.kiosk, event.seq};
    }
    if (!rows.done()) {
        report.add("read", "journal", "Reading the events broke off: " + words_for(rows.trouble()) + ".");
    }
    counted.cases = static_cast<std::int64_t>(cases.size());
    return counted;
}

}  // namespace brimline::store
