#pragma once

#include <functional>
#include <ostream>
#include <string>

namespace cli {

/// Writes a file whole or not at all: beside its place first, then renamed. One that was there is replaced.
/// Throws Failure: cannot_write for a place that takes no file, io_error when it could not be written whole.
void write_whole(const std::string& path, const std::function<void(std::ostream&)>& write);

}  // namespace cli
