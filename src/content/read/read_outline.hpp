#pragma once

#include <string_view>

#include "base/located_json.hpp"
#include "content/outline.hpp"

namespace content {

inline constexpr std::string_view kOutlineFormat = "greentag-outline/1";

/// An exam outline over a whole document, one to a file. Every fault is noted through the reader, such as minutes that
/// are none, a pass mark outside (0,1] and a missing basis; what could be read is given.
[[nodiscard]] Outline read_outline(const base::Reader& document);

}  // namespace content
