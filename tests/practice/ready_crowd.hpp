#pragma once

#include <algorithm>
#include <cmath>
#include <memory>
#include <numeric>
#include <string>
#include <vector>

#include "content/outline.hpp"
#include "memory/fit/crew.hpp"
#include "memory/rehearsal/ahead.hpp"
#include "practice/readiness.hpp"

/// Crews whose every parameter is known, who study, ask how ready they are, study on and sit the exam: so that what is
/// foretold can be held against what happens.
namespace ready {

using base::Instant;

const Instant kStart = base::from_milliseconds(1'767'225'600'000);  // a midnight

struct Setup {
    std::size_t learners = 3, points = 60, families = 3;
    std::size_t days = 20, asks_a_day = 18;  ///< so far
    std::size_t days_ahead = 15;
    int minutes = 4;  ///< a day, until the exam
    std::size_t draws = 100;
    std::size_t asked = 20;  ///< at the exam
};

struct Foretold {
    double pass = 0;
    bool passed = false;
};

/// Points in families, every one of ordinary stakes.
inline content::Index index_of(const Setup& setup) {
    content::Index index;
    for (std::size_t n = 0; n < setup.points; ++n) {
        content::PointEntry point;
        point.id.text = "p." + std::to_string(1000 + n);
        point.topic = "t" + std::to_string(n % setup.families);
        point.stakes = content::Stakes::inspection;
        point.editions = content::EditionSet{15};
        index.points.push_back(std::move(point));
    }
    return index;
}

/// One crew's truth, and the answers it has given by rotation: longest unasked first.
class Truth {
public:
    Truth(const Setup& setup, base::Seed seed) : setup_{&setup} {
        // Only the truth is wanted of this crew; it answers below.
        crew_ = crew::draw({setup.learners, setup.points, setup.families, 0, 1}, memory::shipped_priors(), seed);
        base::Random random{base::derive_seed(seed, "answers")};
        states_.assign(setup.learners, std::vector<memory::RecallState>(setup.points));
        for (std::uint32_t learner = 0; learner < setup.learners; ++learner) study(learner, random);
    }

    [[nodiscard]] practice::CrewLog log() const {
        practice::CrewLog log;
        log.answers = answers_;
        log.family_of_point = crew_.family_of_point;
        log.learners.resize(setup_->learners);
        for (std::size_t n = 0; n < setup_->learners; ++n) log.learners[n].bytes[15] = static_cast<std::uint8_t>(n + 1);
        for (std::size_t n = 0; n < setup_->points; ++n) log.points.push_back({"p." + std::to_string(1000 + n)});
        for (std::size_t n = 0; n < setup_->families; ++n) log.families.push_back("t" + std::to_string(n));
        log.in_library = log.points.size();
        return log;
    }
    [[nodiscard]] store::RecallStates states(std::size_t learner) const {
        store::RecallStates states;
        for (std::size_t n = 0; n < setup_->points; ++n)
            if (states_[learner][n].answers() > 0) states[{"p." + std::to_string(1000 + n)}] = states_[learner][n];
        return states;
    }
    [[nodiscard]] const std::vector<memory::RecallState>& states_by_number(std::size_t learner) const {
        return states_[learner];
    }
    [[nodiscard]] memory::Parameters parameters(std::size_t learner, std::size_t point) const {
        memory::Parameters params = memory::from_shared(crew_.truth);
        const std::size_t family = crew_.family_of_point[point];
        params.learner_ease = crew_.learner_ease[learner];
        params.learner_forgets = crew_.learner_forgets[learner];
        params.point_ease = crew_.point_ease[point] + crew_.family_ease[family] +
                            crew_.branch_ease[learner * setup_->families + family] +
                            crew_.truth[memory::kActivationFeatures + memory::kDecayFeatures];
        return params;
    }
    [[nodiscard]] const crew::Crew& crew() const { return crew_; }

private:
    void study(std::uint32_t learner, base::Random& random) {
        auto& states = states_[learner];
        for (std::size_t day = 0; day < setup_->days; ++day) {
            std::vector<std::size_t> order(setup_->points);
            std::iota(order.begin(), order.end(), 0);
            random.shuffle(order);
            std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
                return states[a].answers() == 0 ? states[b].answers() > 0
                                                : states[b].answers() > 0 && states[a].last < states[b].last;
            });
            for (std::size_t n = 0; n < setup_->asks_a_day; ++n) {
                const std::size_t point = order[n];
                const auto at =
                    base::after_days(kStart, static_cast<double>(day) + 0.7 + 2e-4 * static_cast<double>(n));
                const double chance = memory::recall_probability(states[point], at, parameters(learner, point));
                memory::FitAnswer answer;
                answer.learner = learner;
                answer.point = static_cast<std::uint32_t>(point);
                answer.mark = random.unit() < chance ? 1.0F : 0.0F;
                answer.at = at;
                states[point] = memory::advance(states[point], at, static_cast<double>(answer.mark), answer.sure);
                answers_.push_back(answer);
            }
        }
    }

    const Setup* setup_;
    crew::Crew crew_;
    std::vector<memory::FitAnswer> answers_;
    std::vector<std::vector<memory::RecallState>> states_;
};

