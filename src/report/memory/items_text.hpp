#pragma once

#include <string>
#include <vector>

#include "practice/item_log.hpp"
#include "report/style.hpp"

namespace report {

/// Which questions want looking at, and why. With `all` the figures of every question too.
[[nodiscard]] std::vector<std::string> items_text(const practice::ItemLog& log, const practice::ItemFigures& figures,
                                                  bool all, const Page& page);

}  // namespace report
