#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "memory/fit/trial.hpp"
#include "memory/score/judge.hpp"

namespace memory {

/// How well the four ways of a trial foresaw the held-back answers.
struct Assessment {
    struct Figures {
        double log_loss = 0;                 ///< nats an answer; less is better
        double brier = 0;                    ///< less is better
        std::optional<double> area;          ///< under the ROC curve; nothing when all were right or all wrong
        std::optional<double> beyond;        ///< log loss less that of the fit; nothing for the fit itself
        std::optional<double> beyond_error;  ///< its standard error, by learner; nothing with fewer than two
    };

    std::size_t learned_from = 0, held_back = 0;
    std::array<Figures, Trial::kWays> of{};  ///< all zero when nothing was held back
    std::vector<Calibrated> calibration;     ///< of the fit, in bins of about equal count
    std::vector<Calibrated> as_shipped;      ///< of the shipped parameters
};

[[nodiscard]] Assessment assess(const Trial& trial);

}  // namespace memory
