#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <unordered_map>
#include <vector>

#include "base/fault.hpp"
#include "base/instant.hpp"
#include "memory/fit/observations.hpp"
#include "memory/state.hpp"

namespace cli {

/// Answer histories as they come in, one JSON object a line, and the moments to forecast for.
class Histories {
public:
    struct Line {
        std::string id;       ///< JSON text of what the line calls itself; "null" when it does not
        base::Faults faults;  ///< not empty: the line was not taken
        std::uint32_t learner = 0, point = 0;
        std::vector<std::string> times_as_given;  ///< JSON text
        std::vector<base::Instant> times;
    };

    /// Takes one line of docs/formats/forecast.md; blank lines are passed over. Faults stay with the line.
    void add(const std::string& text);

    [[nodiscard]] const std::vector<Line>& lines() const { return lines_; }
    [[nodiscard]] const std::vector<memory::FitAnswer>& answers() const { return answers_; }
    [[nodiscard]] const std::vector<std::uint32_t>& family_of_point() const { return family_of_point_; }
    [[nodiscard]] std::size_t learners() const { return learners_.size(); }
    [[nodiscard]] const std::string& name_of_learner(std::uint32_t learner) const { return learners_[learner]; }
    [[nodiscard]] const std::string& name_of_point(std::uint32_t point) const { return points_[point]; }

    /// The answers of one learner on one point up to a moment, folded in the order of time.
    [[nodiscard]] memory::RecallState state(std::uint32_t learner, std::uint32_t point, base::Instant until) const;
    /// To be called once after the last line, before `state`: puts the answers in order and drops repeated ones.
    void settle();
    [[nodiscard]] std::size_t repeated() const { return repeated_; }

private:
    struct Names {
        std::string learner, point, family;
    };
    using Numbers = std::unordered_map<std::string, std::uint32_t>;

    void take(Line& line, std::vector<memory::FitAnswer>& answers, const Names& names);

    std::size_t count_ = 0;
    std::vector<Line> lines_;
    std::vector<memory::FitAnswer> answers_;
    std::vector<std::string> learners_, points_, families_;
    Numbers learner_numbers_, point_numbers_, family_numbers_;
    std::vector<std::uint32_t> family_of_point_;
    std::size_t repeated_ = 0;
};

}  // namespace cli
