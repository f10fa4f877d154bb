#include "memory/score/exam.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <stdexcept>
#include <vector>

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "memory/score/outcomes.hpp"

using namespace memory;
using outcomes::any_chances;
using outcomes::Chances;

namespace {

/// Up to three sections over the same few points, some with a least number of their own, some asking more than they
/// have points.
ExamRule any_rule(base::Random& random, std::size_t points) {
    ExamRule rule;
    std::size_t asked = 0;
    for (std::size_t n = 1 + random.below(3); n > 0; --n) {
        ExamSection section;
        for (std::size_t point = 0; point < points; ++point)
            if (random.below(2) == 0) section.points.push_back(point);
        if (section.points.empty()) section.points.push_back(0);
        section.asked = random.below(2 * section.points.size() + 1);
        section.pass_right = random.below(2) == 0 ? 0 : random.below(section.asked + 1);
        asked += section.asked;
        rule.sections.push_back(section);
    }
    rule.pass_right = random.below(asked + 1);
    rule.chance_floor = random.below(2) == 0 ? 0 : .25;
    return rule;
}

std::vector<Chances> any_draws(base::Random& random, std::size_t points, std::size_t count) {
    std::vector<Chances> draws;
    for (std::size_t n = 0; n < count; ++n) draws.push_back(any_chances(random, points));
    return draws;
}

Chances of_section(const ExamRule& rule, const ExamSection& section, const Chances& chances) {
    Chances found;
    for (const auto point : section.points)
        found.push_back(rule.chance_floor + (1 - rule.chance_floor) * chances[point]);
    return found;
}

/// A section's scores by all sets and all outcomes.
std::vector<double> slow_section(const Chances& chances, std::size_t asked) {
    auto cells = outcomes::of_all_sets(chances, asked % chances.size());
    for (std::size_t n = 0; n < asked / chances.size(); ++n)
        cells = convolved(cells, outcomes::of_set(chances, outcomes::everything(chances)));
    return cells;
}

/// Chance to pass by every combination of section scores.
double slow_pass(const ExamRule& rule, const std::vector<std::vector<double>>& scores, std::size_t section,
                 std::size_t right) {
    if (section == scores.size()) return right >= rule.pass_right ? 1 : 0;
    double sum = 0;
    for (std::size_t here = rule.sections[section].pass_right; here < scores[section].size(); ++here)
        sum += scores[section][here] * slow_pass(rule, scores, section + 1, right + here);
    return sum;
}

/// Two sections of two points, all of them asked, three right of four needed.
ExamRule small_rule() {
    ExamRule rule;
    rule.sections = {{{0, 1}, 2, 0}, {{2, 3}, 2, 0}};
    rule.pass_right = 3;
    return rule;
}

constexpr base::Seed kSeeds = 60;

}  // namespace

TEST_CASE("exam: a passing share is rounded up, and its binary rounding forgiven") {
    CHECK(right_for_share(.70, 80) == 56);
    CHECK(right_for_share(.75, 50) == 38);
    CHECK(right_for_share(.55, 100) == 55);
    CHECK(right_for_share(2.0 / 3, 3) == 2);
    CHECK(right_for_share(0, 80) == 0);
    CHECK(right_for_share(1, 80) == 80);
    CHECK(right_for_share(.01, 80) == 1);
    CHECK(right_for_share(.7, 0) == 0);
    // Every whole percentage of every length: the least number with 100 right >= percent asked.
    for (std::size_t asked = 0; asked <= 200; ++asked)
        for (std::size_t percent = 0; percent <= 100; ++percent)
            REQUIRE(right_for_share(static_cast<double>(percent) / 100, asked) == (percent * asked + 99) / 100);
}

