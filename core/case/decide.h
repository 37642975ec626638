// Deciding: what a command does to a case. It becomes events, or a question, or a refusal; never a change by
// itself. What physically happened is recorded, with a hold beside it where something is odd.
#pragma once
#include "core/case/codes.h"
#include "core/case/figures.h"
#include "core/desk/desk.h"

namespace brimline {

/// What the store found when it compared a PIN. Core never sees PINs beyond their number of digits.
enum class PinCheck : std::uint8_t { not_asked, right, wrong, locked };

/// Everything a decision may look at beside the case and the command.
struct Setting {
    const Policy& policy;
    const Zone& zone;
    const Desk& desk;
    std::int64_t tick_us{0};  // the monotonic tick of this entry
    std::string boot;
    std::string new_case_id;  // 32 fresh hex digits, for a command that books
    PinCheck pin{PinCheck::not_asked};
    std::string pin_say;  // "2 tries left", "locked until 09:41"
    bool practice{false};
    const std::set<std::string>* names_taken{nullptr};  // family names of today's real patients, for practice
};

/// An event to be written; `happened` only where it is not the command's own moment.
struct NewEvent {
    Event event;
    std::optional<Instant> happened;
    bool by_kiosk{false};            // made by time, not by a person
    std::string case_id{};           // hex id of another case's chain; empty = the command's own
    std::optional<Stamp> entered{};  // of an entry of practice: who, whose word and how, as it was there
};
/// The stamp with which it will stand in the journal under this number; tick and boot are the caller's.
[[nodiscard]] Stamp stamp_of(const NewEvent& event, std::int64_t seq, const Command& command, Role role);
/// A question to the person. `recorded` ones stand in the journal, others must be sent again.
struct Asked {
    std::string question, id, field, say;
};
struct Outcome {
    std::vector<NewEvent> events;
    std::optional<Asked> asked;
    std::optional<Refusal> refusal;
    std::vector<std::string> proviso_ids;
};

/// The PINs that go with a statement, and whose they are. None where one is missing: then nothing is proved.
struct PinNeed {
    std::string person, pin;
};
[[nodiscard]] std::vector<PinNeed> pins_needed(const Command& command, const CaseState* state,
                                               const Desk& desk);
/// A statement that is the physician's word names whose word it is, unless a physician enters it.
[[nodiscard]] bool lacks_said_by(const Command& command, const Desk& desk);
/// The role in which a person enters this.
[[nodiscard]] Role acting_role(const Command& command, const Desk& desk);

/// A command about one case. `state` is that case as it stands.
[[nodiscard]] Outcome decide(const CaseState& state, const Command& command, const Setting& setting);
/// A command that belongs to no case yet: people, booking, start now, recall.
[[nodiscard]] Outcome decide_desk(const Command& command, const Setting& setting);
/// True when the command goes to decide_desk.
[[nodiscard]] bool is_desk_command(const Statement& says);

/// What time alone has ended by `now` (holds whose minute has come), to be written before anything else.
[[nodiscard]] std::vector<NewEvent> ended_by_time(const CaseState& state, Instant now);

}  // namespace brimline
