#include "store/sqlite/schema.hpp"

#include <array>
#include <string>

#include "base/exit_status.hpp"

namespace store::sqlite {
namespace {

using base::Exit;
using base::Failure;

// Step k leads from schema k to k + 1. A step that has been released is never edited; a change is a new step.
constexpr std::array<const char*, 4> kMigrations = {
    // 1: who studies, and what they answered. Nothing in the log is ever changed or removed.
    R"sql(
CREATE TABLE learner(
    id BLOB NOT NULL PRIMARY KEY CHECK(length(id) = 16),
    name TEXT NOT NULL CHECK(length(name) > 0),
    edition INTEGER,
    jurisdiction TEXT NOT NULL DEFAULT '',
    exam_at INTEGER,
    added_at INTEGER NOT NULL,
    retired_at INTEGER
) STRICT, WITHOUT ROWID;
CREATE TABLE answer(
    seq INTEGER PRIMARY KEY,
    id BLOB NOT NULL CHECK(length(id) = 16),
    learner BLOB NOT NULL REFERENCES learner(id),
    point TEXT NOT NULL,
    question TEXT NOT NULL,
    content TEXT NOT NULL,
    seed INTEGER NOT NULL,
    edition INTEGER NOT NULL,
    jurisdiction TEXT NOT NULL,
    setting TEXT NOT NULL CHECK(setting IN ('study', 'meeting', 'exam', 'brief')),
    asked_at INTEGER NOT NULL,
    took_ms INTEGER NOT NULL CHECK(took_ms >= 0),
    mark REAL NOT NULL CHECK(mark >= 0 AND mark <= 1),
    sure TEXT NOT NULL CHECK(sure IN ('guess', 'fairly', 'sure')),
    given TEXT NOT NULL,
    device BLOB NOT NULL CHECK(length(device) = 16)
) STRICT;
CREATE TRIGGER answer_stays BEFORE UPDATE ON answer
    BEGIN SELECT RAISE(ABORT, 'the answer log is append-only'); END;
CREATE TRIGGER answer_is_kept BEFORE DELETE ON answer
    BEGIN SELECT RAISE(ABORT, 'the answer log is append-only'); END;
CREATE TABLE device(id BLOB NOT NULL PRIMARY KEY CHECK(length(id) = 16)) STRICT, WITHOUT ROWID;
)sql",
    // 2: recall states derived from the log, and the index that folds it in order without touching the table. It also
    // keeps an answer from being entered twice: a second index over the ids alone would cost every answer another page.
    R"sql(
CREATE UNIQUE INDEX answer_fold ON answer(learner, point, asked_at, id, mark, sure);
CREATE TABLE recall(learner BLOB NOT NULL PRIMARY KEY, states BLOB NOT NULL) STRICT;
CREATE TABLE derived(name TEXT NOT NULL PRIMARY KEY, upto_seq INTEGER NOT NULL) STRICT, WITHOUT ROWID;
)sql",
    // 3: points that have changed for someone since they last answered them, by order of whoever leads the training.
    R"sql(
CREATE TABLE relearn(
    learner BLOB NOT NULL REFERENCES learner(id),
    point TEXT NOT NULL,
    since INTEGER NOT NULL,
    why TEXT NOT NULL,
    PRIMARY KEY(learner, point)
) STRICT, WITHOUT ROWID;
)sql",
    // 4: what the recall model has learned from the log: derived, may be dropped. A learner of no bytes is everyone.
    R"sql(
CREATE TABLE fitted(
    learner BLOB NOT NULL CHECK(length(learner) IN (0, 16)),
    kind TEXT NOT NULL CHECK(kind IN ('shared', 'learner', 'forgets', 'point', 'family', 'branch')),
    name TEXT NOT NULL,
    value REAL NOT NULL,
    PRIMARY KEY(learner, kind, name)
) STRICT, WITHOUT ROWID;
CREATE TABLE fit_run(
    id INTEGER PRIMARY KEY,
    made_at INTEGER NOT NULL,
    answers INTEGER NOT NULL,
    kept INTEGER NOT NULL CHECK(kept IN (0, 1)),
    log_loss REAL NOT NULL,
    prior_log_loss REAL NOT NULL
) STRICT;
)sql",
};

bool is_empty(Db& db) {
    return db.number("SELECT count(*) FROM sqlite_schema") == 0;
}

void check_ours(Db& db, int schema) {
    if (db.number("PRAGMA application_id") != kApplicationId)
        throw Failure{Exit::bad_data, db.path() + ": is another program's database",
                      "name another data home with --home; this file was left as it was"};
    if (schema > newest_schema())
        throw Failure{Exit::bad_data,
                      db.path() + ": was written by a newer Greentag (schema " + std::to_string(schema) +
                          "; this one knows up to " + std::to_string(newest_schema()) + ")",
                      "bring this machine's Greentag up to date; the file was left as it was"};
}

void migrate(Db& db) {
    Writing writing{db};
    // Another process may have done the work while this one waited for the lock.
    const bool fresh = is_empty(db);
    int schema = static_cast<int>(db.number("PRAGMA user_version"));
    if (!fresh) check_ours(db, schema);
    for (; schema < newest_schema(); ++schema) db.run(migration(schema));
    db.run(("PRAGMA application_id = " + std::to_string(kApplicationId)).c_str());
    db.run(("PRAGMA user_version = " + std::to_string(schema)).c_str());
    writing.commit();
}

}  // namespace

int newest_schema() {
    return static_cast<int>(kMigrations.size());
}

const char* migration(int from) {
    return kMigrations.at(static_cast<std::size_t>(from));
}

void bring_up_to_date(Db& db, bool writes) {
    const int schema = static_cast<int>(db.number("PRAGMA user_version"));
    const bool fresh = schema == 0 && is_empty(db);
    if (!fresh) check_ours(db, schema);
    if (schema == newest_schema()) return;
    if (!writes)
        throw Failure{
            Exit::bad_data,
            db.path() + ": has an earlier schema (" + std::to_string(schema) + ") and is opened for reading only",
            "open it once for writing, for example with 'greentag record verify', to bring it up to date"};
    migrate(db);
}

}  // namespace store::sqlite
