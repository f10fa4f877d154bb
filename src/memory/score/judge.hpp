#pragma once

#include <cstddef>
#include <optional>
#include <vector>

namespace memory {

/// A chance that was foretold, and whether the answer was then right.
struct Forecast {
    double chance = 0;  ///< in [0, 1]; anything else is a std::domain_error wherever forecasts are judged
    bool right = false;
};

/// Mean over the answers of -ln(chance given to what happened), in nats; less is better. A foretold chance is held
/// within [1e-15, 1 - 1e-15]: certainty that was wrong costs 34.5 and not infinity. No answers: nothing.
[[nodiscard]] std::optional<double> log_loss(const std::vector<Forecast>& forecasts);

/// Mean squared distance of chance and outcome, 0 to 1; less is better. No answers: nothing.
/// Source  Brier 1950 (half his score, as is now usual).
[[nodiscard]] std::optional<double> brier_score(const std::vector<Forecast>& forecasts);

/// How forecasts are put together to compare them with what happened. Equal forecasts are never parted, so that the
/// order of the answers does not matter; bins of equal count are therefore equal only where forecasts differ.
struct Bins {
    enum class By {
        count,  ///< about the same number of answers in each
        width,  ///< the same stretch of chance for each, the last one closed above
        value   ///< one for each different forecast
    };
    By by = By::count;
    std::size_t most = 10;  ///< at least 1, or std::domain_error; no meaning for By::value
};

/// A row of a calibration table.
struct Calibrated {
    double mean_chance = 0;   ///< mean of the forecasts
    double share_right = 0;   ///< share of the answers that were right
    std::size_t answers = 0;  ///< at least 1: empty bins are left out
    double low = 0;           ///< 95 % interval of the share, Wilson's
    double high = 0;
};

/// From the least chance upwards. No answers: no rows.
[[nodiscard]] std::vector<Calibrated> calibration(const std::vector<Forecast>& forecasts, Bins bins = {});

/// Mean over the answers of |mean forecast - share right| of their bin, 0 to 1. It depends on the bins, and is above 0
/// by chance alone even for a perfect forecaster: compare like with like. No answers: nothing.
[[nodiscard]] std::optional<double> expected_calibration_error(const std::vector<Forecast>& forecasts, Bins bins = {});

/// Parts of the Brier score: score = reliability - resolution + uncertainty + within.
/// Source  Murphy 1973, A new vector partition of the probability score; the last term for bins that hold different
///         forecasts after Stephenson, Coelho and Jolliffe 2008 (both from memory).
struct BrierParts {
    double score = 0;
    double reliability = 0;  ///< squared distance of forecast and share right over the bins, >= 0; less is better
    double resolution = 0;   ///< how far the bins' shares differ from the whole's, >= 0; more is better
    double uncertainty = 0;  ///< share right times share wrong: what no forecaster can help
    double within = 0;       ///< what the bins hide; 0 for By::value, of either sign
};
[[nodiscard]] std::optional<BrierParts> brier_parts(const std::vector<Forecast>& forecasts, Bins bins = {});

struct ShareInterval {
    double low = 0;
    double high = 1;
};
/// Wilson's score interval for a share. Takes `right` of `all`, and the interval's coverage in (0, 1). None at all: 0
/// to 1.
/// Errors  std::domain_error for more right than all, or another coverage.
/// Source  Wilson 1927.
[[nodiscard]] ShareInterval wilson(std::size_t right, std::size_t all, double coverage = 0.95);

/// Area under the ROC curve: the chance that a right answer had been given the higher chance than a wrong one, ties
/// counting half. One class only, or no answers: nothing.
/// Source  the Mann-Whitney statistic by midranks; standard error by DeLong, DeLong and Clarke-Pearson 1988, with ranks
///         after Sun and Xu 2014 (from memory). It takes the answers for independent.
struct RocArea {
    double area = 0.5;
    std::optional<double> standard_error;  ///< nothing with fewer than two answers in a class; 0 when they are parted
    std::size_t right = 0;
    std::size_t wrong = 0;
};
[[nodiscard]] std::optional<RocArea> roc_area(const std::vector<Forecast>& forecasts);

/// Two forecasts of the same answer.
struct Rivals {
    std::size_t learner = 0;  ///< any number that tells learners apart
    double first = 0;         ///< chance by the first forecaster
    double second = 0;        ///< chance by the second
    bool right = false;
};

/// Log loss of the first less that of the second; below 0 the first is the better.
/// Source  the standard error is cluster-robust (Liang and Zeger 1986) for a mean: answers of a learner may depend on
///         each other in any way, learners do not; with the factor G / (G - 1) for G learners. With few learners (below
///         about 20) it is too small still, the more so when one learner has most of the answers.
struct Comparison {
    double difference = 0;                 ///< mean over the answers, in nats
    std::optional<double> standard_error;  ///< nothing with fewer than two learners
    std::size_t learners = 0;
    std::size_t answers = 0;
};
/// No answers: nothing.
[[nodiscard]] std::optional<Comparison> compare(const std::vector<Rivals>& answers);

}  // namespace memory
