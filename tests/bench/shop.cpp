// What a lead's week takes: the plan of a year and the sheets of a meeting for thirty learners, an exam drawn from five
// thousand questions, a report over a hundred thousand answers; each beside a floor measured in the same run, the best
// of five rounds. Run by hand: see docs/quality.md.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "base/random.hpp"
#include "content/library.hpp"
#include "memory/model.hpp"
#include "practice/exam/paper.hpp"
#include "store/store.hpp"

namespace {

namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;

constexpr int kLearners = 30, kAnswersEach = 300, kAnswersOfOne = 100'000;
constexpr std::size_t kQuestions = 5000, kSections = 10, kAsked = 80;
const base::Instant kNow = base::from_milliseconds(1'772'434'800'000);  // 2 March 2026, 07:00

double best_ms(const std::function<void()>& once) {
    double best = 1e300;
    for (int i = 0; i < 5; ++i) {
        const auto start = Clock::now();
        once();
        best = std::min(best, std::chrono::duration<double, std::milli>(Clock::now() - start).count());
    }
    return best;
}

/// A data home with so many learners who have answered at random over the last hundred days.
class Home {
public:
    Home(const std::string& name, const content::Library& library, int learners, int answers)
        : path_{(fs::temp_directory_path() / ("greentag-bench-" + name)).string()} {
        fs::remove_all(path_);
        fs::create_directories(path_);
        store::Store store{{path_ + "/greentag.db", true, memory::advance, 1}};
        base::Random random{7};
        std::vector<store::AnswerRecord> records;
        for (int n = 0; n < learners; ++n) {
            store::Learner learner;
            learner.name = "Learner " + std::to_string(n + 1);
            learner.edition = 2023;
            learner = store.add_learner(learner, base::after_days(kNow, -120));
            for (int i = 0; i < answers; ++i) records.push_back(answer(library, learner, random));
        }
        store.append_all(records);
        store.settle();
    }
    Home(const Home&) = delete;
    Home& operator=(const Home&) = delete;
    ~Home() { fs::remove_all(path_); }

    void run(const std::string& words) const {
        const std::string line = std::string{GREENTAG_BINARY} + " --home " + path_ +
                                 " --now 2026-03-02T07:00Z --seed 1 " + words + " >/dev/null";
        if (std::system(line.c_str()) != 0) std::abort();
    }
    [[nodiscard]] const std::string& path() const { return path_; }

private:
    static store::AnswerRecord answer(const content::Library& library, const store::Learner& learner,
                                      base::Random& random) {
        const auto& points = library.index().points;
        store::AnswerRecord record;
        record.learner = learner.id;
        record.point = points[static_cast<std::size_t>(random.below(points.size()))].id;
        record.question = {record.point.text + "#a"};
        record.edition = 2023;
        record.asked_at = base::after_days(kNow, -100.0 * random.unit());
        record.took_ms = 5000 + static_cast<std::int64_t>(random.below(40'000));
        record.mark = random.below(4) == 0 ? 0.0 : 1.0;
        record.sure = static_cast<memory::Sure>(random.below(3));
        record.given = "a";
        return record;
    }

    std::string path_;
};

void tell(const char* what, double took, const char* floor_is, double floor, double goal) {
    std::printf("%s: %.1f ms; floor, %s: %.1f ms; ratio %.1f (goal %.0f ms)\n", what, took, floor_is, floor,
                took / floor, goal);
}

void year_and_meeting(const content::Library& library) {
    const Home home{"crew", library, kLearners, kAnswersEach};
    const double start = best_ms([&] { home.run("crew list"); });
    const double contents = best_ms([&] { home.run("find grounding"); });
    tell("the plan of a year for 30 learners", best_ms([&] { home.run("week plan --fresh"); }), "reading all content",
         contents, 1000);
    tell("planning a meeting for 30 learners", best_ms([&] { home.run("meeting plan --again"); }), "start and crew",
         start, 1000);
    tell("their sheets", best_ms([&] { home.run("meeting sheet --html " + home.path() + "/sheets.html"); }),
         "start and crew", start, 1000);
}

void exam() {
    content::Outline outline;
    outline.id = "bench";
    std::vector<std::vector<practice::Candidate>> candidates(kSections);
    base::Random random{3};
    for (std::size_t n = 0; n < kQuestions; ++n) {
        const std::string point = "bench.point-" + std::to_string(n / 3);
        candidates[n % kSections].push_back({{point + "#" + std::to_string(n)}, {point}, false, random.unit()});
    }
    for (std::size_t n = 0; n < kSections; ++n) {
        outline.sections.emplace_back();
        outline.sections.back().id = "s" + std::to_string(n);
    }
    practice::PaperFor what{&outline, trade::Edition::e2023, practice::Division(kSections, kAsked / kSections), 1};
    std::size_t asked = 0;
    const double took = best_ms([&] {
        ++what.seed;
        asked += practice::assemble(what, candidates)->items.size();
    });
    const double floor = best_ms([&] {
        const auto copy = candidates;
        asked += copy.front().size();
    });
    if (asked == 0) std::abort();
    tell("an exam of 80 from 5,000 questions", took, "copying the questions", floor, 100);
}

void report(const content::Library& library) {
    const Home home{"one", library, 1, kAnswersOfOne};
    std::size_t right = 0;
    const double floor = best_ms([&] {
        store::Store store{{home.path() + "/greentag.db", false, memory::advance, 1}};
        store.for_each_answer([&](const store::AnswerRecord& record) { right += record.mark > 0.5 ? 1 : 0; });
    });
    if (right == 0) std::abort();
    tell("report over 100,000 answers of one learner", best_ms([&] { home.run("report"); }), "reading the log", floor,
         300);
    tell("the same as a page", best_ms([&] { home.run("report --html " + home.path() + "/report.html"); }),
         "reading the log", floor, 300);
}

}  // namespace

int main() {
    const auto library = content::open_library({PROJECT_FOLDER}, "").value();
    year_and_meeting(library);
    exam();
    report(library);
}
