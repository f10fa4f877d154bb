#include "report/shop/job_json.hpp"

#include "report/rounded.hpp"

namespace report {
namespace {

using nlohmann::ordered_json;

ordered_json point_json(const practice::JobPoint& found) {
    ordered_json reasons = ordered_json::array();
    for (const auto& reason : found.reasons) reasons.push_back(practice::to_text(reason));
    return {{"point", found.point->id.text},
            {"title", found.point->title},
            {"article", found.version->article},
            {"stakes", content::to_text(found.point->stakes)},
            {"unverified", found.version->unverified},
            {"bearing", rounded<3>(found.bearing)},
            {"weakness", rounded<3>(found.weakness)},
            {"weight", rounded<3>(found.weight)},
            {"reasons", reasons}};
}

ordered_json reminder_json(const practice::Reminder& reminder) {
    ordered_json rules = ordered_json::array();
    for (const auto& rule : reminder.rules)
        rules.push_back({{"point", rule.point.text},
                         {"article", rule.article},
                         {"says", rule.says},
                         {"practice", rule.practice},
                         {"unverified", rule.unverified}});
    return {{"cautions", reminder.cautions}, {"rules", rules}, {"mistakes", reminder.mistakes}};
}

}  // namespace

ordered_json job_json(const practice::JobBrief& brief) {
    ordered_json jobs = ordered_json::array(), points = ordered_json::array(), drill = ordered_json::array();
    for (const auto* job : brief.jobs) jobs.push_back(job->id);
    for (const auto& found : brief.points) points.push_back(point_json(found));
    for (const auto* point : brief.drill) drill.push_back(point->id.text);
    return {{"asked", brief.asked},
            {"edition", trade::to_text(brief.under.edition)},
            {"jobs", jobs},
            {"points", points},
            {"left_off", brief.left_off},
            {"drill", drill},
            {"reminder", reminder_json(brief.reminder)},
            {"unmatched", brief.unmatched},
            {"nearest", brief.nearest}};
}

}  // namespace report
