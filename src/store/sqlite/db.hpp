#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include <sqlite3.h>

#include "base/ids.hpp"

namespace store::sqlite {

/// Throws the Failure that a SQLite result code stands for; `doing` completes "could not ...".
[[noreturn]] void fail(sqlite3* db, int code, const std::string& doing, const std::string& path);

/// A prepared statement; values are bound by position from 1, columns counted from 0.
class Statement {
public:
    Statement(sqlite3* db, std::string_view sql, std::string path);

    void bind(int at, std::int64_t value);
    void bind(int at, double value);
    void bind(int at, std::string_view value);
    void bind(int at, const base::Id128& value);
    void bind_bytes(int at, std::string_view value);
    void bind_null(int at);
    template <class T>
    void bind_maybe(int at, const std::optional<T>& value) {
        if (value)
            bind(at, *value);
        else
            bind_null(at);
    }

    /// True while there is a row. Throws Failure on anything but a row or the end.
    bool step();
    /// Runs to the end and is ready for other values.
    void run();
    void reset();

    [[nodiscard]] std::int64_t integer(int column) const { return sqlite3_column_int64(statement_.get(), column); }
    [[nodiscard]] double real(int column) const { return sqlite3_column_double(statement_.get(), column); }
    [[nodiscard]] std::string text(int column) const { return std::string{view(column)}; }
    /// Valid until the next step.
    [[nodiscard]] std::string_view view(int column) const;
    /// The bytes of a blob; valid until the next step.
    [[nodiscard]] std::string_view bytes(int column) const;
    [[nodiscard]] base::Id128 id(int column) const;
    [[nodiscard]] bool is_null(int column) const {
        return sqlite3_column_type(statement_.get(), column) == SQLITE_NULL;
    }

private:
    struct Finalize {
        void operator()(sqlite3_stmt* s) const { sqlite3_finalize(s); }
    };
    sqlite3* db_;
    std::string path_;
    std::unique_ptr<sqlite3_stmt, Finalize> statement_;
};

/// An open database file.
class Db {
public:
    /// Flags as for sqlite3_open_v2. For one thread: no connection is shared, and unlocked calls are a good part of a
    /// start. Waits up to five seconds for other processes.
    Db(const std::string& path, int flags);

    void run(const char* sql);
    [[nodiscard]] Statement prepare(std::string_view sql) { return Statement{db_.get(), sql, path_}; }
    [[nodiscard]] std::int64_t number(std::string_view sql);
    [[nodiscard]] std::string word(std::string_view sql);
    [[nodiscard]] sqlite3* handle() const { return db_.get(); }
    [[nodiscard]] const std::string& path() const { return path_; }
    [[nodiscard]] int changes() const { return sqlite3_changes(db_.get()); }

private:
    struct Close {
        void operator()(sqlite3* db) const { sqlite3_close(db); }
    };
    std::string path_;
    std::unique_ptr<sqlite3, Close> db_;
};

/// A write that is undone unless it was finished. Takes the write lock at once: a transaction that reads first and
/// writes later would fail against another writer however long it waits.
class Writing {
public:
    explicit Writing(Db& db) : db_{&db} { db.run("BEGIN IMMEDIATE"); }
    Writing(const Writing&) = delete;
    Writing& operator=(const Writing&) = delete;
    ~Writing() {
        if (!done_) sqlite3_exec(db_->handle(), "ROLLBACK", nullptr, nullptr, nullptr);
    }
    void commit() {
        db_->run("COMMIT");
        done_ = true;
    }

private:
    Db* db_;
    bool done_ = false;
};

/// Several reads that all see the store as it was at the first of them, whatever others write meanwhile.
class Reading {
public:
    explicit Reading(Db& db) : db_{&db} { db.run("BEGIN"); }
    Reading(const Reading&) = delete;
    Reading& operator=(const Reading&) = delete;
    ~Reading() { sqlite3_exec(db_->handle(), "ROLLBACK", nullptr, nullptr, nullptr); }

private:
    Db* db_;
};

}  // namespace store::sqlite
