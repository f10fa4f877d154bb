#pragma once

#include "base/exit_status.hpp"
#include "cli/context.hpp"
#include "practice/session.hpp"

namespace cli {

/// A session on the terminal, or from a pipe with one answer a line. With --json the document goes to standard output
/// and the screens to the error stream.
[[nodiscard]] base::Exit study_on_screen(Context& context, practice::Session& session);

}  // namespace cli
