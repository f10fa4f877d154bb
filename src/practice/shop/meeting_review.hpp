#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "practice/shop/meeting.hpp"
#include "practice/shop/meeting_entry.hpp"

namespace practice {

/// A mistake that several made in one ask.
struct CommonMistake {
    std::string id, words;  ///< words: the line that explains it, or the id when it has none
    std::size_t count = 0;  ///< learners
};

/// How an ask went.
struct AskReview {
    std::size_t ask = 0;  ///< place in the meeting
    std::size_t answers = 0, right = 0, blank = 0;
    double share_right = 0.0;                 ///< right over answers, blanks among them; 0 when nobody answered
    std::optional<CommonMistake> mistake;     ///< made most often; of equals the one met first
    std::vector<std::string> wrong;           ///< names, by sheet; blanks and partly right among them
    std::vector<std::string> sure_and_wrong;  ///< names, by sheet
    double urgency = 0.0;                     ///< stakes weight times share wrong; sure and wrong counts twice
};

struct SheetReview {
    int sheet = 0;
    std::string name;
    std::size_t right = 0, corrections = 0;
    [[nodiscard]] bool green() const { return corrections == 0; }
};

struct MeetingReview {
    std::vector<AskReview> asks;       ///< as in the meeting
    std::vector<std::size_t> talk;     ///< places of asks that somebody got wrong, the most urgent first
    std::vector<SheetReview> sheets;   ///< those entered
    std::vector<std::string> missing;  ///< names of those whose sheet has not been entered
    [[nodiscard]] bool green() const { return !sheets.empty() && talk.empty(); }
};

/// Takes   answers from enter_lines, enter_csv or entries_in_log; of one id only the first counts.
[[nodiscard]] MeetingReview review(const Meeting& meeting, const std::vector<Entry>& entries);

}  // namespace practice
