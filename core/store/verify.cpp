// Looking through a whole data folder.
#include "core/store/verify.h"

#include "core/store/checks.h"
#include "core/store/connection.h"
#include "core/store/copies.h"
#include "core/store/rows.h"

namespace brimline::store {
namespace {

void compare_projections(Database& db, const VerifyOptions& options, Report& report) {
    Statement rows = db.prepare(std::string{select_events} + "ORDER BY j.kiosk, j.seq");
    const Rows<StoredEvent> events = read_events(db, rows);
    const auto kiosk = read_kiosk(db);
    if (!events.damage.empty() || !kiosk) {
        report.add("projection", file_name, "The tables beside the journal cannot be compared with it.");
        return;
    }
    const Tables tables{*kiosk, read_people(db).rows, read_balloons(db).rows,
                        read_sealed(db, std::nullopt).rows, read_keys(db).rows};
    for (const Finding& finding : options.projections(events.rows, tables)) {
        report.add(finding.what, finding.where, finding.sentence);
    }
}

VerifyReport look_through(Database& db, const std::filesystem::path& folder, const VerifyOptions& options,
                          bool copy) {
    VerifyReport result;
    Report report{options.case_name};
    if (is_newer(db)) {
        report.add(
            "newer", file_name,
            "brimline.db says that a newer version of Brimline wrote it; this version cannot check it.");
        check_file(db, Depth::full, report);
        result.findings = report.take();
        return result;
    }
    check_header(db, report);
    check_schema(db, report);
    check_file(db, Depth::full, report);
    check_length(db, copy ? reading_folder(folder) : folder, report);
    check_numbers(db, report);
    check_commands(db, report);
    const Counted counted = check_chains(db, true, report);
    result.events = counted.events;
    result.cases = counted.cases;
    check_mark(db, folder, report, copy);
    check_key(db, folder, report);
    result.sealed = check_sealed(db, report);
    check_people(db, report);
    if (options.projections) {
        compare_projections(db, options, report);
    }
    result.findings = report.take();
    return result;
}

/// Damage that keeps the journal from being opened is a finding like any other.
tl::expected<VerifyReport, OpenFault> as_finding(const OpenFault& fault) {
    if (fault.kind != OpenFault::Kind::damaged) {
        return tl::unexpected{fault};
    }
    VerifyReport result;
    result.findings.push_back({"file", file_name, fault.say});
    return result;
}

}  // namespace

tl::expected<VerifyReport, OpenFault> verify(const std::filesystem::path& folder,
                                             const VerifyOptions& options) {
    if (const auto there = must_hold_store(folder); !there) {
        return as_finding(there.error());
    }
    auto lock = lock_to_read(folder);
    if (!lock) {
        return tl::unexpected{lock.error()};
    }
    auto db = connect_reading(lock->is_copy() ? reading_folder(folder) : folder, *lock);
    if (!db) {
        return as_finding(db.error());
    }
    auto result = look_through(*db, folder, options, lock->is_copy());
    if (lock->is_copy()) {
        result.copied = copied_at(folder);
        result.copied->current = is_current(*db, folder);
    }
    return result;
}

}  // namespace brimline::store
