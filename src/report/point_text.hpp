#pragma once

#include <string>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "content/deck.hpp"
#include "report/style.hpp"

namespace report {

// A point or a service call in full, answers included, for whoever keeps the content.

[[nodiscard]] std::vector<std::string> point_text(const content::Point& point, const Page& page);
[[nodiscard]] std::vector<std::string> scenario_text(const content::Scenario& scenario, const Page& page);
[[nodiscard]] nlohmann::ordered_json point_json(const content::Point& point);
[[nodiscard]] nlohmann::ordered_json scenario_json(const content::Scenario& scenario);

}  // namespace report
