// The check of the hash chains: one pass over the events in the order of their cases.
#include <nlohmann/json.hpp>

#include "core/store/chain.h"
#include "core/store/checks.h"
#include "core/store/rows.h"

namespace brimline::store {
namespace {

/// Where the pass stands in the case it is in.
struct Link {
    Id16 case_id{};
    Hash32 hash{};
    std::int64_t case_seq{0}, kiosk{0}, seq{0};
    bool any{false};
};

std::string numbered(const StoredEvent& event, const Report& report) {
    return "Event " + std::to_string(event.case_seq) + " of case " + report.name(event.case_id) +
           " (number " + std::to_string(event.seq) + ", " + event.kind + ")";
}

void check_place(const StoredEvent& event, const Link& last, Report& report) {
    if (event.case_seq != last.case_seq + 1) {
        const std::string first = std::to_string(last.case_seq + 1);
        const std::string end = std::to_string(event.case_seq - 1);
        report.add("missing-event", hex(event.case_id),
                   first == end ? "Event " + first + " of case " + report.name(event.case_id) + " is missing."
                                : "Events " + first + " to " + end + " of case " +
                                      report.name(event.case_id) + " are missing.");
    }
    if (last.case_seq > 0 && event.kiosk == last.kiosk && event.seq <= last.seq) {
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
    const std::string open_only = "WHERE j.case_id NOT IN (SELECT case_id FROM sealed) ";
    Statement rows = db.prepare(std::string{select_events} + (depth == Depth::quick ? open_only : "") +
                                "ORDER BY j.case_id, j.case_seq");
    ChainHasher hasher;
    Counted counted;
    Link last;
    StoredEvent event;
    while (rows.next()) {
        ++counted.events;
        if (!read_event(rows, event)) {
            report.add("row", "journal",
                       "An event near number " + std::to_string(event.seq) + " cannot be read.");
            continue;
        }
        if (!last.any || event.case_id != last.case_id) {
            last = Link{.case_id = event.case_id, .any = true};
            ++counted.cases;
        }
        check_event(event, last, json, hasher, report);
        last.hash = event.hash;
        last.case_seq = event.case_seq;
        last.kiosk = event.kiosk;
        last.seq = event.seq;
    }
    if (!rows.done()) {
        report.add("read", "journal", "Reading the events broke off: " + words_for(rows.trouble()) + ".");
    }
    return counted;
}

}  // namespace brimline::store
