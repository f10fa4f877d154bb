// What the shipped library takes to open and to check, beside floors measured in the same run; the best of five rounds.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iterator>
#include <string>
#include <vector>

#include "content/check/check.hpp"
#include "content/library.hpp"
#include "content/source.hpp"

namespace {

namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;

double best_ms(int rounds, const std::function<void()>& once) {
    double best = 1e300;
    for (int i = 0; i < rounds; ++i) {
        const auto start = Clock::now();
        once();
        best = std::min(best, std::chrono::duration<double, std::milli>(Clock::now() - start).count());
    }
    return best;
}

std::size_t bytes_of(const std::string& path) {
    std::ifstream in{path, std::ios::binary};
    const std::string text{std::istreambuf_iterator<char>{in}, {}};
    return text.size();
}

}  // namespace

int main() {
    const std::vector<std::string> roots = {PROJECT_FOLDER};
    const auto cache = (fs::temp_directory_path() / "greentag-bench.cache").string();
    fs::remove(cache);
    const double cold = best_ms(1, [&] { static_cast<void>(content::open_library(roots, cache).value()); });
    std::size_t points = 0;
    const double warm = best_ms(50, [&] { points = content::open_library(roots, cache)->index().points.size(); });
    // No opening can do with less than a look at every content file and a read of the cache.
    const double floor = best_ms(50, [&] {
        if (content::find_sources(roots)->empty() || bytes_of(cache) == 0) std::abort();
    });
    std::printf("open %zu points from the cache: %.2f ms; floor %.2f ms; ratio %.1f (goal 15 ms); without it %.0f ms\n",
                points, warm, floor, warm / floor, cold);
    std::size_t faults = 0;
    const double check =
        best_ms(5, [&] { faults = content::check_contents(content::load_contents(roots).value()).size(); });
    const double load = best_ms(5, [&] { static_cast<void>(content::load_contents(roots).value()); });
    std::printf(
        "load and check everything: %.0f ms, %zu faults; floor, loading alone: %.0f ms; ratio %.1f (goal 2000 ms)\n",
        check, faults, load, check / load);
    fs::remove(cache);
    return 0;
}
