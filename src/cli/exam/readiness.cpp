#include <algorithm>
#include <chrono>
#include <ostream>
#include <thread>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "base/text.hpp"
#include "cli/context.hpp"
#include "cli/exam/exam.hpp"
#include "cli/memory/crew_log.hpp"
#include "cli/memory/progress.hpp"
#include "cli/whole_file.hpp"
#include "practice/readiness.hpp"
#include "report/exam/readiness_json.hpp"
#include "report/exam/readiness_text.hpp"

namespace cli {
namespace {

using base::Exit;
using base::Failure;

constexpr double kDaysAheadWithoutExam = 60;
constexpr double kExamBeginsAt = 9.0 / 24;
constexpr std::size_t kDraws = 120;
constexpr std::size_t kMostSampled = 10'000;
constexpr double kFarthestDays = 730;

const content::Outline& outline_meant(const Context& context, const std::vector<content::Outline>& outlines) {
    if (context.has("ID")) return find_outline(outlines, context.value("ID"));
    std::vector<std::string> known;
    for (const auto& one : outlines) known.push_back(one.id);
    throw Failure{Exit::usage, "ready for which exam?", "name an outline, one of: " + base::join(known, ", ")};
}

/// The morning of the exam: --on, else the learner's day, else sixty days ahead.
base::Instant exam_day(const Context& context, const store::Learner& learner) {
    const auto now = context.now();
    const auto said = context.instant("--on");
    const auto day = said ? *said : learner.exam_at.value_or(base::after_days(now, kDaysAheadWithoutExam));
    const auto morning = base::after_days(std::chrono::floor<std::chrono::days>(day), kExamBeginsAt);
    if (morning <= now && !said)
        return base::after_days(std::chrono::floor<std::chrono::days>(base::after_days(now, kDaysAheadWithoutExam)),
                                kExamBeginsAt);
    if (morning <= now || base::days_between(now, morning) > kFarthestDays)
        throw Failure{Exit::usage, "the exam is to be after now, and within two years", "name its day with --on DATE"};
    return morning;
}

std::vector<int> minutes_meant(const Context& context) {
    std::vector<int> minutes;
    for (const auto number : context.numbers("--minutes", 1, 240)) minutes.push_back(static_cast<int>(number));
    if (minutes.empty()) minutes = {5, 10, 15, 20, 30};
    std::sort(minutes.begin(), minutes.end());
    minutes.erase(std::unique(minutes.begin(), minutes.end()), minutes.end());
    return minutes;
}

practice::ReadinessFor question(const Context& context, const content::Library& library,
                                const content::Outline& outline, const store::Learner& learner) {
    practice::ReadinessFor what;
    what.edition = context.pick_for(learner).edition;
    what.parts = practice::parts_of(outline, content::traits_in(library, what.edition));
    const auto of = practice::covered(what.parts);
    if (of.asked == 0)
        throw Failure{Exit::unavailable,
                      "the library has no verified points for '" + outline.id + "' under the " +
                          std::string{trade::to_text(what.edition)} + " edition",
                      "name another outline, or give the learner another edition"};
    what.pass_share = practice::pass_share_of(outline, of.asked + of.not_covered);
    what.now = context.now();
    what.exam = exam_day(context, learner);
    what.minutes = minutes_meant(context);
    what.seed = static_cast<base::Seed>(context.number("--seed", 1, 0, INT64_MAX));
    what.threads = std::max(1U, std::thread::hardware_concurrency());
    return what;
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

Exit run_exam_readiness(Context& context) {
    const auto outlines = load_outlines(context);
    const auto& outline = outline_meant(context, outlines);
    const auto library = context.open_library();
    auto store = context.open_store(false);
    const auto learner = context.learner(store);
    auto what = question(context, library, outline, learner);
    auto reader = read_crew_log(library, store, context.now());
    what.learner = reader.learner(learner.id);
    const auto& log = reader.log();
    const auto belief = belief_of(store, log, what.seed, what.threads);
    Progress bar{context, "looking ahead"};
    const auto found = practice::readiness(library.index(), log, belief, store.states(learner.id), what,
                                           [&](double share) { bar.show(share); });
    bar.clear();
    const report::ReadinessPage page{outline, learner, what, found};
    if (context.has("--plot"))
        write_whole(context.value("--plot"), [&](std::ostream& out) { out << report::readiness_svg(page); });
    if (context.json())
        context.out() << report::readiness_json(page).dump(2) << '\n';
    else
        context.print(report::readiness_text(page, context.page()));
    return Exit::fine;
}

}  // namespace cli
