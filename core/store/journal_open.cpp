// Opening the journal: lock, look without touching, and only then write.
#include <sys/stat.h>

#include <algorithm>
#include <cerrno>

#include "core/store/checks.h"
#include "core/store/connection.h"
#include "core/store/copies.h"
#include "core/store/journal_inside.h"
#include "core/store/rows.h"

namespace brimline::store {
namespace {

namespace fs = std::filesystem;

constexpr const char* restore_or_call = "Restore the newest backup into an empty folder, or call for help.";

OpenFault disk_fault(const std::string& what, int number) {
    return {OpenFault::Kind::disk, what + ": " + words_for_errno(number) + ".",
            "Check the disk, its space and who owns the folder."};
}

/// The folder and those above it, 0700, on disk with its name.
tl::expected<void, OpenFault> make_folder(const fs::path& folder) {
    std::vector<fs::path> missing;
    for (fs::path path = fs::absolute(folder);
         !path.empty() && !fs::exists(path) && path != path.parent_path(); path = path.parent_path()) {
        missing.push_back(path);
    }
    std::reverse(missing.begin(), missing.end());
    for (const fs::path& path : missing) {
        if (::mkdir(path.c_str(), 0700) != 0 && errno != EEXIST) {
            return tl::unexpected{disk_fault("The data folder cannot be made", errno)};
        }
        if (const int wrong = sync_path(path.parent_path())) {
            return tl::unexpected{disk_fault("The data folder cannot be made", wrong)};
        }
    }
    return {};
}

/// Makes the folder, takes it alone, and fills it when it never held an event.
tl::expected<FolderLock, OpenFault> take_for_writing(const fs::path& folder, const OpenOptions& options) {
    if (const auto made = make_folder(folder); !made) {
        return tl::unexpected{made.error()};
    }
    auto lock = FolderLock::alone(folder);
    if (!lock) {
        return lock;
    }
    const auto there = holds_store(folder);
    if (!there) {
        return tl::unexpected{there.error()};
    }
    if (!*there) {
        if (const auto made = make_store(folder, options); !made) {
            return tl::unexpected{made.error()};
        }
    }
    return lock;
}

tl::expected<FolderLock, OpenFault> take_for_reading(const fs::path& folder) {
    if (const auto there = must_hold_store(folder); !there) {
        return tl::unexpected{there.error()};
    }
    return lock_to_read(folder);
}

}  // namespace

tl::expected<void, OpenFault> Journal::Inside::look() {
    auto opened = connect_reading(folder, lock);
    if (!opened) {
        return tl::unexpected{opened.error()};
    }
    db.emplace(std::move(*opened));
    if (is_newer(*db)) {
        kiosk = read_kiosk(*db).value_or(Kiosk{});
        stay_read_only("This data was written by a newer version of Brimline; open it with that version.");
        return {};
    }
    Report report;
    check_header(*db, report);
    check_schema(*db, report);
    check_file(*db, Depth::quick, report);
    check_length(*db, folder, report);
    check_mark(*db, live, report, copied.has_value());
    check_numbers(*db, report);
    check_commands(*db, report);
    check_chains(*db, false, report);
    static_cast<void>(check_sealed(*db, report));
    damage = report.take();
    const auto row = read_kiosk(*db);
    if (!row) {
        return tl::unexpected{OpenFault{OpenFault::Kind::damaged,
                                        "The row that names this kiosk cannot be read in brimline.db.",
                                        restore_or_call}};
    }
    kiosk = *row;
    return {};
}

void Journal::Inside::settle_copy() {
    if (copied) {
        copied->current = is_current(*db, live);
    }
}

void Journal::Inside::stay_read_only(std::string reason) {
    read_only = true;
    why = std::move(reason);
    if (db && db->first("PRAGMA query_only") == "1") {
        return;  // it is a reading connection already
    }
    drop();
    if (auto opened = connect_reading(folder, lock)) {
        db.emplace(std::move(*opened));
    }
}

void Journal::Inside::drop() {
    copy.reset();
    if (db) {
        // Its close must not fold the log into the file after an error: the next opening looks first.
        static_cast<void>(db->configure(SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, true));
        db.reset();
    }
}

tl::expected<void, std::string> Journal::Inside::start_writing() {
    copy.reset();
    db.reset();
    auto opened = connect_writing(folder);
    if (!opened) {
        return tl::unexpected{opened.error().say};
    }
    db.emplace(std::move(*opened));
    Report report;
    check_mark(*db, folder, report);
    if (!report.empty()) {
        damage = report.take();
        stay_read_only(damage.front().sentence + " " + restore_or_call);
        return tl::unexpected{why};
    }
    if (const auto settled = settle_log(*db, folder); !settled) {
        drop();
        return tl::unexpected{"The tablet cannot save: " + words_for(settled.error()) + "."};
    }
    if (is_older(*db)) {
        if (const auto migrated = migrate(); !migrated) {
            drop();
            return migrated;
        }
    }
    const auto head = read_head(*db);
    auto file = MarkFile::open(folder);
    if (!file && file.error() == ENOENT && head && head->seq == 0 && MarkFile::make(folder) == 0) {
        file = MarkFile::open(folder);
    }
    if (!head || !file) {
        drop();
        return tl::unexpected{
            std::string{"The tablet cannot save: brimline.mark or the journal's end cannot be read."}};
    }
    mark.emplace(std::move(*file));
    const MarkRead known = read_mark(folder);
    if (known.slots.size() < 2 || !(*known.newest() == *head)) {
        write_mark(*head);
    }
    // All checks passed: an ordinary close may fold the log into the file.
    static_cast<void>(db->configure(SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, false));
    return {};
}

tl::expected<void, std::string> Journal::Inside::ready() {
    if (db) {
        return {};
    }
    if (read_only) {
        return tl::unexpected{why};
    }
    return start_writing();
}

void Journal::Inside::write_mark(const Head& head) {
    const int wrong = mark ? mark->write(head) : EBADF;
    warning = wrong == 0 ? std::string{} : "brimline.mark cannot be written: " + words_for_errno(wrong) + ".";
}

void Journal::Inside::begin() {
    if (!read_only) {
        settle_keys();
        Report report;
        check_key(*db, folder, report);
        for (Finding& finding : report.take()) {
            damage.push_back(std::move(finding));
        }
    }
    if (!damage.empty()) {
        stay_read_only(damage.front().sentence + " " + restore_or_call);
    }
    if (read_only) {
        return;
    }
    if (const auto started = start_writing(); !started && !read_only) {
        stay_read_only(started.error());
    }
}

tl::expected<Journal, OpenFault> Journal::open(const fs::path& folder, Mode mode,
                                               const OpenOptions& options) {
    const bool writing = mode == Mode::read_write;
    auto lock = writing ? take_for_writing(folder, options) : take_for_reading(folder);
    if (!lock) {
        return tl::unexpected{lock.error()};
    }
    const bool copy = lock->is_copy();
    auto inside = std::make_unique<Inside>(folder, std::move(*lock));
    if (copy) {
        inside->folder = reading_folder(folder);
        inside->copied = copied_at(folder);
    }
    if (const auto looked = inside->look(); !looked) {
        return tl::unexpected{looked.error()};
    }
    if (writing) {
        inside->begin();
    } else {
        inside->read_only = true;
    }
    inside->settle_copy();
    if (auto key = SignKey::load(folder); key && key->public_key() == inside->kiosk.public_key) {
        inside->key.emplace(std::move(*key));
    }
    return Journal{std::move(inside)};
}

Journal::Journal(std::unique_ptr<Inside> inside) : inside_{std::move(inside)} {}
Journal::Journal(Journal&&) noexcept = default;
Journal& Journal::operator=(Journal&&) noexcept = default;
Journal::~Journal() = default;

bool Journal::read_only() const { return inside_->read_only; }
const std::string& Journal::why_read_only() const { return inside_->why; }
const std::vector<Finding>& Journal::damage() const { return inside_->damage; }
const std::string& Journal::warning() const { return inside_->warning; }
const fs::path& Journal::folder() const { return inside_->folder; }
const std::optional<Copied>& Journal::copied() const { return inside_->copied; }
const Kiosk& Journal::kiosk() const { return inside_->kiosk; }

}  // namespace brimline::store
