#include "memory/fit/trial.hpp"

#include <cmath>

#include <doctest/doctest.h>

#include "memory/fit/assessment.hpp"
#include "memory/fit/crew.hpp"

namespace {

using memory::Trial;

memory::Observations held(crew::Crew& crew) {
    memory::hold_back_last(crew.answers, 0.2);
    return crew.observed();
}

}  // namespace

TEST_CASE("trial: nothing of a held-back answer is known to what foresees it") {
    auto crew = crew::draw({5, 20, 2, 60, 40}, memory::shipped_priors(), 21);
    memory::hold_back_last(crew.answers, 0.2);
    const auto before = memory::try_out(crew.observed(), memory::shipped_priors());
    // Each learner's very last answer turns out the other way round: no chance may move.
    for (std::uint32_t learner = 0; learner < crew.learners; ++learner) {
        auto* last = &crew.answers.front();
        for (auto& answer : crew.answers)
            if (answer.learner == learner && (last->learner != learner || answer.at > last->at)) last = &answer;
        last->mark = 1 - last->mark;
    }
    const auto after = memory::try_out(crew.observed(), memory::shipped_priors());
    REQUIRE(before.held_back() == 5 * 12);
    CHECK(before.learned_from == 5 * 48);
    CHECK(before.recalled != after.recalled);
    for (std::size_t way = 0; way < Trial::kWays; ++way) CHECK(before.chances[way] == after.chances[way]);
}

TEST_CASE("trial: the fit foresees better than the simpler ways where answers follow the model") {
    auto crew = crew::draw({20, 60, 4, 300, 90}, memory::shipped_priors(), 22);
    const auto assessment = memory::assess(memory::try_out(held(crew), memory::shipped_priors()));
    const auto& of = assessment.of;
    REQUIRE(assessment.held_back == 20 * 60);
    for (const auto way : {Trial::prior, Trial::constant, Trial::half_life}) {
        CHECK(of[Trial::fitted].log_loss < of[way].log_loss);
        CHECK(of[Trial::fitted].brier < of[way].brier);
        CHECK(of[way].beyond.value() == doctest::Approx(of[way].log_loss - of[Trial::fitted].log_loss).epsilon(1e-9));
        CHECK(of[way].beyond_error.value() > 0);
    }
    CHECK(of[Trial::fitted].area.value() > of[Trial::half_life].area.value());
    CHECK(of[Trial::constant].area.value() == doctest::Approx(0.5));
    CHECK_FALSE(of[Trial::fitted].beyond.has_value());
    std::size_t binned = 0;
    for (const auto& row : assessment.calibration) binned += row.answers;
    CHECK(binned == assessment.held_back);
}

TEST_CASE("trial: nothing held back, nothing judged") {
    auto crew = crew::draw({2, 5, 1, 10, 10}, memory::shipped_priors(), 23);
    const auto assessment = memory::assess(memory::try_out(crew.observed(), memory::shipped_priors()));
    CHECK(assessment.held_back == 0);
    CHECK(assessment.learned_from == 20);
    CHECK(assessment.calibration.empty());
    CHECK(assessment.of[Trial::fitted].log_loss == 0);
}
