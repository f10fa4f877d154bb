#include "report/exam/readiness_json.hpp"

#include <nlohmann/json.hpp>

#include "report/rounded.hpp"

namespace report {
namespace {

using nlohmann::ordered_json;

ordered_json prediction_json(const memory::ExamPrediction& prediction) {
    ordered_json scores = ordered_json::array();
    for (const double chance : prediction.total.chances()) scores.push_back(rounded<4>(chance));
    return {{"pass", rounded<4>(prediction.pass)},
            {"pass_low", rounded<4>(prediction.pass_low)},
            {"pass_high", rounded<4>(prediction.pass_high)},
            {"right", rounded<4>(prediction.total.mean())},
            {"right_low", prediction.right_low},
            {"right_high", prediction.right_high},
            {"scores", scores}};
}

ordered_json plans_json(const practice::Readiness& found) {
    ordered_json plans = ordered_json::array();
    for (const auto& plan : found.plans) {
        ordered_json one = {{"minutes", plan.minutes}};
        one.update(prediction_json(plan.on_the_day));
        plans.push_back(std::move(one));
    }
    return plans;
}

ordered_json parts_json(const ReadinessPage& of) {
    ordered_json parts = ordered_json::array();
    for (const auto& part : of.found.parts) {
        const auto& about = of.asked.parts[part.part];
        parts.push_back({{"id", about.section->id},
                         {"title", about.section->title},
                         {"asked", about.asked},
                         {"points", about.points.size()},
                         {"met", part.met},
                         {"right", rounded<4>(part.share_right)},
                         {"low", rounded<4>(part.low)},
                         {"high", rounded<4>(part.high)},
                         {"hour_brings", rounded<4>(part.hour_brings)},
                         {"hour_passes", rounded<4>(part.hour_passes)}});
    }
    return parts;
}

}  // namespace

ordered_json readiness_json(const ReadinessPage& of) {
    const auto& found = of.found;
    return {{"ok", true},
            {"learner", of.learner.name},
            {"outline", of.outline.id},
            {"edition", trade::to_text(of.asked.edition)},
            {"exam", base::date_text(of.asked.exam)},
            {"days", found.days},
            {"answers", found.answers},
            {"too_little", found.too_little()},
            {"pace",
             {{"recalled_seconds", rounded<4>(found.pace.recalled_seconds)},
              {"failed_seconds", rounded<4>(found.pace.failed_seconds)},
              {"measured", found.pace.measured}}},
            {"questions", found.covered.asked},
            {"not_covered", found.covered.not_covered},
            {"pass_right", found.pass_right},
            {"points", found.points},
            {"met", found.met},
            {"today", prediction_json(found.today)},
            {"plans", plans_json(found)},
            {"parts", parts_json(of)}};
}

}  // namespace report
