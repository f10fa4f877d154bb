#pragma once

#include <string>
#include <vector>

#include "practice/session.hpp"
#include "report/style.hpp"

namespace report {

/// What a session with an open book opens with.
[[nodiscard]] std::vector<std::string> look_up_opening(const practice::SessionFor& what,
                                                       const practice::LookUpPicker& look_ups, const Page& page);

/// What a session with an open book ends with: the tag, what was not found, and the articles by time. `posed`: there
/// was something to find.
[[nodiscard]] std::vector<std::string> look_up_summary(const practice::Summary& summary,
                                                       const practice::SessionFor& what, bool posed, const Page& page);

/// "Article 250  about 74 s, 3 of 4 found": the slowest articles, at most so many.
[[nodiscard]] std::vector<std::string> look_up_lines(const std::vector<practice::LookUpFamily>& families,
                                                     std::size_t most, const Page& page);

}  // namespace report
