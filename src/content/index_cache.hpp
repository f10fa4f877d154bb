#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "content/library.hpp"

namespace content {

/// The index as bytes, for a file that spares the next start the reading of every deck.
/// Layout: a magic line with the format's number, then counted fields in the order of the structures, little-endian;
/// last a checksum over all before it. docs/formats/index-cache.md tells it byte by byte.
[[nodiscard]] std::string to_bytes(const Index& index);

/// Nothing when the bytes are of another format, cut short or damaged: the index is then simply made anew.
[[nodiscard]] std::optional<Index> from_bytes(std::string_view bytes);

}  // namespace content
