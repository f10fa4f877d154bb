#include "store/sqlite/fits.hpp"

namespace store::sqlite {
namespace {

void bind_learner(Statement& statement, int at, const base::Id128& learner) {
    if (learner == base::Id128{})
        statement.bind_bytes(at, "");  // not {}: no pointer would be bound as NULL
    else
        statement.bind(at, learner);
}

}  // namespace

void save_fit(Db& db, const FitRun& run, const std::vector<FittedValue>& values) {
    auto note =
        db.prepare("INSERT INTO fit_run(made_at, answers, kept, log_loss, prior_log_loss) VALUES (?1, ?2, ?3, ?4, ?5)");
    note.bind(1, base::to_milliseconds(run.made_at));
    note.bind(2, run.answers);
    note.bind(3, std::int64_t{run.kept ? 1 : 0});
    note.bind(4, run.log_loss);
    note.bind(5, run.prior_log_loss);
    note.run();
    if (!run.kept) return;
    db.run("DELETE FROM fitted");
    auto put = db.prepare("INSERT INTO fitted(learner, kind, name, value) VALUES (?1, ?2, ?3, ?4)");
    for (const auto& one : values) {
        bind_learner(put, 1, one.learner);
        put.bind(2, one.kind);
        put.bind(3, one.name);
        put.bind(4, one.value);
        put.run();
    }
}

std::optional<FitRun> latest_fit(Db& db) {
    auto row =
        db.prepare("SELECT made_at, answers, kept, log_loss, prior_log_loss FROM fit_run ORDER BY id DESC LIMIT 1");
    if (!row.step()) return std::nullopt;
    return FitRun{base::from_milliseconds(row.integer(0)), row.integer(1), row.integer(2) == 1, row.real(3),
                  row.real(4)};
}

std::vector<FittedValue> fitted(Db& db, const base::Id128& learner) {
    std::vector<FittedValue> values;
    auto rows = db.prepare("SELECT learner, kind, name, value FROM fitted WHERE learner IN (x'', ?1)");
    bind_learner(rows, 1, learner);
    while (rows.step()) {
        FittedValue one{rows.text(1), {}, rows.text(2), rows.real(3)};
        if (!rows.bytes(0).empty()) one.learner = rows.id(0);
        values.push_back(std::move(one));
    }
    return values;
}

}  // namespace store::sqlite
