#pragma once

#include "base/exit_status.hpp"
#include "cli/context.hpp"
#include "practice/session.hpp"

namespace cli {

/// The session as JSON Lines: one ask out, one answer in, one result out, the summary last.
/// docs/formats/study-lines.md gives every field.
[[nodiscard]] base::Exit study_by_lines(Context& context, practice::Session& session);

}  // namespace cli
