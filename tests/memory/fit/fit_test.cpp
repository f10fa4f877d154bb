#include "memory/fit/fit.hpp"

#include <algorithm>
#include <cmath>

#include <doctest/doctest.h>
#include <lbfgs.h>

#include "memory/fit/cholesky.hpp"
#include "memory/fit/crew.hpp"
#include "memory/fit/posterior.hpp"

using namespace memory;

namespace {

Unknowns anywhere(const Places& places, const Priors& priors, base::Random& random) {
    Unknowns at = at_prior(places, priors);
    const auto precision = prior_precision(places, priors);
    for (std::size_t n = 0; n < at.size(); ++n) at[n] += 0.5 * normal(random) / std::sqrt(precision[n]);
    return at;
}

/// J^T W J + priors, written out from the slopes of each answer.
Matrix dense_curvature(const Observations& data, const Unknowns& at, const Priors& priors) {
    const Places places{data};
    Matrix matrix{places.size()};
    const auto precision = prior_precision(places, priors);
    for (std::size_t n = 0; n < precision.size(); ++n) matrix(n, n) = precision[n];
    for (const auto& pair : data.pairs)
        for (std::size_t r = pair.begin; r < pair.end; ++r) {
            const auto slope = slopes(data, pair, data.rows[r], at);
            std::vector<double> row(places.size(), 0.0);
            std::copy(slope.shared.begin(), slope.shared.end(), row.begin());
            row[places.learner_ease(pair.learner)] = 1;
            row[places.learner_forgets(pair.learner)] = slope.forgets;
            row[places.point_ease(pair.point)] = 1;
            row[places.family_ease(data.family_of_point[pair.point])] = 1;
            row[places.branch_ease(pair.branch)] = 1;
            const double p = 1 / (1 + std::exp(-slope.log_odds));
            for (std::size_t j = 0; j < row.size(); ++j)
                for (std::size_t k = 0; k < row.size() && row[j] != 0; ++k)
                    matrix(j, k) += p * (1 - p) * row[j] * row[k];
        }
    return matrix;
}

struct Problem {
    const Observations* data;
    const Priors* priors;
};

double evaluate(void* instance, const double* x, double* gradient, int n, double) {
    const auto& problem = *static_cast<Problem*>(instance);
    const auto loss = loss_at(*problem.data, Unknowns(x, x + n), *problem.priors);
    // By the number of answers, without which the library's first step is far too long.
    const double scale = 1 / static_cast<double>(problem.data->rows.size());
    for (int k = 0; k < n; ++k) gradient[k] = loss.gradient[static_cast<std::size_t>(k)] * scale;
    return loss.value * scale;
}

/// The same fit by a library's quasi-Newton method.
Unknowns fit_by_library(const Observations& data, const Priors& priors) {
    Unknowns at = at_prior(Places{data}, priors);
    lbfgs_parameter_t settings;
    lbfgs_parameter_init(&settings);
    settings.epsilon = 1e-9;
    settings.max_iterations = 3000;
    Problem problem{&data, &priors};
    double value = 0;
    lbfgs(static_cast<int>(at.size()), at.data(), &value, evaluate, nullptr, &problem, &settings);
    return at;
}

/// Priors so narrow round the least values that no parameter comes to stand there, as the library knows no limits.
Priors away_from_limits() {
    Priors priors = shipped_priors();
    for (std::size_t k = 0; k < kShared; ++k)
        if (shared_parameters()[k].least > -1e300) priors.sd[k] = std::min(priors.sd[k], priors.mean[k] / 4);
    return priors;
}

}  // namespace

TEST_CASE("fit: the gradient agrees with central differences") {
    for (base::Seed seed = 1; seed <= 5; ++seed) {
        CAPTURE(seed);
        const Priors priors = shipped_priors();
        const auto data = crew::draw({4, 12, 3, 60, 200}, priors, seed).observed();
        base::Random random{seed};
        Unknowns at = anywhere(Places{data}, priors, random);
        const auto loss = loss_at(data, at, priors);
        for (std::size_t n = 0; n < at.size(); ++n) {
            CAPTURE(n);
            const double step = 1e-5;
            const double there = at[n];
            at[n] = there + step;
            const double above = loss_at(data, at, priors).value;
            at[n] = there - step;
            const double below = loss_at(data, at, priors).value;
            at[n] = there;
            const double difference = (above - below) / (2 * step);
            CHECK(std::abs(loss.gradient[n] - difference) <= 1e-6 * std::max(1.0, std::abs(difference)));
        }
    }
}

TEST_CASE("fit: the structured curvature is the written-out one") {
    const Priors priors = shipped_priors();
    const auto data = crew::draw({3, 10, 2, 50, 90}, priors, 11).observed();
    const Places places{data};
    base::Random random{3};
    const Unknowns at = anywhere(places, priors, random);
    Curvature curvature{data, prior_precision(places, priors)};
    static_cast<void>(loss_at(data, at, priors, curvature));
    const Matrix dense = dense_curvature(data, at, priors);
    std::vector<double> vector(places.size());
    for (auto& cell : vector) cell = normal(random);
    const auto product = curvature.multiply(vector);
    for (std::size_t j = 0; j < vector.size(); ++j) {
        double sum = 0;
        for (std::size_t k = 0; k < vector.size(); ++k) sum += dense(j, k) * vector[k];
        CHECK(product[j] == doctest::Approx(sum).epsilon(1e-9));
    }
    const auto solved = curvature.solve(vector, {}, 1e-12);
    const auto exact = Cholesky{dense}.solve(vector);
    for (std::size_t j = 0; j < vector.size(); ++j) CHECK(solved[j] == doctest::Approx(exact[j]).epsilon(1e-7));
}

