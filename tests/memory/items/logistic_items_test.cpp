#include "memory/items/logistic_items.hpp"

#include <array>
#include <cmath>
#include <limits>
#include <stdexcept>

#include <doctest/doctest.h>

#include "memory/items/logistic_surface.hpp"
#include "memory/items/lsat_patterns.hpp"
#include "memory/items/simulated.hpp"

using namespace memory;

namespace {

LogisticOptions form(LogisticForm form) {
    LogisticOptions options;
    options.form = form;
    return options;
}

LogisticOptions with_prior(LogisticForm form) {
    LogisticOptions options;
    options.form = form;
    options.prior = ItemPrior{};
    return options;
}

std::vector<ResponsePattern> drawn(const std::vector<simulated::Item>& items, std::size_t learners, double asked,
                                   base::Random& random) {
    const auto crew = simulated::draw_answers(items, learners, asked, random);
    return patterns(ResponseMatrix{crew.answers, learners, items.size()});
}

}  // namespace

TEST_CASE("logistic items: one parameter on section 6 as published") {
    // Published: printed reference output of a statistics package for these counts, seen. The sd of ability to seven
    // digits, .7551335, is computed with R lme4 (25 nodes).
    const auto fitted = fit_logistic(lsat::section(false), 5, form(LogisticForm::one_parameter));
    REQUIRE(fitted.converged);
    CHECK(fitted.parameters == 6);
    CHECK(std::abs(fitted.log_likelihood + 2466.938) < 0.001);
    const std::array<double, 5> difficulties{-3.6153, -1.3224, -0.3176, -1.7301, -2.7802};
    for (std::size_t item = 0; item < 5; ++item) {
        CHECK(std::abs(fitted.items[item].slope - 0.7551) < 0.0005);
        CHECK(std::abs(fitted.items[item].slope - 0.7551335) < 0.00001);
        CHECK(std::abs(fitted.items[item].difficulty.value() - difficulties[item]) < 0.001);
    }
    const auto fit = pattern_fit(fitted, lsat::section(false));
    REQUIRE(fit);
    CHECK(std::abs(fit->g_squared - 21.8) < 0.05);
    CHECK(fit->degrees == 25);
}

TEST_CASE("logistic items: standard errors of one parameter as another program has them") {
    // Computed with R lme4, glmer with 25 nodes: easiness of the five items of section 6 and their standard errors.
    const std::array<double, 5> easiness{2.73001028, 0.99860772, 0.23985123, 1.30644908, 2.09939778};
    const std::array<double, 5> errors{0.13045749, 0.07917932, 0.07177502, 0.08464074, 0.10544293};
    const auto fitted = fit_logistic(lsat::section(false), 5, form(LogisticForm::one_parameter));
    for (std::size_t item = 0; item < 5; ++item) {
        CHECK(std::abs(fitted.items[item].intercept - easiness[item]) < 0.0001);
        CHECK(std::abs(fitted.items[item].intercept_error - errors[item]) < 0.0005);
    }
}

TEST_CASE("logistic items: section 7, one parameter, and section 6, two") {
    // Computed with R lme4: -2664.9009 and sd of ability 1.0112653. Published, seen second-hand: -2466.65.
    const auto one = fit_logistic(lsat::section(true), 5, form(LogisticForm::one_parameter));
    CHECK(one.converged);
    CHECK(std::abs(one.log_likelihood + 2664.9009) < 0.001);
    CHECK(std::abs(one.items[0].slope - 1.0112653) < 0.00001);
    const auto two = fit_logistic(lsat::section(false), 5);
    CHECK(two.converged);
    CHECK(two.parameters == 10);
    CHECK(std::abs(two.log_likelihood + 2466.65) < 0.01);
    CHECK(pattern_fit(two, lsat::section(false))->degrees == 21);
}

TEST_CASE("logistic items: section 7, two parameters as published") {
    // Published: printed reference output of a statistics package for these counts, seen.
    const auto fitted = fit_logistic(lsat::section(true), 5);
    REQUIRE(fitted.converged);
    CHECK(std::abs(fitted.log_likelihood + 2658.805) < 0.001);
    const std::array<double, 5> slopes{0.988, 1.081, 1.706, 0.765, 0.736};
    const std::array<double, 5> intercepts{1.856, 0.808, 1.804, 0.486, 1.855};
    for (std::size_t item = 0; item < 5; ++item) {
        CHECK(std::abs(fitted.items[item].slope - slopes[item]) < 0.003);
        CHECK(std::abs(fitted.items[item].intercept - intercepts[item]) < 0.003);
    }
}

