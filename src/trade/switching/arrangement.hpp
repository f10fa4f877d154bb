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

/// Their ids in that order. Written down, since every start of the program names them and building them all takes time.
inline constexpr std::string_view kArrangementIds =
    "single-pole-feed-at-switch|single-pole-feed-at-light|single-pole-feed-between|two-lights-in-parallel|"
    "two-lights-two-switches|fan-and-light|three-way-feed-at-s1-light-after-s2|three-way-feed-at-light-dead-end|"
    "three-way-feed-and-light-in-middle|three-way-feed-at-s1-light-between|four-way-feed-at-s1-light-after-s3|"
    "four-way-feed-at-light-dead-end|half-switched-receptacle-feed-at-receptacle|"
    "half-switched-receptacle-feed-at-switch|multiwire-shared-neutral";

/// Null for an id that is not known.
[[nodiscard]] const Arrangement* find_arrangement(std::string_view id);

}  // namespace trade::switching
