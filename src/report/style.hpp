#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace report {

/// The paper that text is set on.
struct Page {
    std::size_t width = 80;
    bool color = false;
};

enum class Ink { plain, bold, faint, good, bad, warn };

/// The text in an ink; unchanged on a page without colour.
[[nodiscard]] std::string inked(const Page& page, Ink ink, std::string_view text);

/// Adds `text`, wrapped to the page, each line in the ink.
void add(std::vector<std::string>& lines, const Page& page, std::string_view text, std::size_t indent = 0,
         Ink ink = Ink::plain);

/// "  a) text" with later lines under the text.
void add_hanging(std::vector<std::string>& lines, const Page& page, const std::string& head, std::string_view text,
                 Ink ink = Ink::plain);

/// A name and its count, plural where it is not one: "1 point", "3 points".
[[nodiscard]] std::string counted(std::size_t count, const std::string& noun);

/// A stretch of days in words a person uses: "12 minutes", "3 days", "over 2 years".
[[nodiscard]] std::string stretch(double days);

/// Text filled up with spaces to a width in columns.
[[nodiscard]] std::string padded(std::string_view text, std::size_t width);

}  // namespace report
