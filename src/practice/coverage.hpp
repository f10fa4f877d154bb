#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include "content/contents.hpp"
#include "practice/crew_log.hpp"

namespace practice {

/// What there is on a topic or an article.
struct CoverageRow {
    std::string name;
    std::size_t points = 0;
    std::array<std::size_t, 4> in_edition{}, verified{};  ///< points, by edition as trade::kEditions has them
    std::array<std::size_t, 4> by_stakes{};               ///< points, from shock to paperwork
    std::array<std::size_t, kCallForm + 1U> by_form{};    ///< questions, and asks of service calls last
    std::size_t situations = 0;                           ///< questions that put the learner on a job; no asks of calls

    [[nodiscard]] std::size_t questions() const;
};

/// A section of an exam outline beside what the library has for it.
struct SectionCoverage {
    std::string outline, section;
    std::size_t asked = 0;
    std::array<std::size_t, 4> verified{};   ///< points, by edition
    std::array<std::size_t, 4> questions{};  ///< of those points, asks of service calls counted in
    std::string uncovered;                   ///< why there is nothing; empty where there should be

    /// Fewer questions than an exam of that edition asks: it would have to ask one twice.
    [[nodiscard]] bool thin(std::size_t edition) const { return questions[edition] < asked; }
};

/// What second readers have answered, a question counting once for each of its answers by edition.
struct ReadingCoverage {
    std::size_t questions = 0, read = 0, changed = 0;
    std::size_t first_answers = 0, differed = 0;  ///< readings kept, and those whose first answer differed from ours

    friend bool operator==(const ReadingCoverage&, const ReadingCoverage&) = default;
};

/// A service call is computed when an answer in it is worked out as it is posed.
struct CallCoverage {
    std::size_t calls = 0, computed = 0;
};

struct Coverage {
    std::vector<CoverageRow> topics;    ///< by name
    std::vector<CoverageRow> articles;  ///< by number, of the newest edition a point has a reference in
    std::vector<SectionCoverage> sections;
    CoverageRow all;  ///< everything at once
    CallCoverage calls;
    ReadingCoverage readings;
    std::vector<std::string> holes;  ///< what is missing, a line each: forms, stakes and editions by topic
};

/// Counts what the contents hold, against their exam outlines.
[[nodiscard]] Coverage coverage_of(const content::Contents& contents);

}  // namespace practice
