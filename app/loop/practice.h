// Practice: a rehearsal on a store of its own, with the people and the policy of the real one and patients
// that it brings along. Source: 10-decisions F9.
#pragma once
#include "app/loop/live_room.h"

namespace brimline {

/// The case because of which practice may not begin: somebody is here and has not gone home. Empty = none.
[[nodiscard]] std::string case_in_hand(const Desk& desk);
/// Opens the store of practice (options.room.data) beside the real one: its policy and people follow the real
/// ones, and new patients stand on its list, numbered on from those before. Errors: a sentence, when the
/// folder holds real patients or cannot be opened.
[[nodiscard]] tl::expected<std::unique_ptr<LiveRoom>, RoomFault> open_practice(LiveRoom& real,
                                                                               LiveRoom::Options options,
                                                                               store::Clock& clock,
                                                                               store::Chance& chance);
/// The command with which a case of practice becomes a case of the real store, under this name there.
[[nodiscard]] Command as_real_command(const CaseState& practised, const std::string& by,
                                      const std::string& name);

}  // namespace brimline
