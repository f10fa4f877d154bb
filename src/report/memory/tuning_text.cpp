#include "report/memory/tuning_text.hpp"

#include <cmath>

#include "base/text.hpp"
#include "report/memory/parameter_name.hpp"
#include "report/table.hpp"

namespace report {
namespace {

using memory::Assessment;
using memory::Trial;
using practice::Verdict;
using Lines = std::vector<std::string>;

constexpr std::size_t kNameWidth = 22;
constexpr std::size_t kFigureWidth = 10;
// A parameter held tighter than this is the measure of others and says nothing.
constexpr double kShown = 0.01;

std::string fixed(double value, int places) {
    std::string text = base::number_text(std::abs(value), places);
    if (text.find('.') == std::string::npos) text += '.';
    while (text.size() - text.find('.') - 1 < static_cast<std::size_t>(places)) text += '0';
    return (value < 0 ? "-" : "") + text;
}

std::string figure(const std::optional<double>& value) {
    return right_set(value ? fixed(*value, 3) : "-", kFigureWidth);
}

void add_made_of(Lines& lines, const practice::CrewLog& log, const Page& page) {
    add(lines, page,
        "The recall model against " + counted(log.answers.size(), "answer") + " of " +
            counted(log.learners.size(), "learner") + ".");
    if (log.removed > 0)
        add(lines, page,
            counted(log.removed, "answer") + " on points no longer in the library still told of the learner.");
    if (log.later > 0)
        add(lines, page, counted(log.later, "answer") + " dated after now left out: was a clock ahead?", 0, Ink::warn);
}

void add_ways(Lines& lines, const Assessment& assessment, const Page& page) {
    lines.emplace_back();
    add(lines, page,
        "The last fifth of each learner's answers (" + std::to_string(assessment.held_back) +
            "), foreseen from the rest:");
    add_row(lines, page, "", kNameWidth,
            right_set("log loss", kFigureWidth) + right_set("Brier", kFigureWidth) + right_set("area", kFigureWidth),
            Ink::bold);
    for (std::size_t way = 0; way < Trial::kWays; ++way) {
        const auto& figures = assessment.of.at(way);
        add_row(lines, page, std::string{memory::to_text(static_cast<Trial::Way>(way))}, kNameWidth,
                figure(figures.log_loss) + figure(figures.brier) + figure(figures.area));
    }
    add(lines, page, "Less log loss and Brier is better; area under the ROC curve: .5 is guessing, 1 is perfect.", 0,
        Ink::faint);
}

void add_calibration(Lines& lines, const Assessment& assessment, const Page& page) {
    lines.emplace_back();
    lines.push_back(inked(page, Ink::bold,
                          right_set("foretold", kFigureWidth) + right_set("right", kFigureWidth) +
                              right_set("answers", kFigureWidth) + "  95 % interval"));
    for (const auto& row : assessment.calibration)
        lines.push_back(right_set(percent(row.mean_chance), kFigureWidth) +
                        right_set(percent(row.share_right), kFigureWidth) +
                        right_set(std::to_string(row.answers), kFigureWidth) + "  " + percent(row.low) + " to " +
                        percent(row.high));
}

std::string verdict_text(const practice::Tuning& tuning, bool keeps) {
    switch (tuning.verdict) {
        case Verdict::taken:
            return keeps ? "Taken: from now on the fitted parameters say what is due and how ready you are."
                         : "It would be taken. Nothing was changed.";
        case Verdict::too_few:
            return "Too few answers to judge a fit by: " + std::to_string(practice::kFewestHeldBack) +
                   " held back are needed, about " + std::to_string(5 * practice::kFewestHeldBack) +
                   " answers in all. The parameters stay as they were.";
        case Verdict::worse:
            return "Not taken: the shipped parameters foresaw the held-back answers better. The parameters stay as "
                   "they were.";
    }
    return {};
}

void add_parameters(Lines& lines, const practice::Tuning& tuning, const Page& page) {
    lines.emplace_back();
    add_row(lines, page, "parameter", kNameWidth,
            right_set("fitted", kFigureWidth) + right_set("+/- sd", kFigureWidth) + right_set("shipped", kFigureWidth) +
                right_set("+/- sd", kFigureWidth),
            Ink::bold);
    const auto& shared = memory::shared_parameters();
    for (std::size_t k = 0; k < shared.size(); ++k) {
        if (shared[k].sd < kShown) continue;
        add_row(lines, page, parameter_name(k), kNameWidth,
                figure(tuning.fitted.at[k]) + figure(tuning.sd[k]) + figure(shared[k].mean) + figure(shared[k].sd));
    }
}

}  // namespace

std::vector<std::string> tuning_text(const practice::CrewLog& log, const practice::Tuning& tuning, bool keeps,
                                     const Page& page) {
    Lines lines;
    add_made_of(lines, log, page);
    if (tuning.assessment.held_back > 0) {
        add_ways(lines, tuning.assessment, page);
        add_calibration(lines, tuning.assessment, page);
    }
    if (tuning.verdict != Verdict::too_few) add_parameters(lines, tuning, page);
    lines.emplace_back();
    add(lines, page, verdict_text(tuning, keeps), 0, tuning.verdict == Verdict::taken ? Ink::good : Ink::warn);
    return lines;
}

std::string tuning_line(const practice::CrewLog& log, const practice::Tuning& tuning) {
    const std::string answers = counted(log.answers.size(), "answer");
    switch (tuning.verdict) {
        case Verdict::taken:
            return "The recall model was fitted anew to " + answers + "; 'greentag tune --dry-run' tells how well.";
        case Verdict::too_few:
            return {};
        case Verdict::worse:
            return "A fit of the recall model to " + answers + " was not taken: it foresaw the last ones less well.";
    }
    return {};
}

}  // namespace report
