// From version 1 to version 2: first a checked copy of the whole journal, then every change in one
// transaction. Cut off at any moment the file is either the old one or the new one.
#include <sys/stat.h>

#include <cerrno>

#include "core/store/backup_inside.h"
#include "core/store/connection.h"
#include "core/store/journal_inside.h"
#include "core/store/schema.h"

namespace brimline::store {
namespace {

namespace fs = std::filesystem;

/// The copy, whole, checked and on disk. Errors: a sentence.
tl::expected<void, std::string> copy_before(Database& db, const fs::path& folder, const fs::path& file) {
    if (::mkdir(file.parent_path().c_str(), 0700) != 0 && errno != EEXIST) {
        return tl::unexpected{words_for_errno(errno)};
    }
    auto copy = PageCopy::begin(db, file);
    if (!copy) {
        return tl::unexpected{copy.error()};
    }
    constexpr int every_page = -1;
    if (const auto whole = copy->some(every_page); !whole) {
        return tl::unexpected{whole.error()};
    }
    int wrong = sync_path(file);
    wrong = wrong != 0 ? wrong : sync_path(file.parent_path());
    wrong = wrong != 0 ? wrong : sync_path(folder);
    if (wrong != 0) {
        return tl::unexpected{words_for_errno(wrong)};
    }
    auto back = Database::open(uri_of(file, "?immutable=1"), SQLITE_OPEN_READONLY);
    if (!back) {
        return tl::unexpected{words_for(back.error())};
    }
    const auto content = check_content(*back);
    return content ? tl::expected<void, std::string>{} : tl::unexpected{content.error().say};
}

}  // namespace

tl::expected<void, std::string> Journal::Inside::migrate() {
    const auto file = folder / "backup" / "before-version-2.db";
    if (const auto kept = copy_before(*db, folder, file); !kept) {
        return tl::unexpected{
            "This journal is of an earlier version, and the copy before its migration failed: " +
            kept.error() + " Nothing was changed."};
    }
    const std::string all = "BEGIN IMMEDIATE;" + migration_to_2() + "COMMIT;";
    if (!db->run(all.c_str())) {
        return tl::unexpected{"This journal is of an earlier version and could not be migrated: " +
                              words_for(db->trouble()) + ". It is as it was."};
    }
    return {};
}

}  // namespace brimline::store
