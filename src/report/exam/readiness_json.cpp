#include "report/exam/readiness_json.hpp"

#include <cmath>

#include <nlohmann/json.hpp>

namespace report {
namespace {

using nlohmann::ordered_json;

double rounded(double value) {
    return std::round(value * 1e4) / 1e4;
}

ordered_json prediction_json(const memory::ExamPrediction& prediction) {
    ordered_json scores = ordered_json::array();
    for (const double chance : prediction.total.chances()) scores.push_back(rounded(chance));
    return {{"pass", rounded(prediction.pass)},
            {"pass_low", rounded(prediction.pass_low)},
            {"pass_high", rounded(prediction.pass_high)},
            {"right", rounded(prediction.total.mean())},
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
                         {"right", rounded(part.share_right)},
                         {"low", rounded(part.low)},
                         {"high", rounded(part.high)},
                         {"hour_brings", rounded(part.hour_brings)},
                         {"hour_passes", rounded(part.hour_passes)}});
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
             {{"recalled_seconds", rounded(found.pace.recalled_seconds)},
              {"failed_seconds", rounded(found.pace.failed_seconds)},
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
