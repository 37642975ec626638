// brimline register: balloons in place, what is due, whom to call. It changes nothing in the store.
#include <fmt/format.h>

#include "app/desk/commands.h"
#include "app/loop/room.h"
#include "core/record/register_sheet.h"
#include "core/store/clock.h"

namespace brimline::desk {
namespace {

struct Options {
    std::filesystem::path data;
    std::string on, lot, format{"table"};
    bool all{false};
};

int run_register(const Options& options) {
    const auto on = options.on.empty() ? std::nullopt : parse_date(options.on);
    if (!options.on.empty() && !on) {
        return complain(fmt::format("--on {}: a date that exists is needed, as 2026-11-25.", options.on), 2);
    }
    auto reading = read_store(options.data);
    if (!reading) {
        return complain(reading.error().say, reading.error().exit_code);
    }
    tell_copy(reading->copied);
    const auto& desk = reading->memory.desk;
    const auto& zone = reading->in_force.zone;
    store::SystemClock clock;
    const auto now = desk.scripts_only ? desk.last_at : clock.utc();
    const RegisterAsk ask{desk,
                          reading->in_force.policy,
                          zone,
                          on.value_or(zone.date_of(now)),
                          options.lot.empty() ? std::nullopt : std::optional{options.lot},
                          options.all};
    const auto& format = options.format;
    fmt::print("{}", format == "json"  ? register_json(ask).dump(2) + "\n"
                     : format == "csv" ? register_csv(ask)
                     : format == "ics" ? register_calendar(ask, now)
                                       : register_table(ask));
    for (const auto& finding : reading->damage) {
        complain(finding.sentence, 1);
    }
    return reading->damage.empty() ? 0 : 1;
}

}  // namespace

void add_register(CLI::App& app, Run& run) {
    auto options = std::make_shared<Options>();
    auto* command = app.add_subcommand("register", "Balloons in place, what is due, whom to call");
    add_data_option(*command, options->data);
    command->add_option("--on", options->on, "As if today were that day")->type_name("DATE");
    command->add_option("--lot", options->lot, "Everything of one lot, closed entries and used devices too");
    command->add_flag("--all", options->all, "Closed entries too");
    command->add_option("--format", options->format, "How it is written")
        ->check(CLI::IsMember({"table", "csv", "json", "ics"}));
    command->callback([options, &run] { run = [options] { return run_register(*options); }; });
}

}  // namespace brimline::desk
