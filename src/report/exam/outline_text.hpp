#pragma once

#include <string>
#include <vector>

#include "content/outline.hpp"
#include "practice/exam_parts.hpp"
#include "report/style.hpp"

namespace report {

/// The outlines there are, a few lines each.
[[nodiscard]] std::vector<std::string> outlines_text(const std::vector<content::Outline>& outlines, const Page& page);

/// One outline: its frame, its sections with questions and points in an edition, and where it comes from.
[[nodiscard]] std::vector<std::string> outline_text(const content::Outline& outline,
                                                    const std::vector<practice::ExamPart>& parts,
                                                    trade::Edition edition, const Page& page);

}  // namespace report
