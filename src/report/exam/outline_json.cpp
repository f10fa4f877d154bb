#include "report/exam/outline_json.hpp"

#include <nlohmann/json.hpp>

namespace report {
namespace {

using nlohmann::ordered_json;

ordered_json count_json(const content::QuestionCount& count) {
    if (count.least == count.most) return count.most;
    return {{"min", count.least}, {"max", count.most}};
}

ordered_json pass_json(const content::PassMark& pass) {
    return pass.right > 0 ? ordered_json{{"right", pass.right}} : ordered_json(pass.share);
}

ordered_json basis_json(const trade::Basis& basis) {
    ordered_json out = {{"kind", trade::to_text(basis.kind)}};
    if (!basis.source.empty()) out["source"] = basis.source;
    return out;
}

ordered_json frame_json(const content::Outline& outline) {
    return {{"id", outline.id},
            {"title", outline.title},
            {"resembles", outline.resembles},
            {"book", content::to_text(outline.book)},
            {"minutes", outline.minutes},
            {"questions", count_json(outline.questions)},
            {"pass", pass_json(outline.pass)},
            {"basis", basis_json(outline.basis)},
            {"sections_basis", basis_json(outline.sections_basis)}};
}

}  // namespace

ordered_json outlines_json(const std::vector<content::Outline>& outlines) {
    ordered_json list = ordered_json::array();
    for (const auto& one : outlines) list.push_back(frame_json(one));
    return {{"ok", true}, {"outlines", list}};
}

ordered_json outline_json(const content::Outline& outline, const std::vector<practice::ExamPart>& parts,
                          trade::Edition edition) {
    ordered_json out = {{"ok", true}, {"edition", trade::to_text(edition)}, {"outline", frame_json(outline)}};
    ordered_json sections = ordered_json::array();
    for (const auto& part : parts) {
        ordered_json points = ordered_json::array();
        for (const auto& id : part.points) points.push_back(id.text);
        ordered_json one = {{"id", part.section->id},
                            {"title", part.section->title},
                            {"questions", count_json(part.section->questions)},
                            {"asked", part.asked},
                            {"points", points},
                            {"unverified", part.unverified}};
        if (!part.section->uncovered.empty()) one["uncovered"] = part.section->uncovered;
        sections.push_back(std::move(one));
    }
    out["sections"] = std::move(sections);
    return out;
}

}  // namespace report
