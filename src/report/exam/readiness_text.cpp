#include "report/exam/readiness_text.hpp"

#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "report/chart/interval_plot.hpp"
#include "report/table.hpp"

namespace report {
namespace {

using memory::ExamPrediction;
using Lines = std::vector<std::string>;

constexpr std::size_t kNameWidth = 26;
// Beyond this the interval of a chance to pass says little.
constexpr double kWide = 0.5;
constexpr std::size_t kWeakestShown = 5;

std::string chance_text(double share) {
    // A forecast is never certain: 0 and 100 would claim what no model knows.
    const long rounded = std::lround(100 * share);
    if (rounded <= 0) return "under 1 %";
    return rounded >= 100 ? "over 99 %" : std::to_string(rounded) + " %";
}

/// The same for a picture.
double shown(double share) {
    return std::clamp(share, 0.01, 0.99);
}

std::string right_text(const ExamPrediction& prediction) {
    return std::to_string(std::lround(prediction.total.mean())) + " (" + std::to_string(prediction.right_low) + " to " +
           std::to_string(prediction.right_high) + ")";
}

std::string pass_text(const ExamPrediction& prediction) {
    if (chance_text(prediction.pass_low) == chance_text(prediction.pass_high)) return chance_text(prediction.pass);
    return chance_text(prediction.pass) + " (" + chance_text(prediction.pass_low) + " to " +
           chance_text(prediction.pass_high) + ")";
}

std::string minutes_text(int minutes) {
    return minutes == 0 ? "nothing more studied" : counted(static_cast<std::size_t>(minutes), "minute") + " a day";
}

void add_heading(Lines& lines, const ReadinessPage& of, const Page& page) {
    const auto& found = of.found;
    lines.push_back(inked(page, Ink::bold, of.outline.title + ": " + of.learner.name));
    add(lines, page,
        std::string{trade::to_text(of.asked.edition)} + " edition; exam " + base::date_text(of.asked.exam) +
            (of.learner.exam_at ? "" : " (no day is set: 'greentag crew set')") + ", " + counted(found.days, "day") +
            " of study left after today.");
    add(lines, page,
        counted(found.answers, "answer") + " so far; " + std::to_string(found.met) + " of the exam's " +
            counted(found.points, "point") + " met.");
}

void add_caveats(Lines& lines, const ReadinessPage& of, const Page& page) {
    const auto& found = of.found;
    if (found.too_little())
        add(lines, page,
            "TOO LITTLE TO SAY: with under " + std::to_string(practice::kFewestAnswers) +
                " answers this is what would be said of anybody. Study first.",
            0, Ink::warn);
    else if (found.today.pass_high - found.today.pass_low > kWide)
        add(lines, page, "Much is uncertain yet: the figures in brackets are wide, and more answers narrow them.", 0,
            Ink::warn);
    if (found.covered.not_covered > 0)
        add(lines, page,
            "The library has points for " + std::to_string(found.covered.asked) + " of " +
                std::to_string(found.covered.asked + found.covered.not_covered) +
                " questions. All figures are for these; of the rest it can say nothing.",
            0, Ink::warn);
}

void add_today(Lines& lines, const ReadinessPage& of, const Page& page) {
    lines.emplace_back();
    add(lines, page,
        "Sat today: " + right_text(of.found.today) + " of " + std::to_string(of.found.covered.asked) + " right; " +
            std::to_string(of.found.pass_right) + " are needed. Chance to pass " + pass_text(of.found.today) + ".");
}

void add_plans(Lines& lines, const ReadinessPage& of, const Page& page) {
    lines.emplace_back();
    const auto cells = [](const std::string& right, const std::string& pass) { return padded(right, 16) + pass; };
    // Set as one: rows that fit and rows that do not would make a ragged table.
    const bool wide = page.width >= kNameWidth + 40;
    const std::size_t width = wide ? kNameWidth : page.width;
    add_row(lines, page, "On the exam day", width, cells("right", "to pass"), Ink::bold);
    for (const auto& plan : of.found.plans)
        add_row(lines, page, minutes_text(plan.minutes), width,
                cells(right_text(plan.on_the_day), pass_text(plan.on_the_day)));
}

void add_parts(Lines& lines, const ReadinessPage& of, const Page& page) {
    lines.emplace_back();
    lines.push_back(inked(page, Ink::bold, "The weakest parts, and what an hour on each alone would bring"));
    for (std::size_t n = 0; n < std::min(kWeakestShown, of.found.parts.size()); ++n) {
        const auto& part = of.found.parts[n];
        const auto& about = of.asked.parts[part.part];
        add_hanging(lines, page, "  " + padded(chance_text(part.share_right), 10) + " ",
                    about.section->title + ": " + std::to_string(part.met) + " of " +
                        counted(about.points.size(), "point") + " met, " + counted(about.asked, "question") +
                        ". An hour: " + base::number_text(std::max(0.0, part.hour_brings), 1) +
                        " more right on the day.");
    }
}

}  // namespace

std::vector<std::string> readiness_text(const ReadinessPage& of, const Page& page) {
    Lines lines;
    add_heading(lines, of, page);
    add_caveats(lines, of, page);
    add_today(lines, of, page);
    add_plans(lines, of, page);
    add_parts(lines, of, page);
    lines.emplace_back();
    const auto& pace = of.found.pace;
    add(lines, page,
        "In brackets: what would hold nine times in ten. Counted with " +
            std::to_string(std::lround(pace.recalled_seconds)) + " s for a right answer and " +
            std::to_string(std::lround(pace.failed_seconds)) + " s for a wrong one" +
            (pace.measured ? ", as measured." : ", assumed.") +
            " A forecast by a model from your own answers, on our questions: no promise, and your board's exam "
            "differs.",
        0, Ink::faint);
    return lines;
}

std::string readiness_svg(const ReadinessPage& of) {
    const chart::Words words{"readiness", "Chance to pass: " + of.outline.title + ", " + of.learner.name,
                             "On the exam day, by minutes studied a day until then, with the interval that would hold "
                             "nine times in ten. Nothing is shown as more certain than 1 or 99 %."};
    std::vector<chart::IntervalRow> rows;
    for (const auto& plan : of.found.plans)
        rows.push_back({minutes_text(plan.minutes), shown(plan.on_the_day.pass), shown(plan.on_the_day.pass_low),
                        shown(plan.on_the_day.pass_high), "", 0});
    return chart::interval_plot(words, rows, "chance to pass", chart::Unit::percent);
}

}  // namespace report
