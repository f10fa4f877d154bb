#include "report/memory/tuning_json.hpp"

#include <optional>

#include <nlohmann/json.hpp>

#include "report/memory/parameter_name.hpp"
#include "report/rounded.hpp"

namespace report {
namespace {

using memory::Assessment;
using memory::Trial;
using nlohmann::ordered_json;

ordered_json maybe(const std::optional<double>& value) {
    return value ? ordered_json(rounded<6>(*value)) : ordered_json(nullptr);
}

ordered_json figures_json(const Assessment::Figures& figures, bool is_fit) {
    ordered_json out = {{"log_loss", rounded<6>(figures.log_loss)},
                        {"brier", rounded<6>(figures.brier)},
                        {"area", maybe(figures.area)}};
    if (is_fit) return out;
    out["beyond"] = maybe(figures.beyond);
    out["beyond_error"] = maybe(figures.beyond_error);
    return out;
}

ordered_json calibration_json(const std::vector<memory::Calibrated>& rows) {
    ordered_json out = ordered_json::array();
    for (const auto& row : rows)
        out.push_back({{"foretold", rounded<6>(row.mean_chance)},
                       {"right", rounded<6>(row.share_right)},
                       {"answers", row.answers},
                       {"low", rounded<6>(row.low)},
                       {"high", rounded<6>(row.high)}});
    return out;
}

ordered_json parameters_json(const practice::Tuning& tuning) {
    ordered_json out = ordered_json::array();
    const auto& shared = memory::shared_parameters();
    for (std::size_t k = 0; k < shared.size(); ++k)
        out.push_back({{"name", parameter_name(k)},
                       {"value", rounded<6>(tuning.fitted.at[k])},
                       {"sd", rounded<6>(tuning.sd[k])},
                       {"prior", rounded<6>(shared[k].mean)},
                       {"prior_sd", rounded<6>(shared[k].sd)},
                       {"at_limit", static_cast<bool>(tuning.fitted.held[k])}});
    return out;
}

}  // namespace

ordered_json assessment_json(const Assessment& assessment) {
    ordered_json out = {{"learned_from", assessment.learned_from}, {"held_back", assessment.held_back}};
    if (assessment.held_back == 0) return out;
    static constexpr std::array<const char*, Trial::kWays> kNames = {"fitted", "shipped", "constant", "half_life"};
    for (std::size_t way = 0; way < Trial::kWays; ++way)
        out[kNames.at(way)] = figures_json(assessment.of.at(way), way == Trial::fitted);
    out["calibration"] = calibration_json(assessment.calibration);
    return out;
}

ordered_json tuning_json(const practice::CrewLog& log, const practice::Tuning& tuning) {
    return {{"ok", true},
            {"answers", log.answers.size()},
            {"learners", log.learners.size()},
            {"on_removed_points", log.removed},
            {"after_now", log.later},
            {"taken", tuning.verdict == practice::Verdict::taken},
            {"verdict", practice::to_text(tuning.verdict)},
            {"assessment", assessment_json(tuning.assessment)},
            {"fit",
             {{"converged", tuning.fitted.converged},
              {"steps", tuning.fitted.steps},
              {"passes", tuning.fitted.passes},
              {"loss", rounded<6>(tuning.fitted.value)}}},
            {"parameters", parameters_json(tuning)}};
}

}  // namespace report
