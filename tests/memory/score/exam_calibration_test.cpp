#include <algorithm>
#include <cmath>
#include <cstdint>
#include <vector>

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "memory/normal.hpp"
#include "memory/score/exam.hpp"
#include "memory/score/judge.hpp"

/// Simulation-based calibration: when the truth is one of the draws believed in, what is foretold must come true as
/// often as foretold.

using namespace memory;

namespace {

using Draws = std::vector<std::vector<double>>;

constexpr std::size_t kPoints = 28;
constexpr std::size_t kLearners = 400;
constexpr std::size_t kDraws = 25;
constexpr std::size_t kSittings = 50;  // by learner

/// Three sections; the last asks more than it has points, the second has a least number of its own.
ExamRule rule() {
    ExamRule made;
    made.sections.resize(3);
    for (std::size_t point = 0; point < kPoints; ++point)
        made.sections[point < 12 ? 0 : point < 22 ? 1 : 2].points.push_back(point);
    made.sections[0].asked = 7;
    made.sections[1].asked = 6;
    made.sections[1].pass_right = 3;
    made.sections[2].asked = 8;
    made.pass_right = right_for_share(.7, 21);
    return made;
}

/// What is believed of one learner: points of unequal ease, and an ease of the learner known only to sd .8.
Draws believed(base::Random& random) {
    std::vector<double> ease(kPoints);
    const double about = 1 + normal(random);
    for (auto& one : ease) one = about + 1.2 * normal(random);
    Draws draws(kDraws, std::vector<double>(kPoints));
    for (auto& chances : draws) {
        const double off = .8 * normal(random);
        for (std::size_t point = 0; point < kPoints; ++point)
            chances[point] = 1 / (1 + std::exp(-ease[point] - off - .3 * normal(random)));
    }
    return draws;
}

struct Sitting {
    bool pass = true;
    std::size_t right = 0;
};

/// Draws the questions from a shuffled pile that is laid again when it runs out, and answers them.
Sitting sit(const ExamRule& rule, const std::vector<double>& chances, base::Random& random) {
    Sitting sitting;
    for (const auto& section : rule.sections) {
        std::vector<std::size_t> pile;
        std::size_t right = 0;
        for (std::size_t n = 0; n < section.asked; ++n) {
            if (pile.empty()) {
                pile = section.points;
                random.shuffle(pile);
            }
            right += random.unit() < chances[pile.back()] ? 1 : 0;
            pile.pop_back();
        }
        sitting.right += right;
        if (right < section.pass_right) sitting.pass = false;
    }
    if (sitting.right < rule.pass_right) sitting.pass = false;
    return sitting;
}

std::vector<double> mean_of(const Draws& draws) {
    std::vector<double> mean(kPoints, 0.0);
    for (const auto& chances : draws)
        for (std::size_t point = 0; point < kPoints; ++point) mean[point] += chances[point] / kDraws;
    return mean;
}

struct Simulated {
    std::vector<Forecast> foretold;    // by predict_exam
    std::vector<Forecast> at_mean;     // by the mean chances, as if they were known
    std::vector<std::uint64_t> ranks;  // of the score among equal twentieths of its prediction, ties drawn
    double mean_right = 0;             // over the sittings
    double mean_foretold = 0;
};

Simulated simulate(base::Seed seed) {
    base::Random random{seed};
    const auto exam = rule();
    Simulated made;
    for (std::size_t learner = 0; learner < kLearners; ++learner) {
        const auto draws = believed(random);
        const auto foretold = predict_exam(exam, draws);
        const double at_mean = exam_score(exam, mean_of(draws)).pass;
        for (std::size_t n = 0; n < kSittings; ++n) {
            const auto sitting = sit(exam, draws[static_cast<std::size_t>(random.below(kDraws))], random);
            made.foretold.push_back({std::min(1.0, foretold.pass), sitting.pass});
            made.at_mean.push_back({at_mean, sitting.pass});
            const double below = sitting.right > 0 ? foretold.total.at_most(sitting.right - 1) : 0;
            const double place = below + random.unit() * foretold.total.chances()[sitting.right];
            made.ranks.push_back(std::min<std::uint64_t>(19, static_cast<std::uint64_t>(20 * place)));
            made.mean_right += static_cast<double>(sitting.right);
            made.mean_foretold += foretold.total.mean();
        }
    }
    return made;
}

double widest_gap(const std::vector<Calibrated>& rows) {
    double gap = 0;
    for (const auto& row : rows) gap = std::max(gap, std::abs(row.mean_chance - row.share_right));
    return gap;
}

}  // namespace

TEST_CASE("exam calibration: what is foretold comes true as often as foretold") {
    const auto made = simulate(20260301);

    const auto rows = calibration(made.foretold);
    REQUIRE(rows.size() == 10);
    CHECK(rows.front().mean_chance < .2);
    CHECK(rows.back().mean_chance > .9);
    for (const auto& row : rows) CHECK(std::abs(row.mean_chance - row.share_right) < .05);
    const Bins fixed{Bins::By::width, 10};
    for (const auto& row : calibration(made.foretold, fixed)) CHECK(std::abs(row.mean_chance - row.share_right) < .05);

    // The check has teeth: chances taken for known are too sure of themselves, and it shows.
    CHECK(widest_gap(calibration(made.at_mean)) > .05);
    CHECK(*log_loss(made.at_mean) > *log_loss(made.foretold));

    // The whole score as well: its place in the prediction is uniform. Chi-square with 19 degrees of freedom is above
    // 43.8 once in a thousand times (memory: tables of the distribution).
    std::vector<double> counts(20, 0.0);
    for (const auto rank : made.ranks) ++counts[rank];
    const double expected = static_cast<double>(made.ranks.size()) / 20;
    double chi_square = 0;
    for (const double count : counts) chi_square += (count - expected) * (count - expected) / expected;
    CHECK(chi_square < 43.8);
    const auto sittings = static_cast<double>(made.ranks.size());
    CHECK(std::abs(made.mean_right - made.mean_foretold) / sittings < .15);
}
