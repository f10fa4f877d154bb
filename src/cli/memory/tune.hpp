#pragma once

#include <optional>
#include <string>

#include "base/instant.hpp"
#include "content/library.hpp"
#include "store/store.hpp"

namespace cli {

/// Fits the recall model anew when the log has grown enough since the latest run.
/// Gives   a line that says what came of it; nothing when no run was due.
std::optional<std::string> tune_if_due(const content::Library& library, store::Store& store, base::Instant now);

}  // namespace cli
