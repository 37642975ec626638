// Opening practice and leaving it with what was real.
#include "app/loop/practice.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>

#include "app/loop/policy_source.h"

namespace brimline {
namespace {

constexpr std::string_view own_number = "P-";

std::set<std::string> names_of_today(const Desk& desk, const Zone& zone, Instant now) {
    std::set<std::string> names;
    for (const auto& [id, state] : desk.cases) {
        const bool today = state.planned && zone.date_of(*state.planned) == zone.date_of(now);
        if (today && state.patient.family_name) {
            names.insert(*state.patient.family_name);
        }
    }
    return names;
}

tl::expected<Json, RoomFault> patients_file() {
    const auto assets = assets_folder();
    if (!assets) {
        return tl::unexpected{RoomFault{assets.error().say, 3}};
    }
    const auto path = *assets / "practice" / "patients.json";
    std::ifstream file{path};
    const std::string text{std::istreambuf_iterator<char>{file}, {}};
    auto list = parse_json(text);
    if (!list || !list->is_array()) {
        return tl::unexpected{RoomFault{fmt::format("{} is not a list of patients.", path.string()), 3}};
    }
    return std::move(*list);
}

void bring_people(LiveRoom& practice, const Desk& real, const std::vector<store::Person>& theirs,
                  const std::vector<store::Person>& ours) {
    for (const auto& kept : theirs) {
        const auto* known = real.person(kept.id);
        const bool same = std::any_of(ours.begin(), ours.end(), [&](const store::Person& one) {
            return one.id == kept.id && one.pin_hash == kept.pin_hash && one.roles == kept.roles;
        });
        if (known != nullptr && kept.active && !same) {
            practice.bring_person(*known, kept);
        }
    }
}

/// Books the patients that practice brings along, in the name of somebody who may.
void bring_patients(LiveRoom& practice, const Json& list) {
    const auto& desk = practice.ahead();
    const auto by = desk.first_with(Role::coordinator) ? desk.first_with(Role::coordinator)
                                                       : desk.first_with(Role::nurse);
    if (!by) {
        return;
    }
    auto number = desk.cases.size();
    const auto& rooms = practice.policy().clinic.rooms;
    for (const auto& one : list) {
        const auto name = fmt::format("{}{:04}", own_number, ++number);
        Json patient = one;
        patient.erase("kind");
        patient["number"] = name;
        const Json line{{"by", *by},
                        {"case", name},
                        {"do", "book"},
                        {"kind", one.value("kind", "placement")},
                        {"patient", patient},
                        {"planned", instant_text(practice.now(), practice.zone())},
                        {"room", rooms.empty() ? std::string{"-"} : rooms.front()}};
        if (const auto read = read_command(line)) {
            practice.say(read->command);
        }
    }
}

bool holds_real_patients(const Desk& desk) {
    return std::any_of(desk.cases.begin(), desk.cases.end(), [](const auto& one) {
        const auto& number = one.second.patient.number;
        return !number || number->rfind(own_number, 0) != 0;
    });
}

}  // namespace

std::string case_in_hand(const Desk& desk) {
    for (const auto& [id, state] : desk.cases) {
        const bool here =
            state.started_now || !state.entered.empty() || state.sedation_start || state.scope_in.has_value();
        const bool over = state.sealed || state.discharged || state.abandoned || state.cancelled;
        if (here && !over) {
            return state.name;
        }
    }
    return "";
}

tl::expected<std::unique_ptr<LiveRoom>, RoomFault> open_practice(LiveRoom& real, LiveRoom::Options options,
                                                                 store::Clock& clock, store::Chance& chance) {
    auto list = patients_file();
    if (!list) {
        return tl::unexpected{list.error()};
    }
    const auto theirs = real.people();
    if (!theirs) {
        return tl::unexpected{RoomFault{theirs.error(), 3}};
    }
    options.room.practice = true;
    options.room.names_taken = names_of_today(real.ahead(), real.zone(), real.now());
    auto opened = LiveRoom::open(std::move(options), clock, chance);
    if (!opened) {
        return opened;
    }
    auto& practice = **opened;
    if (holds_real_patients(practice.desk())) {
        return tl::unexpected{RoomFault{"The folder of practice holds real patients.", 1}};
    }
    const auto ours = practice.people();
    if (!ours) {
        return tl::unexpected{RoomFault{ours.error(), 3}};
    }
    practice.follow_policy(real.in_force());
    bring_people(practice, real.desk(), *theirs, *ours);
    bring_patients(practice, *list);
    return opened;
}

Command as_real_command(const CaseState& practised, const std::string& by, const std::string& name) {
    std::vector<Recorded> entries;
    for (const auto& kept : practised.history) {
        entries.push_back(kept.first);
    }
    Command command;
    command.by = by;
    command.case_name = name;
    command.says = WasReal{practised.kind, practised.name, entries_text(entries)};
    return command;
}

}  // namespace brimline
