#include "memory/rehearsal/ahead.hpp"

#include <cassert>
#include <string>

#include "memory/rehearsal/course.hpp"
#include "memory/rehearsal/own_policy.hpp"
#include "memory/share_out.hpp"

namespace memory::rehearsal {
namespace {

Plan plan_of(const Ahead& ahead, const std::vector<Parameters>& params) {
    Plan plan;
    plan.generator = Generator::model;
    plan.days = ahead.days;
    plan.seconds_a_day = ahead.seconds_a_day;
    plan.recalled_seconds = ahead.recalled_seconds;
    plan.failed_seconds = ahead.failed_seconds;
    for (std::size_t point = 0; point < params.size(); ++point)
        plan.standings.push_back({ahead.states[point], params[point]});
    return plan;
}

std::vector<double> play_one(const Ahead& ahead, const std::vector<Parameters>& params, std::size_t draw) {
    static const NamedPolicy kOwn{"own", "", [] { return std::make_unique<OwnRule>(); }};
    Learner learner;
    learner.seed = base::derive_seed(ahead.seed, "ahead " + std::to_string(draw));
    learner.start = ahead.first_day;
    const Syllabus syllabus{ahead.families, ahead.weights, {}};
    return chances_at(plan_of(ahead, params), syllabus, learner, kOwn, ahead.exam);
}

}  // namespace

std::vector<std::vector<double>> look_ahead(const Ahead& ahead, const std::vector<std::vector<Parameters>>& draws) {
    std::vector<std::vector<double>> chances(draws.size());
    share_out(draws.size(), ahead.threads, [&](std::size_t draw) {
        assert(draws[draw].size() == ahead.states.size());
        chances[draw] = play_one(ahead, draws[draw], draw);
    });
    return chances;
}

}  // namespace memory::rehearsal
