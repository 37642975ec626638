// brimline verify: every chain, seal, signature, sequence and projection; names what is damaged. Changes
// nothing.
#include "core/store/verify.h"

#include <fmt/format.h>

#include "app/desk/commands.h"
#include "app/loop/memory.h"
#include "app/loop/policy_source.h"
#include "app/loop/projections.h"
#include "app/loop/rebuilt.h"
#include "app/loop/room.h"

namespace brimline::desk {
namespace {

/// Not damage: seal and hash hold, so the text is the one that was signed.
void tell_rebuilt(const Rebuilt& rebuilt) {
    if (rebuilt.same > 0) {
        fmt::print("Written anew from their events, {} sealed {} the same.\n", rebuilt.same,
                   rebuilt.same == 1 ? "record reads" : "records read");
    }
    if (const auto count = rebuilt.different.size(); count > 0) {  // all of them after an upgrade: one line
        fmt::print(
            "{} sealed {} laid out by another version of Brimline, {}{}; the text that was sealed counts.\n",
            count, count == 1 ? "record was" : "records were", rebuilt.different.front(),
            count == 1 ? "" : fmt::format(" to {}", rebuilt.different.back()));
    }
}

int run_verify(const std::filesystem::path& data) {
    store::VerifyOptions options;
    std::map<std::string, std::string> names;
    Rebuilt rebuilt;
    options.projections = [&](const std::vector<store::StoredEvent>& events, const store::Tables& tables) {
        rebuilt = rebuild_records(events, tables.kiosk.id, tables.sealed);
        return compare_projections(events, tables);
    };
    const auto report = store::verify(data, options);
    if (!report) {
        return complain(report.error().say + (report.error().next.empty() ? "" : " " + report.error().next),
                        3);
    }
    tell_copy(report->copied);
    for (const auto& finding : report->findings) {
        fmt::print("{}\n", finding.sentence);
    }
    if (!report->findings.empty()) {
        return complain(
            fmt::format("{} {} damaged. Keep the folder as it is; restore a backup or call for help.",
                        report->findings.size(), report->findings.size() == 1 ? "place is" : "places are"),
            1);
    }
    fmt::print("Nothing is damaged: {} events, {} chains, {} sealed records.\n", report->events,
               report->cases, report->sealed);
    tell_rebuilt(rebuilt);
    return 0;
}

}  // namespace

void add_verify(CLI::App& app, Run& run) {
    auto data = std::make_shared<std::filesystem::path>();
    auto* command = app.add_subcommand("verify", "Checks the whole store and names what is damaged");
    add_data_option(*command, *data);
    command->callback([data, &run] { run = [data] { return run_verify(*data); }; });
}

}  // namespace brimline::desk