TEST_CASE("logistic items: converged estimates stand where the gradient is nothing") {
    for (const bool seven : {false, true}) {
        const auto data = lsat::section(seven);
        const auto fitted = fit_logistic(data, 5);
        LogisticUnknowns at{5, false, false, {}};
        for (const auto& item : fitted.items) at.values.push_back(item.intercept);
        for (const auto& item : fitted.items) at.values.push_back(item.slope);
        const AbilityGrid grid{81};
        const LogisticSurface top{data, at, std::nullopt, grid};
        // The information is about a hundred and the least curved direction ten times flatter: 1e-7 off at the most.
        for (const double slope : top.gradient()) CHECK(std::abs(slope) < 1e-6);
        CHECK(top.log_likelihood() == doctest::Approx(fitted.log_likelihood).epsilon(1e-12));
    }
}

TEST_CASE("logistic items: the error of a difficulty follows from those of intercept and slope") {
    // Delta method with numeric slopes of -intercept / slope, from the inverse of the information as a matrix.
    const auto data = lsat::section(true);
    const auto fitted = fit_logistic(data, 5);
    LogisticUnknowns at{5, false, false, {}};
    for (const auto& item : fitted.items) at.values.push_back(item.intercept);
    for (const auto& item : fitted.items) at.values.push_back(item.slope);
    const AbilityGrid grid{81};
    const Matrix spread = Cholesky{LogisticSurface{data, at, std::nullopt, grid}.observed()}.inverse();
    const auto difficulty = [](double intercept, double slope) { return -intercept / slope; };
    for (std::size_t n = 0; n < 5; ++n) {
        const auto& item = fitted.items[n];
        const double h = 1e-6;
        const double by_intercept =
            (difficulty(item.intercept + h, item.slope) - difficulty(item.intercept - h, item.slope)) / (2 * h);
        const double by_slope =
            (difficulty(item.intercept, item.slope + h) - difficulty(item.intercept, item.slope - h)) / (2 * h);
        const double variance = by_intercept * by_intercept * spread(n, n) +
                                by_slope * by_slope * spread(5 + n, 5 + n) +
                                2 * by_intercept * by_slope * spread(n, 5 + n);
        CHECK(item.difficulty_error == doctest::Approx(std::sqrt(variance)).epsilon(1e-5));
        CHECK(item.slope_error == doctest::Approx(std::sqrt(spread(5 + n, 5 + n))).epsilon(1e-5));
    }
}

TEST_CASE("logistic items: more nodes change nothing") {
    for (const bool seven : {false, true}) {
        auto options = form(LogisticForm::two_parameter);
        const auto coarse = fit_logistic(lsat::section(seven), 5, options);
        options.nodes = 201;
        const auto fine = fit_logistic(lsat::section(seven), 5, options);
        CHECK(std::abs(coarse.log_likelihood - fine.log_likelihood) < 1e-6);
        for (std::size_t item = 0; item < 5; ++item)
            CHECK(std::abs(coarse.items[item].slope - fine.items[item].slope) < 1e-6);
    }
}

TEST_CASE("logistic items: learners one by one weigh as their pattern does") {
    std::vector<ResponsePattern> single;
    for (const auto& pattern : lsat::section(true))
        for (double n = 0; n < pattern.weight; ++n) single.push_back({pattern.answers, 1});
    CHECK(single.size() == 1000);
    const auto one = fit_logistic(single, 5, form(LogisticForm::one_parameter));
    const auto weighed = fit_logistic(lsat::section(true), 5, form(LogisticForm::one_parameter));
    CHECK(one.log_likelihood == doctest::Approx(weighed.log_likelihood).epsilon(1e-12));
    for (std::size_t item = 0; item < 5; ++item)
        CHECK(std::abs(one.items[item].intercept - weighed.items[item].intercept) < 1e-8);
}