TEST_CASE("exam: by hand") {
    // All four asked, each a coin: at least three of four right is 5/16. With two of the second section needed as well,
    // the first must give one or two: 3/4 of 1/4.
    auto rule = small_rule();
    const Chances coins(4, .5);
    CHECK(exam_score(rule, coins).pass == doctest::Approx(5.0 / 16));
    rule.sections[1].pass_right = 2;
    CHECK(exam_score(rule, coins).pass == doctest::Approx(3.0 / 16));
    // Half known outright, the rest a guess among four.
    rule.chance_floor = .25;
    CHECK(exam_score(rule, {0, 0, 1, 1}).pass == doctest::Approx(1 - .75 * .75));
}

TEST_CASE("exam: the chance to pass agrees with all sets and outcomes, one by one") {
    for (base::Seed seed = 1; seed <= kSeeds; ++seed) {
        base::Random random{seed};
        const auto chances = any_chances(random, 5);
        const auto rule = any_rule(random, 5);
        std::vector<std::vector<double>> slow;
        for (const auto& section : rule.sections)
            slow.push_back(slow_section(of_section(rule, section, chances), section.asked));
        const auto score = exam_score(rule, chances);
        CHECK_MESSAGE(std::abs(score.pass - slow_pass(rule, slow, 0, 0)) < 1e-12, "seed ", seed);
        for (std::size_t n = 0; n < slow.size(); ++n)
            for (std::size_t right = 0; right < slow[n].size(); ++right)
                CHECK_MESSAGE(std::abs(score.sections[n].chances()[right] - slow[n][right]) < 1e-12, "seed ", seed);
    }
}

TEST_CASE("exam: a section's own least number never helps, and without one the total decides") {
    for (base::Seed seed = 1; seed <= kSeeds; ++seed) {
        base::Random random{seed};
        const auto chances = any_chances(random, 12);
        auto rule = any_rule(random, 12);
        const double strict = exam_score(rule, chances).pass;
        for (auto& section : rule.sections) section.pass_right = 0;
        const auto free = exam_score(rule, chances);
        CHECK_MESSAGE(strict <= free.pass + 1e-12, "seed ", seed);
        CHECK_MESSAGE(std::abs(free.pass - free.total.at_least(rule.pass_right)) < 1e-12, "seed ", seed);
    }
}

TEST_CASE("exam: knowing a point better never hurts") {
    for (base::Seed seed = 1; seed <= kSeeds; ++seed) {
        base::Random random{seed};
        auto chances = any_chances(random, 12);
        const auto rule = any_rule(random, 12);
        const double before = exam_score(rule, chances).pass;
        auto& one = chances[static_cast<std::size_t>(random.below(chances.size()))];
        one += (1 - one) * random.unit();
        CHECK_MESSAGE(exam_score(rule, chances).pass >= before - 1e-12, "seed ", seed);
    }
}

TEST_CASE("exam: the slope of the chance to pass agrees with central differences") {
    for (base::Seed seed = 1; seed <= kSeeds; ++seed) {
        base::Random random{seed};
        // No point in two sections: then one section's chances move alone.
        ExamRule rule;
        std::size_t point = 0;
        for (std::size_t n = 0; n < 3; ++n) {
            ExamSection section;
            for (std::size_t count = 1 + random.below(8); count > 0; --count) section.points.push_back(point++);
            section.asked = 1 + random.below(2 * section.points.size());
            section.pass_right = random.below(2) == 0 ? 0 : random.below(section.asked + 1);
            rule.pass_right += random.below(section.asked + 1);
            rule.sections.push_back(section);
        }
        rule.chance_floor = random.below(2) == 0 ? 0 : .25;
        std::vector<Chances> draws(2, Chances(point));
        for (auto& chances : draws)
            for (auto& p : chances) p = .01 + .98 * random.unit();
        for (const auto& standing : weakest(rule, draws)) {
            const double h = 1e-5;
            double slope = 0;
            for (const auto& chances : draws) {
                auto up = chances;
                auto down = chances;
                for (const auto p : rule.sections[standing.section].points) {
                    up[p] += h;
                    down[p] -= h;
                }
                slope += (exam_score(rule, up).pass - exam_score(rule, down).pass) / (2 * h) / 2;
            }
            CHECK_MESSAGE(std::abs(standing.pass_slope - slope) < 1e-6 * std::max(1.0, slope), "seed ", seed);
            CHECK(standing.pass_slope >= 0);
        }
    }
}

