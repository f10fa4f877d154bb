#include "practice/shop/progress.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include <doctest/doctest.h>

#include "content/shipped.hpp"
#include "memory/model.hpp"
#include "practice/memory_log.hpp"
#include "practice/shop/made_record.hpp"

namespace {

using base::Instant;
using made::kNow;
using memory::Sure;
using practice::CorrectionState;
using practice::Progress;

Instant at(const std::string& text) {
    return *base::parse_instant(text);
}

/// Ends of a time that a random record spans: an hour to five years.
double random_days(base::Random& random) {
    return std::exp(std::log(1.0 / 24) + random.unit() * (std::log(1800.0) - std::log(1.0 / 24)));
}

/// The dumb twin: mean recall at a moment, from all answers until then, folded anew.
practice::RecallSample folded(const content::Index& index, std::vector<memory::FitAnswer> answers, Instant when,
                              const std::string& topic) {
    std::stable_sort(answers.begin(), answers.end(), [](const auto& a, const auto& b) { return a.at < b.at; });
    std::map<std::uint32_t, memory::RecallState> states;
    for (const auto& one : answers)
        if (one.at <= when && one.point < index.points.size() && index.points[one.point].editions.bits() != 0)
            states[one.point] = memory::advance(states[one.point], one.at, static_cast<double>(one.mark), one.sure);
    practice::RecallSample sample{when, 0, 0};
    for (const auto& [point, state] : states) {
        if (!topic.empty() && index.points[point].topic != topic) continue;
        ++sample.met;
        sample.recall += memory::recall_probability(state, when, {});
    }
    if (sample.met > 0) sample.recall /= static_cast<double>(sample.met);
    return sample;
}

bool same(const practice::RecallSample& a, const practice::RecallSample& b) {
    return a.at == b.at && a.met == b.met && std::abs(a.recall - b.recall) < 1e-9;
}

}  // namespace

TEST_CASE("progress: of a learner without answers there is nothing but the points") {
    const auto index = made::index(40);
    const Progress found = practice::progress(index, made::log(index, 1), made::learner(9), made::what());
    CHECK(found.answers == 0);
    CHECK_FALSE(found.first);
    CHECK(found.points == 36);
    CHECK(found.met == 0);
    CHECK(found.topics.size() == 5);
    CHECK(found.history.empty());
    CHECK(found.weeks.empty());
    CHECK(found.corrections.empty());
    CHECK(found.forecast.size() == practice::kForecastDays.size());
}

TEST_CASE("progress: property: standings are those that a session of the same moment tells") {
    const auto& library = shipped::library();
    for (base::Seed seed = 1; seed <= 3; ++seed) {
        base::Random random{seed};
        MemoryLog log;
        practice::CrewLogReader reader{library, kNow};
        for (std::size_t n = 0; n < 600; ++n) {
            store::AnswerRecord record;
            record.learner = made::learner(1);
            record.point = library.index().points[random.below(150)].id;
            record.question.text = "call.x#a";
            record.asked_at = base::after_days(kNow, -200 + static_cast<double>(n) / 3.01);
            record.mark = random.below(3) == 0 ? 0.5 : random.below(4) == 0 ? 0.9 : 1;
            record.sure = static_cast<Sure>(random.below(3));
            reader.add(log.append(record));
        }
        practice::SessionFor session;
        session.learner.id = made::learner(1);
        session.start = kNow;
        session.pick.horizon = base::after_days(kNow, 90);
        const auto told = practice::Session{library, log, memory::advance, session}.summary(kNow).topics;
        const auto found = practice::progress(library.index(), reader.log(), made::learner(1), made::what());
        REQUIRE(found.topics.size() == told.size());
        for (std::size_t n = 0; n < told.size(); ++n) {
            CAPTURE(seed);
            CAPTURE(told[n].topic);
            const auto& own = found.topics[n].standing;
            CHECK(own.topic == told[n].topic);
            CHECK(own.points == told[n].points);
            CHECK(own.met == told[n].met);
            CHECK(own.due == told[n].due);
            CHECK(own.urgent == told[n].urgent);
            CHECK(own.recall == doctest::Approx(told[n].recall).epsilon(1e-9));
        }
    }
}

