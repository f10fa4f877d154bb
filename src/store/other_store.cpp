#include "store/other_store.hpp"

#include <algorithm>
#include <filesystem>
#include <system_error>

#include "base/exit_status.hpp"
#include "store/sqlite/answers.hpp"
#include "store/sqlite/db.hpp"
#include "store/sqlite/learners.hpp"
#include "store/sqlite/recall.hpp"
#include "store/sqlite/schema.hpp"

namespace store {
namespace {

using base::Exit;
using base::Failure;
namespace fs = std::filesystem;

std::int64_t bytes_of(const std::string& path) {
    std::error_code error;
    const auto size = fs::file_size(path, error);
    return error ? 0 : static_cast<std::int64_t>(size);
}

Failure unsound(const std::string& path, const std::string& what) {
    return {Exit::bad_data, path + ": " + what, "nothing was taken from it; use a sound copy"};
}

void check_there(const std::string& path) {
    std::error_code error;
    if (!fs::is_regular_file(path, error))
        throw Failure{Exit::no_input, path + ": there is no such file", "name the store of the other machine"};
    if (bytes_of(path) == 0) throw unsound(path, "is empty");
}

/// Ours, and of a schema that the copy can be brought up from. Throws what opening a store throws.
void check_schema(sqlite::Db& db) {
    const auto schema = db.number("PRAGMA user_version");
    const bool earlier = schema > 0 && schema < sqlite::newest_schema();
    if (earlier && db.number("PRAGMA application_id") == sqlite::kApplicationId) return;
    if (schema == 0 && db.number("SELECT count(*) FROM sqlite_schema") == 0)
        throw unsound(db.path(), "is a database without tables, not a Greentag store");
    sqlite::bring_up_to_date(db, false);
}

void check_whole(sqlite::Db& db) {
    const auto expected = db.number("PRAGMA page_count") * db.number("PRAGMA page_size");
    if (bytes_of(db.path()) < expected && bytes_of(db.path() + "-wal") == 0)
        throw unsound(db.path(), "is cut short (" + std::to_string(bytes_of(db.path())) + " of " +
                                     std::to_string(expected) + " bytes)");
}

/// The store as it stands at this moment. Messages about the copy name the file it is of.
sqlite::Db copied(const std::string& path) {
    sqlite::Db other{path, SQLITE_OPEN_READWRITE};
    // A machine that lost its power leaves answers in the log beside its store. They are read, and left to it to move.
    if (bytes_of(path + "-wal") > 0)
        sqlite3_db_config(other.handle(), SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, static_cast<int*>(nullptr));
    check_schema(other);
    check_whole(other);
    sqlite::Db copy{path, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_MEMORY};
    copy.run(("PRAGMA page_size = " + std::to_string(other.number("PRAGMA page_size"))).c_str());
    sqlite3_backup* backup = sqlite3_backup_init(copy.handle(), "main", other.handle(), "main");
    if (backup == nullptr) sqlite::fail(copy.handle(), sqlite3_errcode(copy.handle()), "copy", path);
    const int code = sqlite3_backup_step(backup, -1);
    sqlite3_backup_finish(backup);
    if (code != SQLITE_DONE) sqlite::fail(nullptr, code, "copy", path);
    return copy;
}

std::vector<Relearn> relearn_of(sqlite::Db& db) {
    std::vector<Relearn> all;
    auto rows = db.prepare("SELECT learner, point, since, why FROM relearn ORDER BY learner, point");
    while (rows.step())
        all.push_back({rows.id(0), {rows.text(1)}, base::from_milliseconds(rows.integer(2)), rows.text(3)});
    return all;
}

/// A name goes to the screen of whoever merges.
void check_names(const std::string& path, const std::vector<Learner>& crew) {
    for (const auto& one : crew)
        if (std::any_of(one.name.begin(), one.name.end(), [](char c) { return (c >= 0 && c < ' ') || c == '\x7f'; }))
            throw unsound(path, "the name of learner " + base::to_text(one.id) + " holds control characters");
}

LogPart read_copy(const std::string& path) {
    sqlite::Db copy = copied(path);
    const auto found = sqlite::verify(copy, nullptr);
    if (!found.problems.empty()) throw unsound(path, "is not sound: " + found.problems.front());
    sqlite::bring_up_to_date(copy, true);
    LogPart part;
    part.file = path;
    part.crew = sqlite::learners(copy);
    check_names(path, part.crew);
    part.relearn = relearn_of(copy);
    sqlite::for_each_answer(copy, [&](const AnswerRecord& record) { part.answers.push_back({record, 0}); });
    return part;
}

}  // namespace

LogPart read_other_store(const std::string& path) {
    check_there(path);
    try {
        return read_copy(path);
    } catch (const Failure& failure) {
        // What opening a store advises is for one's own store, not for one that came from elsewhere.
        if (failure.status() == Exit::bad_data && failure.mend().find("--home") != std::string::npos)
            throw Failure{Exit::bad_data, failure.what(), "an exported log is read by 'greentag record import'"};
        if (failure.status() == Exit::bad_data && failure.mend().find("restore") != std::string::npos)
            throw unsound(path, std::string{failure.what()}.substr(path.size() + 2));
        throw;
    }
}

}  // namespace store
