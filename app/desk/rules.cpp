// brimline rules: runs worked examples through the program's own rules, and lists rules and codes.
#include <fmt/format.h>

#include <map>
#include <memory>
#include <stdexcept>

#include "app/desk/commands.h"
#include "app/desk/rules/examples.h"
#include "app/desk/rules/rule.h"
#include "app/loop/policy_source.h"
#include "core/case/codes.h"
#include "core/label/gs1.h"
#include "core/store/zone_file.h"

namespace brimline::desk {
namespace {

struct Options {
    std::vector<std::string> files;
    std::filesystem::path policy;
    bool list = false, codes = false;
};

int list_rules() {
    for (const auto& rule : worked::all_rules()) {
        fmt::print("{}\n  inputs:  {}\n  outputs: {}\n  source:  {}\n", rule.id, rule.inputs, rule.outputs,
                   rule.source);
    }
    fmt::print("{} rules. \"?\" = may be absent; tenths = a decimal kept in tenths.\n",
               worked::all_rules().size());
    return 0;
}

int list_codes() {
    for (const auto& code : all_codes()) {
        fmt::print("{}: {}{}{}\n", code.code, code.say, code.next.empty() ? "" : " ", code.next);
    }
    for (const auto& [code, say] : label_codes()) {
        fmt::print("{}: {}\n", code, say);
    }
    return 0;
}

/// Zones of the system, each loaded once.
class SystemZones {
public:
    const Zone& operator()(const std::string& name) {
        auto known = zones_.find(name);
        if (known == zones_.end()) {
            auto zone = store::load_zone(name);
            if (!zone) {
                throw std::invalid_argument{zone.error().say + " " + zone.error().next};
            }
            known = zones_.emplace(name, std::move(*zone)).first;
        }
        return known->second;
    }

private:
    std::map<std::string, Zone> zones_;
};

int run_files(const Options& options) {
    const auto house = load_policy(options.policy.empty() ? std::nullopt : std::optional{options.policy});
    if (!house) {
        auto lines = fault_lines(house.error());
        lines.pop_back();
        return complain(lines, 2);
    }
    SystemZones system;
    const worked::Zones zones = [&](const std::string& name) -> const Zone& { return system(name); };
    int held = 0;
    int differ = 0;
    int unread = 0;
    for (const std::string& file : options.files) {
        const auto text = read_text(file);
        if (!text) {
            complain(text.error().say, 2);
            ++unread;
            continue;
        }
        const auto report = worked::run_examples(file, *text, *house, zones);
        for (const auto& line : report.failures) {
            fmt::print("{}\n", line);
        }
        for (const auto& line : report.malformed) {
            complain(line, 2);
        }
        held += report.held;
        differ += static_cast<int>(report.failures.size());
        unread += static_cast<int>(report.malformed.size());
    }
    fmt::print("{} examples: {} hold, {} differ, {} not read\n", held + differ + unread, held, differ,
               unread);
    return unread > 0 ? 2 : differ > 0 ? 1 : 0;
}

int run_rules(const Options& options) {
    if (options.list) {
        return list_rules();
    }
    if (options.codes) {
        return list_codes();
    }
    return options.files.empty()
               ? complain("Name at least one file of worked examples, or use --list or --codes.", 2)
               : run_files(options);
}

}  // namespace

void add_rules(CLI::App& app, Run& run) {
    auto options = std::make_shared<Options>();
    auto* command = app.add_subcommand("rules", "Runs worked examples through the rules of this program");
    command->add_option("FILE", options->files, "JSON files of worked examples; - is standard input");
    command->add_option("--policy", options->policy, "A clinic's policy folder over the house's figures")
        ->type_name("DIR");
    command->add_flag("--list", options->list, "Lists each rule with its inputs, outputs and source");
    command->add_flag("--codes", options->codes, "Lists every code of a refusal, hold or prompt");
    command->callback([options, &run] { run = [options] { return run_rules(*options); }; });
}

}  // namespace brimline::desk
