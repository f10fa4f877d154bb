#include "store/sqlite/db.hpp"

#include <algorithm>
#include <cstring>

#include "base/exit_status.hpp"

namespace store::sqlite {
namespace {

using base::Exit;
using base::Failure;

constexpr int kWaitMilliseconds = 5000;

bool writes(int code) {
    return code == SQLITE_IOERR_WRITE || code == SQLITE_IOERR_FSYNC || code == SQLITE_IOERR_DIR_FSYNC ||
           code == SQLITE_IOERR_TRUNCATE;
}

}  // namespace

void fail(sqlite3* db, int code, const std::string& doing, const std::string& path) {
    const std::string words = db != nullptr ? sqlite3_errmsg(db) : sqlite3_errstr(code);
    const std::string what = path + ": could not " + doing + ": " + words;
    switch (code & 0xff) {
        case SQLITE_BUSY:
        case SQLITE_LOCKED:
            throw Failure{Exit::busy, what, "another process holds the store; try again when it is done"};
        case SQLITE_NOTADB:
            throw Failure{Exit::bad_data, path + ": is not a Greentag store (not a SQLite database at all)",
                          "name another data home with --home, or move this file away"};
        case SQLITE_CORRUPT:
            throw Failure{Exit::bad_data, what,
                          "the file is damaged: keep a copy of it, then 'greentag record restore FILE' from a backup"};
        case SQLITE_READONLY:
            throw Failure{Exit::cannot_write, path + ": cannot be written (read-only file, folder or disk)",
                          "make it writable, or name another data home with --home"};
        case SQLITE_CANTOPEN:
            throw Failure{Exit::cannot_write, path + ": cannot be opened", "check that its folder is there and yours"};
        case SQLITE_FULL:
            throw Failure{Exit::io_error, path + ": the disk is full; the last change was not kept",
                          "free some space; everything acknowledged before is safe"};
        case SQLITE_IOERR:
            throw Failure{Exit::io_error, what + (writes(code) ? "; the last change was not kept" : ""),
                          "check the disk and the room on it; everything acknowledged before is safe"};
        default:
            throw Failure{Exit::internal, what, "this should not happen; please report it with the message"};
    }
}

Statement::Statement(sqlite3* db, std::string_view sql, std::string path) : db_{db}, path_{std::move(path)} {
    sqlite3_stmt* raw = nullptr;
    const int code = sqlite3_prepare_v2(db, sql.data(), static_cast<int>(sql.size()), &raw, nullptr);
    statement_.reset(raw);
    // The words are ours and right, so the tables are not: someone's bytes lie where their description was.
    if (code == SQLITE_ERROR) fail(db, SQLITE_CORRUPT, "read", path_);
    if (code != SQLITE_OK) fail(db, code, "read", path_);
}

void Statement::bind(int at, std::int64_t value) {
    sqlite3_bind_int64(statement_.get(), at, value);
}
void Statement::bind(int at, double value) {
    sqlite3_bind_double(statement_.get(), at, value);
}
void Statement::bind(int at, std::string_view value) {
    sqlite3_bind_text(statement_.get(), at, value.data(), static_cast<int>(value.size()), SQLITE_TRANSIENT);
}
void Statement::bind(int at, const base::Id128& value) {
    sqlite3_bind_blob(statement_.get(), at, value.bytes.data(), static_cast<int>(value.bytes.size()), SQLITE_TRANSIENT);
}
void Statement::bind_bytes(int at, std::string_view value) {
    sqlite3_bind_blob(statement_.get(), at, value.data(), static_cast<int>(value.size()), SQLITE_TRANSIENT);
}
void Statement::bind_null(int at) {
    sqlite3_bind_null(statement_.get(), at);
}

bool Statement::step() {
    const int code = sqlite3_step(statement_.get());
    if (code == SQLITE_ROW) return true;
    if (code == SQLITE_DONE) return false;
    // Left as it is, the statement would refuse new values and run once more with those that failed.
    reset();
    fail(db_, code, "read or write", path_);
}

void Statement::run() {
    while (step()) {
    }
    reset();
}

void Statement::reset() {
    sqlite3_reset(statement_.get());
}

std::string_view Statement::view(int column) const {
    const auto* text = reinterpret_cast<const char*>(sqlite3_column_text(statement_.get(), column));
    if (text == nullptr) return {};
    return {text, static_cast<std::size_t>(sqlite3_column_bytes(statement_.get(), column))};
}

std::string_view Statement::bytes(int column) const {
    const auto* blob = static_cast<const char*>(sqlite3_column_blob(statement_.get(), column));
    if (blob == nullptr) return {};
    return {blob, static_cast<std::size_t>(sqlite3_column_bytes(statement_.get(), column))};
}

base::Id128 Statement::id(int column) const {
    base::Id128 id;
    const void* blob = sqlite3_column_blob(statement_.get(), column);
    const auto size = static_cast<std::size_t>(sqlite3_column_bytes(statement_.get(), column));
    if (blob != nullptr) std::memcpy(id.bytes.data(), blob, std::min(size, id.bytes.size()));
    return id;
}

Db::Db(const std::string& path, int flags) : path_{path} {
    sqlite3* raw = nullptr;
    const int code = sqlite3_open_v2(path.c_str(), &raw, flags | SQLITE_OPEN_NOMUTEX, nullptr);
    db_.reset(raw);
    if (code != SQLITE_OK) fail(raw, code, "open", path);
    sqlite3_extended_result_codes(raw, 1);
    sqlite3_busy_timeout(raw, kWaitMilliseconds);
}

void Db::run(const char* sql) {
    const int code = sqlite3_exec(db_.get(), sql, nullptr, nullptr, nullptr);
    if (code != SQLITE_OK) fail(db_.get(), code, "write", path_);
}

std::int64_t Db::number(std::string_view sql) {
    auto statement = prepare(sql);
    return statement.step() ? statement.integer(0) : 0;
}

std::string Db::word(std::string_view sql) {
    auto statement = prepare(sql);
    return statement.step() ? statement.text(0) : std::string{};
}

}  // namespace store::sqlite
