#include "store/store.hpp"

#include <cassert>
#include <filesystem>
#include <fstream>
#include <unordered_set>
#include <utility>

#include "base/exit_status.hpp"
#include "store/sqlite/answers.hpp"
#include "store/sqlite/db.hpp"
#include "store/sqlite/fits.hpp"
#include "store/sqlite/learners.hpp"
#include "store/sqlite/recall.hpp"
#include "store/sqlite/schema.hpp"
#include "store/sqlite/take_in.hpp"

namespace store {
namespace {

using base::Exit;
using base::Failure;
namespace fs = std::filesystem;

int open_flags(const StoreOptions& options) {
    return options.writes ? SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE : SQLITE_OPEN_READWRITE;
}

void check_there(const StoreOptions& options) {
    std::error_code error;
    if (!options.writes && !fs::exists(options.path, error))
        throw Failure{Exit::no_input, options.path + ": there is no store yet",
                      "study once, or add someone to the crew"};
}

std::int64_t bytes_of(const std::string& path) {
    std::error_code error;
    const auto size = fs::file_size(path, error);
    return error ? 0 : static_cast<std::int64_t>(size);
}

/// A file shorter than its own header says has lost its end: better said at once than half way through a session.
void check_whole(sqlite::Db& db) {
    const std::string log = db.path() + "-wal";
    if (bytes_of(log) > 0) {
        // Newer pages may still be in the write-ahead log; but SQLite throws that away beside an empty file.
        if (bytes_of(db.path()) > 0) return;
        throw Failure{Exit::bad_data, db.path() + ": is empty, with a write-ahead log beside it",
                      "keep a copy of both, then 'greentag record restore FILE' from a backup"};
    }
    if (bytes_of(db.path()) <= 0) return;
    const auto expected = db.number("PRAGMA page_count") * db.number("PRAGMA page_size");
    // Looked at after the count: a process that is beginning the store at this moment only makes the file longer.
    const auto size = bytes_of(db.path());
    if (size >= expected || bytes_of(log) > 0) return;
    throw Failure{Exit::bad_data,
                  db.path() + ": is cut short (" + std::to_string(size) + " of " + std::to_string(expected) + " bytes)",
                  "keep a copy of it, then 'greentag record restore FILE' from a backup"};
}

void make_durable(sqlite::Db& db) {
    if (sqlite3_db_readonly(db.handle(), "main") == 1) sqlite::fail(nullptr, SQLITE_READONLY, "write", db.path());
    // Write-ahead logging with a sync at every commit: an acknowledged answer survives a pulled plug.
    db.run("PRAGMA journal_mode = WAL");
    db.run("PRAGMA synchronous = FULL");
    db.run("PRAGMA foreign_keys = ON");
}

base::Id128 device_of(sqlite::Db& db, base::IdMaker& ids, bool writes) {
    auto read = db.prepare("SELECT id FROM device");
    if (read.step()) return read.id(0);
    if (!writes) return {};
    const base::Id128 made = ids.make(base::Instant{});
    auto write = db.prepare("INSERT OR IGNORE INTO device(id) SELECT ?1 WHERE NOT EXISTS (SELECT 1 FROM device)");
    write.bind(1, made);
    write.run();
    read.reset();
    return read.step() ? read.id(0) : made;
}

/// A file on its way to its place; it is gone unless it got there.
struct Aside {
    explicit Aside(std::string where) : path{std::move(where)} { remove(); }
    Aside(const Aside&) = delete;
    Aside& operator=(const Aside&) = delete;
    ~Aside() { remove(); }
    void remove() const {
        std::error_code error;
        for (const char* tail : {"", "-journal", "-wal", "-shm"}) fs::remove(path + tail, error);
    }
    std::string path;
};

void check_copied(int code, const std::string& path) {
    if (code == SQLITE_OK) return;
    if ((code & 0xff) == SQLITE_FULL || (code & 0xff) == SQLITE_IOERR)
        throw Failure{Exit::io_error, path + ": could not be written whole; nothing was left behind",
                      "is the disk full? The store itself is as it was"};
    sqlite::fail(nullptr, code, "copy", path);
}

}  // namespace

struct Store::Inside {
    explicit Inside(const StoreOptions& chosen)
        : options{chosen}, db{chosen.path, open_flags(chosen)}, ids{base::derive_seed(chosen.entropy, "ids")} {}

