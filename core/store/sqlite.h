// A thin wrapper over the SQLite C interface: owned handles, and statements whose every error, also that of
// preparing them, comes out where they are stepped. Inside the store only.
#pragma once
#include <sqlite3.h>

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <tl/expected.hpp>

namespace brimline::store {

/// What SQLite answered: its extended code and its words.
struct Trouble {
    int code{SQLITE_OK};
    std::string text;
};
/// One plain half-sentence for people: "the disk is full", "the disk cannot be written", …
[[nodiscard]] std::string words_for(const Trouble& trouble);

class Statement {
public:
    Statement(sqlite3* db, sqlite3_stmt* handle, int code) : db_{db}, handle_{handle}, code_{code} {}

    // Bound text and bytes are not copied: they must live until the statement is stepped for the last time.
    Statement& bind(std::int64_t n);
    Statement& bind(std::string_view text);
    Statement& bind(std::span<const std::uint8_t> bytes);
    Statement& bind_null();
    /// True on a row. False at the end or on an error; done() tells which.
    [[nodiscard]] bool next();
    /// Runs a statement that gives no rows.
    [[nodiscard]] tl::expected<void, Trouble> run();
    [[nodiscard]] bool done() const { return code_ == SQLITE_DONE; }
    [[nodiscard]] Trouble trouble() const;
    void reset();

    /// The column, only if it has exactly that type (a damaged file may hold anything).
    [[nodiscard]] std::optional<std::int64_t> integer(int column) const;
    [[nodiscard]] std::optional<std::string> text(int column) const;
    /// As text(), into a string that keeps its room.
    [[nodiscard]] bool text(int column, std::string& into) const;
    [[nodiscard]] bool bytes(int column, std::span<std::uint8_t> out) const;
    [[nodiscard]] bool is_null(int column) const;

private:
    struct Finalize {
        void operator()(sqlite3_stmt* handle) const { sqlite3_finalize(handle); }
    };
    Statement& bound(int code);
    sqlite3* db_;
    std::unique_ptr<sqlite3_stmt, Finalize> handle_;
    int code_;
    int next_parameter_{1};
};

class Database {
public:
    /// Opens by a `file:` URI. Errors: Trouble.
    [[nodiscard]] static tl::expected<Database, Trouble> open(const std::string& uri, int flags);

    [[nodiscard]] Statement prepare(std::string_view sql);
    /// The same statement again, reset. `sql` must be a literal of one place in the code.
    [[nodiscard]] Statement& cached(const char* sql);
    /// Runs statements that give no rows that matter.
    [[nodiscard]] tl::expected<void, Trouble> run(const char* sql);
    /// The first column of the first row as text, whatever its type; empty on none or an error.
    [[nodiscard]] std::optional<std::string> first(std::string_view sql);
    /// As first(), as a whole number.
    [[nodiscard]] std::optional<std::int64_t> first_number(std::string_view sql);
    /// Switches one of SQLITE_DBCONFIG_*; false when SQLite did not take it.
    [[nodiscard]] bool configure(int option, bool on);
    [[nodiscard]] std::int64_t changes() const { return sqlite3_changes64(handle_.get()); }
    [[nodiscard]] Trouble trouble() const;
    [[nodiscard]] sqlite3* handle() const { return handle_.get(); }

private:
    struct Close {
        void operator()(sqlite3* handle) const { sqlite3_close_v2(handle); }
    };
    explicit Database(sqlite3* handle) : handle_{handle} {}
    std::unique_ptr<sqlite3, Close> handle_;
    std::map<const char*, Statement> cached_;  // after the handle: finalized first
};

}  // namespace brimline::store
