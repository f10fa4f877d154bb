#include "store/sqlite/recall.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <utility>

#include "store/sqlite/packed.hpp"
#include "store/sqlite/schema.hpp"

namespace store::sqlite {
namespace {

using memory::RecallState;

/// Answers are folded per learner and point in the order asked; the id settles ties, so that any machine folds the same
/// log the same way.
constexpr std::string_view kFoldAll =
    "SELECT learner, point, asked_at, mark, sure FROM answer INDEXED BY answer_fold "
    "ORDER BY learner, point, asked_at, id";
constexpr std::string_view kFoldLearner =
    "SELECT learner, point, asked_at, mark, sure FROM answer INDEXED BY answer_fold WHERE learner = ?1 "
    "ORDER BY point, asked_at, id";
constexpr std::string_view kFoldOne =
    "SELECT asked_at, mark, sure FROM answer INDEXED BY answer_fold WHERE learner = ?1 AND point = ?2 "
    "ORDER BY asked_at, id";
constexpr std::string_view kUpTo = "SELECT coalesce((SELECT upto_seq FROM derived WHERE name = 'recall'), 0)";

memory::Sure sure_at(const Statement& row, int column) {
    return memory::parse_sure(row.view(column)).value_or(memory::Sure::fairly);
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

void put_states(Db& db, const base::Id128& learner, const StateList& states) {
    auto put = db.prepare("INSERT OR REPLACE INTO recall(learner, states) VALUES (?1, ?2)");
    put.bind(1, learner);
    put.bind_bytes(2, pack(states));
    put.run();
}

void mark_upto(Db& db, std::int64_t seq) {
    auto put = db.prepare("INSERT OR REPLACE INTO derived(name, upto_seq) VALUES ('recall', ?1)");
    put.bind(1, seq);
    put.run();
}

/// Folds rows of (learner, point, asked_at, mark, sure) and calls `each` with a learner and all of their states.
/// Gives the number of answers.
template <class Each>
std::int64_t fold(Statement rows, Advance advance, Each each) {
    std::optional<base::Id128> learner;
    StateList states;
    std::int64_t count = 0;
    for (; rows.step(); ++count) {
        // The log is long and runs of one point are what it is made of: compare before copying.
        if (learner != rows.id(0)) {
            if (learner) each(*learner, states);
            learner = rows.id(0);
            states.clear();
        }
        if (states.empty() || rows.view(1) != states.back().first) states.emplace_back(rows.text(1), RecallState{});
        auto& state = states.back().second;
        state = advance(state, base::from_milliseconds(rows.integer(2)), rows.real(3), sure_at(rows, 4));
    }
    if (learner) each(*learner, states);
    return count;
}

StateList fold_learner(Db& db, const base::Id128& learner, Advance advance) {
    auto rows = db.prepare(kFoldLearner);
    rows.bind(1, learner);
    StateList folded;
    fold(std::move(rows), advance, [&](const base::Id128&, StateList& states) { folded = std::move(states); });
    return folded;
}

/// The states as written. Bytes that cannot be read are no loss: the log has it all.
StateList written_states(Db& db, const base::Id128& learner, Advance advance) {
    auto row = db.prepare("SELECT states FROM recall WHERE learner = ?1");
    row.bind(1, learner);
    if (!row.step()) return {};
    auto states = unpack(row.bytes(0));
    return states ? std::move(*states) : fold_learner(db, learner, advance);
}

RecallStates map_of(StateList&& list) {
    RecallStates states;
    states.reserve(list.size() + 64);
    for (auto& [point, state] : list) states.emplace(base::PointId{std::move(point)}, state);
    return states;
}

StateList list_of(const RecallStates& states) {
    StateList list;
    list.reserve(states.size());
    for (const auto& [point, state] : states) list.emplace_back(point.text, state);
    std::sort(list.begin(), list.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    return list;
}

/// States as written, with the answers since then folded in.
RecallStates read_states(Db& db, const base::Id128& learner, Advance advance) {
    RecallStates states = map_of(written_states(db, learner, advance));
    // The plus keeps the index by learner out of it: the tail is short, a learner's answers are not.
    auto tail =
        db.prepare("SELECT point, asked_at, mark, sure FROM answer WHERE seq > ?1 AND +learner = ?2 ORDER BY seq");
    tail.bind(1, db.number(kUpTo));
    tail.bind(2, learner);
    while (tail.step()) {
        const std::string point = tail.text(0);
        carry(db, learner, point, tail, 1, states[{point}], advance);
    }
    return states;
}

std::size_t differing(const StateList& folded, RecallStates written) {
    std::size_t count = 0;
    for (const auto& [point, state] : folded) {
        const auto found = written.find({point});
        if (found == written.end() || !(found->second == state)) ++count;
        if (found != written.end()) written.erase(found);
    }
    return count + written.size();  // left over: written of points that were never answered
}

bool unreadable_states(Db& db) {
    auto rows = db.prepare("SELECT states FROM recall");
    while (rows.step())
        if (!unpack(rows.bytes(0))) return true;
    return false;
}

void check_written_states(Db& db, Advance advance, Verification& found) {
    std::size_t wrong = 0;
    fold(db.prepare(kFoldAll), advance, [&](const base::Id128& learner, const StateList& states) {
        wrong += differing(states, read_states(db, learner, advance));
    });
    wrong += static_cast<std::size_t>(
        db.number("SELECT count(*) FROM recall WHERE NOT EXISTS (SELECT 1 FROM answer INDEXED BY answer_fold "
                  "WHERE answer.learner = recall.learner)"));
    if (wrong > 0 || unreadable_states(db))
        found.problems.push_back("the written recall states differ from the log in " +
                                 std::to_string(std::max<std::size_t>(1, wrong)) +
                                 " places; 'greentag record rebuild' makes them anew");
}

}  // namespace

RecallStates states_of(Db& db, const base::Id128& learner, Advance advance) {
    // What is written and how far it reaches have to be of one moment: another process may settle in between.
    const Reading reading{db};
    return read_states(db, learner, advance);
}

void settle(Db& db, Advance advance) {
    if (db.number("SELECT coalesce(max(seq), 0) FROM answer") <= db.number(kUpTo)) return;
    Writing writing{db};
    std::map<base::Id128, RecallStates> touched;
    auto tail = db.prepare("SELECT DISTINCT learner FROM answer WHERE seq > ?1");
    tail.bind(1, db.number(kUpTo));
    while (tail.step()) touched[tail.id(0)] = read_states(db, tail.id(0), advance);
    for (const auto& [learner, states] : touched) put_states(db, learner, list_of(states));
    mark_upto(db, db.number("SELECT coalesce(max(seq), 0) FROM answer"));
    writing.commit();
}

std::int64_t rebuild_within(Db& db, Advance advance) {
    db.run("DELETE FROM recall");
    const auto count = fold(db.prepare(kFoldAll), advance, [&](const base::Id128& learner, const StateList& states) {
        put_states(db, learner, states);
    });
    mark_upto(db, db.number("SELECT coalesce(max(seq), 0) FROM answer"));
    return count;
}

std::int64_t rebuild(Db& db, Advance advance) {
    Writing writing{db};
    const auto count = rebuild_within(db, advance);
    writing.commit();
    return count;
}

Verification verify(Db& db, Advance advance) {
    const Reading reading{db};
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
