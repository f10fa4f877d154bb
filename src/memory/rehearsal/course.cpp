#include "memory/rehearsal/course.hpp"

#include <algorithm>
#include <deque>

#include "memory/rehearsal/pool_mind.hpp"
#include "memory/rehearsal/trace_mind.hpp"

namespace memory::rehearsal {
namespace {

constexpr double kSittingAt = 18.0 / 24;
constexpr double kExamAt = 9.0 / 24;
constexpr double kDaySeconds = 86'400;
constexpr std::size_t kAsksBeforeCorrection = 4;
constexpr double kHeldFrom = 0.8;

class Course {
public:
    Course(const Plan& plan, const Syllabus& syllabus, const Learner& learner, const NamedPolicy& policy)
        : plan_{plan},
          syllabus_{syllabus},
          learner_{learner},
          policy_{policy.make()},
          mind_{make_mind(plan, learner)},
          states_(syllabus.family.size()),
          asked_(states_.size()),
          scores_(states_.size()),
          lots_(states_.size()) {
        base::Random lots{base::derive_seed(learner.seed, "lots")};
        for (double& lot : lots_) lot = lots.unit();
        for (std::size_t point = 0; point < plan.standings.size(); ++point)
            states_[point] = plan.standings[point].state;
    }

    void run() {
        base::Random off{base::derive_seed(learner_.seed, "days off")};
        for (std::size_t day = 0; day < plan_.days; ++day)
            if (off.unit() >= plan_.day_off) sit(day);
    }
    [[nodiscard]] Outcome outcome() const {
        Outcome outcome;
        double weights = 0;
        const base::Instant later = base::after_days(exam(), static_cast<double>(plan_.later_days));
        for (std::size_t point = 0; point < states_.size(); ++point) {
            const double chance = mind_->chance(point, exam());
            const double weight = syllabus_.weight[point];
            outcome.recall += chance;
            outcome.weighted_recall += weight * chance;
            weights += weight;
            outcome.held += chance >= kHeldFrom ? 1 : 0;
            outcome.later_recall += mind_->chance(point, later);
            outcome.asks += static_cast<double>(asked_[point]);
            outcome.met += asked_[point] > 0 ? 1 : 0;
        }
        const auto points = static_cast<double>(states_.size());
        outcome.recall /= points;
        outcome.later_recall /= points;
        outcome.weighted_recall /= weights;
        return outcome;
    }
    [[nodiscard]] std::vector<double> chances(base::Instant when) const {
        std::vector<double> chances(states_.size());
        for (std::size_t point = 0; point < chances.size(); ++point) chances[point] = mind_->chance(point, when);
        return chances;
    }

private:
    struct Correction {
        std::size_t point = 0, failed_at = 0;
    };

    [[nodiscard]] base::Instant moment(double days) const { return base::after_days(learner_.start, days); }
    [[nodiscard]] base::Instant exam() const { return moment(static_cast<double>(plan_.days) + kExamAt); }

    void rank(std::size_t day) {
        const Desk desk{learner_.start,   now_,
                        exam(),           day,
                        plan_.days,       plan_.seconds_a_day,
                        learner_.seed,    states_,
                        syllabus_.family, syllabus_.weight};
        std::fill(scores_.begin(), scores_.end(), 0.0);
        policy_->score(desk, scores_);
        order_.clear();
        for (std::size_t point = 0; point < scores_.size(); ++point)
            if (scores_[point] > 0) order_.push_back(point);
        const auto most = static_cast<std::ptrdiff_t>(plan_.seconds_a_day / plan_.recalled_seconds) + 1;
        const auto sooner = [&](std::size_t a, std::size_t b) {
            return scores_[a] != scores_[b] ? scores_[a] > scores_[b] : lots_[a] < lots_[b];
        };
        const auto end = order_.begin() + std::min(most, std::ssize(order_));
        std::partial_sort(order_.begin(), end, order_.end(), sooner);
        order_.erase(end, order_.end());
    }

    void sit(std::size_t day) {
        now_ = moment(static_cast<double>(day) + kSittingAt);
        spent_ = 0;
        asks_in_sitting_ = 0;
        rank(day);
        for (const std::size_t point : order_) {
            while (!waiting_.empty() && asks_in_sitting_ >= waiting_.front().failed_at + kAsksBeforeCorrection)
                correct();
            const double promised = plan_.recalled_seconds * static_cast<double>(waiting_.size());
            if (spent_ + promised >= plan_.seconds_a_day) break;
            if (!ask(point, false) && plan_.corrections) waiting_.push_back({point, asks_in_sitting_});
        }
        while (!waiting_.empty()) correct();
    }

    void correct() {
        const std::size_t point = waiting_.front().point;
        waiting_.pop_front();
        ask(point, true);
    }

    bool ask(std::size_t point, bool correction) {
        const std::size_t before = correction ? asked_[point] - 1 : asked_[point]++;
        const bool recalled = outcome_draw(learner_.seed, point, before, correction) < mind_->chance(point, now_);
        mind_->answered(point, now_, recalled);
        states_[point] = advance(states_[point], now_, recalled ? 1.0 : 0.0, Sure::fairly);
        policy_->answered({point, now_, recalled, correction});
        const double seconds = recalled ? plan_.recalled_seconds : plan_.failed_seconds;
        now_ = base::after_days(now_, seconds / kDaySeconds);
        spent_ += seconds;
        ++asks_in_sitting_;
        return recalled;
    }

    const Plan& plan_;
    const Syllabus& syllabus_;
    const Learner& learner_;
    std::unique_ptr<Policy> policy_;
    std::unique_ptr<Mind> mind_;
    std::vector<RecallState> states_;
    std::vector<std::size_t> asked_;
    std::vector<double> scores_, lots_;
    std::vector<std::size_t> order_;
    std::deque<Correction> waiting_;
    base::Instant now_;
    double spent_ = 0;
    std::size_t asks_in_sitting_ = 0;
};

}  // namespace

std::unique_ptr<Mind> make_mind(const Plan& plan, const Learner& learner) {
    switch (plan.generator) {
        case Generator::trace:
            return std::make_unique<TraceMind>(learner);
        case Generator::pools:
            return std::make_unique<PoolMind>(learner);
        case Generator::model:
            break;
    }
    return std::make_unique<ModelMind>(plan.standings);
}

Outcome play(const Plan& plan, const Syllabus& syllabus, const Learner& learner, const NamedPolicy& policy) {
    Course course{plan, syllabus, learner, policy};
    course.run();
    return course.outcome();
}

std::vector<double> chances_at(const Plan& plan, const Syllabus& syllabus, const Learner& learner,
                               const NamedPolicy& policy, base::Instant when) {
    Course course{plan, syllabus, learner, policy};
    course.run();
    return course.chances(when);
}

}  // namespace memory::rehearsal
