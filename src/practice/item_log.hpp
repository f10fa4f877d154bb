#pragma once

#include <cstdint>
#include <string>
#include <unordered_map>
#include <vector>

#include "base/ids.hpp"
#include "content/library.hpp"
#include "memory/items/flags.hpp"
#include "memory/items/logistic_items.hpp"
#include "store/answer_log.hpp"

namespace practice {

/// A question as its statistics see it.
struct Item {
    base::QuestionId id;
    base::PointId point;
    std::string topic;  ///< empty when the point is no longer in the library
    /// Options by the number that statistics give them, the right one first; empty where there are none, or where they
    /// are worked out anew each time.
    std::vector<std::string> options;
};

/// The answer log by question.
struct ItemLog {
    std::vector<Item> items;
    std::vector<memory::ItemKey> keys;  ///< one for each item
    std::vector<memory::ItemAnswer> answers;
    std::size_t learners = 0;
    std::size_t changed = 0;  ///< answers to a question whose words have changed since: the option chosen is not known
};

/// Fills it, answer by answer, in the order they were given.
class ItemLogReader {
public:
    explicit ItemLogReader(const content::Library& library) : library_{&library} {}

    void add(const store::AnswerRecord& record);
    [[nodiscard]] const ItemLog& log() const { return log_; }

private:
    [[nodiscard]] std::uint32_t item(const store::AnswerRecord& record);
    [[nodiscard]] const content::Question* authored(const store::AnswerRecord& record) const;
    [[nodiscard]] std::int32_t choice(const store::AnswerRecord& record, const Item& item);

    const content::Library* library_;
    ItemLog log_;
    std::unordered_map<base::QuestionId, std::uint32_t> items_;
    std::unordered_map<base::Id128, std::uint32_t> learners_;
};

/// Everything that is said of each question.
struct ItemFigures {
    std::size_t counted = 0, repeats = 0;  ///< first answers, and later ones that are left out
    std::vector<memory::ItemSummary> summaries;
    memory::LogisticItems fitted;
    std::vector<memory::Flagged> flags;
};

/// Takes   how the logistic model is fitted; standard errors are left out for many items, as they cost too much.
[[nodiscard]] ItemFigures item_figures(const ItemLog& log, memory::LogisticOptions options);

}  // namespace practice
