// Driving decide and evolve from script lines.
#include "tests/core/bed.h"

#include <stdexcept>

#include "core/case/codec.h"
#include "core/desk/register.h"

namespace brimline::test {
namespace {

constexpr const char* good_pin = "123456";

}  // namespace

Instant time_of(const std::string& clock) {
    const auto text = "2026-11-25T" + clock + (clock.size() == 5 ? ":00" : "") + "Z";
    const auto t = parse_instant(text);
    if (!t) {
        throw std::runtime_error{"no such time: " + text};
    }
    return *t;
}

Bed::Bed(Policy policy) : policy_{std::move(policy)} { desk.kiosk_id = "k"; }

const CaseState& Bed::state(const std::string& name) const {
    const auto* found = desk.find_case(name);
    if (found == nullptr) {
        throw std::runtime_error{"no case " + name};
    }
    return *found;
}

void Bed::fold(const std::vector<NewEvent>& events, const Command& command, Role role,
               const std::string& case_id) {
    std::int64_t seq = desk.last_seq;
    first_of_last_ = seq + 1;
    for (const auto& one : events) {
        auto stamp = stamp_of(one, ++seq, command, role);
        stamp.tick_us = command.at.in_us();
        stamp.boot = "b";
        // Through its written form, as the journal would give it back.
        auto event = read_event(kind_of(one.event), payload_of(stamp, one.event), stamp);
        if (!event) {
            throw std::runtime_error{event.error().field + " " + event.error().say};
        }
        evolve(desk, one.case_id.empty() ? case_id : one.case_id, Recorded{stamp, *event});
    }
}

Outcome Bed::say(const std::string& line) {
    const auto json = parse_json(line);
    if (!json) {
        throw std::runtime_error{line + ": " + json.error().say};
    }
    const auto read = read_command(*json);
    if (!read) {
        throw std::runtime_error{line + ": " + read.error().field + " " + read.error().say};
    }
    return say(read->command);
}

Outcome Bed::say(const Command& command) {
    const bool for_desk = is_desk_command(command.says);
    const auto* state = for_desk ? nullptr : case_addressed(command, desk);
    if (!for_desk && state == nullptr) {
        throw std::runtime_error{"no case " + command.case_name};
    }
    if (state != nullptr) {
        Command by_time;
        by_time.at = command.at;
        fold(ended_by_time(*state, command.at), by_time, Role::kiosk, state->id);
        state = case_addressed(command, desk);
    }
    Setting setting{policy_, zone_, desk, command.at.in_us(), "b", "case" + std::to_string(++cases_),
                    {},      "",    false};
    for (const auto& need : pins_needed(command, state, desk)) {
        const bool right = need.pin == good_pin && setting.pin != PinCheck::wrong;
        setting.pin = right ? PinCheck::right : PinCheck::wrong;
    }
    auto outcome = for_desk ? decide_desk(command, setting) : decide(*state, command, setting);
    const bool books =
        !outcome.events.empty() && std::holds_alternative<Booked>(outcome.events.front().event);
    fold(outcome.events, command, acting_role(command, desk),
         books      ? setting.new_case_id
         : for_desk ? desk.kiosk_id
                    : state->id);
    return outcome;
}

Outcome Bed::at(const std::string& time, const std::string& fields) {
    const auto text = instant_text(time_of(time), zone_);
    const bool has_case = fields.find("\"case\"") != std::string::npos;
    return say("{\"at\":\"" + text + "\"," + (has_case ? "" : "\"case\":\"A\",") + fields + "}");
}

void Bed::pass_to(const std::string& time) {
    for (const auto& [name, id] : desk.case_ids) {
        Command by_time;
        by_time.at = time_of(time);
        fold(ended_by_time(desk.cases[id], by_time.at), by_time, Role::kiosk, id);
    }
}

std::vector<std::string> Bed::standing(const std::string& name) const {
    std::vector<std::string> codes;
    for (const auto& hold : state(name).holds) {
        if (hold.stands()) {
            codes.push_back(hold.code);
        }
    }
    return codes;
}

std::vector<std::string> Bed::open_items(const std::string& name) const {
    std::vector<std::string> codes;
    for (const auto& item : state(name).items) {
        if (!item.closed) {
            codes.push_back(item.code);
        }
    }
    return codes;
}

std::vector<std::string> Bed::prompt_codes(const std::string& time, const std::string& name) const {
    std::vector<std::string> codes;
    for (const auto& prompt : prompts(state(name), time_of(time), policy_)) {
        codes.push_back(prompt.code);
    }
    return codes;
}

Bed bed_with_case(Policy policy) {
    Bed bed{std::move(policy)};
    const auto person = [&](const char* id, const char* name, const char* role) {
        bed.at("07:00", std::string{R"("by":"pia","do":"add-person","id":")"} + id + R"(","name":")" + name +
                            R"(","roles":[")" + role + R"("],"pin":"123456")");
    };
    person("pia", "Pia Holm", "coordinator");
    person("ilse", "Dr Ilse Varga", "physician");
    person("tomas", "Tomas Reyle", "assistant");
    person("noor", "Dr Noor Adeyemi", "sedation-provider");
    person("wren", "Wren Castell", "nurse");
    bed.at("07:30",
           R"("by":"pia","do":"book","kind":"placement","patient":{"number":"HM-4471","family_name":"Quill",)"
           R"("given_name":"Marta","born":"1986-03-14","sex_at_birth":"f"},)"
           R"("planned":"2026-11-25T09:30:00Z","room":"Room 1")");
    return bed;
}

Bed bed_ready_to_fill(Policy policy) {
    auto bed = bed_with_case(std::move(policy));
    bed.at("08:44", R"("by":"wren","do":"identity","identifiers":["name","born"])");
    bed.at("08:45", R"("by":"wren","do":"consent","signed":true)");
    bed.at("08:46", R"("by":"wren","do":"allergies","list":[{"substance":"latex","reaction":"rash"}])");
    bed.at("08:47",
           R"("by":"wren","do":"measure","weight_kg":96.4,"weight_basis":"measured","height_cm":167)");
    bed.at("09:28:15", R"("by":"noor","do":"start-sedation")");
    bed.at("09:31:40", R"("by":"tomas","do":"scope-in")");
    bed.at("09:34:10", R"("by":"tomas","said_by":"ilse","do":"go")");
    bed.at("09:35:20",
           R"("by":"tomas","do":"device","raw":"(01)02001234026413(17)280531(10)DW-2641(21)0007731")");
    bed.at("09:35:40",
           R"("by":"tomas","said_by":"ilse","do":"plan","band_low_ml":500,"band_high_ml":600,"aim_ml":500)");
    bed.at("09:36:20", R"("by":"tomas","do":"balloon-passed")");
    bed.at("09:37:20", R"("by":"tomas","said_by":"ilse","do":"position-seen")");
    bed.at("09:37:50", R"("by":"tomas","do":"ready-to-fill")");
    return bed;
}

}  // namespace brimline::test
