#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "base/instant.hpp"
#include "base/random.hpp"
#include "memory/model.hpp"

namespace memory::rehearsal {

/// Study to look ahead over, from where one learner stands, under the program's own rule. The recall model is taken for
/// the truth: so it says what would come of a plan as far as the model is right.
struct Ahead {
    base::Instant first_day;                            ///< midnight; not before the last answer's day
    std::size_t days = 0;                               ///< of study, one sitting each
    double seconds_a_day = 0;                           ///< of asking
    double recalled_seconds = 10, failed_seconds = 25;  ///< that an answer takes
    base::Instant exam;                                 ///< after the last sitting
    std::vector<RecallState> states;                    ///< of each point, now
    std::vector<std::uint32_t> families;
    std::vector<double> weights;  ///< stakes, > 0
    base::Seed seed = 1;
    unsigned threads = 1;  ///< the result does not depend on it
};

/// Plays the study once for each draw of what is believed.
/// Takes   parameters by draw and point.
/// Gives   the chance of each point at the exam, by draw and point. Draws meet the same luck in every plan.
[[nodiscard]] std::vector<std::vector<double>> look_ahead(const Ahead& ahead,
                                                          const std::vector<std::vector<Parameters>>& draws);

}  // namespace memory::rehearsal
