// Ways of choosing what is asked, on simulated learners that are not the recall model. Run by hand, see docs/model.md.
//
//     bench_policies speed                          1,000 learners, 600 points, 90 days: seconds for the own order
//     bench_policies grid KNOWN STAKES [FIRST [SEEDS [LEARNERS]]]
//         KNOWN   families (half known, whole families), scattered (.4, partly known), none
//         STAKES  plain, or stakes (1.5, 1.3, 1, .8; weighted recall)
//         Both generators, 200 points in 60 days and 600 in 90, 4, 8 and 15 minutes a day, as a table in Markdown.
//         Seeds 101 to 110 with 12 learners each unless said; the order was tuned on seeds 1 to 8.
#include <algorithm>
#include <array>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>
#include <vector>

#include "memory/rehearsal/rehearse.hpp"

namespace {

using namespace memory::rehearsal;

struct Grid {
    std::string_view known = "families";
    bool stakes = false;
    base::Seed first = 101;
    std::size_t seeds = 10, learners = 12;
};

struct Cell {
    Generator generator = Generator::trace;
    std::size_t points = 200, days = 60;
    int minutes = 4;
};

using Outcomes = std::vector<Outcome>;

Plan plan_of(const Grid& grid, const Cell& cell, base::Seed seed) {
    Plan plan;
    plan.generator = cell.generator;
    plan.crowd.learners = grid.learners;
    plan.crowd.points = cell.points;
    plan.crowd.by_family = grid.known == "families";
    plan.crowd.share_known = grid.known == "none" ? 0 : plan.crowd.by_family ? 0.5 : 0.4;
    if (grid.stakes) plan.crowd.weights = {1.5, 1.3, 1.0, 0.8};
    plan.days = cell.days;
    plan.seconds_a_day = 60.0 * cell.minutes;
    plan.seed = seed;
    plan.policies = policies();
    plan.threads = 2;
    return plan;
}

/// The outcomes of all learners of all seeds, by policy.
std::vector<Outcomes> played(const Grid& grid, const Cell& cell) {
    std::vector<Outcomes> all(policies().size());
    for (base::Seed seed = grid.first; seed < grid.first + grid.seeds; ++seed) {
        const auto results = rehearse(plan_of(grid, cell, seed));
        for (std::size_t n = 0; n < results.size(); ++n)
            all[n].insert(all[n].end(), results[n].learners.begin(), results[n].learners.end());
    }
    return all;
}

Estimate over(const Grid& grid, const Outcomes& one, const Outcomes& other) {
    const auto figure = grid.stakes ? &Outcome::weighted_recall : &Outcome::recall;
    std::vector<double> differences;
    for (std::size_t n = 0; n < one.size(); ++n) differences.push_back(one[n].*figure - other[n].*figure);
    return estimate(differences);
}

void tell(const Grid& grid) {
    std::printf(
        "Known: %s; %s; seeds %llu to %llu, %zu learners each. Recall at the exam; the others less rotation.\n\n",
        std::string{grid.known}.c_str(), grid.stakes ? "weighted by stakes" : "all points alike",
        static_cast<unsigned long long>(grid.first), static_cast<unsigned long long>(grid.first + grid.seeds - 1),
        grid.learners);
    std::printf("| memory, points, minutes a day |");
    for (const auto& policy : policies()) std::printf(" %s |", std::string{policy.name}.c_str());
    std::printf("\n|---|");
    for (std::size_t n = 0; n < policies().size(); ++n) std::printf("---|");
    std::printf("\n");
    std::vector<double> sums(policies().size());
    std::vector<int> below(policies().size());
    const std::array<std::pair<std::size_t, std::size_t>, 2> sizes = {{{200, 60}, {600, 90}}};
    int cells = 0;
    for (const auto generator : {Generator::trace, Generator::pools})
        for (const auto& [points, days] : sizes)
            for (const int minutes : {4, 8, 15}) {
                const auto all = played(grid, {generator, points, days, minutes});
                const auto nothing = Outcomes(all[0].size());
                std::printf("| %s, %zu, %d | %.3f |", generator == Generator::trace ? "traces" : "pools", points,
                            minutes, over(grid, all[0], nothing).mean);
                for (std::size_t n = 1; n < all.size(); ++n) {
                    const auto gain = over(grid, all[n], all[0]);
                    std::printf(" %+.3f ± %.3f |", gain.mean, gain.se);
                    sums[n] += gain.mean;
                    below[n] += gain.mean < -gain.se ? 1 : 0;
                }
                std::printf("\n");
                std::fflush(stdout);
                ++cells;
            }
    std::printf("| mean; cells below by more than the error | |");
    for (std::size_t n = 1; n < sums.size(); ++n) std::printf(" %+.3f; %d |", sums[n] / cells, below[n]);
    std::printf("\n");
}

void tell_speed() {
    Plan plan;
    plan.crowd.learners = 1000;
    plan.crowd.points = 600;
    plan.days = 90;
    plan.seconds_a_day = 600;
    plan.policies = {*find_policy("own")};
    plan.threads = 2;
    for (const auto generator : {Generator::trace, Generator::pools}) {
        plan.generator = generator;
        const auto start = std::chrono::steady_clock::now();
        const auto results = rehearse(plan);
        const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
        std::printf("%s: 1,000 learners, 600 points, 90 days, 10 minutes a day: %.1f s (recall %.3f)\n",
                    generator == Generator::trace ? "traces" : "pools", seconds, results[0].recall.level.mean);
    }
}

}  // namespace

int main(int argc, char** argv) {
    const std::string_view what = argc > 1 ? argv[1] : "speed";
    if (what == "speed") {
        tell_speed();
        return 0;
    }
    if (argc < 4) return 64;
    Grid grid;
    grid.known = argv[2];
    grid.stakes = std::string_view{argv[3]} == "stakes";
    if (argc > 4) grid.first = static_cast<base::Seed>(std::atoll(argv[4]));
    if (argc > 5) grid.seeds = static_cast<std::size_t>(std::atoll(argv[5]));
    if (argc > 6) grid.learners = static_cast<std::size_t>(std::atoll(argv[6]));
    tell(grid);
    return 0;
}