    StoreOptions options;
    sqlite::Db db;
    base::IdMaker ids;
    base::Id128 device;
    std::unique_ptr<sqlite::AnswerInsert> insert;
};

Store::Store(const StoreOptions& options) {
    check_there(options);
    inside_ = std::make_unique<Inside>(options);
    auto& db = inside_->db;
    check_whole(db);
    sqlite::bring_up_to_date(db, options.writes);
    if (options.writes) make_durable(db);
    inside_->device = device_of(db, inside_->ids, options.writes);
}

Store::~Store() = default;

base::Id128 Store::device() const {
    return inside_->device;
}

AnswerRecord Store::append(AnswerRecord record) {
    assert(record.mark >= 0.0 && record.mark <= 1.0);
    record.id = inside_->ids.make(record.asked_at);
    record.device = inside_->device;
    if (!inside_->insert) inside_->insert = std::make_unique<sqlite::AnswerInsert>(inside_->db);
    // One statement outside a transaction is its own transaction: committed and synced when it returns.
    inside_->insert->run(record);
    return record;
}

std::int64_t Store::append_all(const std::vector<AnswerRecord>& records) {
    sqlite::Writing writing{inside_->db};
    sqlite::AnswerInsert insert{inside_->db};
    std::int64_t fresh = 0;
    for (const auto& record : records) fresh += insert.run_unless_there(record) ? 1 : 0;
    writing.commit();
    return fresh;
}

void Store::for_each_answer(const std::function<void(const AnswerRecord&)>& each) {
    sqlite::for_each_answer(inside_->db, each);
}

std::int64_t Store::answer_count() {
    return inside_->db.number("SELECT count(*) FROM answer");
}

base::Checked<TakenIn> Store::take_in(const LogPart& part) {
    assert(inside_->options.advance != nullptr);
    return sqlite::take_in(inside_->db, part, inside_->options.advance);
}

base::Checked<TakenIn> Store::would_take_in(const LogPart& part) {
    return sqlite::would_take_in(inside_->db, part);
}

RecallStates Store::states(const base::Id128& learner) {
    assert(inside_->options.advance != nullptr);
    return sqlite::states_of(inside_->db, learner, inside_->options.advance);
}

void Store::save_fit(const FitRun& run, const std::vector<FittedValue>& values) {
    sqlite::Writing writing{inside_->db};
    sqlite::save_fit(inside_->db, run, values);
    writing.commit();
}

void Store::drop_fit() {
    inside_->db.run("DELETE FROM fitted");
}

std::optional<FitRun> Store::latest_fit() {
    return sqlite::latest_fit(inside_->db);
}

std::vector<FittedValue> Store::fitted(const base::Id128& learner) {
    return sqlite::fitted(inside_->db, learner);
}

void Store::settle() {
    assert(inside_->options.advance != nullptr);
    sqlite::settle(inside_->db, inside_->options.advance);
}

std::int64_t Store::rebuild() {
    assert(inside_->options.advance != nullptr);
    return sqlite::rebuild(inside_->db, inside_->options.advance);
}

Learner Store::add_learner(Learner learner, base::Instant now) {
    learner.id = inside_->ids.make(now);
    learner.added_at = now;
    sqlite::insert_learner(inside_->db, learner);
    return learner;
}

void Store::update_learner(const Learner& learner) {
    sqlite::update_learner(inside_->db, learner);
}

std::vector<Learner> Store::learners() {
    return sqlite::learners(inside_->db);
}

std::int64_t Store::add_relearn(const base::Id128& learner, const std::vector<base::PointId>& points,
                                const std::string& why, base::Instant now) {
    sqlite::Writing writing{inside_->db};
    auto insert = inside_->db.prepare(
        "INSERT INTO relearn(learner, point, since, why) VALUES (?1, ?2, ?3, ?4) ON CONFLICT(learner, point) "
        "DO UPDATE SET since = excluded.since, why = excluded.why WHERE why <> excluded.why");
    std::int64_t fresh = 0;
    for (const auto& point : points) {
        insert.bind(1, learner);
        insert.bind(2, point.text);
        insert.bind(3, base::to_milliseconds(now));
        insert.bind(4, why);
        insert.run();
        fresh += inside_->db.changes();
    }
    writing.commit();
    return fresh;
}

std::unordered_map<base::PointId, base::Instant> Store::relearn(const base::Id128& learner) {
    std::unordered_map<base::PointId, base::Instant> changed;
    auto rows = inside_->db.prepare("SELECT point, since FROM relearn WHERE learner = ?1");
    rows.bind(1, learner);
    while (rows.step()) changed[{rows.text(0)}] = base::from_milliseconds(rows.integer(1));
    return changed;
}

Verification Store::verify() {
    return sqlite::verify(inside_->db, inside_->options.advance);
}

void Store::backup_to(const std::string& path) {
    std::error_code error;
    if (fs::exists(path, error))
        throw Failure{Exit::cannot_write, path + ": is there already", "name a file that is not there yet"};
    const Aside aside{path + ".part"};
    {
        sqlite::Db copy{aside.path, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE};
        sqlite3_backup* backup = sqlite3_backup_init(copy.handle(), "main", inside_->db.handle(), "main");
        if (backup == nullptr) sqlite::fail(copy.handle(), sqlite3_errcode(copy.handle()), "copy", aside.path);
        const int code = sqlite3_backup_step(backup, -1);
        sqlite3_backup_finish(backup);
        check_copied(code == SQLITE_DONE ? SQLITE_OK : code, path);
        // The copy stands alone: one file, no write-ahead log beside it.
        check_copied(sqlite3_exec(copy.handle(), "PRAGMA journal_mode = DELETE", nullptr, nullptr, nullptr), path);
    }
    fs::rename(aside.path, path, error);
    if (error) throw Failure{Exit::cannot_write, path + ": could not be written", error.message()};
}

void Store::stand_alone() {
    inside_->insert.reset();
    inside_->db.run("PRAGMA journal_mode = DELETE");
}

}  // namespace store
