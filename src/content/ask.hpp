#pragma once

#include <map>
#include <string>
#include <vector>

#include "base/ids.hpp"
#include "base/random.hpp"
#include "content/deck.hpp"
#include "content/source.hpp"
#include "trade/edition.hpp"

namespace content {

/// One option as shown; its letter is its position: a, b, c, ...
struct Option {
    std::string text;
    bool right = false;   ///< choose, choose_all
    int step = 0;         ///< order: which step this is in the right order, from 1
    std::string mistake;  ///< the mistake behind a wrong option
};

/// One posed instance of a question or of a scenario's ask, with everything that marking and explaining need.
struct Ask {
    base::QuestionId id;
    base::Seed seed = 0;
    std::string content;  ///< content version: changes whenever what is asked, or its answer, changes
    trade::Edition edition = trade::Edition::e2023;
    std::string topic, title;
    Stakes stakes = Stakes::inspection;
    std::string call;             ///< title of the service call that the ask belongs to; empty for a plain question
    std::string story;            ///< of the service call, slots filled
    Question question;            ///< as authored, slots filled
    Version version;              ///< of the point, for the edition
    std::vector<Option> options;  ///< choose, choose_all, order: in the order shown
    std::string caution;          ///< shown with the result; empty where nobody can be hurt
    Slice mistakes_at;            ///< where the lines that explain mistakes stand
    Mistakes mistakes;            ///< lines that have been looked up, by explain
};

/// The right answer as a learner would give it: "b", "acd", "18 in3", "210.8(A)(2)", "bca", or a few words.
[[nodiscard]] std::string right_answer(const Ask& ask);
/// The right answer in words, for the explanation.
[[nodiscard]] std::string right_in_words(const Ask& ask);

/// 0 -> "a".
[[nodiscard]] std::string letter(std::size_t position);

}  // namespace content
