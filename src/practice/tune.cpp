#include "practice/tune.hpp"

#include <algorithm>

#include "memory/fit/posterior.hpp"
#include "memory/fit/trial.hpp"

namespace practice {
namespace {

constexpr std::int64_t kLeastGrowth = 50;

using memory::Observations;
using memory::Places;
using store::FittedValue;

/// Points and families that have answers: the rest stand at their prior mean of 0, which need not be kept.
std::vector<bool> seen_points(const Observations& data) {
    std::vector<bool> seen(data.points);
    for (const auto& pair : data.pairs) seen[pair.point] = true;
    return seen;
}

void add_learner(std::vector<FittedValue>& values, const CrewLog& log, const Observations& data,
                 const memory::Unknowns& at, std::size_t learner) {
    const Places places{data};
    const auto& id = log.learners[learner];
    values.push_back({"learner", id, "", at[places.learner_ease(learner)]});
    values.push_back({"forgets", id, "", at[places.learner_forgets(learner)]});
    for (std::size_t family = 0; family < data.families; ++family) {
        const auto branch = data.branch(learner, family);
        if (branch != Observations::kNoBranch)
            values.push_back({"branch", id, log.families[family], at[places.branch_ease(branch)]});
    }
}

std::vector<FittedValue> values_of(const CrewLog& log, const Observations& data, const memory::Unknowns& at) {
    const Places places{data};
    std::vector<FittedValue> values;
    const auto& shared = memory::shared_parameters();
    for (std::size_t k = 0; k < shared.size(); ++k)
        values.push_back({"shared", {}, std::string{shared[k].name}, at[k]});
    const auto seen = seen_points(data);
    std::vector<bool> families(data.families);
    for (std::size_t point = 0; point < data.points; ++point) {
        if (!seen[point]) continue;
        families[data.family_of_point[point]] = true;
        values.push_back({"point", {}, log.points[point].text, at[places.point_ease(point)]});
    }
    for (std::size_t family = 0; family < data.families; ++family)
        if (families[family]) values.push_back({"family", {}, log.families[family], at[places.family_ease(family)]});
    for (std::size_t learner = 0; learner < data.learners; ++learner) add_learner(values, log, data, at, learner);
    return values;
}

Verdict judge(const memory::Assessment& assessment) {
    if (assessment.held_back < kFewestHeldBack) return Verdict::too_few;
    const double fitted = assessment.of[memory::Trial::fitted].log_loss;
    const double prior = assessment.of[memory::Trial::prior].log_loss;
    return fitted <= prior ? Verdict::taken : Verdict::worse;
}

}  // namespace

std::string_view to_text(Verdict verdict) {
    switch (verdict) {
        case Verdict::taken:
            return "taken";
        case Verdict::too_few:
            return "too few answers";
        case Verdict::worse:
            return "worse than the shipped parameters";
    }
    return "";
}

Tuning tune(const CrewLog& log, base::Instant now) {
    CrewLog marked = log;
    memory::hold_back_last(marked.answers, kHeldBackShare);
    const auto priors = memory::shipped_priors();
    Tuning tuning;
    tuning.assessment = memory::assess(memory::try_out(marked.observed(), priors));
    tuning.verdict = judge(tuning.assessment);
    const Observations all = log.observed();
    tuning.fitted = memory::fit(all, priors);
    tuning.sd = memory::Posterior{all, priors, tuning.fitted}.shared_sd();
    const bool taken = tuning.verdict == Verdict::taken;
    if (taken) tuning.values = values_of(log, all, tuning.fitted.at);
    const bool judged = tuning.assessment.held_back > 0;
    tuning.run = {now, static_cast<std::int64_t>(log.answers.size() + log.later), taken,
                  judged ? tuning.assessment.of[memory::Trial::fitted].log_loss : 0,
                  judged ? tuning.assessment.of[memory::Trial::prior].log_loss : 0};
    return tuning;
}

bool tuning_due(std::int64_t answers, const std::optional<store::FitRun>& latest) {
    const std::int64_t before = latest ? latest->answers : 0;
    return answers - before >= std::max(kLeastGrowth, before / 10);
}

}  // namespace practice