TEST_CASE("progress: property: samples are what folding all answers until then gives") {
    const auto index = made::index(40);
    for (base::Seed seed = 1; seed <= 60; ++seed) {
        base::Random random{seed};
        auto log = made::log(index, 1);
        log.answers = made::answers(random, 1 + random.below(150), log.points.size(), random_days(random));
        const auto found = practice::progress(index, log, made::learner(1), made::what());
        REQUIRE_FALSE(found.history.empty());
        for (std::size_t n = 0; n < found.history.size(); ++n) {
            CHECK_MESSAGE(same(found.history[n], folded(index, log.answers, found.history[n].at, "")), seed);
            for (const auto& topic : found.topics)
                CHECK_MESSAGE(
                    same(topic.history[n], folded(index, log.answers, found.history[n].at, topic.standing.topic)),
                    seed);
        }
    }
}

TEST_CASE("progress: property: samples are evenly apart, end now, and are no more than wanted") {
    const auto index = made::index(10);
    for (base::Seed seed = 1; seed <= 300; ++seed) {
        base::Random random{seed};
        auto log = made::log(index, 1);
        log.answers = {made::answer(0, random_days(random) * (random.below(10) == 0 ? 100 : 1), 1)};
        auto what = made::what();
        what.most_samples = 1 + random.below(40);
        const auto found = practice::progress(index, log, made::learner(1), what);
        CAPTURE(seed);
        CHECK(found.history.size() <= what.most_samples);
        REQUIRE_FALSE(found.history.empty());
        CHECK(found.history.back().at == kNow);
        CHECK(found.history.front().at >= *found.first);
        const double before = base::days_between(*found.first, found.history.front().at);
        CHECK(before <= found.step_days * 1.0001);
        for (std::size_t n = 1; n < found.history.size(); ++n)
            CHECK(base::days_between(found.history[n - 1].at, found.history[n].at) ==
                  doctest::Approx(found.step_days).epsilon(1e-6));
    }
}

TEST_CASE("progress: half a year is sampled by week, two years by month, and nothing where no history is wanted") {
    const auto index = made::index(10);
    auto log = made::log(index, 1);
    const auto step = [&](double days) {
        log.answers = {made::answer(0, days, 1)};
        return practice::progress(index, log, made::learner(1), made::what()).step_days;
    };
    CHECK(step(20) == 1);
    CHECK(step(170) == 7);
    CHECK(step(730) == doctest::Approx(365.25 / 12));
    auto what = made::what();
    what.most_samples = 0;
    const auto found = practice::progress(index, log, made::learner(1), what);
    CHECK(found.history.empty());
    CHECK(found.topics[0].history.empty());
    CHECK(found.topics[0].begun.has_value());
}

TEST_CASE("progress: property: recall only falls and points only fall due while nothing is studied") {
    const auto index = made::index(40);
    for (base::Seed seed = 1; seed <= 100; ++seed) {
        base::Random random{seed};
        auto log = made::log(index, 1);
        log.answers = made::answers(random, 1 + random.below(200), 40, random_days(random));
        const auto found = practice::progress(index, log, made::learner(1), made::what());
        CAPTURE(seed);
        CHECK(found.recall_now() == doctest::Approx(found.history.back().recall).epsilon(1e-12));
        CHECK(found.forecast.front().due == found.due);
        for (std::size_t n = 1; n < found.forecast.size(); ++n) {
            CHECK(found.forecast[n].recall <= found.forecast[n - 1].recall);
            CHECK(found.forecast[n].due >= found.forecast[n - 1].due);
            CHECK(found.shock_forecast[n].recall <= found.shock_forecast[n - 1].recall);
            CHECK(found.forecast[n].due <= found.met);
        }
    }
}

TEST_CASE("progress: an answer given at the moment of a sample belongs to it") {
    const auto index = made::index(4);
    auto log = made::log(index, 1);
    log.answers = {made::answer(0, 3, 1), made::answer(1, 1, 1), made::answer(2, 0, 1)};
    const auto found = practice::progress(index, log, made::learner(1), made::what());
    REQUIRE(found.history.size() == 4);
    CHECK(found.history[0].met == 1);
    CHECK(found.history[1].met == 1);
    CHECK(found.history[2].met == 2);
    CHECK(found.history[3].met == 3);
}

