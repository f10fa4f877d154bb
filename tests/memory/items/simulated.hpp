#pragma once

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "base/random.hpp"
#include "memory/items/classical.hpp"
#include "memory/items/logistic_items.hpp"
#include "memory/normal.hpp"

/// Learners of standard normal ability answering items of known slope and intercept; everything is drawn.
namespace simulated {

struct Item {
    double slope = 1, intercept = 0;
};

inline double chance(const Item& item, double ability) {
    return 1 / (1 + std::exp(-(item.slope * ability + item.intercept)));
}

/// Ln slopes normal around ln `slope` with standard deviation .25; shares right mostly between a quarter and nine
/// tenths.
inline std::vector<Item> draw_items(std::size_t count, double slope, base::Random& random) {
    std::vector<Item> items(count);
    for (auto& item : items) {
        item.slope = slope * std::exp(0.25 * memory::normal(random));
        item.intercept = 0.7 + 0.9 * memory::normal(random);
    }
    return items;
}

/// Four options, a the right one; who does not know takes the others with shares .5, .3, .2. Times are log-normal
/// around 20 s.
inline memory::ItemAnswer draw_answer(std::size_t learner, std::size_t item, const Item& as, double ability,
                                      base::Random& random) {
    memory::ItemAnswer answer;
    answer.learner = static_cast<std::uint32_t>(learner);
    answer.item = static_cast<std::uint32_t>(item);
    answer.mark = random.unit() < chance(as, ability) ? 1 : 0;
    const double draw = random.unit();
    answer.choice = answer.right() ? 0 : draw < 0.5 ? 1 : draw < 0.8 ? 2 : 3;
    answer.took_ms = static_cast<std::int64_t>(20'000 * std::exp(0.5 * memory::normal(random)));
    return answer;
}

struct Answered {
    std::vector<double> abilities;
    std::vector<memory::ItemAnswer> answers;
};

/// Each learner answers each item with probability `asked`.
inline Answered draw_answers(const std::vector<Item>& items, std::size_t learners, double asked, base::Random& random) {
    Answered out;
    for (std::size_t learner = 0; learner < learners; ++learner) {
        out.abilities.push_back(memory::normal(random));
        for (std::size_t item = 0; item < items.size(); ++item)
            if (random.unit() < asked)
                out.answers.push_back(draw_answer(learner, item, items[item], out.abilities.back(), random));
    }
    return out;
}

/// Keys an item as if option b were right, as a slip in the content would.
inline void miskey(std::vector<memory::ItemAnswer>& answers, std::uint32_t item) {
    for (auto& answer : answers)
        if (answer.item == item) answer.mark = answer.choice == 1 ? 1 : 0;
}

inline std::vector<memory::ItemKey> four_options(std::size_t items) {
    return std::vector<memory::ItemKey>(items, {4, 0});
}

}  // namespace simulated
