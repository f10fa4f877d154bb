#pragma once

#include <cstdint>
#include <string>
#include <unordered_map>
#include <vector>

#include "base/ids.hpp"
#include "content/library.hpp"
#include "memory/fit/observations.hpp"
#include "store/answer_log.hpp"

namespace practice {

/// The answer log by number, as a fit reads it.
struct CrewLog {
    std::vector<memory::FitAnswer> answers;
    std::vector<base::Id128> learners;
    std::vector<base::PointId> points;  ///< of the library first, whether asked or not; then those no longer in it
    std::vector<std::string> families;  ///< topics of the library; the last is that of points no longer in it
    std::vector<std::uint32_t> family_of_point;
    std::size_t in_library = 0;  ///< how many of the points are
    std::size_t removed = 0;     ///< answers on points no longer in the library: they still tell of the learner
    std::size_t later = 0;       ///< answers dated after now, which are left out

    [[nodiscard]] memory::Observations observed() const {
        return memory::observe(answers, learners.size(), family_of_point);
    }
};

/// Fills a crew's log, answer by answer.
class CrewLogReader {
public:
    /// Takes now: answers after it are left out and counted, as a clock that ran ahead would have made them.
    CrewLogReader(const content::Library& library, base::Instant now);

    void add(const store::AnswerRecord& record);
    /// The number of a learner, who need not have answered anything.
    std::uint32_t learner(const base::Id128& id);

    [[nodiscard]] const CrewLog& log() const { return log_; }

private:
    [[nodiscard]] std::uint32_t point(const base::PointId& id);
    [[nodiscard]] std::uint8_t form(const store::AnswerRecord& record);

    const content::Library* library_;
    base::Instant now_;
    CrewLog log_;
    std::unordered_map<base::Id128, std::uint32_t> learners_;
    std::unordered_map<base::PointId, std::uint32_t> points_;
    std::unordered_map<base::QuestionId, std::uint8_t> forms_;
};

/// The form of a service call's asks, after those of authored questions.
inline constexpr std::uint8_t kCallForm = 6;

}  // namespace practice
