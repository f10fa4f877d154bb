#include "memory/rehearsal/learner.hpp"

#include <algorithm>
#include <set>

#include <doctest/doctest.h>

#include "memory/rehearsal/course.hpp"

using memory::rehearsal::Crowd;
using memory::rehearsal::first_midnight;
using memory::rehearsal::Learner;
using memory::rehearsal::make_learner;
using memory::rehearsal::make_syllabus;
using memory::rehearsal::outcome_draw;

TEST_CASE("a learner is the same whoever else is in the crowd") {
    Crowd crowd;
    const auto syllabus = make_syllabus(crowd, 5);
    const Learner in_few = make_learner(crowd, syllabus, 5, 3, first_midnight());
    crowd.learners = 1000;
    const Learner in_many = make_learner(crowd, make_syllabus(crowd, 5), 5, 3, first_midnight());
    CHECK(in_few.ease == in_many.ease);
    CHECK(in_few.seed == in_many.seed);
    CHECK(in_few.point_ease == in_many.point_ease);
    CHECK(make_learner(crowd, syllabus, 5, 4, first_midnight()).ease != in_few.ease);
    CHECK(make_learner(crowd, syllabus, 6, 3, first_midnight()).ease != in_few.ease);
}

TEST_CASE("prior knowledge has the share asked for, scattered or by whole families") {
    for (const bool by_family : {false, true}) {
        Crowd crowd;
        crowd.points = 400;
        crowd.by_family = by_family;
        crowd.share_known = 0.4;
        const auto syllabus = make_syllabus(crowd, 8);
        double known = 0;
        std::size_t mixed = 0;
        std::size_t odd = 0;
        for (std::size_t number = 0; number < 200; ++number) {
            const Learner learner = make_learner(crowd, syllabus, 8, number, first_midnight());
            for (std::size_t point = 0; point < crowd.points; ++point) {
                known += learner.known[point].held > 0 ? 1 : 0;
                odd += learner.known[point].well != (by_family && learner.known[point].held > 0) ? 1 : 0;
                if (point > 0 && syllabus.family[point] == syllabus.family[point - 1])
                    mixed += learner.known[point].well != learner.known[point - 1].well ? 1 : 0;
            }
        }
        // 4000 families, or 80 000 points: four standard deviations.
        CHECK(known / 80'000 == doctest::Approx(0.4).epsilon(by_family ? 0.08 : 0.02));
        CHECK(mixed == 0);
        CHECK(odd == 0);
    }
}

TEST_CASE("nothing is known beforehand when no share is") {
    Crowd crowd;
    crowd.share_known = 0;
    const Learner learner = make_learner(crowd, make_syllabus(crowd, 1), 1, 0, first_midnight());
    CHECK(std::all_of(learner.known.begin(), learner.known.end(), [](const auto& one) { return one.held == 0; }));
}

TEST_CASE("stakes are dealt in equal numbers, and not in step with the families") {
    Crowd crowd;
    crowd.weights = {1.5, 1.3, 1.0, 0.8};
    const auto syllabus = make_syllabus(crowd, 2);
    for (const double weight : crowd.weights)
        CHECK(std::count(syllabus.weight.begin(), syllabus.weight.end(), weight) == 50);
    CHECK(syllabus.weight != make_syllabus(crowd, 3).weight);
    CHECK(syllabus.family.back() == 9);
}

TEST_CASE("outcome draws are even, and each has its own") {
    std::set<double> seen;
    double sum = 0;
    double squares = 0;
    int outside = 0;
    for (std::size_t point = 0; point < 200; ++point)
        for (std::size_t before = 0; before < 50; ++before)
            for (const bool correction : {false, true}) {
                const double draw = outcome_draw(77, point, before, correction);
                outside += draw < 0 || draw >= 1 ? 1 : 0;
                seen.insert(draw);
                sum += draw;
                squares += draw * draw;
            }
    CHECK(outside == 0);
    CHECK(seen.size() == 20'000);
    CHECK(sum / 20'000 == doctest::Approx(0.5).epsilon(0.02));
    CHECK(squares / 20'000 == doctest::Approx(1.0 / 3).epsilon(0.03));
    CHECK(outcome_draw(77, 3, 1, false) != outcome_draw(78, 3, 1, false));
}
