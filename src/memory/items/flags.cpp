#include "memory/items/flags.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <stdexcept>

namespace memory {
namespace {

constexpr double kSureUnused = 0.05;

struct Test {
    Flagged flagged;
    double chance = 1;
    double weight = 1;
};

void check(const ResponseMatrix& matrix, const std::vector<ItemKey>& keys, const std::vector<ItemSummary>& summaries) {
    if (keys.size() != matrix.items() || summaries.size() != matrix.items())
        throw std::invalid_argument{"there must be one key and one summary for each item"};
}

bool testable(const std::optional<Discrimination>& group, const FlagRules& rules) {
    return group && std::min(group->in, group->out) >= rules.least_side;
}

Flagged of_correlation(std::uint32_t item, ItemFlag flag, const Discrimination& group) {
    Flagged flagged;
    flagged.item = item;
    flagged.flag = flag;
    flagged.n = group.in + group.out;
    flagged.figure = group.correlation;
    flagged.ability = group.ability_in;
    flagged.against = group.ability_out;
    return flagged;
}

/// A wrong option's choosers against all others. One that does not beat the right option's choosers counts as a test
/// made and not passed.
Test option_test(std::uint32_t item, const OptionUse& use, const OptionUse& right, const FlagRules& rules) {
    Test test{of_correlation(item, ItemFlag::wrong_draws_better, *use.choosers), use.choosers->chance_of_more, 1};
    test.flagged.option = use.option;
    if (use.count > right.count) test.weight = rules.popular_weight;
    test.flagged.against_all = !right.ability.has_value();
    if (!right.ability) return test;
    test.flagged.against = *right.ability;
    if (test.flagged.ability <= *right.ability) test.chance = 1;
    return test;
}

void add_tests(std::uint32_t item, const ItemKey& key, const ItemSummary& summary, const FlagRules& rules,
               std::vector<Test>& tests) {
    if (summary.n < rules.least_answers) return;
    if (testable(summary.discrimination, rules)) {
        const auto& group = *summary.discrimination;
        tests.push_back({of_correlation(item, ItemFlag::weaker_do_better, group), group.chance_of_less, 1});
    }
    if (key.right < 0) return;
    const OptionUse& right = summary.options[static_cast<std::size_t>(key.right)];
    for (const auto& use : summary.options)
        if (use.option != key.right && testable(use.choosers, rules))
            tests.push_back(option_test(item, use, right, rules));
}

/// What holds of a whole group of items together.
std::vector<Flagged> misleading(const std::vector<ItemKey>& keys, const std::vector<ItemSummary>& summaries,
                                const FlagRules& rules) {
    std::vector<Test> tests;
    for (std::size_t item = 0; item < summaries.size(); ++item)
        add_tests(static_cast<std::uint32_t>(item), keys[item], summaries[item], rules, tests);
    std::vector<double> chances;
    std::vector<double> weights;
    for (const auto& test : tests) {
        chances.push_back(test.chance);
        weights.push_back(test.weight);
    }
    const auto found = discoveries(chances, weights, rules.false_share);
    std::vector<Flagged> flagged;
    for (std::size_t n = 0; n < tests.size(); ++n) {
        if (!found[n]) continue;
        flagged.push_back(tests[n].flagged);
        flagged.back().chance = tests[n].chance;
    }
    return flagged;
}

double hard_limit(const ItemKey& key, const FlagRules& rules) {
    return key.options > 0 ? std::max(rules.hard, 1.0 / key.options) : rules.hard;
}

/// Too easy, too hard, or too few on one side to tell; nothing for an item in between.
void add_difficulty(std::uint32_t item, const ItemKey& key, const ItemSummary& summary, const FlagRules& rules,
                    std::vector<Flagged>& flagged) {
    Flagged flag{item, ItemFlag::too_few, -1, summary.n, {}, 0, 1, 0, 0, false};
    flag.figure = share_interval(static_cast<double>(summary.right), static_cast<double>(summary.n), rules.z);
    const bool enough = summary.n >= rules.least_answers;
    if (enough && flag.figure.low > rules.easy) {
        flag.flag = ItemFlag::too_easy;
        flag.limit = rules.easy;
    } else if (enough && flag.figure.high < hard_limit(key, rules)) {
        flag.flag = ItemFlag::too_hard;
        flag.limit = hard_limit(key, rules);
    } else if (!enough || !testable(summary.discrimination, rules)) {
        const auto& group = summary.discrimination;
        const auto count = static_cast<double>(enough ? (group ? std::min(group->in, group->out) : 0) : summary.n);
        flag.figure = {count, count, count};
        flag.limit = static_cast<double>(enough ? rules.least_side : rules.least_answers);
    } else {
        return;
    }
    flagged.push_back(flag);
}

void add_unused(std::uint32_t item, const ItemSummary& summary, const FlagRules& rules, std::vector<Flagged>& flagged) {
    const std::size_t chose = summary.n - summary.without_choice;
    if (chose == 0) return;
    // With none in n, a share of this or more is ruled out at 95 %.
    const double high = 1 - std::pow(kSureUnused, 1 / static_cast<double>(chose));
    if (high >= rules.least_use) return;
    for (const auto& use : summary.options)
        if (use.count == 0)
            flagged.push_back(
                {item, ItemFlag::option_unused, use.option, chose, {0, 0, high}, rules.least_use, 1, 0, 0, false});
}

void add_fast(std::uint32_t item, const ResponseMatrix& matrix, const ItemSummary& summary, const FlagRules& rules,
              std::vector<Flagged>& flagged) {
    const double bound = rules.fast * summary.times.upper;
    double fast = 0;
    double fast_right = 0;
    double slow_right = 0;
    for (const std::size_t place : matrix.of_item(item)) {
        const auto& answer = matrix.answers()[place];
        if (answer.took_ms == 0) continue;
        const bool is_fast = static_cast<double>(answer.took_ms) < bound;
        fast += is_fast ? 1 : 0;
        if (answer.right()) (is_fast ? fast_right : slow_right) += 1;
    }
    const auto timed = static_cast<double>(summary.times.n);
    const Interval share = share_interval(fast, timed, rules.z);
    if (summary.times.n < rules.least_answers || share.low <= rules.many_fast || fast == timed) return;
    // Who knows an item by heart is fast as well, and right.
    const double slow_share = slow_right / (timed - fast);
    if (share_interval(fast_right, fast, rules.z).high >= slow_share) return;
    flagged.push_back({item, ItemFlag::guessed_fast, -1, summary.times.n, share, rules.many_fast, 1, 0, 0, false});
}

}  // namespace

std::vector<Flagged> flag_items(const ResponseMatrix& matrix, const std::vector<ItemKey>& keys,
                                const std::vector<ItemSummary>& summaries, const FlagRules& rules) {
    check(matrix, keys, summaries);
    auto flagged = misleading(keys, summaries, rules);
    for (std::size_t n = 0; n < summaries.size(); ++n) {
        const auto item = static_cast<std::uint32_t>(n);
        add_difficulty(item, keys[n], summaries[n], rules, flagged);
        add_unused(item, summaries[n], rules, flagged);
        add_fast(item, matrix, summaries[n], rules, flagged);
    }
    std::stable_sort(flagged.begin(), flagged.end(), [](const Flagged& a, const Flagged& b) {
        return a.item != b.item ? a.item < b.item : a.flag < b.flag;
    });
    return flagged;
}

std::vector<bool> discoveries(const std::vector<double>& chances, const std::vector<double>& weights,
                              double false_share) {
    const std::size_t count = chances.size();
    if (weights.size() != count) throw std::invalid_argument{"there must be one weight for each chance"};
    const double mean = std::accumulate(weights.begin(), weights.end(), 0.0) / static_cast<double>(count);
    std::vector<double> weighed;
    for (std::size_t n = 0; n < count; ++n) weighed.push_back(chances[n] * mean / weights[n]);
    std::vector<double> sorted = weighed;
    std::sort(sorted.begin(), sorted.end());
    double bound = -1;
    for (std::size_t k = 0; k < count; ++k)
        if (sorted[k] <= false_share * static_cast<double>(k + 1) / static_cast<double>(count)) bound = sorted[k];
    std::vector<bool> found;
    for (const double chance : weighed) found.push_back(chance <= bound);
    return found;
}

}  // namespace memory
