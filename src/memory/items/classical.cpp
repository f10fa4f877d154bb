#include "memory/items/classical.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <stdexcept>
#include <utility>

namespace memory {
namespace {

constexpr double kWide = 1.959963984540054;  // 95 % of a normal

/// One answer to the item at hand, with what its learner's other answers say.
struct Seen {
    const ItemAnswer* answer = nullptr;
    RestAbility rest;
};

void check(const ResponseMatrix& matrix, const std::vector<ItemKey>& keys) {
    if (keys.size() != matrix.items()) throw std::invalid_argument{"there must be one key for each item"};
    for (const auto& key : keys)
        if (key.options < 0 || key.right < -1 || key.right >= std::max(key.options, 0))
            throw std::invalid_argument{"a key names a right option that is none of its options"};
}

template <class InGroup>
std::optional<Discrimination> discriminate(const std::vector<Seen>& all, InGroup in_group) {
    Discrimination d;
    double sum = 0;
    double squares = 0;
    for (const auto& seen : all) {
        if (seen.rest.others == 0) continue;
        const bool in = in_group(*seen.answer);
        (in ? d.in : d.out) += 1;
        (in ? d.ability_in : d.ability_out) += seen.rest.mean;
        sum += seen.rest.mean;
        squares += seen.rest.mean * seen.rest.mean;
    }
    if (d.in == 0 || d.out == 0) return std::nullopt;
    const auto in = static_cast<double>(d.in);
    const auto out = static_cast<double>(d.out);
    d.ability_in /= in;
    d.ability_out /= out;
    const double variance = squares / (in + out) - std::pow(sum / (in + out), 2);
    if (!(variance > 1e-12)) return std::nullopt;
    const double r =
        std::clamp((d.ability_in - d.ability_out) * std::sqrt(in * out / variance) / (in + out), -1.0, 1.0);
    const std::size_t n = d.in + d.out;
    d.correlation = correlation_interval(r, n, kWide);
    d.error = n < 4 ? std::numeric_limits<double>::infinity() : (1 - r * r) / std::sqrt(static_cast<double>(n) - 3);
    d.chance_of_more = chance_of_correlation(r, n);
    d.chance_of_less = chance_of_correlation(-r, n);
    return d;
}

template <class InGroup>
Times times_of(const std::vector<Seen>& all, InGroup in_group) {
    std::vector<std::int64_t> times;
    for (const auto& seen : all)
        if (in_group(*seen.answer)) times.push_back(seen.answer->took_ms);
    return quartiles(std::move(times));
}

OptionUse use_of(std::int32_t option, const std::vector<Seen>& all) {
    OptionUse use;
    use.option = option;
    double sum = 0;
    std::size_t known = 0;
    for (const auto& seen : all) {
        if (seen.answer->choice != option) continue;
        ++use.count;
        if (seen.rest.others == 0) continue;
        ++known;
        sum += seen.rest.mean;
    }
    if (known > 0) use.ability = sum / static_cast<double>(known);
    use.choosers = discriminate(all, [option](const ItemAnswer& answer) { return answer.choice == option; });
    return use;
}

ItemSummary summary_of(const std::vector<Seen>& all, const ItemKey& key) {
    const auto right = [](const ItemAnswer& answer) { return answer.right(); };
    ItemSummary summary;
    summary.n = all.size();
    for (const auto& seen : all) {
        summary.right += seen.answer->right() ? 1 : 0;
        summary.mean_mark += seen.answer->mark / static_cast<double>(all.size());
        summary.without_choice += seen.answer->choice < 0 || seen.answer->choice >= key.options ? 1 : 0;
    }
    summary.share_right = share_interval(static_cast<double>(summary.right), static_cast<double>(summary.n), kWide);
    summary.discrimination = discriminate(all, right);
    summary.times = times_of(all, [](const ItemAnswer&) { return true; });
    summary.right_times = times_of(all, right);
    summary.wrong_times = times_of(all, std::not_fn(right));
    for (std::int32_t option = 0; option < key.options; ++option) summary.options.push_back(use_of(option, all));
    return summary;
}

}  // namespace

std::vector<ItemSummary> summarise(const ResponseMatrix& matrix, const std::vector<ItemKey>& keys) {
    check(matrix, keys);
    const auto rest = rest_abilities(matrix);
    std::vector<ItemSummary> all;
    for (std::size_t item = 0; item < matrix.items(); ++item) {
        std::vector<Seen> seen;
        for (const std::size_t place : matrix.of_item(item)) seen.push_back({&matrix.answers()[place], rest[place]});
        all.push_back(summary_of(seen, keys[item]));
    }
    return all;
}

Times quartiles(std::vector<std::int64_t> times) {
    std::erase_if(times, [](std::int64_t time) { return time <= 0; });
    std::sort(times.begin(), times.end());
    Times found;
    found.n = times.size();
    if (times.empty()) return found;
    const auto at = [&times](double share) {
        const double place = share * static_cast<double>(times.size() - 1);
        const auto below = static_cast<std::size_t>(place);
        const std::size_t above = std::min(below + 1, times.size() - 1);
        const double part = place - static_cast<double>(below);
        return static_cast<double>(times[below]) * (1 - part) + static_cast<double>(times[above]) * part;
    };
    found.lower = at(0.25);
    found.median = at(0.5);
    found.upper = at(0.75);
    return found;
}

}  // namespace memory
