#include "practice/readiness.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>

#include "memory/rehearsal/ahead.hpp"
#include "practice/stakes_weight.hpp"

namespace practice {
namespace {

using memory::ExamPrediction;
using memory::Parameters;
using memory::rehearsal::Ahead;
using Chances = std::vector<std::vector<double>>;  // by draw and point

constexpr std::size_t kFewestTimed = 20;
constexpr double kReadingSeconds = 5;
constexpr double kReadingFailedSeconds = 15;
constexpr double kShortestSeconds = 3;
constexpr double kLongestSeconds = 120;
constexpr std::size_t kDaysOfTheHour = 4;
constexpr double kHourSeconds = 3600;

double median_seconds(std::vector<std::int64_t> times, double otherwise) {
    if (times.empty()) return otherwise;
    const auto middle = times.begin() + static_cast<std::ptrdiff_t>(times.size() / 2);
    std::nth_element(times.begin(), middle, times.end());
    return std::clamp(static_cast<double>(*middle) / 1000.0, kShortestSeconds, kLongestSeconds);
}

base::Instant next_midnight(base::Instant now) {
    return std::chrono::floor<std::chrono::days>(now) + std::chrono::days{1};
}

/// The points of the learner's edition, as the looking ahead numbers them.
struct Desk {
    std::vector<std::uint32_t> numbers;  ///< in the log
    Ahead ahead;
    std::vector<std::vector<Parameters>> draws;
    memory::ExamRule rule;
};

/// The model lets what was met fade, while the chance of a point never met stands still: where a learner knew much
/// before the first day, study would seem to do harm. A point never met to which study brings less, on the mean of the
/// draws, counts as left alone. The mean, since the better of two in each draw would count luck as learning.
Chances no_harm(Chances studied, const Chances& left, const std::vector<memory::RecallState>& states) {
    for (std::size_t n = 0; n < states.size(); ++n) {
        if (states[n].answers() > 0) continue;
        double gain = 0;
        for (std::size_t draw = 0; draw < studied.size(); ++draw) gain += studied[draw][n] - left[draw][n];
        if (gain >= 0) continue;
        for (std::size_t draw = 0; draw < studied.size(); ++draw) studied[draw][n] = left[draw][n];
    }
    return studied;
}

class Looker {
public:
    Looker(const content::Index& index, const CrewLog& log, const memory::Belief& belief,
           const store::RecallStates& states, const ReadinessFor& what)
        : what_{&what} {
        for (std::size_t n = 0; n < index.points.size(); ++n)
            if (index.points[n].editions.contains(what.edition)) take(index.points[n], n, log, states);
        const auto& numbers = desk_.numbers;
        desk_.draws.assign(belief.draws(), {});
        for (std::size_t draw = 0; draw < belief.draws(); ++draw)
            for (const auto number : numbers)
                desk_.draws[draw].push_back(belief.drawn(draw, {what.learner, number, 0}));
        set_times(log);
        set_rule(index);
    }

    [[nodiscard]] const Desk& desk() const { return desk_; }
    [[nodiscard]] const Ahead& ahead() const { return desk_.ahead; }

    /// Chances at a moment with no more study.
    [[nodiscard]] Chances untouched(base::Instant when) const {
        Chances chances(desk_.draws.size());
        for (std::size_t draw = 0; draw < chances.size(); ++draw)
            for (std::size_t n = 0; n < desk_.numbers.size(); ++n)
                chances[draw].push_back(memory::recall_probability(desk_.ahead.states[n], when, desk_.draws[draw][n]));
        return chances;
    }

    [[nodiscard]] Chances after(int minutes) const {
        if (minutes == 0 || desk_.ahead.days == 0) return untouched(what_->exam);
        Ahead ahead = desk_.ahead;
        ahead.seconds_a_day = 60.0 * minutes;
        return no_harm(memory::rehearsal::look_ahead(ahead, desk_.draws), untouched(what_->exam), desk_.ahead.states);
    }

    /// The chances of an exam day with no study but an hour on one section, in sittings of its own.
    [[nodiscard]] Chances after_hour_on(std::size_t section, Chances chances) const {
        const auto& points = desk_.rule.sections[section].points;
        Ahead ahead = desk_.ahead;
        ahead.days = std::min(kDaysOfTheHour, ahead.days);
        if (ahead.days == 0) return chances;
        ahead.seconds_a_day = kHourSeconds / static_cast<double>(ahead.days);
        ahead.states.clear();
        ahead.families.clear();
        ahead.weights.clear();
        std::vector<std::vector<Parameters>> draws(desk_.draws.size());
        for (const auto point : points) {
            ahead.states.push_back(desk_.ahead.states[point]);
            ahead.families.push_back(desk_.ahead.families[point]);
            ahead.weights.push_back(desk_.ahead.weights[point]);
            for (std::size_t draw = 0; draw < draws.size(); ++draw) draws[draw].push_back(desk_.draws[draw][point]);
        }
        Chances left(chances.size());
        for (std::size_t draw = 0; draw < chances.size(); ++draw)
            for (const auto point : points) left[draw].push_back(chances[draw][point]);
        const auto studied = no_harm(memory::rehearsal::look_ahead(ahead, draws), left, ahead.states);
        for (std::size_t draw = 0; draw < chances.size(); ++draw)
            for (std::size_t n = 0; n < points.size(); ++n) chances[draw][points[n]] = studied[draw][n];
        return chances;
    }

private:
    void take(const content::PointEntry& entry, std::size_t number, const CrewLog& log,
              const store::RecallStates& states) {
        desk_.numbers.push_back(static_cast<std::uint32_t>(number));
        const auto state = states.find(entry.id);
        desk_.ahead.states.push_back(state == states.end() ? memory::RecallState{} : state->second);
        desk_.ahead.families.push_back(log.family_of_point[number]);
        desk_.ahead.weights.push_back(stakes_weight(entry.stakes));
    }

