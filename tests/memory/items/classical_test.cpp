#include "memory/items/classical.hpp"

#include <cmath>
#include <stdexcept>

#include <doctest/doctest.h>

#include "memory/items/simulated.hpp"

using namespace memory;

namespace {

/// A crew that answers everything, and its matrix.
struct Sat {
    std::vector<simulated::Item> items;
    simulated::Answered crew;
    ResponseMatrix matrix;
    std::vector<ItemKey> keys;
};

Sat sat(std::size_t items, std::size_t learners, double asked, base::Seed seed) {
    base::Random random{seed};
    auto drawn = simulated::draw_items(items, 1.2, random);
    auto crew = simulated::draw_answers(drawn, learners, asked, random);
    ResponseMatrix matrix{crew.answers, learners, items};
    return {std::move(drawn), std::move(crew), std::move(matrix), simulated::four_options(items)};
}

}  // namespace

TEST_CASE("rest ability: with everything answered it orders learners by their other right answers") {
    const auto all = sat(12, 50, 1, 1);
    const auto rest = rest_abilities(all.matrix);
    REQUIRE(rest.size() == all.matrix.answers().size());
    for (std::uint32_t item = 0; item < 12; ++item)
        for (const std::size_t a : all.matrix.of_item(item))
            for (const std::size_t b : all.matrix.of_item(item)) {
                const auto score = [&](std::size_t place) {
                    int right = 0;
                    for (const auto& answer : all.matrix.of_learner(all.matrix.answers()[place].learner))
                        right += answer.item != item && answer.right() ? 1 : 0;
                    return right;
                };
                if (score(a) < score(b)) CHECK(rest[a].mean < rest[b].mean);
                if (score(a) == score(b)) CHECK(std::abs(rest[a].mean - rest[b].mean) < 1e-9);
            }
}

TEST_CASE("rest ability: equal scores on harder items mean more") {
    // Twenty learners answer everything, so that what is hard is known; two answer six items each, three right: one the
    // easy six, the other the hard six.
    base::Random random{2};
    std::vector<simulated::Item> items(12);
    for (std::size_t n = 0; n < 12; ++n) items[n].intercept = n < 6 ? 1.5 : -1.5;
    auto crew = simulated::draw_answers(items, 20, 1, random);
    for (std::uint32_t n = 0; n < 12; ++n) crew.answers.push_back({20 + n / 6, n, n % 2 == 0 ? 1.0 : 0.0, 0, 0});
    const ResponseMatrix matrix{crew.answers, 22, 12};
    const auto rest = rest_abilities(matrix);
    const std::size_t easy = 20 * 12;
    const std::size_t hard = easy + 6;
    CHECK(rest[easy].others == 5);
    for (std::size_t n = 0; n < 6; ++n) CHECK(rest[hard + n].mean > rest[easy + n].mean + 0.5);
}

TEST_CASE("rest ability: an item's own answers do not enter") {
    // Learners 0 and 1 differ in one item alone: without it they are the same.
    auto crew = sat(10, 30, 1, 3).crew;
    for (auto& answer : crew.answers)
        if (answer.learner == 1) {
            answer.mark = crew.answers[answer.item].mark;
            if (answer.item == 4) answer.mark = 1 - answer.mark;
        }
    const ResponseMatrix matrix{crew.answers, 30, 10};
    const auto rest = rest_abilities(matrix);
    CHECK(std::abs(rest[4].mean - rest[10 + 4].mean) < 1e-9);
    CHECK(std::abs(rest[5].mean - rest[10 + 5].mean) > 0.01);
}

TEST_CASE("item summaries: counts, marks and options add up") {
    for (base::Seed seed = 1; seed <= 10; ++seed) {
        const auto all = sat(8, 25, 0.7, seed);
        const auto summaries = summarise(all.matrix, all.keys);
        REQUIRE(summaries.size() == 8);
        std::size_t answers = 0;
        for (const auto& summary : summaries) {
            answers += summary.n;
            std::size_t chosen = summary.without_choice;
            REQUIRE(summary.options.size() == 4);
            for (const auto& use : summary.options) chosen += use.count;
            CHECK(chosen == summary.n);
            CHECK(summary.options[0].count == summary.right);
            CHECK(summary.right_times.n + summary.wrong_times.n == summary.times.n);
            CHECK(summary.share_right.low <= summary.share_right.estimate);
            CHECK(summary.share_right.estimate == doctest::Approx(summary.mean_mark));
            if (!summary.discrimination) continue;
            const auto& by_mark = *summary.discrimination;
            const auto& by_choice = *summary.options[0].choosers;
            CHECK(by_mark.correlation.estimate == doctest::Approx(by_choice.correlation.estimate));
            CHECK(by_mark.ability_in == doctest::Approx(*summary.options[0].ability));
        }
        CHECK(answers == all.matrix.answers().size());
    }
}

