#include "memory/score/score_distribution.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <stdexcept>
#include <utility>

namespace memory {
namespace {

constexpr double kRounding = 1e-12;
constexpr auto kNoPoints = "questions are asked of no points";

void check_chances(const std::vector<double>& chances) {
    for (const double p : chances)
        if (!(p >= 0 && p <= 1)) throw std::domain_error{"a chance lies outside 0 to 1"};
}

/// Chances of (chosen, right) while points are passed one by one; a row for each number chosen.
class Choosing {
public:
    Choosing(std::size_t points, std::size_t asked)
        : points_{points}, asked_{asked}, row_{asked + 1}, cells_((asked + 1) * (asked + 1), 0.0) {
        cells_[0] = 1;
    }

    void pass(double p) {
        const std::size_t left = points_ - passed_;
        // Fewer chosen than this can no longer be made up, and no path leads there.
        const std::size_t least = asked_ > left ? asked_ - left : 0;
        // Downwards, so that a row takes from the one below before that is itself changed.
        for (std::size_t chosen = std::min(passed_, asked_) + 1; chosen-- > least;) {
            const std::size_t wanted = asked_ - chosen;
            if (wanted > 0) take(chosen, static_cast<double>(wanted) / static_cast<double>(left), p);
            const double passed_over = static_cast<double>(left - wanted) / static_cast<double>(left);
            double* here = &cells_[chosen * row_];
            for (std::size_t right = 0; right <= chosen; ++right) here[right] *= passed_over;
        }
        ++passed_;
    }

    [[nodiscard]] std::vector<double> all_chosen() const {
        return {cells_.end() - static_cast<std::ptrdiff_t>(row_), cells_.end()};
    }

private:
    void take(std::size_t chosen, double taken, double p) {
        const double* here = &cells_[chosen * row_];
        double* next = &cells_[(chosen + 1) * row_];
        const double right_too = taken * p;
        const double wrong = taken * (1 - p);
        for (std::size_t right = 0; right <= chosen; ++right) next[right] += wrong * here[right];
        for (std::size_t right = 0; right <= chosen; ++right) next[right + 1] += right_too * here[right];
    }

