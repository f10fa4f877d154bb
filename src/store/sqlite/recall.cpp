#include "store/sqlite/recall.hpp"

#include <cstring>
#include <map>
#include <utility>

#include "store/sqlite/schema.hpp"

namespace store::sqlite {
namespace {

using memory::RecallState;

/// Answers are folded per learner and point in the order asked; the id settles ties, so that any machine folds the same
/// log the same way.
constexpr std::string_view kFoldAll =
    "SELECT learner, point, asked_at, mark, sure FROM answer INDEXED BY answer_fold ORDER BY learner, point, asked_at, "
    "id";
constexpr std::string_view kFoldOne =
    "SELECT asked_at, mark, sure FROM answer INDEXED BY answer_fold WHERE learner = ?1 AND point = ?2 "
    "ORDER BY asked_at, id";
constexpr std::string_view kUpTo = "SELECT coalesce((SELECT upto_seq FROM derived WHERE name = 'recall'), 0)";
constexpr std::string_view kPut =
    "INSERT OR REPLACE INTO recall(learner, point, last_at, recalled, failed, spacing_recalled, spacing_failed, "
    "last_mark, "
    "last_sure, watch) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)";

memory::Sure sure_at(const Statement& row, int column) {
    return memory::parse_sure(row.view(column)).value_or(memory::Sure::fairly);
}

RecallState state_from(const Statement& row, int first) {
    RecallState state;
    state.last = base::from_milliseconds(row.integer(first));
    state.recalled = static_cast<std::uint32_t>(row.integer(first + 1));
    state.failed = static_cast<std::uint32_t>(row.integer(first + 2));
    state.spacing_recalled = row.real(first + 3);
    state.spacing_failed = row.real(first + 4);
    state.last_mark = row.real(first + 5);
    state.last_sure = sure_at(row, first + 6);
    state.watch = static_cast<std::uint8_t>(row.integer(first + 7));
    return state;
}

void put_state(Statement& put, const base::Id128& learner, std::string_view point, const RecallState& state) {
    put.bind(1, learner);
    put.bind(2, point);
    put.bind(3, base::to_milliseconds(state.last));
    put.bind(4, std::int64_t{state.recalled});
    put.bind(5, std::int64_t{state.failed});
    put.bind(6, state.spacing_recalled);
    put.bind(7, state.spacing_failed);
    put.bind(8, state.last_mark);
    put.bind(9, memory::to_text(state.last_sure));
    put.bind(10, std::int64_t{state.watch});
    put.run();
}

RecallState fold_one(Db& db, const base::Id128& learner, const std::string& point, Advance advance) {
    auto rows = db.prepare(kFoldOne);
    rows.bind(1, learner);
    rows.bind(2, point);
    RecallState state;
    while (rows.step())
        state = advance(state, base::from_milliseconds(rows.integer(0)), rows.real(1), sure_at(rows, 2));
    return state;
}

/// One answer carried onto a state. Out of order in time (a clock set back, answers from another machine): the point is
/// folded anew from the log, so that the result never depends on the order of arrival.
void carry(Db& db, const base::Id128& learner, const std::string& point, const Statement& row, int first,
           RecallState& state, Advance advance) {
    const auto at = base::from_milliseconds(row.integer(first));
    if (state.answers() > 0 && at <= state.last)
        state = fold_one(db, learner, point, advance);
    else
        state = advance(state, at, row.real(first + 1), sure_at(row, first + 2));
}

void mark_upto(Db& db, std::int64_t seq) {
    auto put = db.prepare("INSERT OR REPLACE INTO derived(name, upto_seq) VALUES ('recall', ?1)");
    put.bind(1, seq);
    put.run();
}

/// Calls `each` with learner, point and final state for every pair in the log; gives the number of answers.
template <class Each>
std::int64_t fold_all(Db& db, Advance advance, Each each) {
    auto rows = db.prepare(kFoldAll);
    base::Id128 learner;
    std::string point;
    RecallState state;
    std::int64_t count = 0;
    while (rows.step()) {
        // The log is long and runs of one point are what it is made of: compare before copying.
        if (count == 0 || rows.view(1) != point || rows.id(0) != learner) {
            if (count > 0) each(learner, point, state);
            learner = rows.id(0);
            point = rows.view(1);
            state = {};
        }
        state = advance(state, base::from_milliseconds(rows.integer(2)), rows.real(3), sure_at(rows, 4));
        ++count;
    }
    if (count > 0) each(learner, point, state);
    return count;
}

void check_written_states(Db& db, Advance advance, Verification& found) {
    settle(db, advance);
    std::int64_t differing = 0;
    std::int64_t folded = 0;
    auto read = db.prepare(
        "SELECT last_at, recalled, failed, spacing_recalled, spacing_failed, last_mark, last_sure, watch FROM recall "
        "WHERE learner = ?1 AND point = ?2");
    fold_all(db, advance, [&](const base::Id128& learner, const std::string& point, const RecallState& state) {
        ++folded;
        read.bind(1, learner);
        read.bind(2, point);
        if (!read.step() || !(state_from(read, 0) == state)) ++differing;
        read.reset();
    });
    const auto written = db.number("SELECT count(*) FROM recall");
    if (differing > 0 || written != folded)
        found.problems.push_back("the written recall states differ from the log in " +
                                 std::to_string(differing + std::abs(written - folded)) +
                                 " places; 'greentag record rebuild' makes them anew");
}

}  // namespace

RecallStates states_of(Db& db, const base::Id128& learner, Advance advance) {
    RecallStates states;
    auto written = db.prepare(
        "SELECT point, last_at, recalled, failed, spacing_recalled, spacing_failed, last_mark, last_sure, watch FROM "
        "recall "
        "WHERE learner = ?1");
    written.bind(1, learner);
    while (written.step()) states[{written.text(0)}] = state_from(written, 1);
    auto tail =
        db.prepare("SELECT point, asked_at, mark, sure FROM answer WHERE seq > ?1 AND learner = ?2 ORDER BY seq");
    tail.bind(1, db.number(kUpTo));
    tail.bind(2, learner);
    while (tail.step()) {
        const std::string point = tail.text(0);
        carry(db, learner, point, tail, 1, states[{point}], advance);
    }
    return states;
}

void settle(Db& db, Advance advance) {
    if (db.number("SELECT coalesce(max(seq), 0) FROM answer") <= db.number(kUpTo)) return;
    Writing writing{db};
    const std::int64_t before = db.number(kUpTo);
    std::int64_t last = before;
    std::map<std::pair<base::Id128, std::string>, RecallState> touched;
    auto read = db.prepare(
        "SELECT last_at, recalled, failed, spacing_recalled, spacing_failed, last_mark, last_sure, watch FROM recall "
        "WHERE learner = ?1 AND point = ?2");
    auto tail = db.prepare("SELECT seq, learner, point, asked_at, mark, sure FROM answer WHERE seq > ?1 ORDER BY seq");
    tail.bind(1, before);
    while (tail.step()) {
        last = tail.integer(0);
        const auto [at, fresh] = touched.try_emplace({tail.id(1), tail.text(2)});
        if (fresh) {
            read.bind(1, at->first.first);
            read.bind(2, at->first.second);
            if (read.step()) at->second = state_from(read, 0);
            read.reset();
        }
        carry(db, at->first.first, at->first.second, tail, 3, at->second, advance);
    }
    auto put = db.prepare(kPut);
    for (const auto& [key, state] : touched) put_state(put, key.first, key.second, state);
    mark_upto(db, last);
    writing.commit();
}

std::int64_t rebuild(Db& db, Advance advance) {
    Writing writing{db};
    db.run("DELETE FROM recall");
    auto put = db.prepare(kPut);
    const auto count =
        fold_all(db, advance, [&](const base::Id128& learner, const std::string& point, const RecallState& state) {
            put_state(put, learner, point, state);
        });
    mark_upto(db, db.number("SELECT coalesce(max(seq), 0) FROM answer"));
    writing.commit();
    return count;
}

Verification verify(Db& db, Advance advance) {
    Verification found;
    found.schema = static_cast<int>(db.number("PRAGMA user_version"));
    auto integrity = db.prepare("PRAGMA integrity_check");
    while (integrity.step())
        if (integrity.view(0) != "ok") found.problems.push_back("SQLite: " + integrity.text(0));
    auto strangers = db.prepare("PRAGMA foreign_key_check");
    if (strangers.step()) found.problems.emplace_back("an answer belongs to a learner who is not in the crew");
    found.answers = db.number("SELECT count(*) FROM answer");
    found.learners = db.number("SELECT count(*) FROM learner");
    if (found.problems.empty() && advance != nullptr) check_written_states(db, advance, found);
    return found;
}

}  // namespace store::sqlite
