// A copy of an open database, a few pages at a time on its own connection, so that what is written meanwhile
// flows in. Inside the store only. Source: SQLite's online backup interface.
#pragma once
#include <filesystem>
#include <memory>
#include <string>
#include <tl/expected.hpp>

#include "core/store/sqlite.h"

namespace brimline::store {

class PageCopy {
public:
    /// `file` is made anew, 0600. `from` must outlive this. Errors: a sentence.
    [[nodiscard]] static tl::expected<PageCopy, std::string> begin(Database& from,
                                                                   const std::filesystem::path& file);
    /// So many pages more; true when every page is there and the file is closed. Errors: a sentence.
    [[nodiscard]] tl::expected<bool, std::string> some(int pages);

private:
    struct Finish {
        void operator()(sqlite3_backup* backup) const { sqlite3_backup_finish(backup); }
    };
    PageCopy(Database to, sqlite3_backup* backup)
        : to_{std::make_unique<Database>(std::move(to))}, backup_{backup} {}
    std::unique_ptr<Database> to_;  // closed after the backup on it
    std::unique_ptr<sqlite3_backup, Finish> backup_;
};

}  // namespace brimline::store