TEST_CASE("logistic items: simulated items are found again within their standard errors") {
    // Of the 95 % intervals, 90 to 98 % must hold the truth, with a quarter of answers missing; without a prior.
    std::size_t held = 0;
    std::size_t all = 0;
    for (base::Seed seed = 1; seed <= 8; ++seed) {
        base::Random random{seed};
        const auto items = simulated::draw_items(8, 1.2, random);
        LogisticOptions options;
        options.nodes = 41;
        const auto fitted = fit_logistic(drawn(items, 250, 0.75, random), 8, options);
        CHECK(fitted.converged);
        for (std::size_t n = 0; n < 8; ++n) {
            const auto& item = fitted.items[n];
            held += std::abs(item.slope - items[n].slope) < 1.96 * item.slope_error ? 1 : 0;
            held += std::abs(item.intercept - items[n].intercept) < 1.96 * item.intercept_error ? 1 : 0;
            all += 2;
        }
    }
    const double coverage = static_cast<double>(held) / static_cast<double>(all);
    CAPTURE(coverage);
    CHECK(coverage >= 0.90);
    CHECK(coverage <= 0.98);
}

TEST_CASE("logistic items: abilities spread around the truth as they say") {
    base::Random random{5};
    const auto items = simulated::draw_items(30, 1.2, random);
    const auto crew = simulated::draw_answers(items, 400, 0.7, random);
    const auto data = patterns(ResponseMatrix{crew.answers, 400, 30});
    const auto fitted = fit_logistic(data, 30, form(LogisticForm::one_parameter));
    const auto found = abilities(fitted, data);
    REQUIRE(found.size() == 400);
    double squares = 0;
    for (std::size_t n = 0; n < 400; ++n) squares += std::pow((found[n].mean - crew.abilities[n]) / found[n].sd, 2);
    // The mean of 400 squared standard normals has standard deviation sqrt(2 / 400) = .071; four of them.
    CHECK(std::abs(squares / 400 - 1) < 0.28);
}

TEST_CASE("logistic items: numbers and order of items and learners do not matter") {
    base::Random random{7};
    const auto items = simulated::draw_items(8, 1.2, random);
    const auto data = drawn(items, 120, 0.8, random);
    std::vector<std::uint32_t> number{3, 7, 0, 5, 1, 6, 2, 4};
    auto other = data;
    random.shuffle(other);
    for (auto& pattern : other) {
        random.shuffle(pattern.answers);
        for (auto& answer : pattern.answers) answer.item = number[answer.item];
    }
    for (const auto& options : {with_prior(LogisticForm::two_parameter), form(LogisticForm::one_parameter)}) {
        const auto a = fit_logistic(data, 8, options);
        const auto b = fit_logistic(other, 8, options);
        CHECK(a.converged);
        CHECK(a.log_likelihood == doctest::Approx(b.log_likelihood).epsilon(1e-12));
        for (std::size_t n = 0; n < 8; ++n) {
            CHECK(std::abs(a.items[n].slope - b.items[number[n]].slope) < 1e-6);
            CHECK(std::abs(a.items[n].intercept_error - b.items[number[n]].intercept_error) < 1e-6);
        }
    }
}

TEST_CASE("logistic items: items counted the other way round have their slopes turned, and most of it stays upright") {
    const auto plain = fit_logistic(lsat::section(true), 5);
    for (unsigned turned = 0; turned < 32; ++turned) {
        auto data = lsat::section(true);
        double sum = 0;
        for (std::size_t item = 0; item < 5; ++item) {
            const bool turn = (turned >> item & 1U) == 1;
            sum += turn ? -plain.items[item].slope : plain.items[item].slope;
            for (auto& pattern : data) pattern.answers[item].right = pattern.answers[item].right != turn;
        }
        const auto found = fit_logistic(data, 5);
        CAPTURE(turned);
        CHECK(found.converged);
        CHECK(found.log_likelihood == doctest::Approx(plain.log_likelihood).epsilon(1e-9));
        for (std::size_t item = 0; item < 5; ++item) {
            const bool turn = (turned >> item & 1U) == 1;
            const double slope = plain.items[item].slope * (turn ? -1 : 1) * (sum < 0 ? -1 : 1);
            CHECK(std::abs(found.items[item].slope - slope) < 1e-6);
            CHECK(found.items[item].slope_error == doctest::Approx(plain.items[item].slope_error).epsilon(1e-5));
            CHECK(found.items[item].difficulty_error ==
                  doctest::Approx(plain.items[item].difficulty_error).epsilon(1e-5));
        }
    }
}