TEST_CASE("progress: what is foretold is the recall model's own, at its day") {
    const auto index = made::index(4);
    auto log = made::log(index, 1);
    log.answers = {made::answer(0, 3, 1), made::answer(0, 1, 1)};
    const auto found = practice::progress(index, log, made::learner(1), made::what());
    auto state = memory::advance({}, log.answers[0].at, 1, Sure::fairly);
    state = memory::advance(state, log.answers[1].at, 1, Sure::fairly);
    for (std::size_t n = 0; n < practice::kForecastDays.size(); ++n)
        CHECK(found.forecast[n].recall ==
              doctest::Approx(memory::recall_after(state, 1 + practice::kForecastDays.at(n), {})).epsilon(1e-12));
    CHECK(found.shock_met == 1);
    CHECK(found.shock_forecast[4].recall == found.forecast[4].recall);
}

TEST_CASE("progress: weeks run from Monday to Sunday") {
    // The epoch was a Thursday, and 2 March 2026 is a Monday: proleptic Gregorian calendar, ISO 8601.
    CHECK(practice::monday_of(at("1970-01-01")) == at("1969-12-29"));
    CHECK(practice::monday_of(at("2026-03-02")) == at("2026-03-02"));
    CHECK(practice::monday_of(at("2026-03-08T23:59:59.999Z")) == at("2026-03-02"));
    CHECK(practice::monday_of(at("2026-03-01T23:59:59.999Z")) == at("2026-02-23"));
    CHECK(practice::monday_of(at("1969-12-28T12:00:00Z")) == at("1969-12-22"));
}

TEST_CASE("progress: property: weeks follow each other without a gap and hold every answer") {
    const auto index = made::index(40);
    for (base::Seed seed = 1; seed <= 100; ++seed) {
        base::Random random{seed};
        auto log = made::log(index, 1);
        log.answers = made::answers(random, 1 + random.below(80), log.points.size(), random_days(random));
        const auto found = practice::progress(index, log, made::learner(1), made::what());
        CAPTURE(seed);
        std::size_t answers = 0, right = 0, by_sure = 0;
        double minutes = 0;
        for (std::size_t n = 0; n < found.weeks.size(); ++n) {
            CHECK(found.weeks[n].monday == found.weeks[0].monday + std::chrono::weeks{n});
            answers += found.weeks[n].answers;
            right += found.weeks[n].right;
            minutes += found.weeks[n].minutes;
        }
        for (const auto& tally : found.sure) by_sure += tally.answers;
        CHECK(found.weeks.back().monday == at("2026-03-02"));
        CHECK(answers == log.answers.size());
        CHECK(by_sure == log.answers.size());
        CHECK(right == found.right);
        CHECK(minutes == doctest::Approx(found.minutes));
    }
}

TEST_CASE("progress: the middle half of the times is that of quantiles between neighbours") {
    const auto index = made::index(4);
    auto log = made::log(index, 1);
    for (const int seconds : {4, 1, 3, 2}) {
        log.answers.push_back(made::answer(0, 1, 1, Sure::sure, 1000 * seconds));
        log.answers.back().form = 2;
    }
    log.answers.push_back(made::answer(0, 1, 1, Sure::sure, 0));  // not timed
    log.answers.push_back(made::answer(0, 1, 1, Sure::sure, 7000));
    log.answers.back().form = practice::kCallForm;
    const auto found = practice::progress(index, log, made::learner(1), made::what());
    REQUIRE(found.times.size() == 2);
    // Hyndman and Fan 1996, type 7: of 1, 2, 3, 4 the quartiles are 1.75, 2.5 and 3.25.
    CHECK(found.times[0].form == "number");
    CHECK(found.times[0].answers == 4);
    CHECK(found.times[0].low == doctest::Approx(1.75));
    CHECK(found.times[0].median == doctest::Approx(2.5));
    CHECK(found.times[0].high == doctest::Approx(3.25));
    CHECK(found.times[1].form == "service call");
    CHECK(found.times[1].low == 7);
    CHECK(found.times[1].high == 7);
}

