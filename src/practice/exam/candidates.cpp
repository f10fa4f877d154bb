#include "practice/exam/candidates.hpp"

#include <algorithm>
#include <optional>
#include <utility>

#include "content/compose.hpp"
#include "trade/article.hpp"

namespace practice {
namespace {

using content::Form;
using content::Stakes;

// No figure of this kind has been measured yet. The order is what matters: one pick of few is easier than all that
// apply, and a picked answer easier than one that is worked out or recalled.
double of_form(Form form) {
    switch (form) {
        case Form::choose:
            return 0.75;
        case Form::choose_all:
        case Form::order:
            return 0.60;
        case Form::number:
        case Form::article:
            return 0.55;
        case Form::recall:
            return 0.50;
    }
    return 0.60;
}

// What can hurt is drilled more than what is filed.
double of_stakes(Stakes stakes) {
    switch (stakes) {
        case Stakes::shock:
        case Stakes::fire:
            return 0.05;
        case Stakes::inspection:
            return 0.0;
        case Stakes::paperwork:
            return -0.05;
    }
    return 0.0;
}

double chance_of(const base::QuestionId& id, Form form, Stakes stakes, const Chances& chances) {
    const auto known = chances.find(id);
    const bool usable = known != chances.end() && known->second >= 0.0 && known->second <= 1.0;
    return usable ? known->second : usual_chance(form, stakes);
}

const content::Version* verified_version(const content::Point& point, trade::Edition edition) {
    const auto* version = point.version(edition);
    return version == nullptr || version->unverified ? nullptr : version;
}

using PartOf = std::unordered_map<base::PointId, std::size_t>;

PartOf part_of_points(const std::vector<ExamPart>& parts) {
    PartOf part_of;
    for (std::size_t n = 0; n < parts.size(); ++n)
        for (const auto& point : parts[n].points) part_of.emplace(point, n);
    return part_of;
}

void add_call(std::vector<std::vector<Candidate>>& sections, const PartOf& part_of, const content::Library& library,
              const content::Scenario& call, const CandidatesFor& what) {
    for (const auto& ask : call.asks) {
        const auto part = part_of.find(ask.point);
        const auto* entry = library.find(ask.point);
        if (part == part_of.end() || entry == nullptr) continue;
        const auto& point = library.point(*entry);
        const auto* version = verified_version(point, what.edition);
        if (version == nullptr || !content::holds_in(ask, point, what.edition) || !can_be_marked(ask, *version))
            continue;
        const base::QuestionId id{call.id + "#" + ask.id};
        sections[part->second].push_back({id, ask.point, true, chance_of(id, ask.form, point.stakes, what.chances)});
    }
}

}  // namespace

double usual_chance(Form form, Stakes stakes) {
    return of_form(form) + of_stakes(stakes);
}

bool can_be_marked(const content::Question& question, const content::Version& version) {
    if (question.computed) return question.form == Form::choose || question.form == Form::number;
    switch (question.form) {
        case Form::choose:
            return question.right.size() == 1 && !question.wrong.empty();
        case Form::choose_all:
            return !question.right.empty();
        case Form::number:
            return true;
        case Form::article:
            return trade::parse_article(version.article).has_value();
        case Form::order:
            return question.right.size() >= 2;
        case Form::recall:
            return !question.ideas.empty();
    }
    return false;
}

std::vector<Candidate> candidates_of(const content::Point& point, trade::Edition edition, const Chances& chances) {
    std::vector<Candidate> all;
    const auto* version = verified_version(point, edition);
    if (version == nullptr) return all;
    for (const auto* question : content::questions_for(point, edition)) {
        // A computed answer needs the facts of a call; a plain question has none.
        if (question->computed || !can_be_marked(*question, *version)) continue;
        const base::QuestionId id{point.id.text + "#" + question->id};
        all.push_back({id, point.id, false, chance_of(id, question->form, point.stakes, chances)});
    }
    return all;
}

std::vector<std::vector<Candidate>> candidates_in(const content::Library& library, const std::vector<ExamPart>& parts,
                                                  const CandidatesFor& what) {
    std::vector<std::vector<Candidate>> sections(parts.size());
    for (std::size_t n = 0; n < parts.size(); ++n)
        for (const auto& id : parts[n].points) {
            const auto* entry = library.find(id);
            if (entry == nullptr) continue;
            for (auto& one : candidates_of(library.point(*entry), what.edition, what.chances))
                sections[n].push_back(std::move(one));
        }
    if (!what.calls) return sections;
    const auto part_of = part_of_points(parts);
    for (const auto& call : library.index().scenarios)
        if (call.editions.contains(what.edition)) add_call(sections, part_of, library, library.scenario(call), what);
    return sections;
}

}  // namespace practice
