#include "memory/rehearsal/rehearse.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <mutex>

#include "memory/rehearsal/course.hpp"
#include "memory/share_out.hpp"

namespace memory::rehearsal {
namespace {

Measure measure(const PolicyResult& of, const PolicyResult& rotation, double Outcome::*figure) {
    std::vector<double> level;
    std::vector<double> over;
    for (std::size_t n = 0; n < of.learners.size(); ++n) {
        level.push_back(of.learners[n].*figure);
        over.push_back(level.back() - rotation.learners[n].*figure);
    }
    return {estimate(level), estimate(over)};
}

void summarise(PolicyResult& of, const PolicyResult& rotation) {
    of.recall = measure(of, rotation, &Outcome::recall);
    of.weighted_recall = measure(of, rotation, &Outcome::weighted_recall);
    of.held = measure(of, rotation, &Outcome::held);
    of.later_recall = measure(of, rotation, &Outcome::later_recall);
    of.asks = measure(of, rotation, &Outcome::asks);
    of.met = measure(of, rotation, &Outcome::met);
}

}  // namespace

base::Instant first_midnight() {
    return base::from_milliseconds(1'767'225'600'000);  // 2026-01-01
}

Estimate estimate(const std::vector<double>& sample) {
    if (sample.empty()) return {};
    const auto count = static_cast<double>(sample.size());
    Estimate result;
    for (const double value : sample) result.mean += value / count;
    if (sample.size() < 2) return result;
    double squares = 0;
    for (const double value : sample) squares += (value - result.mean) * (value - result.mean);
    result.se = std::sqrt(squares / (count - 1) / count);
    return result;
}

std::vector<PolicyResult> rehearse(const Plan& plan, const Progress& progress) {
    assert(!plan.policies.empty() && plan.crowd.learners > 0 && plan.crowd.points > 0 && plan.days > 0);
    assert(plan.generator != Generator::model || plan.standings.size() == plan.crowd.points);
    const Syllabus syllabus = plan.syllabus ? *plan.syllabus : make_syllabus(plan.crowd, plan.seed);
    assert(syllabus.family.size() == plan.crowd.points);
    std::vector<PolicyResult> results;
    for (const auto& policy : plan.policies)
        results.push_back(
            {std::string{policy.name}, std::vector<Outcome>(plan.crowd.learners), {}, {}, {}, {}, {}, {}});
    const std::size_t all = plan.crowd.learners * results.size();
    std::size_t done = 0;
    std::mutex telling;
    share_out(plan.crowd.learners, plan.threads, [&](std::size_t number) {
        const Learner learner = make_learner(plan.crowd, syllabus, plan.seed, number, plan.start);
        for (std::size_t n = 0; n < results.size(); ++n) {
            results[n].learners[number] = play(plan, syllabus, learner, plan.policies[n]);
            const std::scoped_lock lock{telling};
            ++done;
            if (progress) progress(done, all);
        }
    });
    for (auto& result : results) summarise(result, results.front());
    return results;
}

}  // namespace memory::rehearsal
