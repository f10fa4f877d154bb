#pragma once

#include <cstddef>
#include <vector>

#include "base/random.hpp"

/// The slow way to the same answers: every set of questions and every outcome, one by one.
namespace outcomes {

using Chances = std::vector<double>;

/// Any chance; now and then none or certainty.
inline double any_chance(base::Random& random) {
    const auto kind = random.below(8);
    return kind == 0 ? 0.0 : kind == 1 ? 1.0 : random.unit();
}

inline Chances any_chances(base::Random& random, std::size_t count) {
    Chances chances(count);
    for (auto& p : chances) p = any_chance(random);
    return chances;
}

/// Chance of each number right among the chances whose bit is set, by all outcomes.
inline std::vector<double> of_set(const Chances& chances, std::size_t set) {
    std::vector<double> cells(chances.size() + 1, 0.0);
    for (std::size_t outcome = 0; outcome < std::size_t{1} << chances.size(); ++outcome) {
        if ((outcome & set) != outcome) continue;
        double chance = 1;
        std::size_t right = 0;
        for (std::size_t n = 0; n < chances.size(); ++n) {
            if (!(set >> n & 1)) continue;
            const bool is_right = (outcome >> n & 1) != 0;
            chance *= is_right ? chances[n] : 1 - chances[n];
            right += is_right ? 1 : 0;
        }
        cells[right] += chance;
    }
    return cells;
}

/// The same when `asked` are drawn, by all sets of that size; asked at most the number of chances.
inline std::vector<double> of_all_sets(const Chances& chances, std::size_t asked) {
    std::vector<double> cells(chances.size() + 1, 0.0);
    double sets = 0;
    for (std::size_t set = 0; set < std::size_t{1} << chances.size(); ++set) {
        std::size_t size = 0;
        for (std::size_t n = 0; n < chances.size(); ++n) size += set >> n & 1;
        if (size != asked) continue;
        ++sets;
        const auto one = of_set(chances, set);
        for (std::size_t right = 0; right < cells.size(); ++right) cells[right] += one[right];
    }
    for (auto& cell : cells) cell /= sets;
    cells.resize(asked + 1);
    return cells;
}

inline std::size_t everything(const Chances& chances) {
    return (std::size_t{1} << chances.size()) - 1;
}

}  // namespace outcomes