TEST_CASE("progress: corrections stay open until the point is right, after sure and wrong until it is proved twice") {
    const auto index = made::index(8);  // stakes by number: shock, fire, inspection, paperwork, shock, ...
    auto log = made::log(index, 1);
    log.answers = {made::answer(0, 20, 0, Sure::fairly),
                   made::answer(0, 10, 1),  // put right
                   made::answer(1, 20, 0, Sure::sure),
                   made::answer(1, 10, 1),  // proved once
                   made::answer(2, 20, 0, Sure::sure),
                   made::answer(2, 10, 1),
                   made::answer(2, 5, 1),                // proved twice
                   made::answer(3, 5, 0.5, Sure::sure),  // sure and wrong, paperwork
                   made::answer(4, 6, 0, Sure::sure),    // and shock
                   made::answer(5, 6, 0, Sure::guess),
                   made::answer(7, 6, 0, Sure::fairly)};
    auto what = made::what();
    what.title_of = [](const content::PointEntry& point) { return "title of " + point.id.text; };
    const auto found = practice::progress(index, log, made::learner(1), what);
    REQUIRE(found.corrections.size() == 5);
    const auto is = [&](std::size_t place, const std::string& id, CorrectionState state) {
        const auto& one = found.corrections.at(place);
        return one.point.text == id && one.state == state && one.title == "title of " + id;
    };
    CHECK(is(0, "p.1004", CorrectionState::sure_and_wrong));
    CHECK(is(1, "p.1003", CorrectionState::sure_and_wrong));
    CHECK(is(2, "p.1001", CorrectionState::to_prove));
    CHECK(is(3, "p.1005", CorrectionState::wrong));
    CHECK(is(4, "p.1007", CorrectionState::wrong));
    CHECK(found.tripped == 3);
    CHECK(std::count_if(found.corrections.begin(), found.corrections.end(),
                        [](const auto& one) { return one.tripped(); }) == 3);
}

TEST_CASE("progress: nine tenths of a point is right, as in every other place") {
    const auto index = made::index(2);
    auto log = made::log(index, 1);
    log.answers = {made::answer(0, 1, 0.9), made::answer(1, 1, 0.899)};
    const auto found = practice::progress(index, log, made::learner(1), made::what());
    CHECK(found.right == 1);
    REQUIRE(found.corrections.size() == 1);
    CHECK(found.corrections[0].point.text == "p.1001");
}

TEST_CASE("progress: points outside the edition or gone count as answers and nowhere else") {
    const auto index = made::index(9);  // the last is of no edition
    auto log = made::log(index, 1);
    log.answers = {made::answer(8, 2, 0), made::answer(9, 1, 1), made::answer(0, 1, 1)};
    const auto found = practice::progress(index, log, made::learner(1), made::what());
    CHECK(found.answers == 3);
    CHECK(found.removed == 2);
    CHECK(found.met == 1);
    CHECK(found.points == 8);
    CHECK(found.corrections.empty());
}

TEST_CASE("progress: property: no answer of anybody else, and none given later, changes a learner's progress") {
    const auto index = made::index(40);
    for (base::Seed seed = 1; seed <= 30; ++seed) {
        base::Random random{seed};
        auto log = made::log(index, 2);
        log.answers = made::answers(random, 80, 40, 300);
        const auto alone = practice::progress(index, log, made::learner(1), made::what());
        for (auto other : made::answers(random, 80, 40, 300)) {
            if (random.below(2) == 0)
                other.learner = 1;
            else
                other.at = kNow + std::chrono::milliseconds{1 + random.below(1'000'000)};
            log.answers.insert(log.answers.begin() + static_cast<std::ptrdiff_t>(random.below(log.answers.size())),
                               other);
        }
        const auto among = practice::progress(index, log, made::learner(1), made::what());
        CAPTURE(seed);
        CHECK(among.answers == alone.answers);
        CHECK(among.right == alone.right);
        CHECK(among.days_studied == alone.days_studied);
        CHECK(among.last == alone.last);
        CHECK(among.recall_now() == alone.recall_now());
        CHECK(among.due == alone.due);
        CHECK(among.corrections.size() == alone.corrections.size());
        CHECK(among.weeks.size() == alone.weeks.size());
        REQUIRE(among.history.size() == alone.history.size());
        for (std::size_t n = 0; n < alone.history.size(); ++n) CHECK(same(among.history[n], alone.history[n]));
    }
}