    void set_times(const CrewLog& log) {
        auto& ahead = desk_.ahead;
        const Pace pace = pace_of(log, what_->learner);
        ahead.recalled_seconds = pace.recalled_seconds;
        ahead.failed_seconds = pace.failed_seconds;
        ahead.first_day = next_midnight(what_->now);
        const double days = base::days_between(ahead.first_day, what_->exam);
        ahead.days = days > 0 ? static_cast<std::size_t>(days) : 0;
        ahead.exam = what_->exam;
        ahead.seed = what_->seed;
        ahead.threads = what_->threads;
    }

    void set_rule(const content::Index& index) {
        std::size_t asked = 0;
        for (const auto& part : what_->parts) {
            memory::ExamSection section;
            section.asked = part.points.empty() ? 0 : part.asked;
            for (std::size_t n = 0; n < desk_.numbers.size(); ++n)
                if (std::binary_search(part.points.begin(), part.points.end(), index.points[desk_.numbers[n]].id))
                    section.points.push_back(n);
            if (part.section->pass) section.pass_right = memory::right_for_share(*part.section->pass, section.asked);
            asked += section.asked;
            desk_.rule.sections.push_back(std::move(section));
        }
        desk_.rule.pass_right = memory::right_for_share(what_->pass_share, asked);
    }

    const ReadinessFor* what_;
    Desk desk_;
};

double mean_right(const ExamPrediction& prediction) {
    return prediction.total.mean();
}

/// Quantiles over the draws of the mean chance of a section's points.
void set_spread(PartReadiness& part, const memory::ExamSection& section, const Chances& today) {
    std::vector<double> shares;
    for (const auto& chances : today) {
        double sum = 0;
        for (const auto point : section.points) sum += chances[point];
        shares.push_back(sum / static_cast<double>(section.points.size()));
    }
    std::sort(shares.begin(), shares.end());
    const auto at = [&](double share) {
        return shares[static_cast<std::size_t>(std::lround(share * static_cast<double>(shares.size() - 1)))];
    };
    part.low = at(0.05);
    part.high = at(0.95);
}

std::size_t count_met(const Ahead& ahead, const std::vector<std::size_t>& points) {
    return static_cast<std::size_t>(std::count_if(
        points.begin(), points.end(), [&](std::size_t point) { return ahead.states[point].answers() > 0; }));
}

}  // namespace

bool Readiness::too_little() const {
    return answers < kFewestAnswers;
}

Pace pace_of(const CrewLog& log, std::uint32_t learner) {
    std::vector<std::int64_t> recalled;
    std::vector<std::int64_t> failed;
    for (const auto& answer : log.answers)
        if (answer.learner == learner && answer.took_ms > 0)
            (answer.mark >= static_cast<float>(memory::kRecalledFrom) ? recalled : failed).push_back(answer.took_ms);
    if (recalled.size() + failed.size() < kFewestTimed) return {};
    const double quick = median_seconds(recalled, 10);
    return {quick + kReadingSeconds, median_seconds(failed, quick) + kReadingFailedSeconds, true};
}

Readiness readiness(const content::Index& index, const CrewLog& log, const memory::Belief& belief,
                    const store::RecallStates& states, const ReadinessFor& what,
                    const std::function<void(double)>& progress) {
    const Looker looker{index, log, belief, states, what};
    const auto& rule = looker.desk().rule;
    Readiness result;
    result.covered = covered(what.parts);
    result.pass_right = rule.pass_right;
    result.days = looker.ahead().days;
    result.pace = pace_of(log, what.learner);
    result.answers = static_cast<std::size_t>(std::count_if(
        log.answers.begin(), log.answers.end(), [&](const auto& answer) { return answer.learner == what.learner; }));
    const std::size_t steps = what.minutes.size() + rule.sections.size() + 1;
    std::size_t done = 0;
    const auto step = [&] {
        ++done;
        if (progress) progress(static_cast<double>(done) / static_cast<double>(steps));
    };

    const Chances today = looker.untouched(what.now);
    result.today = memory::predict_exam(rule, today);
    const Chances nothing_more = looker.after(0);
    result.plans.push_back({0, memory::predict_exam(rule, nothing_more)});
    step();
    for (const int minutes : what.minutes) {
        result.plans.push_back({minutes, memory::predict_exam(rule, looker.after(minutes))});
        step();
    }
    const auto& idle = result.plans.front().on_the_day;
    for (const auto& standing : memory::weakest(rule, today)) {
        const auto& section = rule.sections[standing.section];
        PartReadiness part;
        part.part = standing.section;
        part.met = count_met(looker.ahead(), section.points);
        part.share_right = standing.share_right;
        set_spread(part, section, today);
        const auto hour = memory::predict_exam(rule, looker.after_hour_on(standing.section, nothing_more));
        part.hour_brings = mean_right(hour) - mean_right(idle);
        part.hour_passes = hour.pass - idle.pass;
        result.points += section.points.size();
        result.met += part.met;
        result.parts.push_back(part);
        step();
    }
    return result;
}

}  // namespace practice
