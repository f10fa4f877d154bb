#pragma once

#include <string>
#include <vector>

#include "content/computed/computing.hpp"
#include "report/style.hpp"
#include "trade/finding.hpp"
#include "trade/rules/book.hpp"
#include "trade/work/calculator.hpp"

namespace report {

/// One working for people: the answer, the steps, what governs, what is missing, what to look out for.
[[nodiscard]] std::vector<std::string> finding_text(const trade::Calculator& calculator, const trade::Finding& finding,
                                                    const content::Under& under, const Page& page);

/// What the rules say of one case: what is required and why, which exceptions applied, what is still to be told.
[[nodiscard]] std::vector<std::string> ruling_text(const trade::Ruling& ruling, const trade::Vocabulary& vocabulary,
                                                   const content::Under& under, const Page& page);

/// The facts of a calculator with units and ranges, one line each.
[[nodiscard]] std::vector<std::string> facts_text(const trade::Calculator& calculator, const Page& page);

/// "2023 edition", with the jurisdiction where there is one.
[[nodiscard]] std::string under_text(const content::Under& under);

}  // namespace report
