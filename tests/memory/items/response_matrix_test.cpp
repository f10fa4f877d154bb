#include "memory/items/response_matrix.hpp"

#include <limits>
#include <map>
#include <stdexcept>
#include <utility>

#include <doctest/doctest.h>

#include "base/random.hpp"

using namespace memory;

TEST_CASE("response matrix: the first answer of a learner to an item counts") {
    const std::vector<ItemAnswer> answers{
        {1, 0, 0.0, 2, 900}, {0, 1, 1.0, 0, 500}, {1, 0, 1.0, 1, 300}, {0, 0, 0.9, 1, 0}, {1, 0, 0.5, 3, 100}};
    const ResponseMatrix matrix{answers, 2, 3};
    CHECK(matrix.repeats() == 2);
    CHECK(matrix.learners() == 2);
    CHECK(matrix.items() == 3);
    REQUIRE(matrix.answers().size() == 3);
    REQUIRE(matrix.of_learner(1).size() == 1);
    CHECK(matrix.of_learner(1).front().choice == 2);
    CHECK(matrix.of_learner(1).front().took_ms == 900);
    CHECK_FALSE(matrix.of_learner(1).front().right());
    CHECK(matrix.of_learner(0).front().right());
    CHECK(matrix.of_item(0).size() == 2);
    CHECK(matrix.of_item(2).empty());
}

TEST_CASE("response matrix: rows and columns hold what a plain map holds") {
    for (base::Seed seed = 1; seed <= 50; ++seed) {
        base::Random random{seed};
        const auto learners = static_cast<std::size_t>(1 + random.below(8));
        const auto items = static_cast<std::size_t>(1 + random.below(8));
        std::vector<ItemAnswer> answers;
        std::map<std::pair<std::uint32_t, std::uint32_t>, std::int64_t> first;
        for (std::int64_t n = 0; n < 40; ++n) {
            ItemAnswer answer;
            answer.learner = static_cast<std::uint32_t>(random.below(learners));
            answer.item = static_cast<std::uint32_t>(random.below(items));
            answer.took_ms = n;
            answers.push_back(answer);
            first.try_emplace({answer.learner, answer.item}, n);
        }
        const ResponseMatrix matrix{answers, learners, items};
        CHECK(matrix.answers().size() == first.size());
        CHECK(matrix.repeats() + first.size() == 40);
        std::size_t by_row = 0;
        std::size_t by_column = 0;
        for (std::uint32_t l = 0; l < learners; ++l)
            for (const auto& answer : matrix.of_learner(l)) {
                CHECK(answer.learner == l);
                CHECK(first.at({l, answer.item}) == answer.took_ms);
                ++by_row;
            }
        for (std::uint32_t i = 0; i < items; ++i)
            for (const std::size_t place : matrix.of_item(i)) {
                CHECK(matrix.answers()[place].item == i);
                ++by_column;
            }
        CHECK(by_row == first.size());
        CHECK(by_column == first.size());
    }
}

TEST_CASE("response matrix: nothing at all is a matrix") {
    const ResponseMatrix none{{}, 0, 0};
    CHECK(none.answers().empty());
    CHECK(none.learners() == 0);
    const ResponseMatrix quiet{{}, 2, 2};
    CHECK(quiet.of_learner(1).empty());
    CHECK(quiet.of_item(1).empty());
}

TEST_CASE("response matrix: what is out of range is refused") {
    const auto refused = [](ItemAnswer answer) {
        const std::vector<ItemAnswer> one{answer};
        CHECK_THROWS_AS((ResponseMatrix{one, 2, 2}), std::invalid_argument);
    };
    refused({2, 0, 1, 0, 0});
    refused({0, 2, 1, 0, 0});
    refused({0, 0, 1.01, 0, 0});
    refused({0, 0, -0.01, 0, 0});
    refused({0, 0, std::numeric_limits<double>::quiet_NaN(), 0, 0});
    refused({0, 0, 1, -2, 0});
    refused({0, 0, 1, 0, -1});
}
