#pragma once

#include <string>
#include <vector>

#include "practice/shop/crew_progress.hpp"
#include "report/shop/progress_page.hpp"
#include "store/answer_log.hpp"

namespace report {

/// Tables for the office, RFC 4180 with CRLF, a head row each; a text that a spreadsheet would run as a formula is
/// guarded. Shares run from 0 to 1, a missing value is an empty cell, days are YYYY-MM-DD and instants ISO 8601, UTC.

/// One row an answer: asked_at, learner, point, topic, stakes, question, content, setting, edition, jurisdiction,
/// right (1 or 0), mark, sure, seconds, given. Written answer by answer, so that a long log need not be held.
class AnswersCsv {
public:
    /// Takes   the learners that may be named, of whom no other's answers are written; topic and stakes from the index,
    ///         empty for points no longer in it. Both have to outlive it.
    AnswersCsv(const content::Index& index, const std::vector<store::Learner>& learners);

    void add(const store::AnswerRecord& record);
    [[nodiscard]] const std::string& text() const { return text_; }

private:
    const content::Index* index_;
    const std::vector<store::Learner>* learners_;
    std::string text_;
};

/// One row a learner and topic: learner, topic, points, met, due, tripped, state, recall_now, recall_in_30_days.
[[nodiscard]] std::string topics_csv(const LearnerPage& of);
[[nodiscard]] std::string topics_csv(const practice::CrewProgress& crew);

/// One row a learner: learner, first, last, days_idle, answers, right, days_studied, minutes, points, met, due,
/// tripped, corrections, recall_now, recall_in_30_days, sure_answers, sure_right, exam_in_days, chance_to_pass.
[[nodiscard]] std::string crew_csv(const practice::CrewProgress& crew);

}  // namespace report
