// Speed of the recall model's fit, in passes over the answers measured in the same run, and beside a general optimiser
// on the same answers. Run by hand: see docs/quality.md. Nothing here is a test: it prints, and judges nothing.
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "bench/fit_data.hpp"
#include "memory/fit/fit.hpp"

namespace {

using Clock = std::chrono::steady_clock;

constexpr base::Seed kSeed = 20;
constexpr int kPasses = 9;
// The interpreter of the system, which is the one that scipy is packaged for.
constexpr const char* kPython = "/usr/bin/python3";

double seconds(const std::function<void()>& work) {
    const auto start = Clock::now();
    work();
    return std::chrono::duration<double>(Clock::now() - start).count();
}

double median_seconds(const std::function<void()>& work) {
    std::vector<double> times;
    for (int n = 0; n < kPasses; ++n) times.push_back(seconds(work));
    std::sort(times.begin(), times.end());
    return times[times.size() / 2];
}

memory::Observations made_up(const bench::CrewCounts& counts) {
    memory::Observations data;
    const double took = seconds([&] { data = bench::simulated_crew(counts, kSeed); });
    const auto recalled =
        std::count_if(data.rows.begin(), data.rows.end(), [](const auto& row) { return row.recalled; });
    std::printf(
        "crew: %zu answers of %zu learners on %zu points, %zu families; %.0f %% recalled, %zu unknowns; "
        "made up and folded in %.1f s\n",
        data.rows.size(), data.learners, data.points, data.families,
        100.0 * static_cast<double>(recalled) / static_cast<double>(std::max<std::size_t>(1, data.rows.size())),
        memory::Places{data}.size(), took);
    return data;
}

/// Seconds of one pass for loss and gradient: what the whole fit is told in.
double bench_pass(const memory::Observations& data, const memory::Priors& priors) {
    const auto at = memory::at_prior(memory::Places{data}, priors);
    memory::Curvature curvature{data, memory::prior_precision(memory::Places{data}, priors)};
    double kept = 0;  // so that no pass is thought useless and left out
    const double alone = median_seconds([&] { kept += memory::loss_at(data, at, priors).value; });
    const double curved = median_seconds([&] { kept += memory::loss_at(data, at, priors, curvature).value; });
    if (!std::isfinite(kept)) std::printf("the loss is not finite\n");
    std::printf("loss and gradient: %.1f ms a pass, %.1f ns an answer; with curvature %.1f ms, %.2f times that\n",
                alone * 1e3, alone * 1e9 / static_cast<double>(std::max<std::size_t>(1, data.rows.size())),
                curved * 1e3, curved / alone);
    return alone;
}

struct Ours {
    memory::Fitted fitted;
    double took = 0;
};

Ours bench_fit(const memory::Observations& data, const memory::Priors& priors, double pass) {
    Ours ours;
    ours.took = seconds([&] { ours.fitted = memory::fit(data, priors); });
    const auto& fitted = ours.fitted;
    std::printf("fit: %.2f s, the time of %.0f passes; %zu passes with %zu steps, %s, loss %.6f, %.1e nats left\n",
                ours.took, ours.took / pass, fitted.passes, fitted.steps,
                fitted.converged ? "converged" : "NOT converged", fitted.value, fitted.left);
    return ours;
}

std::optional<nlohmann::json> run_scipy(const std::string& file) {
    const std::string command =
        std::string{kPython} + " '" + PROJECT_FOLDER + "/tests/bench/fit_scipy.py' '" + file + "'";
    std::string said;
    FILE* pipe = popen(command.c_str(), "r");
    if (pipe == nullptr) return std::nullopt;
    for (int c = std::fgetc(pipe); c != EOF; c = std::fgetc(pipe)) said += static_cast<char>(c);
    if (pclose(pipe) != 0) return std::nullopt;
    auto told = nlohmann::json::parse(said, nullptr, false);
    if (told.is_discarded()) return std::nullopt;
    return told;
}

void bench_scipy(const std::string& file, const memory::Observations& data, const memory::Priors& priors,
                 const Ours& ours, double pass) {
    if (std::system((std::string{kPython} + " -c 'import numpy, scipy.optimize' 2> /dev/null").c_str()) != 0) {
        std::printf("scipy: not here, left out\n");
        return;
    }
    if (!bench::write_fit_data(file, data, priors)) {
        std::printf("scipy: %s could not be written\n", file.c_str());
        return;
    }
    const auto told = run_scipy(file);
    if (!told) {
        std::printf("scipy: failed\n");
        return;
    }
    const double took = told->at("seconds");
    std::printf("scipy, L-BFGS-B: %.2f s, %d passes of %.1f ms (%.2f of ours), %.2f times the time of our fit\n", took,
                told->at("passes").get<int>(), told->at("seconds_per_pass").get<double>() * 1e3,
                told->at("seconds_per_pass").get<double>() / pass, took / ours.took);
    std::printf("scipy's loss %.6f, above ours by %.1e nats (%s)\n", told->at("objective").get<double>(),
                told->at("objective").get<double>() - ours.fitted.value, told->at("ended").get<std::string>().c_str());
    double apart = 0;
    for (std::size_t k = 0; k < memory::kShared; ++k)
        apart = std::max(apart, std::abs(told->at("shared").at(k).get<double>() - ours.fitted.at[k]));
    std::printf("shared parameters at most %.1e apart\n", apart);
}

}  // namespace

/// fit_bench [ANSWERS [FILE]]: how many answers are made up, and where what scipy reads is kept.
int main(int argc, char** argv) {
    std::setvbuf(stdout, nullptr, _IOLBF, 0);
    bench::CrewCounts counts;
    if (argc > 1) counts.answers = std::strtoull(argv[1], nullptr, 10);
    const auto data = made_up(counts);
    const auto priors = memory::shipped_priors();
    const double pass = bench_pass(data, priors);
    const Ours ours = bench_fit(data, priors, pass);
    const bool keep = argc > 2;
    const auto file =
        keep ? std::filesystem::path{argv[2]} : std::filesystem::temp_directory_path() / "greentag-fit-bench.bin";
    bench_scipy(file.string(), data, priors, ours, pass);
    if (!keep) std::filesystem::remove(file);
    return 0;
}
