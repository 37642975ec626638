// The sub-commands of the command line: one file each. Every one adds itself to the parser and leaves what to
// run.
#pragma once
#include <CLI/CLI.hpp>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>

#include "core/desk/desk.h"
#include "core/store/finding.h"
#include "core/store/journal.h"
#include "core/units/refusal.h"

namespace brimline::desk {

/// 0 done, 1 refused or damaged or different from expected, 2 bad usage or malformed input, 3 the store
/// failed.
using Run = std::function<int()>;

void add_script(CLI::App& app, Run& run);
void add_show(CLI::App& app, Run& run);
void add_export(CLI::App& app, Run& run);
void add_package(CLI::App& app, Run& run);
void add_import(CLI::App& app, Run& run);
void add_verify(CLI::App& app, Run& run);
void add_people(CLI::App& app, Run& run);
void add_policy(CLI::App& app, Run& run);
void add_rules(CLI::App& app, Run& run);
void add_register(CLI::App& app, Run& run);
void add_backup(CLI::App& app, Run& run);
void add_self_test(CLI::App& app, Run& run);
void add_audit(CLI::App& app, Run& run);
void add_print(CLI::App& app, Run& run);
void add_keys(CLI::App& app, Run& run);

/// $XDG_DATA_HOME/brimline, else .local/share/brimline in the home folder.
[[nodiscard]] std::filesystem::path default_data();
/// Adds --data to a sub-command.
void add_data_option(CLI::App& command, std::filesystem::path& data);
/// Whether this person is here and keeps the kiosk: a coordinator or an installer.
[[nodiscard]] bool keeps_the_kiosk(const Desk& desk, const std::string& id);
/// One sentence to standard error; returns the code, so that a caller can end with it.
int complain(const std::string& say, int code);
/// Says on standard error that the copy of a running kiosk was read, and how old it is; nothing otherwise.
void tell_copy(const std::optional<store::Copied>& copied);
/// A whole file or standard input ("-"). Errors: one sentence.
[[nodiscard]] Expected<std::string> read_text(const std::string& file);

}  // namespace brimline::desk
