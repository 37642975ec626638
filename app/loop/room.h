// Room: a loop with its journal, for one caller that may wait for the disk (scripts and the command line).
#pragma once
#include <filesystem>
#include <map>
#include <set>

#include "app/loop/loop.h"
#include "app/loop/memory.h"
#include "core/store/journal.h"

namespace brimline {

/// Why a room could not be opened: what to print, and the program's exit code for it.
struct RoomFault {
    std::string say;
    int exit_code{3};
};

class Room {
public:
    struct Options {
        std::filesystem::path data;
        std::optional<std::filesystem::path>
            policy;  // a clinic's folder; what the journal recorded wins over it
        bool practice{false};
        std::set<std::string> names_taken{};  // in practice: family names that no patient of it may have
    };
    /// Opens the store for writing, folds it, and records the policy as the first command of a new store.
    [[nodiscard]] static tl::expected<Room, RoomFault> open(const Options& options, store::Clock& clock,
                                                            store::Chance& chance);

    /// Runs one command: decided, durable, then answered. `time` is the moment of entry.
    [[nodiscard]] Reply run(const Command& command, const EntryTime& time);
    /// Puts another policy in force. Errors: a sentence.
    [[nodiscard]] Reply adopt(PolicyInForce next, const std::string& by, const EntryTime& time);
    /// Writes what the kiosk itself did.
    [[nodiscard]] Reply note(Event event, const EntryTime& time, const std::string& by = "kiosk");
    /// Replaces the signing key; the old one vouches for the new, both stay listed. Errors: a pending reply.
    [[nodiscard]] Reply rotate_key(const std::string& by, const EntryTime& time);
    [[nodiscard]] EntryTime now(store::Clock& clock) const;
    [[nodiscard]] Loop& loop() { return *loop_; }
    [[nodiscard]] store::Journal& journal() { return *journal_; }

private:
    Room(store::Journal journal, Loop loop);
    /// Writes one prepared batch. False when its outcome is not known.
    [[nodiscard]] bool write(Prepared& prepared);
    [[nodiscard]] bool write_what_time_ended(const EntryTime& time);
    std::unique_ptr<store::Journal> journal_;
    std::unique_ptr<Loop> loop_;
    std::string pending_say_;
};

/// Everything that a start reads: the events folded, and what does not fit them, in one sentence (empty = all
/// fits).
struct Started {
    Memory memory;
    std::string wrong;
};
[[nodiscard]] Started start_from(store::Journal& journal);

/// The PIN rule of a policy, as the store takes it.
[[nodiscard]] store::PinRule pin_rule(const Policy& policy);
/// The policy in force in a store: the recorded one (over the house files, where it is of an earlier version
/// and lacks a key), else the clinic's folder over the house files.
[[nodiscard]] tl::expected<PolicyInForce, RoomFault> policy_in_force(
    const Desk& desk, const std::optional<std::filesystem::path>& folder);

/// A store read without writing: the state as it stands, or as it stood at a moment of entry.
struct Reading {
    Memory memory;
    PolicyInForce in_force;
    store::Kiosk kiosk;
    std::vector<store::StoredEvent> rows;
    std::vector<store::SealedRow> sealed;
    std::map<std::string, store::Key32> keys;  // that sealed a record, by its number
    std::vector<store::Finding> damage;
    std::optional<store::Copied> copied;  // the copy of a running kiosk was read
};
[[nodiscard]] tl::expected<Reading, RoomFault> read_store(const std::filesystem::path& data,
                                                          std::optional<Instant> until = std::nullopt);

}  // namespace brimline
