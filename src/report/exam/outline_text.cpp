#include "report/exam/outline_text.hpp"

#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "report/table.hpp"

namespace report {
namespace {

using Lines = std::vector<std::string>;

constexpr std::size_t kNumberWidth = 11;

std::string pass_text(const content::PassMark& pass) {
    if (pass.right > 0) return std::to_string(pass.right) + " right to pass";
    return std::to_string(std::lround(100 * pass.share)) + " % to pass";
}

std::string frame_text(const content::Outline& outline) {
    return content::to_text(outline.questions) + " questions, " + std::to_string(outline.minutes) + " minutes, " +
           std::string{content::to_text(outline.book)} + " book, " + pass_text(outline.pass);
}

std::string basis_text(const trade::Basis& basis) {
    switch (basis.kind) {
        case trade::Basis::Kind::published:
            return basis.source;
        case trade::Basis::Kind::practice:
            return "practice";
        case trade::Basis::Kind::memory:
            return "from memory; put your own board's figures in an outline of the same id";
    }
    return {};
}

void add_part(Lines& lines, const practice::ExamPart& part, std::size_t width, const Page& page) {
    // Long titles are wrapped; the numbers stand beside the last line.
    auto title = base::wrap(part.section->title, width);
    if (title.empty()) title.emplace_back();
    title.back() = padded(title.back(), width) + right_set(std::to_string(part.asked), kNumberWidth) +
                   right_set(std::to_string(part.points.size()), kNumberWidth);
    for (const auto& line : title) lines.push_back(part.points.empty() ? inked(page, Ink::warn, line) : line);
    if (part.points.empty())
        add(lines, page,
            part.section->uncovered.empty() ? "no verified points in this edition" : part.section->uncovered, 2,
            Ink::faint);
}

}  // namespace

std::vector<std::string> outlines_text(const std::vector<content::Outline>& outlines, const Page& page) {
    Lines lines;
    for (const auto& one : outlines) {
        lines.push_back(inked(page, Ink::bold, one.id) + "  " + one.title);
        add(lines, page, frame_text(one), 2);
    }
    if (outlines.empty()) lines.emplace_back("There are no exam outlines.");
    return lines;
}

std::vector<std::string> outline_text(const content::Outline& outline, const std::vector<practice::ExamPart>& parts,
                                      trade::Edition edition, const Page& page) {
    Lines lines;
    lines.push_back(inked(page, Ink::bold, outline.title));
    add(lines, page, frame_text(outline));
    if (!outline.resembles.empty()) add(lines, page, "Resembles: " + outline.resembles);
    lines.emplace_back();
    const std::size_t numbers = 2 * kNumberWidth;
    const std::size_t width = std::min<std::size_t>(58, page.width > numbers + 10 ? page.width - numbers : 10);
    lines.push_back(inked(page, Ink::bold,
                          padded(std::string{trade::to_text(edition)} + " edition", width) +
                              right_set("questions", kNumberWidth) + right_set("points", kNumberWidth)));
    for (const auto& part : parts) add_part(lines, part, width, page);
    const auto of = practice::covered(parts);
    lines.emplace_back();
    if (of.not_covered > 0)
        add(lines, page,
            "The library has points for " + std::to_string(of.asked) + " of " +
                std::to_string(of.asked + of.not_covered) + " questions; of the rest it can say nothing.",
            0, Ink::warn);
    add(lines, page, "Size and pass mark: " + basis_text(outline.basis));
    add(lines, page, "Sections: " + basis_text(outline.sections_basis));
    if (!outline.note.empty()) add(lines, page, outline.note, 0, Ink::faint);
    return lines;
}

}  // namespace report
