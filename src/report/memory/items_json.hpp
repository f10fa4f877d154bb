#pragma once

#include <nlohmann/json_fwd.hpp>

#include "practice/item_log.hpp"

namespace report {

/// {"ok", "learners", "answers", "repeats", "model", "items"}: each item with its shares, discrimination, logistic
/// parameters, times, options and flags. What cannot be said is null.
[[nodiscard]] nlohmann::ordered_json items_json(const practice::ItemLog& log, const practice::ItemFigures& figures);

}  // namespace report