TEST_CASE("fit: an unknown that is held stays where it is") {
    const Priors priors = shipped_priors();
    const auto data = crew::draw({3, 10, 2, 50, 90}, priors, 12).observed();
    const Places places{data};
    Curvature curvature{data, prior_precision(places, priors)};
    static_cast<void>(loss_at(data, at_prior(places, priors), priors, curvature));
    std::vector<bool> held(places.size(), false);
    held[1] = true;
    const auto solved = curvature.solve(std::vector<double>(places.size(), 1.0), held, 1e-10);
    CHECK(solved[1] == 0);
    const auto product = curvature.multiply(solved);
    for (std::size_t n = 0; n < product.size(); ++n)
        if (n != 1) CHECK(product[n] == doctest::Approx(1.0).epsilon(1e-6));
}

TEST_CASE("fit: a library's quasi-Newton method comes to the same place") {
    // liblbfgs 1.10 (Okazaki, after Nocedal), knowing nothing but the loss and its gradient.
    for (base::Seed seed = 21; seed <= 23; ++seed) {
        CAPTURE(seed);
        const Priors priors = away_from_limits();
        const auto data = crew::draw({}, priors, seed).observed();
        const auto ours = fit(data, priors);
        const auto theirs = fit_by_library(data, priors);
        CHECK(ours.converged);
        CHECK(ours.value <= loss_at(data, theirs, priors).value + 1e-6);
        for (std::size_t n = 0; n < theirs.size(); ++n) CHECK(std::abs(ours.at[n] - theirs[n]) < 2e-4);
    }
}

TEST_CASE("fit: parameters stay at or above the least they may be, and the loss says so") {
    const Priors priors = shipped_priors();
    crew::Crew crew = crew::draw({}, priors, 5);
    // Every answer after the first the opposite of the one before: nothing gained by recalling.
    std::vector<int> last(crew.learners * crew.family_of_point.size(), 0);
    for (auto& answer : crew.answers) {
        int& before = last[answer.learner * crew.family_of_point.size() + answer.point];
        answer.mark = before == 1 ? 0.0F : 1.0F;
        before = answer.mark > 0.5F ? 1 : 2;
    }
    const auto fitted = fit(crew.observed(), priors);
    CHECK(fitted.converged);
    for (std::size_t k = 0; k < kShared; ++k) CHECK(fitted.at[k] >= shared_parameters()[k].least);
    CHECK(std::count(fitted.held.begin(), fitted.held.end(), true) >= 1);
}

TEST_CASE("fit: no answers leave the priors, and few or one-sided answers something finite") {
    const Priors priors = shipped_priors();
    const auto none = fit(observe({}, 2, {0, 0, 1}), priors);
    CHECK(none.converged);
    CHECK(none.at == at_prior(Places{observe({}, 2, {0, 0, 1})}, priors));
    for (const float mark : {0.0F, 1.0F}) {
        std::vector<FitAnswer> answers;
        for (std::uint32_t n = 0; n < 200; ++n) {
            FitAnswer answer;
            answer.point = n % 20;
            answer.mark = mark;
            answer.at = base::after_days({}, n);
            answers.push_back(answer);
        }
        for (const std::size_t count : {std::size_t{1}, std::size_t{2}, answers.size()}) {
            const std::vector<FitAnswer> some(answers.begin(), answers.begin() + static_cast<std::ptrdiff_t>(count));
            const auto data = observe(some, 1, std::vector<std::uint32_t>(20, 0));
            const auto fitted = fit(data, priors);
            CHECK(fitted.converged);
            for (const double value : fitted.at) CHECK(std::isfinite(value));
            const double ease = fitted.at[Places{data}.learner_ease(0)];
            CHECK((mark > 0.5F ? ease > 0 : ease < 0));
        }
    }
}

TEST_CASE("fit: gaps of ten years and answers within a second are finite") {
    const Priors priors = shipped_priors();
    std::vector<FitAnswer> answers;
    for (std::uint32_t n = 0; n < 60; ++n) {
        FitAnswer answer;
        answer.point = n % 3;
        answer.mark = n % 4 == 0 ? 0.0F : 1.0F;
        answer.at = base::after_days({}, n < 30 ? n * 1e-5 : 3650.0 * n);
        answers.push_back(answer);
    }
    const auto data = observe(answers, 1, {0, 0, 0});
    const auto fitted = fit(data, priors);
    CHECK(fitted.converged);
    for (const double value : fitted.at) CHECK(std::isfinite(value));
    for (const double sd : Posterior{data, priors, fitted}.shared_sd()) CHECK(std::isfinite(sd));
}

TEST_CASE("fit: where it begins makes no difference to where it ends") {
    const Priors priors = shipped_priors();
    const auto data = crew::draw({}, priors, 31).observed();
    base::Random random{1};
    const auto one = fit(data, priors);
    const auto other = fit(data, priors, anywhere(Places{data}, priors, random));
    CHECK(one.value == doctest::Approx(other.value).epsilon(1e-9));
    for (std::size_t n = 0; n < one.at.size(); ++n) CHECK(std::abs(one.at[n] - other.at[n]) < 1e-3);
}
