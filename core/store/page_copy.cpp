// Copying pages.
#include "core/store/page_copy.h"

#include <fcntl.h>
#include <unistd.h>

#include "core/store/connection.h"
#include "core/store/small_file.h"

namespace brimline::store {
namespace {

std::string cannot(const std::string& why) { return "A copy of the journal cannot be made: " + why + "."; }

}  // namespace

tl::expected<PageCopy, std::string> PageCopy::begin(Database& from, const std::filesystem::path& file) {
    static_cast<void>(::unlink(file.c_str()));
    {
        const auto made =
            open_file(file, O_WRONLY | O_CREAT | O_EXCL, 0600);  // whatever the umask allows others
        if (!made) {
            return tl::unexpected{cannot(words_for_errno(made.error()))};
        }
    }
    auto to = Database::open(uri_of(file, "?mode=rw"), SQLITE_OPEN_READWRITE);
    if (!to) {
        return tl::unexpected{cannot(words_for(to.error()))};
    }
    // A copy that a power cut tears is thrown away, so it needs no journal and no sync of its own.
    if (!to->run("PRAGMA journal_mode=OFF; PRAGMA synchronous=OFF; PRAGMA locking_mode=EXCLUSIVE")) {
        return tl::unexpected{cannot(words_for(to->trouble()))};
    }
    sqlite3_backup* backup = sqlite3_backup_init(to->handle(), "main", from.handle(), "main");
    if (backup == nullptr) {
        return tl::unexpected{cannot(words_for(to->trouble()))};
    }
    return PageCopy{std::move(*to), backup};
}

tl::expected<bool, std::string> PageCopy::some(int pages) {
    const int code = sqlite3_backup_step(backup_.get(), pages);
    if (code == SQLITE_OK) {
        return false;
    }
    const int finished = sqlite3_backup_finish(backup_.release());
    to_.reset();
    if (code != SQLITE_DONE || finished != SQLITE_OK) {
        return tl::unexpected{cannot(words_for({code != SQLITE_DONE ? code : finished, ""}))};
    }
    return true;
}

}  // namespace brimline::store
