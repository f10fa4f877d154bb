#pragma once

#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

#include "cli/verb.hpp"

namespace cli {

/// A command line that makes sense.
struct Parsed {
    const Verb* verb = nullptr;
    Values values;
};

/// Reads a command line. Help and version are printed to `out`, complaints with the nearest known word to `err`.
/// Nothing when the program should end with `status`.
[[nodiscard]] std::optional<Parsed> parse(const std::vector<std::string>& arguments, std::ostream& out,
                                          std::ostream& err, base::Exit& status);

[[nodiscard]] std::string version_text();

}  // namespace cli
