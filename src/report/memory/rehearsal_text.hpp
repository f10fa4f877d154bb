#pragma once

#include <string>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "memory/rehearsal/rehearse.hpp"
#include "report/style.hpp"

namespace report {

/// What a rehearsal under one generator of answers came to.
struct Rehearsed {
    std::string generator;  ///< in a word
    memory::rehearsal::Plan plan;
    std::vector<memory::rehearsal::PolicyResult> results;
};

/// A table for each generator: recall at the exam by policy, and how far from rotation, with standard errors.
[[nodiscard]] std::vector<std::string> rehearsal_text(const std::vector<Rehearsed>& all, const Page& page);

/// One line for each generator and policy (RFC 4180), the plan in the first columns.
[[nodiscard]] std::string rehearsal_csv(const std::vector<Rehearsed>& all);

/// Recall at the exam by generator and policy with its 90 % interval, as an SVG picture.
[[nodiscard]] std::string rehearsal_svg(const std::vector<Rehearsed>& all);

/// {"ok", "rehearsals": [{"generator", "plan", "policies"}]}.
[[nodiscard]] nlohmann::ordered_json rehearsal_json(const std::vector<Rehearsed>& all);

}  // namespace report
