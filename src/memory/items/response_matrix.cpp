#include "memory/items/response_matrix.hpp"

#include <algorithm>
#include <stdexcept>
#include <string>
#include <tuple>

#include "memory/state.hpp"

namespace memory {
namespace {

void check(const ItemAnswer& answer, std::size_t learners, std::size_t items) {
    if (answer.learner >= learners) throw std::invalid_argument{"no learner has the number of an answer"};
    if (answer.item >= items) throw std::invalid_argument{"no item has the number of an answer"};
    // Written so that a mark that is no number is refused as well.
    if (!(answer.mark >= 0 && answer.mark <= 1)) throw std::invalid_argument{"a mark lies outside 0 to 1"};
    if (answer.choice < -1) throw std::invalid_argument{"an option's number is below -1"};
    if (answer.took_ms < 0) throw std::invalid_argument{"an answer took less than no time"};
}

bool same_meeting(const ItemAnswer& a, const ItemAnswer& b) {
    return a.learner == b.learner && a.item == b.item;
}

/// Where each group begins when `count` groups are laid one behind the other, and the end of the last.
template <class GroupOf>
std::vector<std::size_t> begins(const std::vector<ItemAnswer>& answers, std::size_t count, GroupOf group_of) {
    std::vector<std::size_t> begin(count + 1, 0);
    for (const auto& answer : answers) ++begin[group_of(answer) + 1];
    for (std::size_t n = 0; n < count; ++n) begin[n + 1] += begin[n];
    return begin;
}

}  // namespace

bool ItemAnswer::right() const {
    return mark >= kRecalledFrom;
}

ResponseMatrix::ResponseMatrix(std::span<const ItemAnswer> answers, std::size_t learners, std::size_t items)
    : answers_(answers.begin(), answers.end()) {
    for (const auto& answer : answers_) check(answer, learners, items);
    std::stable_sort(answers_.begin(), answers_.end(), [](const ItemAnswer& a, const ItemAnswer& b) {
        return std::tie(a.learner, a.item) < std::tie(b.learner, b.item);
    });
    answers_.erase(std::unique(answers_.begin(), answers_.end(), same_meeting), answers_.end());
    repeats_ = answers.size() - answers_.size();
    learner_begin_ = begins(answers_, learners, [](const ItemAnswer& a) { return std::size_t{a.learner}; });
    item_begin_ = begins(answers_, items, [](const ItemAnswer& a) { return std::size_t{a.item}; });
    by_item_.resize(answers_.size());
    auto next = item_begin_;
    for (std::size_t n = 0; n < answers_.size(); ++n) by_item_[next[answers_[n].item]++] = n;
}

std::span<const ItemAnswer> ResponseMatrix::of_learner(std::size_t learner) const {
    const std::size_t begin = learner_begin_.at(learner);
    return std::span{answers_}.subspan(begin, learner_begin_.at(learner + 1) - begin);
}

std::span<const std::size_t> ResponseMatrix::of_item(std::size_t item) const {
    const std::size_t begin = item_begin_.at(item);
    return std::span{by_item_}.subspan(begin, item_begin_.at(item + 1) - begin);
}

}  // namespace memory
