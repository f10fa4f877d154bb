#pragma once

#include <string>
#include <vector>

#include "cli/context.hpp"
#include "content/contents.hpp"
#include "content/trade_data.hpp"
#include "practice/job/job.hpp"

namespace cli {

/// The trade's tables and rules in the contents. Throws Failure (bad_data) after telling every fault.
[[nodiscard]] content::TradeData trade_in(const Context& context, const content::Contents& contents);

/// The points that bear on a job. Throws Failure (usage) when the words state facts that are none.
[[nodiscard]] practice::JobBrief brief_for(const Context& context, const content::Contents& contents,
                                           const content::TradeData& trade, const practice::JobFor& what);

}  // namespace cli
