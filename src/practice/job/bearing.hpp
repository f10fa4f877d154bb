#pragma once

#include <string>
#include <vector>

#include "practice/job/job.hpp"

namespace practice {

/// What a job is looked for by.
struct JobSearch {
    std::vector<const content::Job*> jobs;
    std::vector<std::string> words;        ///< as typed
    std::vector<content::JobFacts> cases;  ///< to put to the rules
    content::Under under;
};

/// How much each point has to do with the job, and why. Points in a gap of the edition, and those that bear on it too
/// little, are not among them; in the order of the source. `unmatched` gets the words that no point has.
/// Errors: facts that the vocabulary does not take.
[[nodiscard]] base::Checked<std::vector<JobPoint>> bearing_points(const JobSource& source, const JobSearch& search,
                                                                  std::vector<std::string>& unmatched);

}  // namespace practice
