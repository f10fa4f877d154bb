#include "practice/exam_parts.hpp"

namespace practice {

std::vector<ExamPart> parts_of(const content::Outline& outline, const std::vector<content::PointTraits>& points) {
    const auto totals = content::possible_totals(outline);
    const int total = totals ? totals->most : 0;
    const auto asked =
        content::questions_per_section(outline, total).value_or(std::vector<int>(outline.sections.size()));
    std::vector<ExamPart> parts(outline.sections.size());
    for (std::size_t n = 0; n < parts.size(); ++n) {
        parts[n].section = &outline.sections[n];
        parts[n].asked = static_cast<std::size_t>(asked[n]);
    }
    for (const auto& point : points) {
        const auto section = content::section_of(outline, point);
        if (!section) continue;
        if (point.unverified)
            ++parts[*section].unverified;
        else
            parts[*section].points.push_back(point.id);
    }
    return parts;
}

Covered covered(const std::vector<ExamPart>& parts) {
    Covered covered;
    for (const auto& part : parts) (part.points.empty() ? covered.not_covered : covered.asked) += part.asked;
    return covered;
}

double pass_share_of(const content::Outline& outline, std::size_t asked) {
    if (asked == 0) return 0;
    return static_cast<double>(content::right_to_pass(outline, static_cast<int>(asked))) / static_cast<double>(asked);
}

}  // namespace practice
