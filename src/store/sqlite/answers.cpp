#include "store/sqlite/answers.hpp"

#include <bit>

namespace store::sqlite {
namespace {

constexpr std::string_view kInsert =
    "INSERT INTO answer(id, learner, point, question, content, seed, edition, jurisdiction, setting, asked_at, "
    "took_ms, "
    "mark, sure, given, device) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15)";
constexpr std::string_view kUnlessThere = " ON CONFLICT DO NOTHING";
constexpr std::string_view kSelect =
    "SELECT id, learner, point, question, content, seed, edition, jurisdiction, setting, asked_at, took_ms, mark, "
    "sure, "
    "given, device FROM answer ORDER BY asked_at, id";

AnswerRecord record_from(const Statement& row) {
    AnswerRecord record;
    record.id = row.id(0);
    record.learner = row.id(1);
    record.point.text = row.text(2);
    record.question.text = row.text(3);
    record.content = row.text(4);
    record.seed = std::bit_cast<std::uint64_t>(row.integer(5));
    record.edition = static_cast<int>(row.integer(6));
    record.jurisdiction = row.text(7);
    record.setting = parse_setting(row.view(8)).value_or(Setting::study);
    record.asked_at = base::from_milliseconds(row.integer(9));
    record.took_ms = row.integer(10);
    record.mark = row.real(11);
    record.sure = memory::parse_sure(row.view(12)).value_or(memory::Sure::fairly);
    record.given = row.text(13);
    record.device = row.id(14);
    return record;
}

}  // namespace

AnswerInsert::AnswerInsert(Db& db)
    : db_{&db},
      insert_{db.prepare(kInsert)},
      insert_unless_there_{db.prepare(std::string{kInsert} + std::string{kUnlessThere})} {}

void AnswerInsert::bind(Statement& statement, const AnswerRecord& record) {
    statement.bind(1, record.id);
    statement.bind(2, record.learner);
    statement.bind(3, record.point.text);
    statement.bind(4, record.question.text);
    statement.bind(5, record.content);
    statement.bind(6, std::bit_cast<std::int64_t>(record.seed));
    statement.bind(7, std::int64_t{record.edition});
    statement.bind(8, record.jurisdiction);
    statement.bind(9, to_text(record.setting));
    statement.bind(10, base::to_milliseconds(record.asked_at));
    statement.bind(11, record.took_ms);
    statement.bind(12, record.mark);
    statement.bind(13, memory::to_text(record.sure));
    statement.bind(14, record.given);
    statement.bind(15, record.device);
}

void AnswerInsert::run(const AnswerRecord& record) {
    bind(insert_, record);
    insert_.run();
}

bool AnswerInsert::run_unless_there(const AnswerRecord& record) {
    bind(insert_unless_there_, record);
    insert_unless_there_.run();
    return db_->changes() > 0;
}

void for_each_answer(Db& db, const std::function<void(const AnswerRecord&)>& each) {
    auto rows = db.prepare(kSelect);
    while (rows.step()) each(record_from(rows));
}

}  // namespace store::sqlite