TEST_CASE("exam: the weakest section comes first, and one that asks nothing not at all") {
    ExamRule rule;
    rule.sections = {{{0, 1}, 2, 0}, {{}, 0, 0}, {{2, 3}, 4, 0}, {{4}, 1, 0}};
    rule.pass_right = 4;
    const auto standings = weakest(rule, {{.9, .7, .5, .25, .8}, {.9, .7, .5, .75, .8}});
    REQUIRE(standings.size() == 3);
    CHECK(standings[0].section == 2);
    CHECK(standings[0].share_right == doctest::Approx(.5));
    CHECK(standings[0].expected_wrong == doctest::Approx(2));
    CHECK(standings[1].section == 0);
    CHECK(standings[1].share_right == doctest::Approx(.8));
    CHECK(standings[1].expected_wrong == doctest::Approx(.4));
    CHECK(standings[2].section == 3);
}

TEST_CASE("exam: the variance comes from the draw, the day and what is believed, and from nothing else") {
    for (base::Seed seed = 1; seed <= kSeeds; ++seed) {
        base::Random random{seed};
        const auto rule = any_rule(random, 12);
        const auto foretold = predict_exam(rule, any_draws(random, 12, 1 + random.below(6)));
        const auto& parts = foretold.variance;
        CHECK_MESSAGE(std::abs(parts.questions + parts.day + parts.belief - foretold.total.variance()) < 1e-10, "seed ",
                      seed);
        CHECK(std::min({parts.questions, parts.day, parts.belief}) >= 0);
    }
}

TEST_CASE("exam: each part of the variance by the slow way") {
    for (base::Seed seed = 1; seed <= 30; ++seed) {
        base::Random random{seed};
        const auto chances = any_chances(random, 6);
        ExamRule rule;
        rule.sections = {{{0, 1, 2, 3, 4, 5}, static_cast<std::size_t>(1 + random.below(6)), 0}};
        double sum = 0;
        double squares = 0;
        double sets = 0;
        double day = 0;
        for (std::size_t set = 0; set < 64; ++set) {
            double right = 0;
            double luck = 0;
            std::size_t size = 0;
            for (std::size_t n = 0; n < 6; ++n) {
                if (!(set >> n & 1)) continue;
                ++size;
                right += chances[n];
                luck += chances[n] * (1 - chances[n]);
            }
            if (size != rule.sections[0].asked) continue;
            ++sets;
            sum += right;
            squares += right * right;
            day += luck;
        }
        const auto parts = predict_exam(rule, {chances}).variance;
        CHECK_MESSAGE(std::abs(parts.questions - (squares / sets - sum * sum / sets / sets)) < 1e-12, "seed ", seed);
        CHECK_MESSAGE(std::abs(parts.day - day / sets) < 1e-12, "seed ", seed);
        CHECK(parts.belief == 0);
    }
}

