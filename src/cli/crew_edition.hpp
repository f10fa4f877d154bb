#pragma once

#include <vector>

#include "cli/context.hpp"
#include "store/crew.hpp"
#include "trade/edition.hpp"

namespace cli {

/// Those who have not left.
[[nodiscard]] std::vector<store::Learner> active(const std::vector<store::Learner>& crew);

/// The edition most of them study under, the earlier of two with as many; 2023 where there is nobody.
[[nodiscard]] trade::Edition edition_of_most(const Context& context, const std::vector<store::Learner>& crew);

/// --edition, else that of --learner, else that of most of the crew; 2023 without a crew.
[[nodiscard]] trade::Edition edition_meant(const Context& context);

}  // namespace cli
