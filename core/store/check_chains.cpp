// The check of the hash chains: one pass over the events, with the last event of every case in hand.
#include <algorithm>
#include <cstring>
#include <nlohmann/json.hpp>
#include <unordered_map>

#include "core/store/checks.h"
#include "core/store/hash_block.h"
#include "core/store/rows.h"

namespace brimline::store {
namespace {

/// The last event of a case that the pass has met.
struct Link {
    Hash32 hash{};
    std::int64_t case_seq{0}, kiosk{0}, seq{0};
};
/// Ids are random, so their first bytes are as good as any hash of them.
struct FirstBytes {
    std::size_t operator()(const Id16& id) const {
        std::size_t n = 0;
        std::memcpy(&n, id.data() + 8, sizeof n);
        std::size_t m = 0;
        std::memcpy(&m, id.data(), sizeof m);
        return n ^ m;
    }
};

/// Findings in the order of the events, although hashes are compared later than the rest is.
class Said {
public:
    enum class Of { place, chain, json };
    void add(std::size_t place, Of of, Finding finding) {
        if (all_.size() < most) {
            all_.push_back({place, of, std::move(finding)});
        }
    }
    void tell(Report& report) {
        std::stable_sort(all_.begin(), all_.end(), [](const One& a, const One& b) {
            return std::pair{a.place, a.of} < std::pair{b.place, b.of};
        });
        for (One& one : all_) {
            report.add(std::move(one.finding.what), std::move(one.finding.where),
                       std::move(one.finding.sentence));
        }
    }

private:
    static constexpr std::size_t most = 100'000;
    struct One {
        std::size_t place;
        Of of;
        Finding finding;
    };
    std::vector<One> all_;
};

EventName name_of(const StoredEvent& event) {
    return {0, event.case_id, event.case_seq, event.seq, event.kind};
}

std::string numbered(const EventName& event, const Report& report) {
    return "Event " + std::to_string(event.case_seq) + " of case " + report.name(event.case_id) +
           " (number " + std::to_string(event.seq) + ", " + event.kind + ")";
}

/// What is wrong with where an event stands; called only when something is.
void tell_place(std::size_t place, const StoredEvent& event, const Link& last, const Report& report,
                Said& said) {
    const auto name = report.name(event.case_id);
    const auto where = hex(event.case_id);
    if (event.case_seq <= last.case_seq) {
        said.add(place, Said::Of::place,
                 {"order", where, numbered(name_of(event), report) + " stands in the wrong place."});
    } else if (event.case_seq != last.case_seq + 1) {
        const std::string first = std::to_string(last.case_seq + 1);
        const std::string end = std::to_string(event.case_seq - 1);
        said.add(place, Said::Of::place,
                 {"missing-event", where,
                  first == end ? "Event " + first + " of case " + name + " is missing."
                               : "Events " + first + " to " + end + " of case " + name + " are missing."});
    }
    if (last.case_seq > 0 && event.case_seq > last.case_seq && event.kiosk == last.kiosk &&
        event.seq <= last.seq) {
        said.add(
            place, Said::Of::place,
            {"order", where, numbered(name_of(event), report) + " was written before the one it follows."});
    }
}

bool stands_right(const StoredEvent& event, const Link& last) {
    return event.case_seq == last.case_seq + 1 &&
           (last.case_seq == 0 || event.kiosk != last.kiosk || event.seq > last.seq);
}

}  // namespace

Counted check_chains(Database& db, bool json, Report& report) {
    // In the order of writing the file is read from front to back; several kiosks may take turns in one case,
    // and then only the order of the cases follows each chain.
    const KioskIds kiosks = read_kiosk_ids(db);
    const std::string order =
        kiosks.size() < 2 ? "ORDER BY j.kiosk, j.seq" : "ORDER BY j.case_id, j.case_seq";
    Statement rows = db.prepare(select_events + order);
    Said said;
    HashBlocks blocks{[&](const EventName& event) {
        said.add(event.place, Said::Of::chain,
                 {"chain", hex(event.case_id),
                  numbered(event, report) + " was changed after it was written" +
                      (event.case_seq > 1 ? ", or the event before it was." : ".")});
    }};
    Counted counted;
    std::unordered_map<Id16, Link, FirstBytes> cases;
    StoredEvent event;
    for (std::size_t place = 0; rows.next(); ++place) {
        ++counted.events;
        if (!read_event(rows, kiosks, event)) {
            said.add(
                place, Said::Of::place,
                {"row", "journal", "An event near number " + std::to_string(event.seq) + " cannot be read."});
            continue;
        }
        Link& last = cases[event.case_id];
        if (!stands_right(event, last)) {
            tell_place(place, event, last, report, said);
        }
        blocks.add(place, last.hash, event);
        if (json && !nlohmann::json::accept(event.payload)) {
            said.add(place, Said::Of::json,
                     {"json", hex(event.case_id),
                      numbered(name_of(event), report) + " does not hold well-formed JSON."});
        }
        last = Link{event.hash, event.case_seq, event.kiosk, event.seq};
    }
    blocks.finish();
    said.tell(report);
    if (!rows.done()) {
        report.add("read", "journal", "Reading the events broke off: " + words_for(rows.trouble()) + ".");
    }
    counted.cases = static_cast<std::int64_t>(cases.size());
    return counted;
}

}  // namespace brimline::store
