#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "memory/items/response_matrix.hpp"

namespace memory {

struct ScoredAnswer {
    std::uint32_t item = 0;
    bool right = false;
};

/// What a learner answered, each item once, or what `weight` learners answered alike. Items left out are missing at
/// random: that an item was not asked says nothing of the learner.
struct ResponsePattern {
    std::vector<ScoredAnswer> answers;
    double weight = 1;  ///< >= 0
};

/// One pattern for each learner, in their order; a learner without answers has an empty one.
[[nodiscard]] std::vector<ResponsePattern> patterns(const ResponseMatrix& matrix);

/// Chance of a right answer = 1 / (1 + e^-(slope ability + intercept)), ability standard normal among learners.
enum class LogisticForm : std::uint8_t {
    one_parameter,  ///< one slope for all items: the slope is the standard deviation of ability in logits
    two_parameter,  ///< a slope for each item
};

/// What is believed of an item beforehand, for few answers. It holds slopes above zero, so that an item that good
/// learners fail shows as a slope near zero: its sign is read from the discrimination. Chosen, no data behind it: two
/// thirds of slopes between 0.6 and 1.6, of shares right between 8 and 92 %.
struct ItemPrior {
    double log_slope_mean = 0;
    double log_slope_sd = 0.5;  ///< > 0; of a normal on ln slope
    double intercept_sd = 2.5;  ///< > 0; of a normal around 0
};

struct LogisticOptions {
    LogisticForm form = LogisticForm::two_parameter;
    /// Empty: marginal maximum likelihood. Else the most probable intercepts and ln slopes.
    std::optional<ItemPrior> prior;
    bool errors = true;  ///< standard errors, which cost the cube of the number of items: seconds from some hundreds on
    std::size_t nodes = 81;  ///< of AbilityGrid, >= 41; enough while no learner's ability is known better than to 0.1
};

struct LogisticItem {
    bool estimated = false;  ///< false: nothing below is meant, see fit_logistic
    double slope = 0, slope_error = 0;
    double intercept = 0,
           intercept_error =
               0;  ///< standard errors; infinite where the answers leave them open or they were not asked for
    std::optional<double> difficulty;  ///< -intercept / slope; empty for a slope below 1e-3 in size
    double difficulty_error = 0;       ///< by the delta method; infinite without a difficulty
    double answers = 0, right = 0;     ///< sums of weights
};

struct LogisticItems {
    LogisticOptions options;
    std::vector<LogisticItem> items;
    double log_likelihood = 0;   ///< of the answers, nats, without the prior
    std::size_t parameters = 0;  ///< estimated ones
    std::size_t steps = 0;
    bool converged = false;
};

/// Estimates items by marginal maximum likelihood.
/// Takes   patterns whose items are below `items`, each at most once in a pattern.
/// Gives   estimates to 1e-8 when converged. Not converged: slopes that run off, as they may with few answers.
///         Without a prior an item that all or none had right is left out (at an intercept without end it would add
///         nothing to the log-likelihood); with a prior an item nobody answered is. The direction of ability is the
///         one in which slopes sum to zero or more.
///         Standard errors come from the observed information, the prior's included.
/// Errors  std::invalid_argument when a pattern or option is out of its range.
/// Source  Bock and Aitkin 1981 for marginal maximum likelihood. The first steps are Lange's gradient EM of 1995, the
///         others Newton's by conjugate gradients with the observed information of Louis 1982 (all from memory;
///         gradient and information are held against differences in tests, estimates against published ones).
[[nodiscard]] LogisticItems fit_logistic(const std::vector<ResponsePattern>& data, std::size_t items,
                                         const LogisticOptions& options = {});

/// What a learner's answers say of ability: mean and standard deviation after the answers (expected a posteriori).
struct Ability {
    double mean = 0;
    double sd = 1;
};

/// One for each pattern; an empty pattern has the standard normal itself. Items that were not estimated say nothing.
[[nodiscard]] std::vector<Ability> abilities(const LogisticItems& fitted, const std::vector<ResponsePattern>& data);

/// How far observed pattern counts lie from the fitted ones.
struct PatternFit {
    double g_squared = 0;
    double degrees = 0;  ///< 2^items - 1 - parameters; may be negative
};

/// G squared = 2 sum n ln(n / (N p)) against the model that gives each pattern its own share.
/// Gives   empty unless every pattern of weight above zero answers every item, all items were estimated and there are
///         at most 20 of them.
[[nodiscard]] std::optional<PatternFit> pattern_fit(const LogisticItems& fitted,
                                                    const std::vector<ResponsePattern>& data);

}  // namespace memory
