#pragma once

#include <cstddef>
#include <vector>

namespace memory {

/// How likely each number right is.
class ScoreDistribution {
public:
    /// Nothing is asked: none right, for certain.
    ScoreDistribution() : chances_{1.0} {}
    /// Takes the chance of each number right, from none upwards; together they are 1 to rounding.
    /// Errors  std::domain_error when there are none, one is below 0 or not a number, or they miss 1 by over 1e-9.
    explicit ScoreDistribution(std::vector<double> chances);

    [[nodiscard]] const std::vector<double>& chances() const { return chances_; }
    /// The most that can be right.
    [[nodiscard]] std::size_t most() const { return chances_.size() - 1; }
    [[nodiscard]] double mean() const;
    [[nodiscard]] double variance() const;
    /// Chance of `right` or fewer; in [0, 1].
    [[nodiscard]] double at_most(std::size_t right) const;
    /// Chance of `right` or more; in [0, 1]. Summed from the top, so that small chances keep their digits.
    [[nodiscard]] double at_least(std::size_t right) const;
    /// The least number right with at_most() at or above `share`, to within 1e-12, which forgives rounding in sums.
    /// Errors  std::domain_error outside [0, 1].
    [[nodiscard]] std::size_t quantile(double share) const;

private:
    std::vector<double> chances_;
};

/// Number right when every one of the chances is asked once, each answered independently of the others.
/// Takes   chances of a right answer, in [0, 1].
/// Errors  std::domain_error for any other chance.
/// Source  Poisson's binomial distribution, by one convolution for each chance: sums of products in [0, 1] alone, so
///         the relative error of every entry stays near n roundings.
[[nodiscard]] ScoreDistribution number_right(const std::vector<double>& chances);

/// Number right when `asked` questions are drawn from the points at random, without replacement, every set as likely as
/// any other. With more asked than there are points, every point is asked asked / points times and the rest drawn.
/// Answers are independent once the chances are given, also two answers on the same point: what makes them move
/// together (a learner who knows more than believed) has to be in the chances, by mixing over draws of them.
/// Takes   chances of a right answer by point, in [0, 1].
/// Errors  std::domain_error for any other chance, or for something asked of no points.
/// Source  selection sampling point by point (Fan, Muller and Rezucha 1962): with c of k chosen after i of M points the
///         next is chosen with chance (k - c) / (M - i); the state is (chosen, right), so no binomial coefficient is
///         formed and nothing cancels. Work grows as M k^2.
[[nodiscard]] ScoreDistribution number_right_drawn(const std::vector<double>& chances, std::size_t asked);

/// What number_right_drawn() gives with one of the asked questions left out, each of them as likely as any other. Of it
/// the slope is made: when every chance of the points rises by t, the chance of `s` right changes at the rate
/// asked * (without_one(s - 1) - without_one(s)).
/// Takes   as number_right_drawn(), with at least one asked.
/// Errors  the same, and std::domain_error for none asked.
/// Source  the derivative of the generating function; leaving one of a random set out leaves a random set one smaller.
[[nodiscard]] ScoreDistribution number_right_without_one(const std::vector<double>& chances, std::size_t asked);

/// Coefficients of the product of two polynomials: the chances of a sum from those of its independent parts. The parts
/// may have lost mass (scores that do not pass) or be differences; none of either gives none.
[[nodiscard]] std::vector<double> convolved(const std::vector<double>& left, const std::vector<double>& right);

/// Number right over independent sections; no sections: none right.
[[nodiscard]] ScoreDistribution sum_of(const std::vector<ScoreDistribution>& sections);

/// Number right when one of the parts holds and each is as likely as any other: the prediction over draws of what is
/// believed. No parts: none right.
[[nodiscard]] ScoreDistribution mixture(const std::vector<ScoreDistribution>& parts);

}  // namespace memory
