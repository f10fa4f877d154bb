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

struct Coverage {
    std::vector<CoverageRow> topics;    ///< by name
    std::vector<CoverageRow> articles;  ///< by number, of the newest edition a point has a reference in
    std::vector<SectionCoverage> sections;
};

/// Counts what the contents hold, against their exam outlines.
[[nodiscard]] Coverage coverage_of(const content::Contents& contents);

}  // namespace practice
