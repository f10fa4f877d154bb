#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace memory {

/// One answer to one item, by number.
struct ItemAnswer {
    std::uint32_t learner = 0;  ///< below the number of learners
    std::uint32_t item = 0;     ///< below the number of items
    double mark = 0;            ///< 0..1; right from kRecalledFrom up
    std::int32_t choice = -1;   ///< index of the option chosen; -1: none, or not a choice
    std::int64_t took_ms = 0;   ///< 0: not taken

    [[nodiscard]] bool right() const;
};

/// Who answered what: one answer for each learner and item that have met, however few those are.
///
/// The first answer counts and the others are dropped: once a learner has seen the right answer, a further one tells of
/// the learner's memory and no longer of the item.
class ResponseMatrix {
public:
    /// Takes   answers in the order they were given; only the order within a learner and item matters.
    /// Throws  std::invalid_argument when a number is out of its range.
    ResponseMatrix(std::span<const ItemAnswer> answers, std::size_t learners, std::size_t items);

    [[nodiscard]] std::size_t learners() const { return learner_begin_.size() - 1; }
    [[nodiscard]] std::size_t items() const { return item_begin_.size() - 1; }
    /// The answers that count, by learner and item.
    [[nodiscard]] const std::vector<ItemAnswer>& answers() const { return answers_; }
    /// How many were dropped.
    [[nodiscard]] std::size_t repeats() const { return repeats_; }
    [[nodiscard]] std::span<const ItemAnswer> of_learner(std::size_t learner) const;
    /// Where an item's answers stand in answers().
    [[nodiscard]] std::span<const std::size_t> of_item(std::size_t item) const;

private:
    std::vector<ItemAnswer> answers_;
    std::vector<std::size_t> learner_begin_, item_begin_, by_item_;
    std::size_t repeats_ = 0;
};

}  // namespace memory
