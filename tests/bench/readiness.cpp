// Readiness against what happens: crews whose truth is known study, ask how ready they are, study on and sit the exam.
// Of those foretold to pass with chance p, a share p should. First with answers from the recall model itself and its
// priors, where ten bins have to be within .05; then from the two generators of rehearsals that are not the model,
// which shows what it is worth where the model is wrong.
//
//     bench_readiness [RUNS [model]]      runs (4000), a quarter as many of the others; "model" leaves the other two
//     generators out

#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <thread>
#include <vector>

#include "memory/rehearsal/course.hpp"
#include "memory/rehearsal/own_policy.hpp"
#include "memory/share_out.hpp"
#include "practice/ready_crowd.hpp"

namespace {

using memory::rehearsal::Generator;
using ready::Foretold;

struct Bin {
    double foretold = 0, passed = 0;
    std::size_t runs = 0;
};

struct Table {
    std::array<Bin, 10> bins{};

    void add(const Foretold& one) {
        Bin& bin = bins[std::min<std::size_t>(9, static_cast<std::size_t>(10 * one.pass))];
        bin.foretold += one.pass;
        bin.passed += one.passed ? 1 : 0;
        ++bin.runs;
    }
    /// Gives the largest distance of a bin.
    double tell(const char* title) const {
        std::printf("%s\n  foretold    passed     error   runs\n", title);
        double worst = 0;
        for (const Bin& bin : bins) {
            if (bin.runs == 0) continue;
            const auto runs = static_cast<double>(bin.runs);
            const double p = bin.foretold / runs;
            const double share = bin.passed / runs;
            worst = std::max(worst, std::abs(share - p));
            std::printf("  %8.3f  %8.3f  %+8.3f  %5zu  (+/- %.3f by luck)\n", p, share, share - p, bin.runs,
                        std::sqrt(p * (1 - p) / runs));
        }
        std::printf("  worst %.3f\n\n", worst);
        return worst;
    }
};

/// The program's own rule, which also writes down what it is told until a day.
class Recorder final : public memory::rehearsal::Policy {
public:
    struct Notes {
        std::vector<memory::FitAnswer> answers;
        std::vector<memory::RecallState> states;  ///< at the beginning of the day
    };
    Recorder(std::size_t until, Notes& notes) : until_{until}, notes_{&notes} {}

    void score(const memory::rehearsal::Desk& desk, std::span<double> scores) override {
        day_ = desk.day;
        if (day_ == until_) notes_->states.assign(desk.states.begin(), desk.states.end());
        own_.score(desk, scores);
    }
    void answered(const memory::rehearsal::Told& told) override {
        own_.answered(told);
        if (day_ >= until_) return;
        memory::FitAnswer answer;
        answer.point = static_cast<std::uint32_t>(told.point);
        answer.mark = told.recalled ? 1.0F : 0.0F;
        answer.at = told.at;
        notes_->answers.push_back(answer);
    }

private:
    std::size_t until_;
    Notes* notes_;
    memory::rehearsal::OwnRule own_;
    std::size_t day_ = 0;
};

/// A crew of simulated learners that are not the model; the first of them asks, and sits.
Foretold run_of(Generator generator, const ready::Setup& setup, base::Seed seed) {
    base::Random random{base::derive_seed(seed, "exam")};
    memory::rehearsal::Plan plan;
    plan.generator = generator;
    plan.crowd.learners = setup.learners;
    plan.crowd.points = setup.points;
    plan.crowd.family_size = setup.points / setup.families;
    plan.days = setup.days + setup.days_ahead;
    plan.seconds_a_day = 60.0 * setup.minutes;
    const auto syllabus = memory::rehearsal::make_syllabus(plan.crowd, seed);
    practice::CrewLog log;
    log.family_of_point = syllabus.family;
    log.learners.resize(setup.learners);
    const auto index = ready::index_of(setup);
    for (const auto& point : index.points) log.points.push_back(point.id);
    for (std::size_t n = 0; n <= syllabus.family.back(); ++n) log.families.push_back("t" + std::to_string(n));
    Recorder::Notes first;
    std::vector<double> chances;
    const auto exam = base::after_days(ready::kStart, static_cast<double>(plan.days) + 0.375);
    for (std::uint32_t n = 0; n < setup.learners; ++n) {
        Recorder::Notes notes;
        const memory::rehearsal::NamedPolicy policy{"own", "",
                                                    [&] { return std::make_unique<Recorder>(setup.days, notes); }};
        const auto learner = memory::rehearsal::make_learner(plan.crowd, syllabus, seed, n, ready::kStart);
        const auto at_exam = memory::rehearsal::chances_at(plan, syllabus, learner, policy, exam);
        for (auto& answer : notes.answers) answer.learner = n;
        log.answers.insert(log.answers.end(), notes.answers.begin(), notes.answers.end());
        if (n > 0) continue;
        chances = at_exam;
        first = std::move(notes);
    }
    store::RecallStates states;
    for (std::size_t n = 0; n < setup.points; ++n)
        if (first.states[n].answers() > 0) states[index.points[n].id] = first.states[n];
    content::OutlineSection section;
    auto what = ready::question(setup, section, index, 0.7);
    what.seed = base::derive_seed(seed, "ahead");
    const memory::Belief belief{log.observed(), memory::shipped_priors(), setup.draws, base::derive_seed(seed, "draws"),
                                memory::Draws::sampled};
    const auto found = practice::readiness(index, log, belief, states, what);
    return ready::held_against(found.plans.back().on_the_day.total, ready::sit(chances, setup.asked, random), random);
}

}  // namespace

int main(int argc, char** argv) {
    const auto runs = static_cast<std::size_t>(argc > 1 ? std::atoll(argv[1]) : 4000);
    const unsigned threads = std::max(1U, std::thread::hardware_concurrency());
    const ready::Setup setup;
    std::vector<std::vector<Foretold>> all(runs);
    memory::share_out(runs, threads, [&](std::size_t n) { all[n] = ready::one_run(setup, n + 1); });
    Table idle;
    Table studied;
    Table both;
    for (const auto& run : all) {
        idle.add(run.front());
        studied.add(run.back());
        for (const auto& one : run) both.add(one);
    }
    idle.tell("Answers from the recall model, nothing more studied");
    studied.tell("Answers from the recall model, studied until the exam");
    const double worst = both.tell("Both");
    if (argc > 2) return worst <= 0.05 ? 0 : 1;
    for (const auto generator : {Generator::trace, Generator::pools}) {
        std::vector<Foretold> others(runs / 4);
        memory::share_out(others.size(), threads, [&](std::size_t n) { others[n] = run_of(generator, setup, n + 1); });
        Table table;
        for (const auto& one : others) table.add(one);
        table.tell(generator == Generator::trace ? "Answers from trace activation, which is not the model"
                                                 : "Answers from leaky pools, which are not the model");
    }
    return worst <= 0.05 ? 0 : 1;
}
