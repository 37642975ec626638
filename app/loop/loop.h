// The one way round: a command is decided on the state, becomes one durable batch, and only then moves the
// state. Scripts, the command line and the kiosk all go through here.
#pragma once
#include <functional>
#include <map>
#include <memory>
#include <set>

#include "core/case/codec.h"
#include "core/case/decide.h"
#include "core/store/clock.h"
#include "core/store/event.h"
#include "core/store/ids.h"
#include "core/store/pins.h"

namespace brimline {

/// What a command came to, in the words of the script language.
struct Reply {
    enum class Result : std::uint8_t { recorded, asked, refused, pending } result{};
    std::vector<std::int64_t> seqs;
    std::string hash;
    std::vector<std::string> raised, ended, opened, closed, proviso_ids;
    std::optional<Asked> asked;
    std::optional<Refusal> refusal;
    std::string say;  // of a pending answer
};

/// The moment of an entry on both clocks.
struct EntryTime {
    Instant at;
    std::int64_t tick_us{0};
    std::string boot;
    bool script{false};
};

/// Policy, its zone and hash, as they are in force.
struct PolicyInForce {
    Policy policy;
    Zone zone;
    std::string hash;
};

/// Checks a PIN against the store. Core only hears what came of it.
using PinChecker =
    std::function<tl::expected<store::PinAnswer, std::string>(const PinNeed& need, Instant now)>;

/// A command that was decided: what to write, and what its events are.
struct Prepared {
    Reply answer;                       // complete but for the numbers and the hash
    std::optional<store::Batch> batch;  // nothing to write when empty
    std::vector<std::pair<std::string, Recorded>>
        events;  // case id and event, with the numbers they will get
};

/// Decides commands on a desk and lays out batches; owns no disk. The caller writes the batch, then calls
/// `settle`.
class Loop {
public:
    Loop(Desk desk, PolicyInForce in_force, store::Chance& chance);

    /// The state that what was written so far adds up to.
    [[nodiscard]] const Desk& desk() const { return confirmed_; }
    /// The same, with the commands that are still on their way to the disk.
    [[nodiscard]] const Desk& ahead() const { return ahead_; }
    [[nodiscard]] const Policy& policy() const { return in_force_.policy; }
    [[nodiscard]] const Zone& zone() const { return in_force_.zone; }
    [[nodiscard]] const PolicyInForce& in_force() const { return in_force_; }
    /// Only patients of practice from here on, none with one of these family names.
    void set_practice(bool practice, std::set<std::string> names_taken = {}) {
        practice_ = practice;
        names_taken_ = std::move(names_taken);
    }

    /// The batch that records the policy, when the store has none yet.
    [[nodiscard]] std::optional<Prepared> adopt_policy_first(const EntryTime& time);
    /// Puts another policy in force from here on, by this person.
    [[nodiscard]] Prepared adopt_policy(PolicyInForce next, const std::string& by, Role role,
                                        const EntryTime& time);
    /// A person with a PIN that another store of this kiosk keeps, for practice.
    [[nodiscard]] Prepared bring_person(const PersonKnown& known, const store::Person& kept,
                                        const EntryTime& time);
    /// What the kiosk itself did, beside every case; or a person beside it.
    [[nodiscard]] Prepared note(Event event, const EntryTime& time, const std::string& by = "kiosk");
    /// What time alone has ended, as a batch of its own; empty when there is nothing.
    [[nodiscard]] std::optional<Prepared> ended_by_time(const EntryTime& time);
    /// A note that the wall clock moved against the tick since the last entry; empty when it did not.
    [[nodiscard]] std::optional<Prepared> clock_jump(const EntryTime& time);
    /// Decides one command on the state ahead.
    [[nodiscard]] Prepared prepare(const Command& command, const EntryTime& time, const PinChecker& pins);
    /// The batch is on disk: the state moves.
    void settle(const Prepared& prepared);
    /// Throws away what was decided ahead (after a reopened store).
    void reset(Desk desk);

private:
    struct Writer;
    [[nodiscard]] Prepared lay_out(std::vector<NewEvent> events, const Command& command, Role role,
                                   std::string case_id, const EntryTime& time);
    /// Cases whose line of the register an entry in this case may change.
    [[nodiscard]] std::vector<std::string> touched_by(const std::string& case_id) const;
    [[nodiscard]] std::map<std::string, store::BalloonRow> rows_of(const std::vector<std::string>& ids) const;
    Desk confirmed_, ahead_;
    PolicyInForce in_force_;
    store::Chance& chance_;
    bool practice_{false};
    std::set<std::string> names_taken_;
};

/// Whether the command is malformed in the light of the people (the physician's word without "said_by"), or
/// of the entry that a correction names.
[[nodiscard]] std::optional<Malformed> malformed_in_context(const Command& command, const Desk& desk);

}  // namespace brimline
