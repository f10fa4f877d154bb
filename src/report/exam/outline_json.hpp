#pragma once

#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "content/outline.hpp"
#include "practice/exam_parts.hpp"

namespace report {

/// {"ok", "outlines": [...]}: id, title, what it resembles, book, minutes, questions, pass, sections.
[[nodiscard]] nlohmann::ordered_json outlines_json(const std::vector<content::Outline>& outlines);

/// One outline with its sections, and the points each has in an edition.
[[nodiscard]] nlohmann::ordered_json outline_json(const content::Outline& outline,
                                                  const std::vector<practice::ExamPart>& parts, trade::Edition edition);

}  // namespace report