TEST_CASE("item summaries: discrimination is the correlation with ability on the other items") {
    const auto all = sat(10, 80, 0.8, 5);
    const auto rest = rest_abilities(all.matrix);
    const auto summaries = summarise(all.matrix, all.keys);
    for (std::size_t item = 0; item < 10; ++item) {
        double n = 0, x = 0, y = 0, xx = 0, yy = 0, xy = 0;
        for (const std::size_t place : all.matrix.of_item(item)) {
            if (rest[place].others == 0) continue;
            const double a = rest[place].mean;
            const double b = all.matrix.answers()[place].right() ? 1 : 0;
            n += 1, x += a, y += b, xx += a * a, yy += b * b, xy += a * b;
        }
        const double r = (xy - x * y / n) / std::sqrt((xx - x * x / n) * (yy - y * y / n));
        REQUIRE(summaries[item].discrimination);
        const auto& found = *summaries[item].discrimination;
        CHECK(found.correlation.estimate == doctest::Approx(r).epsilon(1e-9));
        CHECK(found.correlation.low < r);
        CHECK(found.correlation.high > r);
        CHECK(found.error == doctest::Approx((1 - r * r) / std::sqrt(n - 3)).epsilon(1e-9));
        CHECK(found.chance_of_more + found.chance_of_less == doctest::Approx(1));
    }
}

TEST_CASE("item summaries: steeper items discriminate more, pure guessing not at all") {
    base::Random random{6};
    std::vector<simulated::Item> items(20);
    for (std::size_t n = 0; n < 20; ++n) items[n] = {n < 10 ? 2.0 : 0.7, 0};
    items[19].slope = 0;
    const auto crew = simulated::draw_answers(items, 400, 0.6, random);
    const auto summaries = summarise(ResponseMatrix{crew.answers, 400, 20}, simulated::four_options(20));
    double steep = 0;
    double flat = 0;
    for (std::size_t n = 0; n < 10; ++n) steep += summaries[n].discrimination->correlation.estimate / 10;
    for (std::size_t n = 10; n < 19; ++n) flat += summaries[n].discrimination->correlation.estimate / 9;
    CHECK(steep > flat + 0.15);
    CHECK(flat > 0.1);
    // 240 learners: standard error .065, four of them.
    CHECK(std::abs(summaries[19].discrimination->correlation.estimate) < 0.26);
}

TEST_CASE("item summaries: order of learners and numbers of items do not matter") {
    const auto all = sat(6, 20, 0.8, 8);
    const std::vector<std::uint32_t> number{4, 0, 5, 2, 1, 3};
    auto other = all.crew.answers;
    base::Random{9}.shuffle(other);
    for (auto& answer : other) {
        answer.item = number[answer.item];
        answer.learner = 19 - answer.learner;
    }
    const auto a = summarise(all.matrix, all.keys);
    const auto b = summarise(ResponseMatrix{other, 20, 6}, all.keys);
    for (std::size_t item = 0; item < 6; ++item) {
        const auto& left = a[item];
        const auto& right = b[number[item]];
        CHECK(left.n == right.n);
        CHECK(left.right == right.right);
        CHECK(left.times.median == right.times.median);
        CHECK(left.options[2].count == right.options[2].count);
        REQUIRE(left.discrimination.has_value() == right.discrimination.has_value());
        if (left.discrimination)
            CHECK(std::abs(left.discrimination->correlation.low - right.discrimination->correlation.low) < 1e-6);
    }
}

TEST_CASE("item summaries: later answers of a learner change nothing") {
    const auto all = sat(6, 20, 1, 10);
    auto repeated = all.crew.answers;
    for (auto answer : all.crew.answers) {
        answer.mark = 1;
        answer.choice = 0;
        answer.took_ms = 1;
        repeated.push_back(answer);
    }
    const auto a = summarise(all.matrix, all.keys);
    const auto b = summarise(ResponseMatrix{repeated, 20, 6}, all.keys);
    for (std::size_t item = 0; item < 6; ++item) {
        CHECK(a[item].right == b[item].right);
        CHECK(a[item].times.lower == b[item].times.lower);
        CHECK(a[item].options[1].count == b[item].options[1].count);
    }
}

