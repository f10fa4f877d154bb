#include "report/shop/progress_json.hpp"

#include <nlohmann/json.hpp>

#include "memory/state.hpp"
#include "report/exam/readiness_json.hpp"
#include "report/rounded.hpp"
#include "report/session_json.hpp"

namespace report {
namespace {

using nlohmann::ordered_json;
using practice::ForecastDay;
using practice::OpenCorrection;
using practice::Progress;

ordered_json day(const std::optional<base::Instant>& when) {
    return when ? ordered_json(base::date_text(*when)) : ordered_json(nullptr);
}

ordered_json forecast_json(const std::vector<ForecastDay>& forecast) {
    ordered_json list = ordered_json::array();
    for (const auto& one : forecast)
        list.push_back({{"days", one.days}, {"recall", rounded<4>(one.recall)}, {"due", one.due}});
    return list;
}

ordered_json history_json(const std::vector<practice::RecallSample>& history) {
    ordered_json list = ordered_json::array();
    for (const auto& one : history)
        list.push_back({{"day", base::date_text(one.at)}, {"met", one.met}, {"recall", rounded<4>(one.recall)}});
    return list;
}

ordered_json topics_json(const std::vector<practice::TopicProgress>& topics) {
    ordered_json list = ordered_json::array();
    for (const auto& one : topics)
        list.push_back({{"topic", one.standing.topic},
                        {"points", one.standing.points},
                        {"met", one.standing.met},
                        {"due", one.standing.due},
                        {"tripped", one.standing.urgent},
                        {"recall", rounded<4>(one.standing.recall)},
                        {"begun", day(one.begun)},
                        {"forecast", forecast_json(one.forecast)},
                        {"history", history_json(one.history)}});
    return list;
}

ordered_json corrections_json(const std::vector<OpenCorrection>& corrections) {
    ordered_json list = ordered_json::array();
    for (const auto& one : corrections)
        list.push_back({{"point", one.point.text},
                        {"title", one.title},
                        {"topic", one.topic},
                        {"stakes", content::to_text(one.stakes)},
                        {"state", practice::to_text(one.state)},
                        {"last", base::date_text(one.last)}});
    return list;
}

ordered_json head_json(const Progress& progress) {
    return {{"answers", progress.answers},
            {"right", progress.right},
            {"days", progress.days_studied},
            {"minutes", rounded<1>(progress.minutes)},
            {"first", day(progress.first)},
            {"last", day(progress.last)},
            {"points", progress.points},
            {"met", progress.met},
            {"due", progress.due},
            {"tripped", progress.tripped},
            {"recall", rounded<4>(progress.recall_now())}};
}

}  // namespace

ordered_json progress_json(const LearnerPage& of) {
    const auto& progress = of.progress;
    ordered_json out = {{"ok", true}, {"learner", of.learner.name}};
    out.update(head_json(progress));
    out["topics"] = topics_json(progress.topics);
    out["forecast"] = forecast_json(progress.forecast);
    out["history"] = history_json(progress.history);
    out["weeks"] = ordered_json::array();
    for (const auto& one : progress.weeks)
        out["weeks"].push_back(
            {{"monday", base::date_text(one.monday)}, {"answers", one.answers}, {"right", one.right}});
    out["sure"] = ordered_json::object();
    for (std::size_t n = 0; n < progress.sure.size(); ++n)
        out["sure"][std::string{memory::to_text(static_cast<memory::Sure>(n))}] = {
            {"answers", progress.sure.at(n).answers}, {"right", progress.sure.at(n).right}};
    out["times"] = ordered_json::array();
    for (const auto& one : progress.times)
        out["times"].push_back({{"form", one.form}, {"answers", one.answers}, {"median_s", rounded<1>(one.median)}});
    out["corrections"] = corrections_json(progress.corrections);
    out["look_ups"] = look_ups_json(of.look_ups);
    if (of.readiness != nullptr) out["readiness"] = readiness_json(*of.readiness);
    return out;
}

ordered_json crew_progress_json(const practice::CrewProgress& crew) {
    ordered_json out = {{"ok", true}, {"needs", ordered_json::array()}, {"members", ordered_json::array()}};
    for (const auto& need : crew.needs)
        out["needs"].push_back({{"kind", practice::to_text(need.kind)},
                                {"learner", crew.members.at(need.member).learner.name},
                                {"days", need.days},
                                {"points", corrections_json(need.points)}});
    for (const auto& member : crew.members) {
        ordered_json one = {{"learner", member.learner.name}, {"idle_days", member.idle}};
        one.update(head_json(member.progress));
        one["exam_in_days"] = member.exam_in ? ordered_json(*member.exam_in) : ordered_json(nullptr);
        out["members"].push_back(std::move(one));
    }
    out["topics"] = ordered_json::array();
    for (const auto& one : crew.topics)
        out["topics"].push_back({{"topic", one.topic},
                                 {"begun", one.begun},
                                 {"recall", rounded<4>(one.recall)},
                                 {"due", one.due},
                                 {"tripped", one.tripped}});
    return out;
}

}  // namespace report
