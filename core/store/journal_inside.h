// The inside of the journal, shared by the files that open it, append to it and read it.
#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "core/store/chain.h"
#include "core/store/folder_lock.h"
#include "core/store/journal.h"
#include "core/store/mark.h"
#include "core/store/page_copy.h"
#include "core/store/sign_key.h"
#include "core/store/sqlite.h"

namespace brimline::store {

struct Journal::Inside {
    Inside(std::filesystem::path where, FolderLock held)
        : folder{where}, lock{std::move(held)}, live{std::move(where)} {}

    std::filesystem::path folder;
    FolderLock lock;
    std::optional<Database> db;  // empty after a failure, until ready() opens it anew
    std::optional<MarkFile> mark;
    std::optional<SignKey> key;
    std::optional<PageCopy> copy;  // under way, from `db`
    Kiosk kiosk;
    bool read_only{false};
    std::string why;
    std::vector<Finding> damage;
    std::filesystem::path live;  // the folder whose mark and key count; `folder` but for a copy
    std::optional<Copied> copied;
    std::string warning;
    ChainHasher hasher;

    /// Opens for reading and runs the checks; fills kiosk and damage.
    [[nodiscard]] tl::expected<void, OpenFault> look();
    /// Whether the copy that was opened holds all that the kiosk acknowledged.
    void settle_copy();
    /// After look() with writing asked: writes from now on, or stays read-only and says why.
    void begin();
    /// From a folder that passed: connection for writing, log settled, mark brought up to the head.
    /// Errors: a sentence; nothing is acknowledged by it.
    [[nodiscard]] tl::expected<void, std::string> start_writing();
    /// From now on nothing is taken; the connection is one that changes no file.
    void stay_read_only(std::string reason);
    /// From an earlier version: a checked copy, then one transaction. Errors: a sentence; the file is then as
    /// it was.
    [[nodiscard]] tl::expected<void, std::string> migrate();
    /// A signing key that was put in force takes its name; one that no batch took is removed.
    void settle_keys();
    /// A connection to work with; opened anew after a failure. Errors: a sentence.
    [[nodiscard]] tl::expected<void, std::string> ready();
    /// Gives up the connection without touching the files any further.
    void drop();
    void write_mark(const Head& head);
    /// Moves the log into the file; after an error the next command opens anew.
    void checkpoint(int how);

    [[nodiscard]] tl::expected<Receipt, AppendFault> append(const Batch& batch);
    /// One try of a batch on a ready connection.
    [[nodiscard]] tl::expected<Receipt, AppendFault> attempt(const Batch& batch);
    /// Runs one change of side tables in a transaction, with a reopening between two tries.
    template <class Change>
    [[nodiscard]] tl::expected<void, AppendFault> change_tables(Change change);
};

}  // namespace brimline::store
