// A store of many cases for tests and benches of exports: the sealed cases of a small store again and again,
// each with an id, a name and a record number of its own, written through the journal as one command a case.
// Usage: many_cases SOURCE TARGET HOW_MANY.
#include <fmt/format.h>

#include <map>

#include "app/loop/room.h"
#include "core/store/clock.h"

namespace {

using namespace brimline;

/// A sealed case of the source with all that it needs to be written again.
struct Pattern {
    std::vector<store::StoredEvent> rows;
    store::SealedRow sealed;
    std::optional<store::BalloonRow> balloon;
};

std::vector<Pattern> patterns_of(store::Journal& source, const Reading& reading) {
    std::map<store::Id16, store::BalloonRow> balloons;
    for (const auto& row : source.balloons().rows) {
        balloons[row.case_id] = row;
    }
    std::vector<Pattern> patterns;
    for (const auto& row : reading.sealed) {
        const auto& state = reading.memory.desk.cases.at(store::hex(row.case_id));
        const auto balloon = balloons.find(row.case_id);
        const bool tied = state.entry.has_value() || (balloon != balloons.end() && balloon->second.out_case);
        if (row.addendum == 0 && !tied) {
            patterns.push_back({source.events_of(row.case_id).rows, row,
                                balloon == balloons.end() ? std::nullopt : std::optional{balloon->second}});
        }
    }
    return patterns;
}

std::string replaced(std::string text, const std::string& old, const std::string& now) {
    for (auto at = text.find(old); at != std::string::npos; at = text.find(old, at + now.size())) {
        text.replace(at, old.size(), now);
    }
    return text;
}

/// The payload with the names and numbers of the copy.
std::string rewritten(const store::StoredEvent& row, const store::Id16& id, const std::string& name,
                      const store::SealRequest& seal, const std::map<std::int64_t, std::int64_t>& seqs) {
    auto payload = parse_json(row.payload).value_or(Json::object());
    if (row.kind == Booked::spec.name) {
        payload["id"] = store::hex(id);
        payload["name"] = name;
    } else if (row.kind == Sealed::spec.name) {
        payload["number"] = seal.number;
        payload["hash"] = store::hex(store::blake2b(seal.body));
    }
    for (const char* reference : {"entry", "event"}) {
        if (payload.contains(reference) && payload[reference].is_number_integer()) {
            const auto found = seqs.find(payload[reference].get<std::int64_t>());
            payload[reference] = found == seqs.end() ? payload[reference].get<std::int64_t>() : found->second;
        }
    }
    return payload.dump();
}

store::Batch copy_of(const Pattern& pattern, int n, std::int64_t next_seq, store::Chance& chance) {
    store::Batch batch;
    batch.command = chance.id();
    const auto id = chance.id();
    const auto number = fmt::format("R-2026-{:04}", n);
    batch.seal = store::SealRequest{number, id, 0, pattern.sealed.through_case_seq,
                                    replaced(pattern.sealed.body, pattern.sealed.number, number)};
    std::map<std::int64_t, std::int64_t> seqs;
    for (const auto& row : pattern.rows) {
        seqs[row.seq] = next_seq++;
    }
    for (const auto& row : pattern.rows) {
        store::NewEvent event = row;
        event.case_id = id;
        event.payload = rewritten(row, id, fmt::format("Y{}", n), *batch.seal, seqs);
        batch.events.push_back(std::move(event));
    }
    if (pattern.balloon) {
        batch.balloons.push_back(*pattern.balloon);
        batch.balloons.back().case_id = id;
    }
    return batch;
}

/// People and policy, as one command.
store::Batch begun(store::Journal& source, const Reading& reading, const store::Id16& kiosk,
                   store::Chance& chance) {
    store::Batch batch;
    batch.command = chance.id();
    for (const auto& row : reading.rows) {
        if (row.case_id == reading.kiosk.id) {
            batch.events.push_back(row);
            batch.events.back().case_id = kiosk;
        }
    }
    for (const auto& person : source.people().rows) {
        batch.people.push_back(
            {person.id, person.name, person.pin_hash, person.roles, person.active, person.one_time});
    }
    return batch;
}

int run(const std::filesystem::path& from, const std::filesystem::path& to, int how_many) {
    const auto reading = read_store(from);
    auto source = store::Journal::open(from, store::Mode::read_only);
    auto target = store::Journal::open(to, store::Mode::read_write);
    if (!reading || !source || !target) {
        fmt::print(stderr, "many_cases: a store cannot be opened\n");
        return 1;
    }
    store::SystemChance chance;
    auto batch = begun(*source, *reading, target->kiosk().id, chance);
    const auto patterns = patterns_of(*source, *reading);
    auto next = static_cast<std::int64_t>(batch.events.size()) + 1;
    auto done = target->append(batch);
    for (int n = 1; done && n <= how_many; ++n) {
        const auto& pattern = patterns[static_cast<std::size_t>(n) % patterns.size()];
        done = target->append(copy_of(pattern, n, next, chance));
        next += static_cast<std::int64_t>(pattern.rows.size());
    }
    if (!done) {
        fmt::print(stderr, "many_cases: {}\n", done.error().say);
    }
    return done ? 0 : 1;
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 4) {
        fmt::print(stderr, "Usage: many_cases SOURCE TARGET HOW_MANY\n");
        return 2;
    }
    return run(argv[1], argv[2], std::stoi(argv[3]));
}
