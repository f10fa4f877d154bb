#pragma once

#include <vector>

#include "trade/switching/arrangement.hpp"

/// The arrangements by family; arrangement.hpp has the whole list.
namespace trade::switching {

/// One light or two, each switched from one place.
[[nodiscard]] std::vector<Arrangement> single_pole_arrangements();
/// Three-way and four-way switching.
[[nodiscard]] std::vector<Arrangement> multi_point_arrangements();
/// Half-switched receptacles and a multiwire circuit.
[[nodiscard]] std::vector<Arrangement> receptacle_arrangements();

}  // namespace trade::switching
