#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/ids.hpp"
#include "base/quantity.hpp"
#include "content/deck.hpp"
#include "trade/edition.hpp"
#include "trade/table.hpp"

namespace content {

/// One number that the code or the trade gives, and the points that state it. The register of figures is what the
/// numbers on cards are held against.
struct Figure {
    std::string id, what;  ///< what: "Nonmetallic cable: farthest apart of supports"
    base::Quantity value;  ///< wire sizes past 1 AWG go on downwards: 1/0 is 0
    std::string article;   ///< may be empty for practice of the trade
    trade::EditionRange editions;
    trade::Basis basis;
    std::optional<Check> check;  ///< worked out again from a table or by a calculator
    std::vector<base::PointId> points;
    Place place;
};

}  // namespace content
