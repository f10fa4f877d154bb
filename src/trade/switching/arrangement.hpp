#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "trade/switching/circuit.hpp"
#include "trade/table.hpp"

namespace trade::switching {

/// A way of wiring switches and loads, sound. Whether a box needs a neutral for a switch is a matter of edition and is
/// not told here; several of these are found in older work only.
struct Arrangement {
    std::string id;     ///< kebab-case, stable
    std::string title;  ///< in trade words
    std::string about;  ///< where the feed comes in, where the conductors run
    Basis basis;
    Circuit circuit;
};

/// Every arrangement known, built once.
[[nodiscard]] const std::vector<Arrangement>& arrangements();
/// Null for an id that is not known.
[[nodiscard]] const Arrangement* find_arrangement(std::string_view id);

}  // namespace trade::switching
