#pragma once

#include <string>

#include "base/fault.hpp"
#include "practice/item_log.hpp"

namespace cli {

/// Answers from elsewhere as a table: the first line names the questions, each later line is a learner. A cell is 1
/// (right), 0 (wrong), or nothing or NA (not asked). A column "id" or "learner" is passed over; a column "count" says
/// how many learners answered so.
/// Errors   every cell and line that makes no sense.
[[nodiscard]] base::Checked<practice::ItemLog> read_item_matrix(const std::string& text, const std::string& file);

}  // namespace cli
