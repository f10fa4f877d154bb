#include "memory/rehearsal/learner.hpp"

#include "memory/normal.hpp"

namespace memory::rehearsal {
namespace {

/// Mixes one number after another into a seed; each step is the finish of splitmix64 (Steele, Lea & Flood 2014).
base::Seed mixed(base::Seed seed, std::uint64_t with) {
    std::uint64_t z = (seed ^ with) + 0x9e3779b97f4a7c15U;
    z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
    return z ^ (z >> 31U);
}

std::vector<Known> known_scattered(const Crowd& crowd, base::Random& random) {
    std::vector<Known> known(crowd.points);
    for (Known& one : known) {
        const bool met = random.unit() < crowd.share_known;
        const double held = random.unit();
        if (met) one = {held, false};
    }
    return known;
}

std::vector<Known> known_by_family(const Crowd& crowd, const Syllabus& syllabus, base::Random& random) {
    std::vector<bool> knows;
    std::vector<Known> known(crowd.points);
    for (std::size_t point = 0; point < crowd.points; ++point) {
        while (knows.size() <= syllabus.family[point]) knows.push_back(random.unit() < crowd.share_known);
        const double held = random.unit();
        if (knows[syllabus.family[point]]) known[point] = {held, true};
    }
    return known;
}

}  // namespace

Syllabus make_syllabus(const Crowd& crowd, base::Seed seed) {
    base::Random random{base::derive_seed(seed, "syllabus")};
    Syllabus syllabus;
    for (std::size_t point = 0; point < crowd.points; ++point) {
        syllabus.family.push_back(static_cast<std::uint32_t>(point / crowd.family_size));
        syllabus.weight.push_back(crowd.weights.empty() ? 1.0 : crowd.weights[point % crowd.weights.size()]);
        syllabus.ease.push_back(crowd.point_sd * normal(random));
    }
    random.shuffle(syllabus.weight);
    return syllabus;
}

Learner make_learner(const Crowd& crowd, const Syllabus& syllabus, base::Seed seed, std::size_t number,
                     base::Instant start) {
    Learner learner;
    learner.seed = mixed(base::derive_seed(seed, "learner"), number);
    learner.start = start;
    base::Random random{learner.seed};
    learner.ease = crowd.learner_sd * normal(random);
    learner.point_ease = syllabus.ease;
    learner.known = crowd.by_family ? known_by_family(crowd, syllabus, random) : known_scattered(crowd, random);
    return learner;
}

double outcome_draw(base::Seed learner, std::size_t point, std::size_t asked_before, bool correction) {
    const std::uint64_t which = 2 * asked_before + (correction ? 1 : 0);
    return static_cast<double>(mixed(mixed(learner, point), which) >> 11U) * 0x1.0p-53;
}

}  // namespace memory::rehearsal