    std::size_t points_;
    std::size_t asked_;
    std::size_t row_;
    std::size_t passed_ = 0;
    std::vector<double> cells_;
};

}  // namespace

ScoreDistribution::ScoreDistribution(std::vector<double> chances) : chances_{std::move(chances)} {
    double sum = 0;
    for (const double p : chances_) {
        if (!(p >= 0)) throw std::domain_error{"a chance is below 0 or not a number"};
        sum += p;
    }
    if (!(std::abs(sum - 1) <= 1e-9)) throw std::domain_error{"the chances of a score do not add up to 1"};
}

double ScoreDistribution::mean() const {
    double sum = 0;
    for (std::size_t right = 0; right < chances_.size(); ++right) sum += static_cast<double>(right) * chances_[right];
    return sum;
}

double ScoreDistribution::variance() const {
    const double centre = mean();
    double sum = 0;
    for (std::size_t right = 0; right < chances_.size(); ++right) {
        const double off = static_cast<double>(right) - centre;
        sum += off * off * chances_[right];
    }
    return sum;
}

double ScoreDistribution::at_most(std::size_t right) const {
    const auto end = static_cast<std::ptrdiff_t>(std::min(right, most()) + 1);
    return std::min(1.0, std::accumulate(chances_.begin(), chances_.begin() + end, 0.0));
}

double ScoreDistribution::at_least(std::size_t right) const {
    if (right > most()) return 0;
    const auto end = static_cast<std::ptrdiff_t>(most() + 1 - right);
    return std::min(1.0, std::accumulate(chances_.rbegin(), chances_.rbegin() + end, 0.0));
}

std::size_t ScoreDistribution::quantile(double share) const {
    if (!(share >= 0 && share <= 1)) throw std::domain_error{"a quantile's share lies outside 0 to 1"};
    double sum = 0;
    for (std::size_t right = 0; right < most(); ++right) {
        sum += chances_[right];
        if (sum >= share - kRounding) return right;
    }
    return most();
}

ScoreDistribution number_right(const std::vector<double>& chances) {
    check_chances(chances);
    std::vector<double> cells(chances.size() + 1, 0.0);
    cells[0] = 1;
    std::size_t done = 0;
    for (const double p : chances) {
        ++done;
        for (std::size_t right = done; right > 0; --right) cells[right] = cells[right] * (1 - p) + cells[right - 1] * p;
        cells[0] *= 1 - p;
    }
    return ScoreDistribution{std::move(cells)};
}

ScoreDistribution number_right_drawn(const std::vector<double>& chances, std::size_t asked) {
    check_chances(chances);
    if (asked == 0) return {};
    if (chances.empty()) throw std::domain_error{kNoPoints};
    const std::size_t drawn = asked % chances.size();
    Choosing choosing{chances.size(), drawn};
    if (drawn > 0)
        for (const double p : chances) choosing.pass(p);
    std::vector<double> cells = choosing.all_chosen();
    if (const std::size_t times = asked / chances.size(); times > 0) {
        const auto every_point = number_right(chances);
        for (std::size_t n = 0; n < times; ++n) cells = convolved(cells, every_point.chances());
    }
    return ScoreDistribution{std::move(cells)};
}

ScoreDistribution number_right_without_one(const std::vector<double>& chances, std::size_t asked) {
    if (asked == 0) throw std::domain_error{"none asked leaves none to leave out"};
    if (chances.empty()) throw std::domain_error{kNoPoints};
    if (asked <= chances.size()) return number_right_drawn(chances, asked - 1);
    // The one left out is from the round that is drawn, or from a round that asks every point.
    const std::size_t drawn = asked % chances.size();
    const auto whole = number_right_drawn(chances, chances.size());
    const auto others = number_right_drawn(chances, asked - drawn - chances.size());
    const double from_drawn = static_cast<double>(drawn) / static_cast<double>(asked);
    const auto less_one = number_right_drawn(chances, chances.size() - 1);
    auto mixed = sum_of({number_right_drawn(chances, drawn), others, less_one}).chances();
    for (auto& cell : mixed) cell *= 1 - from_drawn;
    if (drawn > 0) {
        const auto other = sum_of({number_right_drawn(chances, drawn - 1), others, whole});
        for (std::size_t right = 0; right <= other.most(); ++right) mixed[right] += from_drawn * other.chances()[right];
    }
    return ScoreDistribution{std::move(mixed)};
}

std::vector<double> convolved(const std::vector<double>& left, const std::vector<double>& right) {
    if (left.empty() || right.empty()) return {};
    std::vector<double> cells(left.size() + right.size() - 1, 0.0);
    for (std::size_t a = 0; a < left.size(); ++a)
        for (std::size_t b = 0; b < right.size(); ++b) cells[a + b] += left[a] * right[b];
    return cells;
}

ScoreDistribution sum_of(const std::vector<ScoreDistribution>& sections) {
    std::vector<double> cells{1.0};
    for (const auto& section : sections) cells = convolved(cells, section.chances());
    return ScoreDistribution{std::move(cells)};
}

ScoreDistribution mixture(const std::vector<ScoreDistribution>& parts) {
    if (parts.empty()) return {};
    std::size_t most = 0;
    for (const auto& part : parts) most = std::max(most, part.most());
    std::vector<double> cells(most + 1, 0.0);
    for (const auto& part : parts)
        for (std::size_t right = 0; right <= part.most(); ++right) cells[right] += part.chances()[right];
    for (auto& cell : cells) cell /= static_cast<double>(parts.size());
    return ScoreDistribution{std::move(cells)};
}

}  // namespace memory
