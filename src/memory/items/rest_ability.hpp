#pragma once

#include <cstddef>
#include <vector>

#include "memory/items/logistic_items.hpp"
#include "memory/items/response_matrix.hpp"

namespace memory {

/// What a learner's answers to the other items say of ability, for one answer.
struct RestAbility {
    double mean = 0;         ///< ability after the other answers, the learners' standard deviation being 1
    std::size_t others = 0;  ///< how many those are; with none the mean is 0 and says nothing
};

/// One for each answer of the matrix, in its order.
///
/// The usual rest score (right answers less the item itself) compares learners only when all answered the same items.
/// Here each learner's other answers are weighed by how hard their items are: the mean of ability after those answers
/// under the one-parameter model fitted to the whole matrix, held by ItemPrior. It rises with the rest score and equals
/// it in order when all answered everything. What the answer itself says stays
/// out, so that an item does not agree with itself; it enters only through the fit's items, where it counts little.
[[nodiscard]] std::vector<RestAbility> rest_abilities(const ResponseMatrix& matrix);

}  // namespace memory
