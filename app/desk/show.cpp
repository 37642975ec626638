// brimline show: the state of a case as JSON, now or as it stood at an instant.
#include "core/record/show.h"

#include <fmt/format.h>

#include "app/desk/commands.h"
#include "app/loop/room.h"
#include "core/store/clock.h"

namespace brimline::desk {
namespace {

struct Options {
    std::string name;
    std::filesystem::path data;
    std::string at;
};

/// What time alone has ended by then, as the kiosk would have written it.
CaseState with_time_passed(CaseState state, Instant now) {
    for (const auto& ended : ended_by_time(state, now)) {
        Stamp stamp;
        stamp.at = stamp.happened = ended.happened.value_or(now);
        stamp.by = "kiosk";
        evolve(state, {stamp, ended.event});
    }
    return state;
}

int run_show(const Options& options) {
    std::optional<Instant> at;
    if (!options.at.empty()) {
        at = parse_instant(options.at);
        if (!at) {
            return complain(
                fmt::format("--at {}: a time with its offset is needed, as 2026-11-25T09:38:23+00:00.",
                            options.at),
                2);
        }
    }
    auto reading = read_store(options.data, at);
    if (!reading) {
        return complain(reading.error().say, reading.error().exit_code);
    }
    tell_copy(reading->copied);
    const auto& desk = reading->memory.desk;
    const auto* state = desk.find_case(options.name);
    if (state == nullptr) {
        return complain(fmt::format("There is no case \"{}\"{}.", options.name, at ? " at that time" : ""),
                        1);
    }
    store::SystemClock clock;
    const auto now = at ? *at : desk.scripts_only ? desk.last_at : clock.utc();
    fmt::print("{}\n", show_case(with_time_passed(*state, now), desk, reading->in_force.policy,
                                 reading->in_force.zone, now)
                           .dump(2));
    for (const auto& finding : reading->damage) {
        complain(finding.sentence, 1);
    }
    return 0;
}

}  // namespace

void add_show(CLI::App& app, Run& run) {
    auto options = std::make_shared<Options>();
    auto* command = app.add_subcommand("show", "The state of a case as JSON");
    command->add_option("CASE", options->name, "Name of the case")->required();
    add_data_option(*command, options->data);
    command->add_option("--at", options->at, "As it stood at that instant")->type_name("TIME");
    command->callback([options, &run] { run = [options] { return run_show(*options); }; });
}

}  // namespace brimline::desk
