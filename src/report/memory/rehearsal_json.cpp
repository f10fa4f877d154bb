#include <nlohmann/json.hpp>

#include "report/memory/rehearsal_text.hpp"
#include "report/rounded.hpp"

namespace report {
namespace {

using nlohmann::ordered_json;

ordered_json measure_json(const memory::rehearsal::Measure& measure) {
    return {{"mean", rounded<6>(measure.level.mean)},
            {"se", rounded<6>(measure.level.se)},
            {"over_rotation", rounded<6>(measure.over_rotation.mean)},
            {"over_rotation_se", rounded<6>(measure.over_rotation.se)}};
}

}  // namespace

ordered_json rehearsal_json(const std::vector<Rehearsed>& all) {
    ordered_json list = ordered_json::array();
    for (const auto& one : all) {
        const auto& plan = one.plan;
        ordered_json policies = ordered_json::array();
        for (const auto& result : one.results)
            policies.push_back({{"policy", result.name},
                                {"recall", measure_json(result.recall)},
                                {"weighted_recall", measure_json(result.weighted_recall)},
                                {"later_recall", measure_json(result.later_recall)},
                                {"points_held", measure_json(result.held)},
                                {"points_met", measure_json(result.met)},
                                {"asks", measure_json(result.asks)}});
        list.push_back({{"generator", one.generator},
                        {"plan",
                         {{"learners", plan.crowd.learners},
                          {"points", plan.crowd.points},
                          {"days", plan.days},
                          {"minutes", plan.seconds_a_day / 60},
                          {"known", plan.crowd.share_known},
                          {"by_family", plan.crowd.by_family},
                          {"stakes", !plan.crowd.weights.empty()},
                          {"seed", plan.seed}}},
                        {"policies", policies}});
    }
    return {{"ok", true}, {"rehearsals", list}};
}

}  // namespace report
