#include "report/memory/rehearsal_text.hpp"

#include <algorithm>
#include <cmath>

#include "base/csv.hpp"
#include "base/text.hpp"
#include "report/chart/interval_plot.hpp"
#include "report/table.hpp"

namespace report {
namespace {

using memory::rehearsal::Estimate;
using memory::rehearsal::PolicyResult;
using Lines = std::vector<std::string>;

constexpr double kNineInTen = 1.6448536269514722;
constexpr std::size_t kNameWidth = 12;
constexpr std::size_t kFigureWidth = 16;

/// Shares of the library, in points of a hundred.
std::string points(double share) {
    std::string text = base::number_text(std::round(1000 * share) / 10, 1);
    return text.find('.') == std::string::npos ? text + ".0" : text;
}

std::string level(const Estimate& estimate) {
    return points(estimate.mean) + " +/- " + points(estimate.se);
}

std::string over(const Estimate& estimate) {
    return (estimate.mean >= 0 ? "+" : "") + level(estimate);
}

bool has_stakes(const Rehearsed& one) {
    return !one.plan.crowd.weights.empty();
}

std::string plan_text(const Rehearsed& one) {
    const auto& plan = one.plan;
    return counted(plan.crowd.learners, "learner") + ", " + counted(plan.crowd.points, "point") + ", " +
           counted(plan.days, "day") + ", " + base::number_text(plan.seconds_a_day / 60, 1) + " minutes a day, " +
           points(plan.crowd.share_known) + " % known before" +
           (plan.crowd.by_family ? " by whole families" : ", scattered") + ", seed " + std::to_string(plan.seed);
}

void add_one(Lines& lines, const Rehearsed& one, const Page& page) {
    lines.push_back(inked(page, Ink::bold, "Answers from " + one.generator));
    add(lines, page, plan_text(one));
    const std::string stakes = has_stakes(one) ? right_set("stakes-weighted", kFigureWidth + 2) : "";
    add_row(lines, page, "", kNameWidth,
            right_set("recall", kFigureWidth) + right_set("over rotation", kFigureWidth) + stakes +
                right_set("a month on", kFigureWidth));
    for (const auto& result : one.results) {
        const std::string weighted =
            has_stakes(one) ? right_set(over(result.weighted_recall.over_rotation), kFigureWidth + 2) : "";
        add_row(lines, page, result.name, kNameWidth,
                right_set(level(result.recall.level), kFigureWidth) +
                    right_set(over(result.recall.over_rotation), kFigureWidth) + weighted +
                    right_set(level(result.later_recall.level), kFigureWidth));
    }
    lines.emplace_back();
}

std::vector<std::string> csv_cells(const Rehearsed& one, const PolicyResult& result) {
    const auto& plan = one.plan;
    const auto text = [](double value) { return base::number_text(value, 6); };
    return {one.generator,
            result.name,
            std::to_string(plan.crowd.learners),
            std::to_string(plan.crowd.points),
            std::to_string(plan.days),
            text(plan.seconds_a_day / 60),
            text(plan.crowd.share_known),
            plan.crowd.by_family ? "families" : "scattered",
            has_stakes(one) ? "yes" : "no",
            std::to_string(plan.seed),
            text(result.recall.level.mean),
            text(result.recall.level.se),
            text(result.recall.over_rotation.mean),
            text(result.recall.over_rotation.se),
            text(result.weighted_recall.level.mean),
            text(result.weighted_recall.over_rotation.mean),
            text(result.weighted_recall.over_rotation.se),
            text(result.later_recall.level.mean),
            text(result.held.level.mean),
            text(result.met.level.mean),
            text(result.asks.level.mean)};
}

}  // namespace

std::vector<std::string> rehearsal_text(const std::vector<Rehearsed>& all, const Page& page) {
    Lines lines;
    for (const auto& one : all) add_one(lines, one, page);
    add(lines, page,
        "Recall: mean chance of a right answer over the whole library on the exam day, in hundredths, with its "
        "standard "
        "error over learners. All policies meet the same learners and the same luck. Simulated learners are not "
        "people: "
        "this compares ways of choosing, it promises nothing.",
        0, Ink::faint);
    return lines;
}

std::string rehearsal_csv(const std::vector<Rehearsed>& all) {
    std::string text = base::csv_line({"generator",
                                       "policy",
                                       "learners",
                                       "points",
                                       "days",
                                       "minutes",
                                       "known",
                                       "known_how",
                                       "stakes",
                                       "seed",
                                       "recall",
                                       "recall_se",
                                       "over_rotation",
                                       "over_rotation_se",
                                       "weighted_recall",
                                       "weighted_over_rotation",
                                       "weighted_over_rotation_se",
                                       "later_recall",
                                       "points_held",
                                       "points_met",
                                       "asks"});
    for (const auto& one : all)
        for (const auto& result : one.results) text += base::csv_line(csv_cells(one, result));
    return text;
}

std::string rehearsal_svg(const std::vector<Rehearsed>& all) {
    const chart::Words words{"rehearsal", "Recall on the exam day, by policy",
                             "Mean over simulated learners with the interval that holds it nine times in ten."};
    std::vector<chart::IntervalRow> rows;
    for (std::size_t n = 0; n < all.size(); ++n)
        for (const auto& result : all[n].results) {
            const auto& recall = result.recall.level;
            rows.push_back({result.name + ", " + all[n].generator, recall.mean, recall.mean - kNineInTen * recall.se,
                            recall.mean + kNineInTen * recall.se, "", n});
        }
    return chart::interval_plot(words, rows, "mean recall", chart::Unit::percent);
}

}  // namespace report
