#pragma once

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iterator>
#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include <stdlib.h>  // mkdtemp
#include <unistd.h>

#include "base/exit_status.hpp"
#include "base/random.hpp"
#include "memory/model.hpp"
#include "store/sqlite/db.hpp"
#include "store/store.hpp"

/// What the store's tests share: folders that go away, sample answers, and a plain fold to hold the store against.
namespace stores {

namespace fs = std::filesystem;
using Log = std::vector<store::AnswerRecord>;

/// Monday, 2 March 2026, seven in the morning UTC.
inline const base::Instant kMonday = base::from_milliseconds(1'772'434'800'000);

class TempFolder {
public:
    TempFolder() {
        std::string form = (fs::temp_directory_path() / "greentag-test-XXXXXX").string();
        if (mkdtemp(form.data()) == nullptr) throw std::runtime_error{"no temporary folder"};
        path_ = form;
    }
    TempFolder(const TempFolder&) = delete;
    TempFolder& operator=(const TempFolder&) = delete;
    ~TempFolder() {
        std::error_code error;
        fs::remove_all(path_, error);
    }
    [[nodiscard]] std::string path(const std::string& name = "greentag.db") const { return (path_ / name).string(); }

private:
    fs::path path_;
};

inline std::string read_bytes(const std::string& path) {
    std::ifstream in{path, std::ios::binary};
    return {std::istreambuf_iterator<char>{in}, {}};
}

inline void write_bytes(const std::string& path, const std::string& bytes) {
    std::ofstream{path, std::ios::binary | std::ios::trunc} << bytes;
}

/// Every opening draws other ids, as every run of the program does.
inline store::StoreOptions options(const std::string& path, bool writes = true) {
    static base::Seed opened = 0;
    return {path, writes, memory::advance, base::derive_seed(++opened, "pid " + std::to_string(getpid()))};
}

inline base::Id128 id_of(std::uint8_t number) {
    base::Id128 id;
    id.bytes.back() = number;
    return id;
}

inline store::Learner learner_called(const std::string& name) {
    store::Learner learner;
    learner.name = name;
    learner.edition = 2020;
    return learner;
}

inline base::Id128 add(store::Store& store, const std::string& name) {
    return store.add_learner(learner_called(name), kMonday).id;
}

inline store::AnswerRecord answer(const base::Id128& learner, int number = 0) {
    store::AnswerRecord record;
    record.learner = learner;
    record.point = {"box.point-" + std::to_string(number % 7)};
    record.question = {record.point.text + "#a"};
    record.content = "0123456789abcdef";
    record.seed = ~base::Seed{0} - static_cast<base::Seed>(number);
    record.edition = 2020;
    record.asked_at = kMonday + std::chrono::minutes{number};
    record.took_ms = 9000 + number;
    record.mark = number % 3 == 0 ? 0.0 : 1.0;
    record.sure = memory::Sure::sure;
    record.given = "b";
    return record;
}

/// Any of six points, any mark and sureness, any moment of a year; one in eight falls on a moment used before.
inline store::AnswerRecord any_answer(base::Random& random, const base::Id128& learner) {
    auto record = answer(learner, static_cast<int>(random.below(6)));
    const auto minutes = random.below(8) == 0 ? std::uint64_t{60} : random.below(525'600);
    record.asked_at = kMonday + std::chrono::minutes{minutes};
    record.mark = random.below(2) == 0 ? 1.0 : random.unit();
    record.sure = static_cast<memory::Sure>(random.below(3));
    return record;
}

inline Log append(store::Store& store, const base::Id128& learner, int from, int to) {
    Log kept;
    for (int number = from; number < to; ++number) kept.push_back(store.append(answer(learner, number)));
    return kept;
}

inline Log log_of(store::Store& store) {
    Log log;
    store.for_each_answer([&](const store::AnswerRecord& record) { log.push_back(record); });
    return log;
}

inline Log log_at(const std::string& path) {
    store::Store store{options(path)};
    return log_of(store);
}

inline Log in_order(Log log) {
    std::sort(log.begin(), log.end(), [](const auto& a, const auto& b) {
        return std::pair{a.asked_at, a.id} < std::pair{b.asked_at, b.id};
    });
    return log;
}

inline bool holds(const Log& log, const base::Id128& id) {
    return std::any_of(log.begin(), log.end(), [&](const auto& record) { return record.id == id; });
}

/// The plain twin of the store's derived states.
inline store::RecallStates folded(const Log& log, const base::Id128& learner) {
    store::RecallStates states;
    for (const auto& record : in_order(log))
        if (record.learner == learner)
            states[record.point] = memory::advance(states[record.point], record.asked_at, record.mark, record.sure);
    return states;
}

/// The status of the Failure that `act` throws; nothing when it throws none.
inline std::optional<base::Exit> failure_of(const std::function<void()>& act) {
    try {
        act();
    } catch (const base::Failure& failure) {
        return failure.status();
    }
    return std::nullopt;
}

inline std::optional<base::Exit> opening(const std::string& path, bool writes = true) {
    return failure_of([&] { const store::Store store{options(path, writes)}; });
}

/// A sound store of one learner with `answers` answers, its derived states written.
inline Log make_store(const std::string& path, int answers) {
    store::Store store{options(path)};
    auto kept = append(store, add(store, "Ada Volt"), 0, answers);
    store.settle();
    return kept;
}

inline store::sqlite::Db side_door(const std::string& path) {
    return store::sqlite::Db{path, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE};
}

/// Writes learners into a store under the ids that they have elsewhere.
inline void enlist(const std::string& path, const std::vector<store::Learner>& crew) {
    auto db = side_door(path);
    auto insert = db.prepare("INSERT INTO learner(id, name, added_at) VALUES (?1, ?2, ?3)");
    for (const auto& one : crew) {
        insert.bind(1, one.id);
        insert.bind(2, one.name);
        insert.bind(3, base::to_milliseconds(one.added_at));
        insert.run();
    }
}

}  // namespace stores
