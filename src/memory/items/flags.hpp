#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "memory/items/classical.hpp"

namespace memory {

/// What whoever keeps the content should look at.
enum class ItemFlag : std::uint8_t {
    weaker_do_better,    ///< learners who know less get it right more often
    wrong_draws_better,  ///< a wrong option is chosen by learners who know more than those who chose the right one
    too_easy,            ///< nearly everybody is right: it tells nothing
    too_hard,            ///< no more are right than by guessing, or hardly anybody
    option_unused,       ///< an option nobody chose
    guessed_fast,        ///< answered too fast to have been read, and then more often wrong
    too_few,             ///< too few answers, or too few on one side, to say how it discriminates
};

/// When to raise a flag. All values chosen; what they let through was measured by simulation, see the tests.
struct FlagRules {
    /// Of the flags weaker_do_better and wrong_draws_better, the share that may be there by chance alone (Benjamini and
    /// Hochberg's false discovery rate, over all items and options tested together). In (0, 1).
    double false_share = 0.05;
    double z = 2.575829303548901;  ///< how far the intervals of shares reach: 99 %
    /// How much more readily a wrong option is found that is chosen more often than the right one: there a slip in the
    /// key shows. >= 1. Chance alone knows nothing of how often options are chosen, so the false share stands.
    double popular_weight = 10;
    std::size_t least_answers = 20;  ///< fewer first answers: too_few, and nothing else is tested
    std::size_t least_side = 5;      ///< of learners in and outside a group, before the group's ability is tested
    double easy = 0.9;               ///< too easy: the whole interval of the share right is above
    double hard = 0.1;               ///< too hard: it is below this, or below one in the number of options
    double least_use = 0.05;         ///< an option is unused when 95 % sure that fewer than this share choose it
    double fast = 0.1;               ///< fast: took less than this share of the item's upper quartile of times
    double many_fast = 0.05;         ///< guessed fast: the whole interval of the share of fast answers is above
};

/// One flag and the figures it rests on.
struct Flagged {
    std::uint32_t item = 0;
    ItemFlag flag = ItemFlag::too_few;
    std::int32_t option = -1;  ///< of wrong_draws_better and option_unused
    std::size_t n = 0;         ///< learners it rests on
    /// weaker_do_better, wrong_draws_better: the correlation with ability. too_easy, too_hard: the share right.
    /// option_unused: the share choosing it. guessed_fast: the share of fast answers. too_few: the count there is.
    Interval figure;
    double limit = 0;    ///< what the figure crossed or, for too_few, fell short of
    double chance = 1;   ///< of such a correlation without any connection; 1 for the other flags
    double ability = 0;  ///< mean ability of the wrong option's choosers, or (weaker_do_better) of those who were right
    double against = 0;  ///< of the right option's choosers, or of those who were wrong
    bool against_all = false;  ///< nobody to be compared chose the right option: `against` is of all other learners
};

/// Raises flags, by item and then in the order of ItemFlag.
/// Takes   the matrix and keys that the summaries were made from.
/// Gives   at weaker_do_better and wrong_draws_better what remains after correction for the number of tests. An item
///         without a flag has not been shown to be good: its intervals say how much is known.
/// Throws  std::invalid_argument when keys or summaries do not fit the matrix.
/// Source  discoveries for the correction. A tenth of the usual time bounds a fast guess: Wise and Ma 2012 (memory);
///         they take the mean, we the upper quartile, which fast guesses do not pull down.
[[nodiscard]] std::vector<Flagged> flag_items(const ResponseMatrix& matrix, const std::vector<ItemKey>& keys,
                                              const std::vector<ItemSummary>& summaries, const FlagRules& rules = {});

/// Which of the chances are discoveries at a false discovery rate, in their order.
/// Takes   a weight for each: how much more readily it may be found than another, set without regard to the chance.
/// Source  Benjamini and Hochberg 1995; weighted by Genovese, Roeder and Wasserman 2006 (both from memory).
[[nodiscard]] std::vector<bool> discoveries(const std::vector<double>& chances, const std::vector<double>& weights,
                                            double false_share);

}  // namespace memory
