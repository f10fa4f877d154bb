#pragma once

#include <string>

#include "base/random.hpp"
#include "memory/fit/observations.hpp"
#include "memory/fit/unknowns.hpp"

namespace bench {

/// How many of what a made-up crew has. Every learner gives the same number of answers.
struct CrewCounts {
    std::size_t learners = 200, points = 1'500, families = 12, answers = 1'000'000;
    double days = 365;  ///< over which a learner's answers are spread evenly
};

/// The answers of a made-up crew: truth drawn from the shipped priors, points asked at random, answers drawn from the
/// model itself.
[[nodiscard]] memory::Observations simulated_crew(const CrewCounts& counts, base::Seed seed);

/// Writes the observations and the priors in the format that fit_scipy.py describes.
/// Gives   whether everything was written. Little-endian machines only.
[[nodiscard]] bool write_fit_data(const std::string& path, const memory::Observations& data,
                                  const memory::Priors& priors);

}  // namespace bench
