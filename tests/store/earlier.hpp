#pragma once

#include "store/sqlite/schema.hpp"
#include "store/support.hpp"

/// Stores as earlier versions of the program left them.
namespace stores {

inline void set_header(store::sqlite::Db& db, std::int64_t application, int schema) {
    db.run(("PRAGMA application_id = " + std::to_string(application)).c_str());
    db.run(("PRAGMA user_version = " + std::to_string(schema)).c_str());
}

/// In the words of schema 1, which every later schema has to bring along.
inline void insert_answer(store::sqlite::Db& db, const store::AnswerRecord& record) {
    auto insert = db.prepare(
        "INSERT INTO answer(id, learner, point, question, content, seed, edition, jurisdiction, setting, asked_at, "
        "took_ms, mark, sure, given, device) VALUES (?1, ?2, ?3, ?4, ?5, ?6, 2020, '', 'study', ?7, ?8, ?9, 'sure', "
        "'b', ?10)");
    insert.bind(1, record.id);
    insert.bind(2, record.learner);
    insert.bind(3, record.point.text);
    insert.bind(4, record.question.text);
    insert.bind(5, record.content);
    insert.bind(6, static_cast<std::int64_t>(record.seed));
    insert.bind(7, base::to_milliseconds(record.asked_at));
    insert.bind(8, record.took_ms);
    insert.bind(9, record.mark);
    insert.bind(10, record.device);
    insert.run();
}

inline Log samples() {
    Log log;
    for (std::uint8_t number = 0; number < 40; ++number) {
        log.push_back(answer(id_of(number % 2 == 0 ? 200 : 201), (number * 17) % 40));
        log.back().id = id_of(number);
        log.back().device = id_of(250);
    }
    return in_order(log);
}

inline std::vector<store::Learner> crew() {
    std::vector<store::Learner> both = {learner_called("Ada Volt"), learner_called("Ben Ohm")};
    both[0].id = id_of(200);
    both[1].id = id_of(201);
    return both;
}

/// A store as the version that wrote this schema would have left it.
inline void make_schema(const std::string& path, int schema) {
    store::sqlite::Db db = side_door(path);
    for (int step = 0; step < schema; ++step) db.run(store::sqlite::migration(step));
    set_header(db, store::sqlite::kApplicationId, schema);
    if (schema == 0) return;
    enlist(path, crew());
    for (const auto& record : samples()) insert_answer(db, record);
}

}  // namespace stores
