// The thin layer over SQLite's calls.
#include "core/store/sqlite.h"

#include <algorithm>

namespace brimline::store {

std::string words_for(const Trouble& trouble) {
    switch (trouble.code & 0xff) {
        case SQLITE_FULL:
            return "the disk is full";
        case SQLITE_IOERR:
            return "the disk reports an error";
        case SQLITE_CORRUPT:
        case SQLITE_NOTADB:
        case SQLITE_FORMAT:
            return "brimline.db is damaged";
        case SQLITE_READONLY:
        case SQLITE_PERM:
        case SQLITE_AUTH:
            return "brimline.db may not be written";
        case SQLITE_CANTOPEN:
            return "brimline.db cannot be opened";
        case SQLITE_BUSY:
        case SQLITE_LOCKED:
            return "brimline.db is in use";
        case SQLITE_NOMEM:
            return "there is not enough memory";
        default:
            return "brimline.db answers: " + trouble.text;
    }
}

Statement& Statement::bound(int code) {
    ++next_parameter_;
    if (code != SQLITE_OK && code_ == SQLITE_OK) {
        code_ = code;
    }
    return *this;
}

Statement& Statement::bind(std::int64_t n) {
    return bound(sqlite3_bind_int64(handle_.get(), next_parameter_, n));
}

Statement& Statement::bind(std::string_view text) {
    const char* start = text.data() == nullptr ? "" : text.data();  // a null pointer would bind NULL
    return bound(
        sqlite3_bind_text64(handle_.get(), next_parameter_, start, text.size(), SQLITE_STATIC, SQLITE_UTF8));
}

Statement& Statement::bind(std::span<const std::uint8_t> bytes) {
    return bound(
        sqlite3_bind_blob64(handle_.get(), next_parameter_, bytes.data(), bytes.size(), SQLITE_STATIC));
}

Statement& Statement::bind_null() { return bound(sqlite3_bind_null(handle_.get(), next_parameter_)); }

bool Statement::next() {
    if (code_ != SQLITE_OK && code_ != SQLITE_ROW) {
        return false;
    }
    code_ = sqlite3_step(handle_.get());
    return code_ == SQLITE_ROW;
}

tl::expected<void, Trouble> Statement::run() {
    while (next()) {
    }
    if (done()) {
        reset();
        return {};
    }
    const Trouble trouble = this->trouble();
    reset();
    return tl::unexpected{trouble};
}

Trouble Statement::trouble() const {
    const char* words = db_ == nullptr ? nullptr : sqlite3_errmsg(db_);
    return Trouble{code_, words == nullptr ? sqlite3_errstr(code_) : words};
}

void Statement::reset() {
    if (handle_ != nullptr) {
        sqlite3_reset(handle_.get());
        sqlite3_clear_bindings(handle_.get());
        code_ = SQLITE_OK;
        next_parameter_ = 1;
    }
}

std::optional<std::int64_t> Statement::integer(int column) const {
    if (sqlite3_column_type(handle_.get(), column) != SQLITE_INTEGER) {
        return std::nullopt;
    }
    return sqlite3_column_int64(handle_.get(), column);
}

bool Statement::text(int column, std::string& into) const {
    if (sqlite3_column_type(handle_.get(), column) != SQLITE_TEXT) {
        return false;
    }
    const unsigned char* start = sqlite3_column_text(handle_.get(), column);
    if (start == nullptr) {
        return false;
    }
    const int length = sqlite3_column_bytes(handle_.get(), column);
    into.assign(reinterpret_cast<const char*>(start), static_cast<std::size_t>(length));
    return true;
}

std::optional<std::string> Statement::text(int column) const {
    std::string read;
    return text(column, read) ? std::optional{std::move(read)} : std::nullopt;
}

bool Statement::bytes(int column, std::span<std::uint8_t> out) const {
    if (sqlite3_column_type(handle_.get(), column) != SQLITE_BLOB) {
        return false;
    }
    const void* start = sqlite3_column_blob(handle_.get(), column);
    const int length = sqlite3_column_bytes(handle_.get(), column);
    if (start == nullptr || static_cast<std::size_t>(length) != out.size()) {
        return false;
    }
    const auto* first = static_cast<const std::uint8_t*>(start);
    std::copy(first, first + length, out.begin());
    return true;
}

bool Statement::is_null(int column) const {
    return sqlite3_column_type(handle_.get(), column) == SQLITE_NULL;
}

tl::expected<Database, Trouble> Database::open(const std::string& uri, int flags) {
    sqlite3* handle = nullptr;
    const int code =
        sqlite3_open_v2(uri.c_str(), &handle, flags | SQLITE_OPEN_URI | SQLITE_OPEN_NOMUTEX, nullptr);
    Database db{handle};
    if (code != SQLITE_OK) {
        return tl::unexpected{Trouble{code, sqlite3_errstr(code)}};
    }
    sqlite3_extended_result_codes(handle, 1);
    return db;
}

Statement Database::prepare(std::string_view sql) {
    sqlite3_stmt* handle = nullptr;
    const int code =
        sqlite3_prepare_v2(handle_.get(), sql.data(), static_cast<int>(sql.size()), &handle, nullptr);
    return Statement{handle_.get(), handle, code};
}

Statement& Database::cached(const char* sql) {
    const auto found = cached_.find(sql);
    if (found != cached_.end()) {
        found->second.reset();
        return found->second;
    }
    return cached_.emplace(sql, prepare(sql)).first->second;
}

tl::expected<void, Trouble> Database::run(const char* sql) {
    if (sqlite3_exec(handle_.get(), sql, nullptr, nullptr, nullptr) != SQLITE_OK) {
        return tl::unexpected{trouble()};
    }
    return {};
}

std::optional<std::string> Database::first(std::string_view sql) {
    Statement statement = prepare(sql);
    if (!statement.next()) {
        return std::nullopt;
    }
    if (const auto number = statement.integer(0)) {
        return std::to_string(*number);
    }
    return statement.text(0);
}

std::optional<std::int64_t> Database::first_number(std::string_view sql) {
    Statement statement = prepare(sql);
    return statement.next() ? statement.integer(0) : std::nullopt;
}

bool Database::configure(int option, bool on) {
    int now = -1;
    const int code = sqlite3_db_config(handle_.get(), option, on ? 1 : 0, &now);
    return code == SQLITE_OK && now == (on ? 1 : 0);
}

Trouble Database::trouble() const {
    return Trouble{sqlite3_extended_errcode(handle_.get()), sqlite3_errmsg(handle_.get())};
}

}  // namespace brimline::store
