#include "practice/recall.hpp"

#include <doctest/doctest.h>

#include "memory/features.hpp"

namespace {

using practice::Recall;
using store::FittedValue;

base::Id128 who(std::uint8_t number) {
    base::Id128 id;
    id.bytes[0] = number;
    return id;
}

const base::PointId kPoint{"p.one"};

}  // namespace

TEST_CASE("recall: nothing fitted, the shipped parameters") {
    CHECK_FALSE(Recall{}.fitted());
    CHECK(Recall{}.of(kPoint, "t") == memory::Parameters{});
    CHECK_FALSE(Recall({}, who(1)).fitted());
}

TEST_CASE("recall: each value finds its place, and only the learner's own count") {
    const std::vector<FittedValue> values = {
        {"shared", {}, std::string{memory::shared_parameters()[0].name}, 0.75},
        {"shared", {}, "a parameter of another day", 9},
        {"learner", who(1), "", 0.5},
        {"learner", who(2), "", 5},
        {"forgets", who(1), "", -0.25},
        {"forgets", who(2), "", 6},
        {"point", {}, "p.one", 0.125},
        {"point", {}, "p.two", 7},
        {"family", {}, "t", 0.0625},
        {"branch", who(1), "t", 0.03125},
        {"branch", who(2), "t", 8},
        {"no such kind", {}, "t", 10},
    };
    const Recall recall{values, who(1)};
    CHECK(recall.fitted());
    const auto params = recall.of(kPoint, "t");
    memory::Shared shared = memory::to_shared({});
    shared[0] = 0.75;
    memory::Parameters expected = memory::from_shared(shared);
    expected.learner_ease = 0.5;
    expected.learner_forgets = -0.25;
    expected.point_ease = 0.125 + 0.0625 + 0.03125;
    CHECK(params == expected);
    CHECK(recall.of({"p.never"}, "t").point_ease == 0.0625 + 0.03125);
    CHECK(recall.of({"p.never"}, "elsewhere").point_ease == 0);
}
