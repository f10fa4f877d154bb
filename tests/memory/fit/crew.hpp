#pragma once

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "memory/fit/observations.hpp"
#include "memory/fit/unknowns.hpp"
#include "memory/normal.hpp"

/// Crews whose answers come from the recall model itself, with every parameter known.
namespace crew {

struct Size {
    std::size_t learners = 8, points = 40, families = 4, answers_each = 150;
    double days = 60;
};

struct Crew {
    memory::Shared truth{};
    std::vector<double> learner_ease, learner_forgets, point_ease, family_ease, branch_ease;
    std::vector<memory::FitAnswer> answers;
    std::vector<std::uint32_t> family_of_point;
    std::size_t learners = 0;

    [[nodiscard]] memory::Observations observed() const { return memory::observe(answers, learners, family_of_point); }
};

/// A value from a prior, at or above the parameter's least.
inline double draw_shared(std::size_t k, const memory::Priors& priors, base::Random& random) {
    const double least = memory::shared_parameters()[k].least;
    for (;;) {
        const double value = priors.mean[k] + priors.sd[k] * memory::normal(random);
        if (value >= least) return value;
    }
}

inline std::vector<double> effects(std::size_t count, double sd, base::Random& random) {
    std::vector<double> all(count);
    for (auto& one : all) one = sd * memory::normal(random);
    return all;
}

/// How likely the answer to a point in that state is to be right.
inline double chance(const Crew& crew, const memory::RecallState& state, const memory::FitAnswer& answer) {
    const auto f = memory::features_at(state, answer.at);
    const std::size_t family = crew.family_of_point[answer.point];
    double odds = crew.learner_ease[answer.learner] + crew.point_ease[answer.point] + crew.family_ease[family] +
                  crew.branch_ease[answer.learner * crew.family_ease.size() + family];
    double decay = crew.learner_forgets[answer.learner];
    for (std::size_t k = 0; k < memory::kActivationFeatures; ++k) odds += f.activation[k] * crew.truth[k];
    for (std::size_t k = 0; k < memory::kDecayFeatures; ++k)
        decay += f.decay[k] * crew.truth[memory::kActivationFeatures + k];
    odds += crew.truth[memory::kActivationFeatures + memory::kDecayFeatures + answer.form];
    return 1 / (1 + std::exp(-(odds - std::exp(decay) * f.delay)));
}

/// Truth drawn from the priors, points asked at random, marks drawn from the chances.
inline Crew draw(const Size& size, const memory::Priors& priors, base::Seed seed) {
    base::Random random{seed};
    Crew crew;
    crew.learners = size.learners;
    for (std::size_t k = 0; k < memory::kShared; ++k) crew.truth[k] = draw_shared(k, priors, random);
    crew.learner_ease = effects(size.learners, priors.learner_ease, random);
    crew.learner_forgets = effects(size.learners, priors.learner_forgets, random);
    crew.point_ease = effects(size.points, priors.point_ease, random);
    crew.family_ease = effects(size.families, priors.family_ease, random);
    crew.branch_ease = effects(size.learners * size.families, priors.branch_ease, random);
    for (std::size_t i = 0; i < size.points; ++i)
        crew.family_of_point.push_back(static_cast<std::uint32_t>(i % size.families));
    for (std::uint32_t l = 0; l < size.learners; ++l) {
        std::vector<memory::RecallState> states(size.points);
        for (std::size_t n = 0; n < size.answers_each; ++n) {
            memory::FitAnswer answer;
            answer.learner = l;
            answer.point = static_cast<std::uint32_t>(random.below(size.points));
            answer.form = static_cast<std::uint8_t>(random.below(3));
            answer.at =
                base::after_days({}, size.days * static_cast<double>(n) / static_cast<double>(size.answers_each));
            auto& state = states[answer.point];
            answer.mark = random.unit() < chance(crew, state, answer) ? 1.0F : 0.0F;
            state = memory::advance(state, answer.at, static_cast<double>(answer.mark), answer.sure);
            crew.answers.push_back(answer);
        }
    }
    return crew;
}

}  // namespace crew
