// Speed as ratios to a floor measured in the same run; the best of several rounds counts, for machines differ and
// neighbours disturb. Run by hand: see docs/quality.md. Nothing here is a test: it prints, and judges nothing.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>
#include <string>
#include <vector>

#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <nlohmann/json.hpp>

#include "base/random.hpp"
#include "memory/model.hpp"
#include "store/sqlite/db.hpp"
#include "store/store.hpp"

namespace {

namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;
using nlohmann::ordered_json;

constexpr int kPoints = 2000;
constexpr int kLearners = 25;
constexpr int kAnswers = 1'000'000;

double ms_since(Clock::time_point start) {
    return std::chrono::duration<double, std::milli>(Clock::now() - start).count();
}

double median(std::vector<double> times) {
    std::sort(times.begin(), times.end());
    return times[times.size() / 2];
}

/// The smallest median over the rounds.
double best_median(int rounds, int each, const std::function<double()>& once) {
    double best = 1e300;
    for (int r = 0; r < rounds; ++r) {
        std::vector<double> times;
        for (int i = 0; i < each; ++i) times.push_back(once());
        best = std::min(best, median(times));
    }
    return best;
}

std::string point_id(int i) {
    return "bench.point-" + std::to_string(i);
}

ordered_json made_up_point(int i) {
    ordered_json questions = ordered_json::array();
    for (int q = 0; q < 3; ++q)
        questions.push_back({{"id", std::string(1, static_cast<char>('a' + q))},
                             {"form", "choose"},
                             {"text", "Made-up question " + std::to_string(q) + " on matter " + std::to_string(i) +
                                          ", about as long as a real one tends to be in this library?"},
                             {"right", "the right option of matter " + std::to_string(i)},
                             {"wrong",
                              {{{"text", "one wrong option, long enough"}, {"mistake", "slip"}},
                               {{"text", "another wrong option, also long"}, {"mistake", "slip"}}}}});
    return {{"id", point_id(i)},
            {"title", "Matter " + std::to_string(i)},
            {"stakes", "inspection"},
            {"tags", {"bench"}},
            {"versions",
             {{{"editions", "2017-2026"},
               {"article", "110.3"},
               {"says", "A made-up rule for measuring."},
               {"basis", {{"kind", "practice"}}}}}},
            {"questions", questions}};
}

void make_library(const fs::path& root) {
    fs::create_directories(root / "decks");
    for (int deck = 0; deck < 10; ++deck) {
        const std::string name = "bench-" + std::to_string(deck);
        ordered_json points = ordered_json::array();
        for (int i = deck * kPoints / 10; i < (deck + 1) * kPoints / 10; ++i) points.push_back(made_up_point(i));
        std::ofstream{root / "decks" / (name + ".json")} << ordered_json{
            {"format", "greentag-deck/1"},
            {"deck", name},
            {"title", name},
            {"topic", name},
            {"mistakes", {{"slip", "a slip made up for measuring"}}},
            {"points", points}}.dump(1);
    }
}

std::vector<store::AnswerRecord> made_up_answers(const std::vector<base::Id128>& learners, int count) {
    base::Random random{7};
    base::IdMaker ids{11};
    std::vector<store::AnswerRecord> all;
    all.reserve(static_cast<std::size_t>(count));
    base::Instant at = base::from_milliseconds(1'700'000'000'000);
    for (int i = 0; i < count; ++i) {
        at += std::chrono::seconds{30};
        store::AnswerRecord record;
        record.id = ids.make(at);
        record.learner = learners[static_cast<std::size_t>(random.below(learners.size()))];
        record.point.text = point_id(static_cast<int>(random.below(kPoints)));
        record.question.text = record.point.text + "#a";
        record.content = "0123456789abcdef";
        record.edition = 2023;
        record.asked_at = at;
        record.took_ms = 9000;
        record.mark = random.below(4) == 0 ? 0.0 : 1.0;
        record.given = "a";
        all.push_back(std::move(record));
    }
    return all;
}

void make_store(const std::string& path) {
    store::Store store{{path, true, memory::advance, 3}};
    std::vector<base::Id128> learners;
    for (int i = 0; i < kLearners; ++i) {
        store::Learner one;
        one.name = "Learner " + std::to_string(i);
        one.edition = 2023;
        learners.push_back(store.add_learner(one, base::from_milliseconds(1'700'000'000'000)).id);
    }
    store.append_all(made_up_answers(learners, kAnswers));
    store.rebuild();
}

struct Child {
    pid_t pid = -1;
    int in = -1, out = -1;
};

Child start(const std::vector<std::string>& arguments) {
    int to[2];
    int from[2];
    if (pipe(to) != 0 || pipe(from) != 0) std::abort();
    Child child;
    child.pid = vfork();
    if (child.pid == 0) {
        std::vector<char*> argv;
        for (const auto& a : arguments) argv.push_back(const_cast<char*>(a.c_str()));
        argv.push_back(nullptr);
        dup2(to[0], 0);
        dup2(from[1], 1);
        for (const int fd : {to[0], to[1], from[0], from[1]}) close(fd);
        execv(argv[0], argv.data());
        _exit(127);
    }
    close(to[0]);
    close(from[1]);
    child.in = to[1];
    child.out = from[0];
    return child;
}

/// Lines of a pipe; what came with a line is held for the next.
class Lines {
public:
    explicit Lines(int fd) : fd_{fd} {}
    std::string next() {
        for (;;) {
            const auto end = held_.find('\n');
            if (end != std::string::npos) {
                std::string line = held_.substr(0, end);
                held_.erase(0, end + 1);
                return line;
            }
            char buffer[8192];
            const ssize_t count = read(fd_, buffer, sizeof buffer);
            if (count <= 0) return {};
            held_.append(buffer, static_cast<std::size_t>(count));
        }
    }

private:
    int fd_;
    std::string held_;
};

long finish(const Child& child) {
    close(child.in);
    close(child.out);
    rusage usage{};
    int status = 0;
    wait4(child.pid, &status, 0, &usage);
    return usage.ru_maxrss;
}

double time_to_first_line(const std::vector<std::string>& arguments) {
    const auto begun = Clock::now();
    const Child child = start(arguments);
    const std::string line = Lines{child.out}.next();
    const double took = ms_since(begun);
    if (line.empty()) std::abort();
    finish(child);
    return took;
}

long study_and_measure_memory(const std::vector<std::string>& arguments, int asks) {
    const Child child = start(arguments);
    Lines lines{child.out};
    for (int i = 0; i < asks; ++i) {
        lines.next();
        const std::string answer = "{\"answer\":\"a\",\"took_ms\":100}\n";
        if (write(child.in, answer.data(), answer.size()) < 0) std::abort();
        lines.next();
    }
    return finish(child);
}

void bench_start(const std::string& home, const std::string& library, const std::string& floor) {
    const std::vector<std::string> study = {GREENTAG_BINARY, "--home",    home,    "--library", library,
                                            "--learner",     "Learner 3", "study", "--lines"};
    time_to_first_line(study);  // fills the cache of the index
    const double least = best_median(5, 41, [&] { return time_to_first_line({floor, home + "/greentag.db"}); });
    const double ours = best_median(5, 41, [&] { return time_to_first_line(study); });
    std::printf("start to first question, %d points, %d answers: %.2f ms; floor %.2f ms; ratio %.2f (goal 3)\n",
                kPoints, kAnswers, ours, least, ours / least);
    const long peak = study_and_measure_memory(study, 40);
    std::printf("peak memory while studying that store: %.1f MiB (goal 64)\n", static_cast<double>(peak) / 1024);
}

double raw_commit(store::sqlite::Db& db, const store::AnswerRecord& record) {
    static auto insert = db.prepare(
        "INSERT INTO t(id, learner, point, question, content, asked_at, mark, given) "
        "VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)");
    insert.bind(1, record.id);
    insert.bind(2, record.learner);
    insert.bind(3, record.point.text);
    insert.bind(4, record.question.text);
    insert.bind(5, record.content);
    insert.bind(6, base::to_milliseconds(record.asked_at));
    insert.bind(7, record.mark);
    insert.bind(8, record.given);
    const auto begun = Clock::now();
    insert.run();
    return ms_since(begun);
}

void bench_acknowledge(const fs::path& folder, const std::string& big) {
    store::sqlite::Db raw{(folder / "raw.db").string(), SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE};
    raw.run(
        "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; "
        "CREATE TABLE t(seq INTEGER PRIMARY KEY, id BLOB, learner BLOB, point TEXT, question TEXT, content TEXT, "
        "asked_at INTEGER, mark REAL, given TEXT) STRICT");
    // Other ids in every run: a store takes no answer twice.
    const auto entropy = static_cast<base::Seed>(Clock::now().time_since_epoch().count());
    store::Store store{{big, true, memory::advance, entropy}};
    const auto learners = store.learners();
    const auto sample = made_up_answers({learners[0].id}, 5000);
    std::size_t i = 0;
    std::vector<double> floors;
    std::vector<double> ours;
    // Turn about, so that what disturbs one disturbs the other.
    for (int round = 0; round < 5; ++round) {
        std::vector<double> least;
        std::vector<double> took;
        for (int n = 0; n < 400; ++n, ++i) {
            least.push_back(raw_commit(raw, sample[i]));
            const auto begun = Clock::now();
            store.append(sample[i]);
            took.push_back(ms_since(begun));
        }
        floors.push_back(median(least));
        ours.push_back(median(took));
    }
    const double floor = *std::min_element(floors.begin(), floors.end());
    const double best = *std::min_element(ours.begin(), ours.end());
    std::printf("answer acknowledged: %.3f ms; floor %.3f ms; ratio %.2f (goal 1.3)\n", best, floor, best / floor);
    store.settle();
}

void bench_rebuild(const std::string& big) {
    store::Store store{{big, true, memory::advance, 6}};
    store::sqlite::Db db{big, SQLITE_OPEN_READWRITE};
    const double least = best_median(3, 1, [&] {
        const auto begun = Clock::now();
        auto rows = db.prepare(
            "SELECT learner, point, asked_at, mark, sure FROM answer INDEXED BY answer_fold "
            "ORDER BY learner, point, asked_at, id");
        std::int64_t sum = 0;
        while (rows.step()) sum += rows.integer(2);
        if (sum == 0) std::abort();
        return ms_since(begun);
    });
    const double ours = best_median(3, 1, [&] {
        const auto begun = Clock::now();
        store.rebuild();
        return ms_since(begun);
    });
    std::printf("rebuild from %d answers: %.0f ms; floor %.0f ms; ratio %.2f (goal 5)\n", kAnswers, ours, least,
                ours / least);
}

}  // namespace

int main(int argc, char** argv) {
    std::setvbuf(stdout, nullptr, _IOLBF, 0);
    const fs::path folder = argc > 1 ? fs::path{argv[1]} : fs::temp_directory_path() / "greentag-bench";
    const auto home = folder / "home";
    const auto library = folder / "library";
    if (!fs::exists(home / "greentag.db")) {
        fs::create_directories(home);
        std::printf("making %d answers in %s\n", kAnswers, folder.c_str());
        // In a process of its own: what a child of this one weighs is counted from the weight of its parent.
        const pid_t maker = fork();
        if (maker == 0) {
            make_library(library);
            make_store((home / "greentag.db").string());
            _exit(0);
        }
        waitpid(maker, nullptr, 0);
    }
    const auto floor = (fs::path{argv[0]}.parent_path() / "bench_floor").string();
    bench_start(home.string(), library.string(), floor);
    fs::remove(folder / "raw.db");
    bench_acknowledge(folder, (home / "greentag.db").string());
    bench_rebuild((home / "greentag.db").string());
    return 0;
}
