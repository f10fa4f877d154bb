#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "trade/work/calculator.hpp"

namespace trade {

/// What is found in one box. Empty: not said. Sizes up to 6 AWG have a volume.
struct BoxFill {
    std::optional<std::vector<Item>> conductors;  ///< end or are spliced in the box; without equipment grounds
    std::vector<Item> pass_through;               ///< run through unbroken
    std::vector<Item> loops;                      ///< unbroken, with a loop of at least twice the free length
    std::optional<std::vector<Item>> grounds;     ///< equipment grounds and bonding jumpers that enter
    std::vector<Item> isolated_grounds;           ///< a further set of equipment grounds, for isolated receptacles
    std::optional<std::vector<Item>> devices;     ///< each with the largest conductor on it
    std::optional<bool> clamps;                   ///< one or more clamps inside the box
    int fittings = 0;                             ///< kinds of support fittings present (stud, hickey)
    std::optional<double> box;                    ///< marked volume, in3
    double ring = 0.0, extension = 0.0;           ///< volume marked on a plaster ring or extension, in3
    std::string_view family;                      ///< standard boxes to choose from: round, square, device, masonry
};

/// Volume that the contents of one box take up.
/// Gives   cubic inches, >= 0; also `allowances`; with a volume stated `available`, `spare` (negative: over) and
///         `fits`; with a family `least_box`, the smallest standard box of it that holds the contents.
/// Source  Section 314.16(B) as recalled and as worked in trade magazines (see tests/reference/box_fill.json): each
///         conductor once, a long loop twice, clamps once and each kind of support fitting once at the largest
///         conductor present, two per gang of a device at the largest conductor on it; all grounds together once
///         through 2017, with a set of isolated grounds once more; from 2020 all of them once for the first four and
///         a quarter for each one more, at the largest ground.
[[nodiscard]] Finding box_fill(const BoxFill& facts, const Setting& setting);

[[nodiscard]] Calculator box_fill_calculator();

}  // namespace trade
