#pragma once

#include <cstddef>
#include <vector>

#include "memory/score/score_distribution.hpp"

namespace memory {

/// A part of an exam. Its questions are drawn from its points as number_right_drawn() says, apart from other sections,
/// even where a point belongs to several.
struct ExamSection {
    std::vector<std::size_t> points;  ///< places in the vector of chances; none only where none are asked
    std::size_t asked = 0;
    std::size_t pass_right = 0;  ///< the section's own least number right; 0: none of its own
};

struct ExamRule {
    std::vector<ExamSection> sections;
    std::size_t pass_right = 0;  ///< least number right of all that is asked
    /// Chance in [0, 1) of being right without knowing: p becomes floor + (1 - floor) p. The recall model's chance is
    /// already that of a right answer in the form asked, so 0 unless the chances mean knowing alone.
    double chance_floor = 0;
};

/// Least number right that is at least a share of what is asked: rounded up, with 1e-9 forgiven, so that 55 % of a
/// hundred is 55 whatever the rounding of .55.
/// Errors  std::domain_error for a share outside 0 to 1.
[[nodiscard]] std::size_t right_for_share(double share, std::size_t asked);

/// All functions below take chances by point, in [0, 1], and throw std::domain_error for any other chance, for a point
/// that has none, for an exam nobody can pass (more needed than asked, of a section or in all), and for a floor outside
/// [0, 1).

/// What the chances say of one sitting.
struct ExamScore {
    std::vector<ScoreDistribution> sections;
    ScoreDistribution total;
    double pass = 0;  ///< chance that the total and every section's own least number are reached; exact
};
[[nodiscard]] ExamScore exam_score(const ExamRule& rule, const std::vector<double>& chances);

/// Where the variance of the number right comes from; the three add up to the variance of the prediction.
struct ScoreVariance {
    double questions = 0;  ///< luck of the draw: which questions are asked
    double day = 0;        ///< luck on the day: right or not, the questions and chances once given
    double belief = 0;     ///< what is not known of the learner: the chances differ from draw to draw
};

/// What is foretold over draws of the chances, each draw as likely as any other.
struct ExamPrediction {
    double pass = 0;                          ///< chance to pass: the mean over the draws
    double pass_low = 0;                      ///< 5 % quantile over the draws of the chance to pass
    double pass_high = 0;                     ///< 95 % quantile
    std::vector<ScoreDistribution> sections;  ///< predicted number right
    ScoreDistribution total;                  ///< predicted number right of all
    std::size_t right_low = 0;                ///< 5 % quantile of the number right
    std::size_t right_high = 0;               ///< 95 % quantile
    ScoreVariance variance;                   ///< of the number right of all
};
/// Quantiles over the draws are interpolated linearly (Hyndman and Fan 1996, type 7). The chance to pass is the mean of
/// the chances, never the chance at mean chances: that would count what is not known as if it were luck on the day.
/// Errors  also std::domain_error for no draws.
[[nodiscard]] ExamPrediction predict_exam(const ExamRule& rule, const std::vector<std::vector<double>>& draws);

/// How a section stands, as means over the draws.
struct SectionStanding {
    std::size_t section = 0;    ///< place in the rule
    double share_right = 0;     ///< expected share of its questions right
    double expected_wrong = 0;  ///< questions expected to be lost
    /// Rate at which the chance to pass rises when every chance of the section's points, as given, rises by the same
    /// amount: at 2, chances all .01 higher make it about .02 higher. A point in two sections counts for this one
    /// alone.
    double pass_slope = 0;
};
/// Sections that ask something, the one with the least share right first; equals in the order of the rule.
/// Errors  also std::domain_error for no draws.
[[nodiscard]] std::vector<SectionStanding> weakest(const ExamRule& rule, const std::vector<std::vector<double>>& draws);

}  // namespace memory
