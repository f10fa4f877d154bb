#pragma once

#include <vector>

#include "store/log_part.hpp"

namespace store {

/// What becomes of a crew when another joins it.
struct CrewUnion {
    std::vector<Learner> added;    ///< under the ids that they have there
    std::vector<Learner> changed;  ///< as they are from now on
    std::vector<CrewDifference> told;
};

/// Takes   two crews; `details` false when of theirs only ids and names are known.
/// Gives   the union by id. Someone whose name is here already under another id is kept apart and told.
/// Where both know a learner: of two days of leaving the later holds. Edition, jurisdiction and exam are taken from
/// there when nothing at all is said of them here. In everything else nothing tells which was changed last, so what
/// stands here is kept and the difference told. Joining a crew with itself, or again, changes nothing.
[[nodiscard]] CrewUnion unite(const std::vector<Learner>& ours, const std::vector<Learner>& theirs, bool details);

}  // namespace store
