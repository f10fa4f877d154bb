#include "practice/tune.hpp"

#include <cmath>

#include <doctest/doctest.h>

#include "content/shipped.hpp"
#include "memory/fit/crew.hpp"
#include "memory/fit/loss.hpp"
#include "practice/recall.hpp"

namespace {

using practice::CrewLog;
using practice::CrewLogReader;
using practice::Verdict;

const base::Instant kNow = base::from_milliseconds(1'767'225'600'000);

/// A crew whose answers follow the model, with names for everything.
CrewLog named(const crew::Crew& crew) {
    CrewLog log;
    log.answers = crew.answers;
    log.family_of_point = crew.family_of_point;
    for (std::size_t l = 0; l < crew.learners; ++l) {
        base::Id128 id;
        id.bytes[15] = static_cast<std::uint8_t>(l + 1);
        log.learners.push_back(id);
    }
    for (std::size_t i = 0; i < crew.family_of_point.size(); ++i) log.points.push_back({"p." + std::to_string(i)});
    for (std::size_t f = 0; f < crew.family_ease.size(); ++f) log.families.push_back("t" + std::to_string(f));
    log.in_library = log.points.size();
    return log;
}

store::AnswerRecord answer(const std::string& point, const std::string& question, double days, double mark = 1) {
    store::AnswerRecord record;
    record.learner.bytes[0] = 1;
    record.point.text = point;
    record.question.text = question;
    record.asked_at = base::after_days(kNow, days);
    record.mark = mark;
    return record;
}

}  // namespace

TEST_CASE("tune: a fit that foresees is taken, and the values kept say what it says") {
    const auto log = named(crew::draw({8, 40, 4, 150, 60}, memory::shipped_priors(), 31));
    const auto tuning = practice::tune(log, kNow);
    REQUIRE(tuning.verdict == Verdict::taken);
    CHECK(tuning.run.kept);
    CHECK(tuning.run.answers == 8 * 150);
    CHECK(tuning.run.log_loss < tuning.run.prior_log_loss);
    const auto data = log.observed();
    for (std::size_t n = 0; n < data.pairs.size(); n += 5) {
        const auto& pair = data.pairs[n];
        auto row = data.rows[pair.begin];
        row.form = 0;
        const practice::Recall recall{tuning.values, log.learners[pair.learner]};
        const auto params = recall.of(log.points[pair.point], log.families[data.family_of_point[pair.point]]);
        const double odds = memory::log_odds(data, pair, row, tuning.fitted.at);
        // The first form is held at 0 to within a thousandth.
        CHECK(memory::recall_probability({}, kNow, params) == doctest::Approx(1 / (1 + std::exp(-odds))).epsilon(1e-3));
    }
}

TEST_CASE("tune: too few answers are said to be too few, and nothing is kept") {
    for (const std::size_t each : {0U, 1U, 10U}) {
        const auto tuning = practice::tune(named(crew::draw({2, 5, 1, each, 10}, memory::shipped_priors(), 32)), kNow);
        CHECK(tuning.verdict == Verdict::too_few);
        CHECK(tuning.values.empty());
        CHECK_FALSE(tuning.run.kept);
        CHECK(tuning.run.answers == static_cast<std::int64_t>(2 * each));
    }
}

TEST_CASE("tune: a fit that foresees less well than the shipped parameters is not taken") {
    CrewLog log = named(crew::draw({4, 10, 2, 100, 40}, memory::shipped_priors(), 33));
    // All right so far, then all wrong: what was learned points the wrong way.
    memory::hold_back_last(log.answers, practice::kHeldBackShare);
    for (auto& one : log.answers) one.mark = one.held_back ? 0.0F : 1.0F;
    const auto tuning = practice::tune(log, kNow);
    CHECK(tuning.verdict == Verdict::worse);
    CHECK(tuning.values.empty());
    CHECK_FALSE(tuning.run.kept);
    CHECK(tuning.run.log_loss > tuning.run.prior_log_loss);
}

TEST_CASE("tune: another run is due after fifty more answers, or a tenth of a long log") {
    const auto run_over = [](std::int64_t answers) {
        store::FitRun run;
        run.answers = answers;
        return run;
    };
    CHECK_FALSE(practice::tuning_due(49, std::nullopt));
    CHECK(practice::tuning_due(50, std::nullopt));
    CHECK_FALSE(practice::tuning_due(149, run_over(100)));
    CHECK(practice::tuning_due(150, run_over(100)));
    CHECK_FALSE(practice::tuning_due(10'999, run_over(10'000)));
    CHECK(practice::tuning_due(11'000, run_over(10'000)));
}

TEST_CASE("crew log: forms, removed points and answers from a clock that ran ahead") {
    const auto& library = shipped::library();
    const auto& entry = library.index().points.front();
    const auto& point = library.point(entry);
    CrewLogReader reader{library, kNow};
    reader.add(answer(entry.id.text, entry.id.text + "#" + point.questions.back().id, -3));
    reader.add(answer(entry.id.text, "call.somewhere#a", -2));
    reader.add(answer("gone.point", "gone.point#a", -1));
    reader.add(answer(entry.id.text, entry.id.text + "#a", 0.01));
    const auto& log = reader.log();
    REQUIRE(log.answers.size() == 3);
    CHECK(log.later == 1);
    CHECK(log.removed == 1);
    CHECK(log.answers[0].form == static_cast<std::uint8_t>(point.questions.back().form));
    CHECK(log.answers[0].point == log.answers[1].point);
    CHECK(log.answers[1].form == practice::kCallForm);
    CHECK(log.families[log.family_of_point[log.answers[0].point]] == entry.topic);
    CHECK(log.points[log.answers[2].point].text == "gone.point");
    CHECK(log.in_library == library.index().points.size());
    CHECK(log.points.size() == log.in_library + 1);
    CHECK(log.family_of_point[log.answers[2].point] == log.families.size() - 1);
    CHECK(practice::kCallForm < memory::kForms);
}