TEST_CASE("logistic items: an item all had right is left out without a prior and kept with one") {
    auto data = lsat::section(true);
    for (auto& pattern : data) pattern.answers.push_back({5, true});
    const auto plain = fit_logistic(data, 6);
    CHECK_FALSE(plain.items[5].estimated);
    CHECK(plain.items[5].answers == 1000);
    CHECK(plain.items[5].right == 1000);
    CHECK(plain.parameters == 10);
    CHECK(plain.log_likelihood == doctest::Approx(fit_logistic(lsat::section(true), 5).log_likelihood).epsilon(1e-10));
    CHECK_FALSE(pattern_fit(plain, data));
    for (const auto which : {LogisticForm::one_parameter, LogisticForm::two_parameter}) {
        const auto held = fit_logistic(data, 6, with_prior(which));
        CHECK(held.converged);
        CHECK(held.items[5].estimated);
        CHECK(held.items[5].intercept > 4);
        CHECK(std::isfinite(held.items[5].intercept_error));
    }
}

TEST_CASE("logistic items: a prior gives way to answers and holds where there are few") {
    base::Random random{11};
    const auto items = simulated::draw_items(12, 1.2, random);
    const auto few = drawn(items, 8, 1, random);
    const auto held = fit_logistic(few, 12, with_prior(LogisticForm::two_parameter));
    CHECK(held.converged);
    for (const auto& item : held.items) {
        CHECK(item.slope > 0.2);
        CHECK(item.slope < 4);
        CHECK(std::abs(item.intercept) < 7);
    }
    const auto prior = fit_logistic(lsat::section(false), 5, with_prior(LogisticForm::one_parameter));
    const auto plain = fit_logistic(lsat::section(false), 5, form(LogisticForm::one_parameter));
    CHECK(prior.log_likelihood <= plain.log_likelihood);
    CHECK(std::abs(prior.items[0].slope - plain.items[0].slope) < plain.items[0].slope_error / 4);
}

TEST_CASE("logistic items: no answers, one learner, nobody and everybody right are defined") {
    for (const auto which : {LogisticForm::one_parameter, LogisticForm::two_parameter}) {
        CHECK(fit_logistic({}, 0, form(which)).converged);
        const auto none = fit_logistic({}, 3, with_prior(which));
        CHECK(none.converged);
        CHECK(none.items.size() == 3);
        CHECK_FALSE(none.items[0].estimated);
        const ResponsePattern learner{{{0, true}, {1, false}, {2, true}}, 1};
        CHECK(fit_logistic({learner}, 3, form(which)).parameters == 0);
        const auto one = fit_logistic({learner}, 3, with_prior(which));
        CHECK(one.converged);
        CHECK(one.items[0].intercept > 0);
        CHECK(one.items[1].intercept < 0);
        const auto found = abilities(one, {learner, ResponsePattern{}});
        CHECK(std::abs(found[1].mean) < 1e-9);
        CHECK(std::abs(found[1].sd - 1) < 1e-6);
        CHECK(found[0].sd < 1);
    }
    const auto fitted = fit_logistic(lsat::section(true), 5);
    const auto extreme = abilities(fitted, {lsat::section(true).front(), lsat::section(true).back()});
    CHECK(extreme[0].mean < -1);
    CHECK(extreme[0].mean > -3);
    CHECK(extreme[1].mean > 0.5);
    CHECK(extreme[1].mean < 3);
}

