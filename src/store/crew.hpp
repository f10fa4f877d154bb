#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/ids.hpp"
#include "base/instant.hpp"

namespace store {

/// Someone who studies.
struct Learner {
    base::Id128 id;
    std::string name;
    std::optional<int> edition;  ///< year; empty: the jurisdiction's
    std::string jurisdiction;    ///< id; may be empty
    std::optional<base::Instant> exam_at;
    base::Instant added_at{};
    std::optional<base::Instant> retired_at;  ///< left; answers are kept

    friend bool operator==(const Learner&, const Learner&) = default;
};

}  // namespace store
