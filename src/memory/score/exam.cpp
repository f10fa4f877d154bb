#include "memory/score/exam.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <stdexcept>

namespace memory {
namespace {

using Chances = std::vector<double>;

void refuse_if(bool wrong, const char* why) {
    if (wrong) throw std::domain_error{why};
}

std::size_t all_asked(const ExamRule& rule) {
    std::size_t asked = 0;
    for (const auto& section : rule.sections) asked += section.asked;
    return asked;
}

void check(const ExamRule& rule) {
    refuse_if(!(rule.chance_floor >= 0 && rule.chance_floor < 1), "a chance floor lies outside 0 to 1");
    for (const auto& section : rule.sections)
        refuse_if(section.pass_right > section.asked, "a section needs more right than it asks");
    refuse_if(rule.pass_right > all_asked(rule), "the exam needs more right than it asks");
}

/// Chances of a right answer to a section's points, the floor applied.
Chances of_points(const ExamRule& rule, const ExamSection& section, const Chances& chances) {
    Chances found;
    found.reserve(section.points.size());
    for (const std::size_t point : section.points) {
        refuse_if(point >= chances.size(), "a point of the exam has no chance");
        const double p = chances[point];
        refuse_if(!(p >= 0 && p <= 1), "a chance lies outside 0 to 1");
        found.push_back(rule.chance_floor + (1 - rule.chance_floor) * p);
    }
    return found;
}

/// Only what passes the section.
std::vector<double> passing(const ScoreDistribution& score, const ExamSection& section) {
    auto cells = score.chances();
    std::fill_n(cells.begin(), static_cast<std::ptrdiff_t>(section.pass_right), 0.0);
    return cells;
}

constexpr auto kNoSection = static_cast<std::size_t>(-1);

/// Chances of each total over sections that are all passed; one of them may be left out.
std::vector<double> total_passing(const ExamRule& rule, const std::vector<ScoreDistribution>& scores,
                                  std::size_t without = kNoSection) {
    std::vector<double> cells{1.0};
    for (std::size_t n = 0; n < scores.size(); ++n)
        if (n != without) cells = convolved(cells, passing(scores[n], rule.sections[n]));
    return cells;
}

double sum_from(const std::vector<double>& cells, std::size_t least) {
    double sum = 0;
    for (std::size_t right = cells.size(); right > least; --right) sum += cells[right - 1];
    return std::min(1.0, sum);
}

/// Rate at which the chance to pass rises with the section's chances.
double pass_slope(const ExamRule& rule, const std::vector<ScoreDistribution>& scores, std::size_t section,
                  const ScoreDistribution& without_one) {
    const auto& own = rule.sections[section];
    const auto rest = total_passing(rule, scores, section);
    const auto passes = [&](std::size_t right) {
        if (right < own.pass_right) return 0.0;
        return sum_from(rest, rule.pass_right > right ? rule.pass_right - right : 0);
    };
    // One question more right turns `right` into `right + 1`: no term is below 0.
    double sum = 0;
    for (std::size_t right = 0; right <= without_one.most(); ++right)
        sum += without_one.chances()[right] * (passes(right + 1) - passes(right));
    return (1 - rule.chance_floor) * static_cast<double>(own.asked) * sum;
}

/// Variances of one section's number right when the chances are known.
ScoreVariance luck(const Chances& chances, std::size_t asked) {
    if (asked == 0) return {};
    const auto points = static_cast<double>(chances.size());
    const auto drawn = static_cast<double>(asked % chances.size());
    const double mean = std::accumulate(chances.begin(), chances.end(), 0.0) / points;
    ScoreVariance parts;
    double squares = 0;
    for (const double p : chances) {
        squares += (p - mean) * (p - mean);
        parts.day += static_cast<double>(asked) / points * p * (1 - p);
    }
    // Drawing without replacement; rounds that ask every point add nothing.
    if (chances.size() > 1) parts.questions = drawn * (1 - drawn / points) * squares / (points - 1);
    return parts;
}

void add_luck(const ExamRule& rule, const Chances& chances, double weight, ScoreVariance& to) {
    for (const auto& section : rule.sections) {
        const auto parts = luck(of_points(rule, section, chances), section.asked);
        to.questions += weight * parts.questions;
        to.day += weight * parts.day;
    }
}

/// Takes at least one value, in rising order.
double quantile(const std::vector<double>& sorted, double share) {
    const double place = share * static_cast<double>(sorted.size() - 1);
    const auto below = static_cast<std::size_t>(place);
    const std::size_t above = std::min(below + 1, sorted.size() - 1);
    return sorted[below] + (place - static_cast<double>(below)) * (sorted[above] - sorted[below]);
}

double variance(const std::vector<double>& values) {
    const auto n = static_cast<double>(values.size());
    const double mean = std::accumulate(values.begin(), values.end(), 0.0) / n;
    double squares = 0;
    for (const double one : values) squares += (one - mean) * (one - mean);
    return squares / n;
}

/// A section's scores are the same place of every draw.
std::vector<ScoreDistribution> mixed_sections(const std::vector<ExamScore>& scores) {
    std::vector<ScoreDistribution> mixed;
    for (std::size_t n = 0; n < scores.front().sections.size(); ++n) {
        std::vector<ScoreDistribution> parts;
        for (const auto& score : scores) parts.push_back(score.sections[n]);
        mixed.push_back(mixture(parts));
    }
    return mixed;
}

ScoreDistribution mixed_total(const std::vector<ExamScore>& scores) {
    std::vector<ScoreDistribution> parts;
    for (const auto& score : scores) parts.push_back(score.total);
    return mixture(parts);
}

void add_draw(const ExamRule& rule, const Chances& chances, const ExamScore& score, double weight,
              SectionStanding& to) {
    const auto& section = rule.sections[to.section];
    const auto asked = static_cast<double>(section.asked);
    const double right = score.sections[to.section].mean();
    const auto without_one = number_right_without_one(of_points(rule, section, chances), section.asked);
    to.share_right += weight * right / asked;
    to.expected_wrong += weight * (asked - right);
    to.pass_slope += weight * pass_slope(rule, score.sections, to.section, without_one);
}

}  // namespace

std::size_t right_for_share(double share, std::size_t asked) {
    refuse_if(!(share >= 0 && share <= 1), "a passing share lies outside 0 to 1");
    return static_cast<std::size_t>(std::max(0.0, std::ceil(share * static_cast<double>(asked) - 1e-9)));
}

ExamScore exam_score(const ExamRule& rule, const Chances& chances) {
    check(rule);
    ExamScore score;
    for (const auto& section : rule.sections)
        score.sections.push_back(number_right_drawn(of_points(rule, section, chances), section.asked));
    score.total = sum_of(score.sections);
    score.pass = sum_from(total_passing(rule, score.sections), rule.pass_right);
    return score;
}

ExamPrediction predict_exam(const ExamRule& rule, const std::vector<Chances>& draws) {
    refuse_if(draws.empty(), "nothing is foretold without a draw");
    const auto weight = 1 / static_cast<double>(draws.size());
    ExamPrediction foretold;
    std::vector<ExamScore> scores;
    std::vector<double> passes;
    std::vector<double> means;
    for (const auto& chances : draws) {
        scores.push_back(exam_score(rule, chances));
        passes.push_back(scores.back().pass);
        means.push_back(scores.back().total.mean());
        foretold.pass += weight * passes.back();
        add_luck(rule, chances, weight, foretold.variance);
    }
    foretold.variance.belief = variance(means);
    std::sort(passes.begin(), passes.end());
    foretold.pass_low = quantile(passes, 0.05);
    foretold.pass_high = quantile(passes, 0.95);
    foretold.sections = mixed_sections(scores);
    foretold.total = mixed_total(scores);
    foretold.right_low = foretold.total.quantile(0.05);
    foretold.right_high = foretold.total.quantile(0.95);
    return foretold;
}

std::vector<SectionStanding> weakest(const ExamRule& rule, const std::vector<Chances>& draws) {
    refuse_if(draws.empty(), "nothing is foretold without a draw");
    std::vector<SectionStanding> standings;
    for (std::size_t n = 0; n < rule.sections.size(); ++n)
        if (rule.sections[n].asked > 0) standings.push_back({n, 0, 0, 0});
    const double weight = 1 / static_cast<double>(draws.size());
    for (const auto& chances : draws) {
        const auto score = exam_score(rule, chances);
        for (auto& standing : standings) add_draw(rule, chances, score, weight, standing);
    }
    std::stable_sort(standings.begin(), standings.end(),
                     [](const auto& a, const auto& b) { return a.share_right < b.share_right; });
    return standings;
}

}  // namespace memory
