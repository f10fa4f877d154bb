#pragma once

#include <string>
#include <vector>

#include "content/ask.hpp"
#include "content/library.hpp"
#include "content/reading.hpp"
#include "practice/mark.hpp"

namespace practice {

/// A question posed to a second reader, always the same way.
struct PosedReading {
    content::ToRead what;
    content::Ask ask;
};

/// Poses questions for a second reader. Asks of a call whose facts cannot be drawn are left out.
[[nodiscard]] std::vector<PosedReading> pose_for_reading(const std::vector<content::ToRead>& questions,
                                                         const content::Library& library);

/// What a reader answered, and whether it is what we hold to be right in full.
struct Verdict {
    const PosedReading* posed = nullptr;
    std::string given;
    bool agrees = false;
    std::string note;  ///< what could not be read, or what the reader remarked
};

/// Marks one answer; one that is no answer to the form differs.
[[nodiscard]] Verdict judge(const PosedReading& posed, const std::string& given, const std::string& remark);

/// Brings readings up to date with verdicts: one of each question and edition. That the first answer differed is
/// never forgotten; a question that differs stays open until it is answered as it stands or upheld.
void record(std::vector<content::Reading>& readings, const std::vector<Verdict>& verdicts, const std::string& reader);
/// Settles a difference in favour of our answer, with the reason. False when there is no reading of that question.
[[nodiscard]] bool uphold(std::vector<content::Reading>& readings, const content::ToRead& question,
                          const std::string& because);

}  // namespace practice
