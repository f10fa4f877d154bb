#pragma once

#include <vector>

#include "content/differences.hpp"
#include "store/answer_log.hpp"

namespace practice {

/// The points among the differences that someone has learned and has to learn anew: answered at least once, and said
/// differently since (a new article number alone counts, since look-ups are asked too).
[[nodiscard]] std::vector<base::PointId> to_relearn(const std::vector<content::Difference>& differences,
                                                    const store::RecallStates& states);

}  // namespace practice
