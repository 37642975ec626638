// The checks of a data folder, one function a topic; opening runs some of them and verify all. They only
// read, take any damage as an answer, and word it for people. Inside the store only.
#pragma once
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "core/store/finding.h"
#include "core/store/journal.h"
#include "core/store/sqlite.h"

namespace brimline::store {

/// Collects findings; after the first few hundred it only counts.
class Report {
public:
    explicit Report(std::function<std::string(const Id16&)> case_name = {})
        : case_name_{std::move(case_name)} {}
    void add(std::string what, std::string where, std::string sentence);
    /// How a case is called in a sentence.
    [[nodiscard]] std::string name(const Id16& case_id) const;
    [[nodiscard]] bool empty() const { return findings_.empty(); }
    /// The findings, with one more that says how many were left out.
    [[nodiscard]] std::vector<Finding> take();

private:
    static constexpr std::size_t most = 500;
    std::function<std::string(const Id16&)> case_name_;
    std::vector<Finding> findings_;
    std::size_t left_out_{0};
};

/// Application id and version of the file. A newer version is no damage: see is_newer.
void check_header(Database& db, Report& report);
[[nodiscard]] bool is_newer(Database& db);
/// Written by an earlier version: read as it is, and migrated before it is written to.
[[nodiscard]] bool is_older(Database& db);
void check_schema(Database& db, Report& report);
enum class Depth { quick, full };
/// SQLite's own check; `full` compares indexes and foreign keys too.
void check_file(Database& db, Depth depth, Report& report);
/// The file is as long as it says; only to be asked without a log, which may hold its last pages.
void check_length(Database& db, const std::filesystem::path& folder, Report& report);
/// No number is missing or out of order, and every command has all its parts.
void check_numbers(Database& db, Report& report);
void check_commands(Database& db, Report& report);
/// The chain of every case; `json` also reads each payload. Gives how many events and cases were looked at.
struct Counted {
    std::int64_t events{0}, cases{0};
};
Counted check_chains(Database& db, bool json, Report& report);
/// What the mark says was acknowledged is there; a copy may lack what came later.
void check_mark(Database& db, const std::filesystem::path& folder, Report& report, bool copy = false);
/// sign.key is there and belongs to this kiosk's row.
void check_key(Database& db, const std::filesystem::path& folder, Report& report);
/// Every sealed record still is what was sealed. Gives how many there are.
std::int64_t check_sealed(Database& db, Report& report);
/// What can be said of people without the events: PINs have their form.
void check_people(Database& db, Report& report);

}  // namespace brimline::store