TEST_CASE("logistic items: under a prior any answers lead to a top") {
    for (base::Seed seed = 1; seed <= 60; ++seed) {
        base::Random random{3000 + seed};
        const auto count = static_cast<std::size_t>(1 + random.below(12));
        const auto learners = static_cast<std::size_t>(1 + random.below(20));
        // Steep and far-off items among them, and learners with a few answers only.
        auto items = simulated::draw_items(count, 0.5 + 3 * random.unit(), random);
        for (auto& item : items) item.intercept *= 4 * random.unit();
        const auto data = drawn(items, learners, random.unit(), random);
        for (const auto which : {LogisticForm::one_parameter, LogisticForm::two_parameter}) {
            const auto fitted = fit_logistic(data, count, with_prior(which));
            CAPTURE(seed);
            CHECK(fitted.converged);
            CHECK(fitted.steps < 40);
            for (const auto& item : fitted.items) {
                CHECK(item.estimated == (item.answers > 0));
                if (!item.estimated) continue;
                CHECK(item.slope > 0);
                CHECK(std::isfinite(item.intercept));
                CHECK(std::isfinite(item.slope_error));
                CHECK(item.intercept_error < 3);
            }
        }
    }
}

TEST_CASE("logistic items: errors not asked for are unknown, and the estimates are the same") {
    auto options = form(LogisticForm::two_parameter);
    const auto with = fit_logistic(lsat::section(true), 5, options);
    options.errors = false;
    const auto without = fit_logistic(lsat::section(true), 5, options);
    CHECK(with.items[2].slope == without.items[2].slope);
    CHECK(std::isfinite(with.items[2].difficulty_error));
    CHECK(std::isinf(without.items[2].slope_error));
    CHECK(std::isinf(without.items[2].intercept_error));
    CHECK(std::isinf(without.items[2].difficulty_error));
}

TEST_CASE("logistic items: slopes that the answers leave open say so") {
    // One answer a learner: nothing connects the items, and every slope explains them as well as any other.
    std::vector<ResponsePattern> data;
    for (std::uint32_t n = 0; n < 40; ++n) data.push_back({{{n % 2, n % 3 == 0}}, 1});
    const auto open = fit_logistic(data, 2);
    CHECK(std::isfinite(open.log_likelihood));
    for (const auto& item : open.items) CHECK(item.slope_error > 10);
    // Two items that always agree: the slopes run off.
    const std::vector<ResponsePattern> agree{{{{0, true}, {1, true}}, 50}, {{{0, false}, {1, false}}, 50}};
    const auto off = fit_logistic(agree, 2);
    CHECK_FALSE(off.converged);
    const auto held = fit_logistic(agree, 2, with_prior(LogisticForm::two_parameter));
    CHECK(held.converged);
    CHECK(held.items[0].slope > 1);
}

TEST_CASE("logistic items: counts of patterns need whole patterns") {
    auto data = lsat::section(true);
    const auto fitted = fit_logistic(data, 5);
    CHECK(pattern_fit(fitted, data));
    // Split in two, a pattern's learners still count as one pattern.
    auto split = data;
    split.back().weight -= 100;
    split.push_back({split.back().answers, 100});
    CHECK(pattern_fit(fitted, split)->g_squared == doctest::Approx(pattern_fit(fitted, data)->g_squared).epsilon(1e-9));
    data.front().answers.pop_back();
    CHECK_FALSE(pattern_fit(fitted, data));
    data.front().weight = 0;
    CHECK(pattern_fit(fitted, data));
    CHECK_FALSE(pattern_fit(fitted, {}));
}

TEST_CASE("logistic items: what is out of range is refused") {
    const std::vector<ResponsePattern> beyond{{{{2, true}}, 1}};
    const std::vector<ResponsePattern> twice{{{{1, true}, {1, false}}, 1}};
    const std::vector<ResponsePattern> below{{{{1, true}}, -1}};
    const std::vector<ResponsePattern> no_number{{{{1, true}}, std::numeric_limits<double>::quiet_NaN()}};
    for (const auto& data : {beyond, twice, below, no_number})
        CHECK_THROWS_AS(static_cast<void>(fit_logistic(data, 2)), std::invalid_argument);
    LogisticOptions options;
    options.nodes = 40;
    CHECK_THROWS_AS(static_cast<void>(fit_logistic({}, 2, options)), std::invalid_argument);
    options.nodes = 41;
    options.prior = ItemPrior{0, 0, 1};
    CHECK_THROWS_AS(static_cast<void>(fit_logistic({}, 2, options)), std::invalid_argument);
}
