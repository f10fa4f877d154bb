#pragma once

#include <unordered_map>
#include <vector>

#include "base/ids.hpp"
#include "content/library.hpp"
#include "practice/exam_parts.hpp"
#include "trade/edition.hpp"

namespace practice {

/// A question that an exam may ask.
struct Candidate {
    base::QuestionId id;
    base::PointId point;
    bool call = false;    ///< an ask of a service call
    double chance = 0.5;  ///< [0,1]: chance that the reference learner answers it right

    friend bool operator==(const Candidate&, const Candidate&) = default;
};

/// Chance of a right answer by question, as the log of a crew or a fit has it.
using Chances = std::unordered_map<base::QuestionId, double>;

/// What is taken for a question that has no chance of its own. Assumed, not measured: it only keeps the harder forms
/// evenly spread over papers until answers say better.
[[nodiscard]] double usual_chance(content::Form form, content::Stakes stakes);

/// True when an answer to the question can be marked: it has what its form is marked by.
[[nodiscard]] bool can_be_marked(const content::Question& question, const content::Version& version);

/// The questions of one point that an exam may ask, in the order of the deck; none when the point is in a gap or not
/// verified in the edition. A chance that is no number from 0 to 1 counts as none.
[[nodiscard]] std::vector<Candidate> candidates_of(const content::Point& point, trade::Edition edition,
                                                   const Chances& chances);

struct CandidatesFor {
    trade::Edition edition = trade::Edition::e2023;
    bool calls = true;  ///< asks of service calls as well
    Chances chances;
};

/// What each part of an exam may ask, in the order of the parts (parts_of: verified points only).
/// Reads the points from their files: throws as the library does.
[[nodiscard]] std::vector<std::vector<Candidate>> candidates_in(const content::Library& library,
                                                                const std::vector<ExamPart>& parts,
                                                                const CandidatesFor& what);

}  // namespace practice