inline practice::ReadinessFor question(const Setup& setup, const content::OutlineSection& section,
                                       const content::Index& index, double pass_share) {
    practice::ReadinessFor what;
    practice::ExamPart part;
    part.section = &section;
    part.asked = setup.asked;
    for (const auto& point : index.points) part.points.push_back(point.id);
    what.parts = {part};
    what.pass_share = pass_share;
    what.now = base::after_days(kStart, static_cast<double>(setup.days - 1) + 0.8);
    what.exam = base::after_days(kStart, static_cast<double>(setup.days + setup.days_ahead) + 0.375);
    what.minutes = {setup.minutes};
    return what;
}

/// How many are right at a sitting whose questions are drawn at random.
inline std::size_t sit(const std::vector<double>& chances, std::size_t asked, base::Random& random) {
    std::vector<std::size_t> order(chances.size());
    std::iota(order.begin(), order.end(), 0);
    random.shuffle(order);
    std::size_t right = 0;
    for (std::size_t n = 0; n < asked; ++n) right += random.unit() < chances[order[n]] ? 1 : 0;
    return right;
}

/// What is foretold of a pass mark that is drawn so that likely and unlikely ones come up alike, and what came of it.
inline Foretold held_against(const memory::ScoreDistribution& total, std::size_t right, base::Random& random) {
    const std::size_t mark = std::max<std::size_t>(1, total.quantile(random.unit()));
    return {total.at_least(mark), right >= mark};
}

/// What study until the exam truly leads to, in the same way that the looking ahead foretells it.
inline std::vector<double> truly(const Setup& setup, const Truth& truth, const practice::ReadinessFor& what,
                                 int minutes, base::Seed seed) {
    std::vector<memory::Parameters> params;
    for (std::size_t n = 0; n < setup.points; ++n) params.push_back(truth.parameters(what.learner, n));
    const auto& states = truth.states_by_number(what.learner);
    if (minutes == 0) {
        std::vector<double> chances;
        for (std::size_t n = 0; n < setup.points; ++n)
            chances.push_back(memory::recall_probability(states[n], what.exam, params[n]));
        return chances;
    }
    memory::rehearsal::Ahead ahead;
    ahead.first_day = base::after_days(kStart, static_cast<double>(setup.days));
    ahead.days = setup.days_ahead;
    ahead.seconds_a_day = 60.0 * minutes;
    ahead.exam = what.exam;
    ahead.states = states;
    ahead.families = truth.crew().family_of_point;
    ahead.weights.assign(setup.points, 1.0);
    ahead.seed = seed;
    return memory::rehearsal::look_ahead(ahead, {params}).front();
}

/// One crew's first learner: foretold with nothing more studied, and with study, and what came of each.
inline std::vector<Foretold> one_run(const Setup& setup, base::Seed seed) {
    base::Random random{base::derive_seed(seed, "exam")};
    const Truth truth{setup, seed};
    const auto index = index_of(setup);
    content::OutlineSection section;
    auto what = question(setup, section, index, 0.7);
    const auto log = truth.log();
    const memory::Belief belief{log.observed(), memory::shipped_priors(), setup.draws, base::derive_seed(seed, "draws"),
                                memory::Draws::sampled};
    what.seed = base::derive_seed(seed, "ahead");
    const auto found = practice::readiness(index, log, belief, truth.states(0), what);
    std::vector<Foretold> all;
    for (const auto& plan : found.plans) {
        const auto chances = truly(setup, truth, what, plan.minutes, base::derive_seed(seed, "truly"));
        all.push_back(held_against(plan.on_the_day.total, sit(chances, setup.asked, random), random));
    }
    return all;
}

}  // namespace ready
