#pragma once

#include "base/fault.hpp"
#include "base/quantity.hpp"
#include "content/contents.hpp"
#include "trade/edition.hpp"
#include "trade/work/calculator.hpp"

namespace content {

/// Works a number out again as a check says: from a table row, by a calculator, or as a sum.
/// Takes   tables: null when they have faults; then calculators give nothing and say nothing.
/// Gives   the value, in the unit of the table or the calculator; a sum has none.
/// Errors  what is missing or cannot be worked out, without a place: the caller knows whose check it is. No fault
///         at all when the tables are at fault.
[[nodiscard]] base::Checked<base::Typed> recompute(const Contents& contents, const trade::Tables* tables,
                                                   const Check& check, trade::Edition edition);

}  // namespace content
