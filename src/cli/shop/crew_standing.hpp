#pragma once

#include <vector>

#include "cli/context.hpp"
#include "content/library.hpp"
#include "practice/recall.hpp"
#include "store/store.hpp"

namespace cli {

/// How a learner stands with every point now.
class Weakness {
public:
    Weakness(const Context& context, store::Store& store, const store::Learner& learner)
        : now_{context.now()}, recall_{store.fitted(learner.id), learner.id}, states_{store.states(learner.id)} {}

    [[nodiscard]] const store::RecallStates& states() const { return states_; }
    /// One less the chance of a right answer now, 0 to 1; for a point never met, of somebody who has not met it.
    [[nodiscard]] double of(const content::PointEntry& point) const;

private:
    base::Instant now_;
    practice::Recall recall_;
    store::RecallStates states_;
};

}  // namespace cli
