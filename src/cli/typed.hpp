#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "memory/state.hpp"

namespace cli {

/// One line a learner typed, taken apart.
struct TypedLine {
    enum class Kind { answer, look, give_up, leave, empty };
    Kind kind = Kind::empty;
    std::string text;                  ///< the answer, without what was said about being sure
    std::optional<memory::Sure> sure;  ///< said on the same line: "b /s", "b/sure"
    std::string unread;                ///< stood after a slash and says nothing of being sure
};

[[nodiscard]] TypedLine parse_typed_line(std::string_view line);

/// "s", "sure", "f", "g", ... ; nothing for anything else.
[[nodiscard]] std::optional<memory::Sure> parse_sure_word(std::string_view word);

}  // namespace cli
