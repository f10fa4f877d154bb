#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/fault.hpp"

namespace content {

/// One content file as it lies on disk.
struct SourceFile {
    std::string path;        ///< as it will be opened and named in findings
    std::uint32_t root = 0;  ///< which of the roots it came from; later ones lie over earlier ones
    std::uint64_t size = 0;
    std::int64_t changed_ns = 0;  ///< time of last change, nanoseconds

    friend bool operator==(const SourceFile&, const SourceFile&) = default;
};

/// Bytes [begin, end) of one of the files, by its number in a list of them.
struct Slice {
    std::uint32_t file = 0;
    std::uint64_t begin = 0, end = 0;
};

/// Every *.json below decks/ and scenarios/ of each root, in a fixed order.
/// Errors: a root that is not there, or that holds neither folder.
[[nodiscard]] base::Checked<std::vector<SourceFile>> find_sources(const std::vector<std::string>& roots);

/// The whole text. Errors: a file that cannot be read; bytes that are not UTF-8, with the line.
[[nodiscard]] base::Checked<std::string> read_source(const std::string& path);

/// Bytes [begin, end) of a file; empty when the file no longer has them.
[[nodiscard]] std::string read_slice(const std::string& path, std::uint64_t begin, std::uint64_t end);

}  // namespace content
