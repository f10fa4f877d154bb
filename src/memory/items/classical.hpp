#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "memory/items/interval.hpp"
#include "memory/items/response_matrix.hpp"
#include "memory/items/rest_ability.hpp"

namespace memory {

/// What has to be known of an item to count its options.
struct ItemKey {
    std::int32_t options = 0;  ///< how many there are; 0: not a choice of one
    std::int32_t right = -1;   ///< index of the right one, below `options`; -1: none
};

/// How a group of answers goes with ability on the other items.
struct Discrimination {
    Interval correlation;         ///< of being in the group with RestAbility::mean: point-biserial, item left out; 95 %
    double error = 0;             ///< standard error of the correlation, (1 - r^2) / sqrt(n - 3); infinite for n < 4
    double chance_of_more = 1;    ///< of such a correlation or a greater one if there were no connection
    double chance_of_less = 1;    ///< of such a correlation or a smaller one
    std::size_t in = 0, out = 0;  ///< learners with other answers, in and outside the group
    double ability_in = 0, ability_out = 0;  ///< mean of RestAbility::mean in each
};

/// Time taken, in milliseconds; of answers whose time was taken.
struct Times {
    std::size_t n = 0;
    double lower = 0, median = 0, upper = 0;  ///< quartiles, between two answers in proportion; 0 for n = 0
};

struct OptionUse {
    std::int32_t option = 0;
    std::size_t count = 0;
    std::optional<double> ability;           ///< mean of RestAbility::mean of those who chose it and have other answers
    std::optional<Discrimination> choosers;  ///< those who chose it against all others
};

struct ItemSummary {
    std::size_t n = 0, right = 0;
    Interval share_right;  ///< Wilson's, 95 %
    double mean_mark = 0;  ///< 0 for n = 0
    /// The right answers against the wrong ones; empty when one group has nobody with other answers, or when all such
    /// learners are of the same ability.
    std::optional<Discrimination> discrimination;
    Times times, right_times, wrong_times;
    std::vector<OptionUse> options;  ///< one for each option of the key
    std::size_t without_choice = 0;  ///< answers that chose no option of the key
};

/// Classical statistics of each item, from first answers alone (see ResponseMatrix).
/// Takes   one key for each item.
/// Throws  std::invalid_argument when there is not one key for each item, or a key's right option is none of its own.
/// Source  textbook item analysis; the rest score is replaced by RestAbility.
[[nodiscard]] std::vector<ItemSummary> summarise(const ResponseMatrix& matrix, const std::vector<ItemKey>& keys);

/// Quartiles of times in milliseconds, those of 0 left out.
[[nodiscard]] Times quartiles(std::vector<std::int64_t> times);

}  // namespace memory
