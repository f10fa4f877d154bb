#include "memory/fit/assessment.hpp"

namespace memory {
namespace {

std::vector<Forecast> forecasts(const Trial& trial, Trial::Way way) {
    std::vector<Forecast> all;
    for (std::size_t n = 0; n < trial.held_back(); ++n) all.push_back({trial.chances[way][n], trial.recalled[n] == 1});
    return all;
}

std::optional<Comparison> against_fit(const Trial& trial, Trial::Way way) {
    std::vector<Rivals> rivals;
    for (std::size_t n = 0; n < trial.held_back(); ++n)
        rivals.push_back(
            {trial.learner[n], trial.chances[way][n], trial.chances[Trial::fitted][n], trial.recalled[n] == 1});
    return compare(rivals);
}

Assessment::Figures figures(const Trial& trial, Trial::Way way) {
    const auto all = forecasts(trial, way);
    Assessment::Figures figures;
    figures.log_loss = log_loss(all).value_or(0);
    figures.brier = brier_score(all).value_or(0);
    if (const auto area = roc_area(all)) figures.area = area->area;
    if (way == Trial::fitted) return figures;
    if (const auto beyond = against_fit(trial, way)) {
        figures.beyond = beyond->difference;
        figures.beyond_error = beyond->standard_error;
    }
    return figures;
}

}  // namespace

Assessment assess(const Trial& trial) {
    Assessment assessment;
    assessment.learned_from = trial.learned_from;
    assessment.held_back = trial.held_back();
    for (std::size_t way = 0; way < Trial::kWays; ++way)
        assessment.of[way] = figures(trial, static_cast<Trial::Way>(way));
    assessment.calibration = calibration(forecasts(trial, Trial::fitted));
    assessment.as_shipped = calibration(forecasts(trial, Trial::prior));
    return assessment;
}

}  // namespace memory