TEST_CASE("item summaries: all right, all wrong, one learner and nobody are defined") {
    std::vector<ItemAnswer> answers;
    for (std::uint32_t learner = 0; learner < 12; ++learner)
        for (std::uint32_t item = 0; item < 3; ++item) {
            const bool right = item == 0 || (item == 2 && learner % 2 == 0);
            answers.push_back({learner, item, right ? 1.0 : 0.0, right ? 0 : 1, 1000});
        }
    const auto some = summarise(ResponseMatrix{answers, 12, 4}, simulated::four_options(4));
    CHECK_FALSE(some[0].discrimination);
    CHECK(some[0].share_right.high == 1);
    CHECK(some[0].wrong_times.n == 0);
    CHECK_FALSE(some[1].discrimination);
    CHECK(some[1].right == 0);
    CHECK(some[3].n == 0);
    CHECK(some[3].share_right.high == 1);
    CHECK(some[3].mean_mark == 0);
    CHECK_FALSE(some[3].options[0].ability);
    const auto one = summarise(ResponseMatrix{std::span{answers}.first(3), 1, 3}, simulated::four_options(3));
    CHECK(one[2].right == 1);
    CHECK_FALSE(one[2].discrimination);
    CHECK(one[2].options[0].ability);
    // A single answer each: nobody has others to be compared by.
    const std::vector<ItemAnswer> lonely{{0, 0, 1, 0, 0}, {1, 0, 0, 1, 0}};
    const auto alone = summarise(ResponseMatrix{lonely, 2, 1}, simulated::four_options(1));
    CHECK_FALSE(alone[0].discrimination);
    CHECK_FALSE(alone[0].options[0].ability);
    CHECK(summarise(ResponseMatrix{{}, 0, 0}, {}).empty());
}

TEST_CASE("item summaries: learners without other answers count for the share right and not for discrimination") {
    const auto all = sat(6, 20, 1, 13);
    auto answers = all.crew.answers;
    for (std::uint32_t learner = 20; learner < 50; ++learner) answers.push_back({learner, 0, 1, 0, 0});
    const auto summary = summarise(ResponseMatrix{answers, 50, 6}, all.keys).front();
    CHECK(summary.n == 50);
    CHECK(summary.options[0].count == summary.right);
    REQUIRE(summary.discrimination);
    CHECK(summary.discrimination->in + summary.discrimination->out == 20);
    CHECK(summary.options[0].choosers->in == summary.right - 30);
}

TEST_CASE("item summaries: choices that are none of the options are counted apart") {
    const std::vector<ItemAnswer> answers{{0, 0, 0.5, -1, 0}, {1, 0, 1, 1, 0}, {2, 0, 0, 7, 0}};
    const auto summary = summarise(ResponseMatrix{answers, 3, 1}, {{2, 1}}).front();
    CHECK(summary.without_choice == 2);
    CHECK(summary.options[1].count == 1);
    CHECK(summary.mean_mark == doctest::Approx(0.5));
    CHECK(summary.right == 1);
}

TEST_CASE("item summaries: keys that do not fit are refused") {
    const ResponseMatrix matrix{{}, 1, 1};
    CHECK_THROWS_AS(static_cast<void>(summarise(matrix, {})), std::invalid_argument);
    for (const ItemKey key : {ItemKey{2, 2}, ItemKey{-1, -1}, ItemKey{2, -2}, ItemKey{0, 0}})
        CHECK_THROWS_AS(static_cast<void>(summarise(matrix, {key})), std::invalid_argument);
    CHECK(summarise(matrix, {{0, -1}}).size() == 1);
}

TEST_CASE("quartiles: between two answers in proportion, times not taken left out") {
    const auto none = quartiles({0, 0});
    CHECK(none.n == 0);
    CHECK(none.median == 0);
    const auto one = quartiles({700, 0});
    CHECK(one.n == 1);
    CHECK(one.lower == 700);
    CHECK(one.upper == 700);
    const auto five = quartiles({50, 10, 40, 20, 30});
    CHECK(five.lower == 20);
    CHECK(five.median == 30);
    CHECK(five.upper == 40);
    const auto four = quartiles({10, 20, 30, 40});
    CHECK(four.lower == doctest::Approx(17.5));
    CHECK(four.median == doctest::Approx(25));
    CHECK(four.upper == doctest::Approx(32.5));
}
