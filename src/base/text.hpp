#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace base {

/// Position of the first byte that is not well-formed UTF-8 (RFC 3629); nothing when all of it is.
[[nodiscard]] std::optional<std::size_t> first_bad_utf8(std::string_view text);

/// Columns a terminal needs, counting one for most characters and two for wide ones. Control characters count 0.
[[nodiscard]] std::size_t display_width(std::string_view text);

/// Breaks at spaces so that no line is wider than `width` columns (at least 8); a longer word stands alone and is
/// cut. Later lines begin with `indent` spaces. Line feeds in the text are kept.
[[nodiscard]] std::vector<std::string> wrap(std::string_view text, std::size_t width, std::size_t indent = 0);

/// ASCII letters made small; other bytes are left alone.
[[nodiscard]] std::string lower(std::string_view text);
[[nodiscard]] std::string_view trim(std::string_view text);
[[nodiscard]] std::vector<std::string> split(std::string_view text, char at);
/// Runs of letters, digits and the signs that numbers and articles use, made small.
[[nodiscard]] std::vector<std::string> words(std::string_view text);
[[nodiscard]] std::string join(const std::vector<std::string>& parts, std::string_view between);

/// Edits (insert, delete, replace, swap of neighbours) that turn one text into the other.
[[nodiscard]] std::size_t edit_distance(std::string_view a, std::string_view b);

/// The known word that a mistyped one most likely meant, if any is near enough to be worth saying.
[[nodiscard]] std::optional<std::string> nearest(std::string_view given, const std::vector<std::string>& known);

/// A number as a person writes it: no trailing zeros, at most `places` decimals.
[[nodiscard]] std::string number_text(double value, int places = 4);

}  // namespace base
