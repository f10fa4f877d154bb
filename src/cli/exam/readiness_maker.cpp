#include "cli/exam/readiness_maker.hpp"

#include <algorithm>
#include <chrono>
#include <thread>

#include "base/exit_status.hpp"
#include "cli/memory/crew_log.hpp"

namespace cli {
namespace {

using base::Exit;
using base::Failure;

constexpr double kDaysAheadWithoutExam = 60;
constexpr double kExamBeginsAt = 9.0 / 24;
constexpr std::size_t kDraws = 120;
constexpr std::size_t kMostSampled = 10'000;
constexpr double kFarthestDays = 730;

base::Instant morning_of(base::Instant day) {
    return base::after_days(std::chrono::floor<std::chrono::days>(day), kExamBeginsAt);
}

/// What is believed: the crew's answers, or the shipped parameters where the latest fit foresaw less well than they do.
memory::Belief belief_of(store::Store& store, const practice::CrewLog& log, base::Seed seed, unsigned threads) {
    const auto latest = store.latest_fit();
    const bool refused = latest && !latest->kept && latest->log_loss > latest->prior_log_loss;
    auto data = refused ? memory::observe({}, log.learners.size(), log.family_of_point) : log.observed();
    // The truer way of drawing where it is quick; with so many answers as beyond this the normal is close.
    const auto how = data.rows.size() <= kMostSampled ? memory::Draws::sampled : memory::Draws::normal;
    return {std::move(data), memory::shipped_priors(), kDraws, seed, how, threads};
}

}  // namespace

base::Instant exam_morning(const std::optional<base::Instant>& said, const store::Learner& learner, base::Instant now) {
    const auto sixty_ahead = base::after_days(now, kDaysAheadWithoutExam);
    const auto morning = morning_of(said ? *said : learner.exam_at.value_or(sixty_ahead));
    if (morning <= now && !said) return morning_of(sixty_ahead);
    if (morning <= now || base::days_between(now, morning) > kFarthestDays)
        throw Failure{Exit::usage, "the exam is to be after now, and within two years", "name its day with --on DATE"};
    return morning;
}

ReadinessMaker::ReadinessMaker(const Context& context, const content::Library& library, store::Store& store,
                               const content::Outline& outline)
    : context_{&context},
      library_{&library},
      store_{&store},
      outline_{&outline},
      log_{read_crew_log(library, store, context.now())},
      seed_{static_cast<base::Seed>(context.number("--seed", 1, 0, INT64_MAX))},
      threads_{std::max(1U, std::thread::hardware_concurrency())} {
    // Numbered before the belief is made, which knows no learner beyond those of the log it was made from.
    for (const auto& learner : store.learners()) static_cast<void>(log_.learner(learner.id));
}

ReadinessMaker::Made ReadinessMaker::of(const store::Learner& learner, base::Instant exam,
                                        const std::vector<int>& minutes, const std::function<void(double)>& progress) {
    practice::ReadinessFor what;
    what.edition = context_->pick_for(learner).edition;
    what.parts = practice::parts_of(*outline_, content::traits_in(*library_, what.edition));
    const auto covered = practice::covered(what.parts);
    if (covered.asked == 0)
        throw Failure{Exit::unavailable,
                      "the library has no verified points for '" + outline_->id + "' under the " +
                          std::string{trade::to_text(what.edition)} + " edition",
                      "name another outline, or give the learner another edition"};
    what.pass_share = practice::pass_share_of(*outline_, covered.asked + covered.not_covered);
    what.learner = log_.learner(learner.id);
    what.now = context_->now();
    what.exam = exam;
    what.minutes = minutes;
    what.seed = seed_;
    what.threads = threads_;
    if (!belief_) belief_ = belief_of(*store_, log_.log(), seed_, threads_);
    auto found =
        practice::readiness(library_->index(), log_.log(), *belief_, store_->states(learner.id), what, progress);
    return {std::move(what), std::move(found)};
}

}  // namespace cli
