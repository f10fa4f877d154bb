#include "memory/score/judge.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <stdexcept>

#include "memory/items/interval.hpp"
#include "memory/normal.hpp"

namespace memory {
namespace {

constexpr double kLeastChance = 1e-15;

double checked(double chance) {
    if (!(chance >= 0 && chance <= 1)) throw std::domain_error{"a forecast lies outside 0 to 1"};
    return chance;
}

double loss_of(double chance, bool right) {
    return -std::log(std::max(right ? checked(chance) : 1 - checked(chance), kLeastChance));
}

double square(double x) {
    return x * x;
}

double as_number(std::size_t count) {
    return static_cast<double>(count);
}

std::vector<Forecast> by_chance(std::vector<Forecast> forecasts) {
    for (const auto& one : forecasts) checked(one.chance);
    std::sort(forecasts.begin(), forecasts.end(),
              [](const Forecast& a, const Forecast& b) { return a.chance < b.chance; });
    return forecasts;
}

/// First place after the run of equal forecasts that starts at `from`.
std::size_t end_of_ties(const std::vector<Forecast>& sorted, std::size_t from) {
    std::size_t end = from + 1;
    while (end < sorted.size() && sorted[end].chance == sorted[from].chance) ++end;
    return end;
}

std::size_t band(double chance, std::size_t most) {
    return std::min(static_cast<std::size_t>(chance * as_number(most)), most - 1);
}

/// Which bin a run of ties belongs to: by count, the one in which its middle falls.
std::size_t bin_of(const std::vector<Forecast>& sorted, std::size_t from, std::size_t end, Bins bins) {
    switch (bins.by) {
        case Bins::By::count:
            return std::min((from + end) * bins.most / (2 * sorted.size()), bins.most - 1);
        case Bins::By::width:
            return band(sorted[from].chance, bins.most);
        case Bins::By::value:
            break;
    }
    return from;
}

struct Span {
    std::size_t begin, end;
};

std::vector<Span> spans(const std::vector<Forecast>& sorted, Bins bins) {
    if (bins.most == 0) throw std::domain_error{"forecasts need at least one bin"};
    std::vector<Span> found;
    std::size_t last_bin = 0;
    for (std::size_t from = 0; from < sorted.size();) {
        const std::size_t end = end_of_ties(sorted, from);
        const std::size_t bin = bin_of(sorted, from, end, bins);
        if (found.empty() || bin != last_bin) found.push_back({from, from});
        found.back().end = end;
        last_bin = bin;
        from = end;
    }
    return found;
}

Calibrated row(const std::vector<Forecast>& sorted, Span span) {
    Calibrated made;
    made.answers = span.end - span.begin;
    std::size_t right = 0;
    for (std::size_t n = span.begin; n < span.end; ++n) {
        made.mean_chance += sorted[n].chance / as_number(made.answers);
        right += sorted[n].right ? 1 : 0;
    }
    made.share_right = as_number(right) / as_number(made.answers);
    const auto between = wilson(right, made.answers);
    made.low = between.low;
    made.high = between.high;
    return made;
}

/// Sums over the answers of one class. An answer's standing is the share of the other class that lies on its proper
/// side: below it for a right one, above it for a wrong one.
struct Standings {
    double sum = 0;
    double squares = 0;
};

double variance_of_mean(const Standings& standings, std::size_t count) {
    const double n = as_number(count);
    return std::max(0.0, standings.squares - square(standings.sum) / n) / (n - 1) / n;
}

}  // namespace

std::optional<double> log_loss(const std::vector<Forecast>& forecasts) {
    if (forecasts.empty()) return std::nullopt;
    double sum = 0;
    for (const auto& one : forecasts) sum += loss_of(one.chance, one.right);
    return sum / as_number(forecasts.size());
}

std::optional<double> brier_score(const std::vector<Forecast>& forecasts) {
    if (forecasts.empty()) return std::nullopt;
    double sum = 0;
    for (const auto& one : forecasts) sum += square(checked(one.chance) - (one.right ? 1 : 0));
    return sum / as_number(forecasts.size());
}

std::vector<Calibrated> calibration(const std::vector<Forecast>& forecasts, Bins bins) {
    const auto sorted = by_chance(forecasts);
    std::vector<Calibrated> rows;
    for (const auto span : spans(sorted, bins)) rows.push_back(row(sorted, span));
    return rows;
}

std::optional<double> expected_calibration_error(const std::vector<Forecast>& forecasts, Bins bins) {
    const auto rows = calibration(forecasts, bins);
    if (rows.empty()) return std::nullopt;
    double sum = 0;
    for (const auto& one : rows) sum += as_number(one.answers) * std::abs(one.mean_chance - one.share_right);
    return sum / as_number(forecasts.size());
}

std::optional<BrierParts> brier_parts(const std::vector<Forecast>& forecasts, Bins bins) {
    const auto score = brier_score(forecasts);
    const auto rows = calibration(forecasts, bins);
    if (!score) return std::nullopt;
    const double all = as_number(forecasts.size());
    double share = 0;
    for (const auto& one : rows) share += as_number(one.answers) * one.share_right / all;
    BrierParts parts;
    parts.score = *score;
    for (const auto& one : rows) {
        parts.reliability += as_number(one.answers) * square(one.mean_chance - one.share_right) / all;
        parts.resolution += as_number(one.answers) * square(one.share_right - share) / all;
    }
    parts.uncertainty = share * (1 - share);
    parts.within = parts.score - parts.reliability + parts.resolution - parts.uncertainty;
    return parts;
}

ShareInterval wilson(std::size_t right, std::size_t all, double coverage) {
    if (right > all) throw std::domain_error{"more right than all"};
    if (!(coverage > 0 && coverage < 1)) throw std::domain_error{"a coverage lies outside 0 to 1"};
    if (all == 0) return {};
    const auto interval = share_interval(as_number(right), as_number(all), normal_quantile(0.5 + coverage / 2));
    return {right == 0 ? 0.0 : interval.low, right == all ? 1.0 : interval.high};
}

std::optional<RocArea> roc_area(const std::vector<Forecast>& forecasts) {
    const auto sorted = by_chance(forecasts);
    RocArea found;
    for (const auto& one : sorted) ++(one.right ? found.right : found.wrong);
    if (found.right == 0 || found.wrong == 0) return std::nullopt;
    Standings rights;
    Standings wrongs;
    std::size_t right_below = 0;
    for (std::size_t from = 0; from < sorted.size();) {
        const std::size_t end = end_of_ties(sorted, from);
        std::size_t right_here = 0;
        for (std::size_t n = from; n < end; ++n) right_here += sorted[n].right ? 1 : 0;
        const std::size_t wrong_here = end - from - right_here;
        const std::size_t wrong_below = from - right_below;
        const double beaten = (as_number(wrong_below) + as_number(wrong_here) / 2) / as_number(found.wrong);
        const double beaten_by = 1 - (as_number(right_below) + as_number(right_here) / 2) / as_number(found.right);
        rights.sum += as_number(right_here) * beaten;
        rights.squares += as_number(right_here) * square(beaten);
        wrongs.sum += as_number(wrong_here) * beaten_by;
        wrongs.squares += as_number(wrong_here) * square(beaten_by);
        right_below += right_here;
        from = end;
    }
    found.area = rights.sum / as_number(found.right);
    if (found.right > 1 && found.wrong > 1)
        found.standard_error = std::sqrt(variance_of_mean(rights, found.right) + variance_of_mean(wrongs, found.wrong));
    return found;
}

std::optional<Comparison> compare(const std::vector<Rivals>& answers) {
    if (answers.empty()) return std::nullopt;
    Comparison made;
    made.answers = answers.size();
    std::vector<double> differences;
    for (const auto& one : answers) {
        differences.push_back(loss_of(one.first, one.right) - loss_of(one.second, one.right));
        made.difference += differences.back() / as_number(answers.size());
    }
    std::map<std::size_t, double> by_learner;
    for (std::size_t n = 0; n < answers.size(); ++n) by_learner[answers[n].learner] += differences[n] - made.difference;
    made.learners = by_learner.size();
    if (made.learners < 2) return made;
    double squares = 0;
    for (const auto& [learner, sum] : by_learner) squares += square(sum);
    const double learners = as_number(made.learners);
    made.standard_error = std::sqrt(squares * learners / (learners - 1)) / as_number(answers.size());
    return made;
}

}  // namespace memory
