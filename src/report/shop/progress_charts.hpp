#pragma once

#include <string>

#include "practice/shop/progress.hpp"

namespace report {

/// Charts of one learner's progress, each an SVG of its own with title and description; ids begin with "progress-".

/// Mean recall over the points met, from the first answer until now.
[[nodiscard]] std::string history_svg(const practice::Progress& progress);
/// The same of one topic, a line without words beside a table row: the row has the figures. `id` is unlike any other
/// on the page.
[[nodiscard]] std::string topic_line_svg(const practice::TopicProgress& topic, const std::string& id);
/// What is left if nothing is studied: all points met, and those of shock stakes.
[[nodiscard]] std::string forecast_svg(const practice::Progress& progress);
/// Answers in each of the last 26 weeks, right and wrong.
[[nodiscard]] std::string weeks_svg(const practice::Progress& progress);
/// Share right by how sure, with the interval that holds the true share in 95 of 100 cases.
[[nodiscard]] std::string sure_svg(const practice::Progress& progress);
/// Median seconds by form, with the middle half of the answers.
[[nodiscard]] std::string times_svg(const practice::Progress& progress);

}  // namespace report
