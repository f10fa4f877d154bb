#include "store/sqlite/learners.hpp"

#include <optional>

namespace store::sqlite {
namespace {

Learner learner_from(const Statement& row) {
    Learner learner;
    learner.id = row.id(0);
    learner.name = row.text(1);
    if (!row.is_null(2)) learner.edition = static_cast<int>(row.integer(2));
    learner.jurisdiction = row.text(3);
    if (!row.is_null(4)) learner.exam_at = base::from_milliseconds(row.integer(4));
    learner.added_at = base::from_milliseconds(row.integer(5));
    if (!row.is_null(6)) learner.retired_at = base::from_milliseconds(row.integer(6));
    return learner;
}

std::optional<std::int64_t> ms(const std::optional<base::Instant>& when) {
    if (!when) return std::nullopt;
    return base::to_milliseconds(*when);
}

void bind_learner(Statement& statement, const Learner& learner) {
    statement.bind(1, learner.id);
    statement.bind(2, learner.name);
    statement.bind_maybe<std::int64_t>(3, learner.edition);
    statement.bind(4, learner.jurisdiction);
    statement.bind_maybe(5, ms(learner.exam_at));
    statement.bind_maybe(6, ms(learner.retired_at));
}

}  // namespace

std::vector<Learner> learners(Db& db) {
    std::vector<Learner> all;
    auto rows = db.prepare(
        "SELECT id, name, edition, jurisdiction, exam_at, added_at, retired_at FROM learner ORDER BY name, id");
    while (rows.step()) all.push_back(learner_from(rows));
    return all;
}

void insert_learner(Db& db, const Learner& learner) {
    auto insert = db.prepare(
        "INSERT INTO learner(id, name, edition, jurisdiction, exam_at, retired_at, added_at) "
        "VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)");
    bind_learner(insert, learner);
    insert.bind(7, base::to_milliseconds(learner.added_at));
    insert.run();
}

void update_learner(Db& db, const Learner& learner) {
    auto update = db.prepare(
        "UPDATE learner SET name = ?2, edition = ?3, jurisdiction = ?4, exam_at = ?5, retired_at = ?6 WHERE id = ?1");
    bind_learner(update, learner);
    update.run();
}

}  // namespace store::sqlite
