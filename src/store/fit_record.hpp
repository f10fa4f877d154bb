#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "base/ids.hpp"
#include "base/instant.hpp"

namespace store {

/// One number that a fit of the recall model left behind. Derived from the log: it can be dropped and fitted anew.
struct FittedValue {
    std::string kind;     ///< "shared", "learner", "forgets", "point", "family", "branch"
    base::Id128 learner;  ///< all zero where it holds for everyone
    std::string name;     ///< of the parameter, point or family; empty where the learner says it all
    double value = 0;

    friend bool operator==(const FittedValue&, const FittedValue&) = default;
};

/// One run of the fit, kept or not.
struct FitRun {
    base::Instant made_at{};
    std::int64_t answers = 0;   ///< how many were in the log
    bool kept = false;          ///< whether its values were taken
    double log_loss = 0;        ///< nats an answer on held-back answers; 0 when there were too few to hold any back
    double prior_log_loss = 0;  ///< of the shipped parameters on the same

    friend bool operator==(const FitRun&, const FitRun&) = default;
};

}  // namespace store
