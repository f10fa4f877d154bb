#pragma once

#include <string>

#include "trade/switching/diagram.hpp"

namespace report {

/// A wiring drawing as one SVG document that needs nothing else: boxes one below the other, cables between them, every
/// conductor named with its colour, faults marked by x and a word. The viewBox is 360 wide, so that a phone shows it
/// without scrolling sideways. `title` and `desc` tell the whole drawing in words. Text is escaped.
[[nodiscard]] std::string wiring_svg(const trade::switching::Arrangement& arrangement,
                                     const trade::switching::Fault& fault = trade::switching::nothing_wrong(),
                                     bool name_fault = true);

}  // namespace report
