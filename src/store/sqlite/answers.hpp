#pragma once

#include <functional>

#include "store/answer_log.hpp"
#include "store/sqlite/db.hpp"

namespace store::sqlite {

/// The statement that appends to the log, prepared once.
class AnswerInsert {
public:
    explicit AnswerInsert(Db& db);
    void run(const AnswerRecord& record);
    /// False when a record of that id is in the log already.
    bool run_unless_there(const AnswerRecord& record);

private:
    void bind(Statement& statement, const AnswerRecord& record);
    Db* db_;
    Statement insert_, insert_unless_there_;
};

void for_each_answer(Db& db, const std::function<void(const AnswerRecord&)>& each);

}  // namespace store::sqlite
