#pragma once

#include <string>
#include <string_view>

#include "base/fault.hpp"
#include "store/log_part.hpp"

namespace store {

/// Reads what `record export` writes: docs/formats/answer-log.md. Empty lines and a byte-order mark are passed over,
/// line ends may be LF or CRLF. Gives   the answers in the order of the lines, repeats among them, and the learners
/// whom the lines name; of someone
///         with several names, the one on the line asked last. Their day is the one in their id (RFC 9562, 5.7).
/// Errors  every line that is no answer of this format, with its number: broken JSON, a member missing, twice, unknown,
///         mistyped or out of its range, another format. Not more than fifty are told.
[[nodiscard]] base::Checked<LogPart> read_log(std::string_view text, const std::string& file);

}  // namespace store