TEST_CASE("exam: a prediction is the mean over what is believed") {
    for (base::Seed seed = 1; seed <= kSeeds; ++seed) {
        base::Random random{seed};
        const auto rule = any_rule(random, 10);
        const auto draws = any_draws(random, 10, 1 + random.below(6));
        const auto foretold = predict_exam(rule, draws);
        double pass = 0;
        double right = 0;
        double least = 1;
        double most = 0;
        for (const auto& chances : draws) {
            const auto score = exam_score(rule, chances);
            pass += score.pass / static_cast<double>(draws.size());
            right += score.total.mean() / static_cast<double>(draws.size());
            least = std::min(least, score.pass);
            most = std::max(most, score.pass);
        }
        CHECK_MESSAGE(std::abs(foretold.pass - pass) < 1e-12, "seed ", seed);
        CHECK_MESSAGE(std::abs(foretold.total.mean() - right) < 1e-11, "seed ", seed);
        CHECK(least <= foretold.pass_low);
        CHECK(foretold.pass_low <= foretold.pass_high);
        CHECK(foretold.pass_high <= most);
        CHECK(foretold.right_low <= foretold.right_high);
        double by_section = 0;
        for (const auto& section : foretold.sections) by_section += section.mean();
        CHECK_MESSAGE(std::abs(by_section - right) < 1e-11, "seed ", seed);
    }
}

TEST_CASE("exam: quantiles over the draws are interpolated") {
    // One question, 21 draws of chances 0, .05 to 1: the chance to pass is the chance itself.
    ExamRule rule;
    rule.sections = {{{0}, 1, 0}};
    rule.pass_right = 1;
    std::vector<Chances> draws;
    for (std::size_t n = 0; n <= 20; ++n) draws.push_back({static_cast<double>(20 - n) / 20});
    const auto foretold = predict_exam(rule, draws);
    CHECK(foretold.pass == doctest::Approx(.5));
    CHECK(foretold.pass_low == doctest::Approx(.05));
    CHECK(foretold.pass_high == doctest::Approx(.95));
    draws.resize(2);  // 1 and .95
    CHECK(predict_exam(rule, draws).pass_low == doctest::Approx(.9525));
    draws.resize(1);
    CHECK(predict_exam(rule, draws).pass_high == doctest::Approx(1));
}

TEST_CASE("exam: the number right is foretold between its own quantiles") {
    // Ten coins: at most 1 right 11/1024, 2 right 56/1024; 7 right 968/1024, 8 right 1013/1024.
    ExamRule rule;
    rule.sections = {{{0}, 10, 0}};
    const auto foretold = predict_exam(rule, {{.5}});
    CHECK(foretold.right_low == 2);
    CHECK(foretold.right_high == 8);
}

TEST_CASE("exam: an exam that asks nothing is passed") {
    CHECK(exam_score({}, {}).pass == 1);
    CHECK(predict_exam({}, {{}}).pass == 1);
    CHECK(weakest({}, {{}}).empty());
}

TEST_CASE("exam: refuses what is no exam") {
    const auto refused = [](const ExamRule& rule, const Chances& chances) {
        CHECK_THROWS_AS(static_cast<void>(exam_score(rule, chances)), std::domain_error);
        CHECK_THROWS_AS(static_cast<void>(predict_exam(rule, {chances})), std::domain_error);
        CHECK_THROWS_AS(static_cast<void>(weakest(rule, {chances})), std::domain_error);
    };
    const Chances four(4, .5);
    const double nan = std::numeric_limits<double>::quiet_NaN();
    for (const double floor : {-.1, 1.0, nan}) {
        auto rule = small_rule();
        rule.chance_floor = floor;
        refused(rule, four);
    }
    auto rule = small_rule();
    rule.pass_right = 5;
    refused(rule, four);
    rule = small_rule();
    rule.sections[0].pass_right = 3;
    refused(rule, four);
    rule = small_rule();
    rule.sections[0].points.clear();
    refused(rule, four);
    refused(small_rule(), Chances(3, .5));
    refused(small_rule(), {.5, .5, .5, 1.5});
    refused(small_rule(), {.5, .5, .5, nan});
    CHECK_THROWS_AS(static_cast<void>(predict_exam(small_rule(), {})), std::domain_error);
    CHECK_THROWS_AS(static_cast<void>(weakest(small_rule(), {})), std::domain_error);
    for (const double share : {-.1, 1.1, nan})
        CHECK_THROWS_AS(static_cast<void>(right_for_share(share, 10)), std::domain_error);
}
