#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/ids.hpp"
#include "base/instant.hpp"
#include "content/library.hpp"
#include "practice/crew_log.hpp"
#include "practice/pick.hpp"
#include "practice/recall.hpp"
#include "practice/session.hpp"

namespace practice {

/// Days ahead for which recall is foretold, if nothing is studied; today first.
inline constexpr std::array<int, 5> kForecastDays{0, 1, 7, 30, 90};

/// Mean recall at a moment over the points met by then.
struct RecallSample {
    base::Instant at{};
    std::size_t met = 0;
    double recall = 0;  ///< 0 when none was met
};

/// What is left after days without study.
struct ForecastDay {
    int days = 0;
    double recall = 0;    ///< mean over the points met until now; 0 when none
    std::size_t due = 0;  ///< of those points, at or below their target by then
};

struct TopicProgress {
    TopicStanding standing;              ///< as a session tells it
    std::vector<ForecastDay> forecast;   ///< one for each of kForecastDays
    std::vector<RecallSample> history;   ///< at the moments of Progress::history
    std::optional<base::Instant> begun;  ///< first answer on one of its points
};

/// Calendar weeks from Monday to Sunday, in UTC.
struct WeekAnswers {
    base::Instant monday{};
    std::size_t answers = 0, right = 0;
    double minutes = 0;  ///< spent on answering alone
};

/// Time to answer in one form: median, and the middle half of the answers.
struct FormTime {
    std::string form;  ///< as in content, or "service call"
    std::size_t answers = 0;
    double median = 0, low = 0, high = 0;  ///< seconds
};

/// How an open correction stands.
enum class CorrectionState : std::uint8_t {
    sure_and_wrong,  ///< the last answer
    to_prove,        ///< sure and wrong once, right since, but not yet on two later days
    wrong            ///< the last answer, without being sure
};
[[nodiscard]] std::string_view to_text(CorrectionState state);

struct OpenCorrection {
    base::PointId point;
    std::string title;  ///< what the caller calls it; its id by default
    std::string topic;
    content::Stakes stakes = content::Stakes::inspection;
    CorrectionState state = CorrectionState::wrong;
    base::Instant last{};  ///< when it was last answered
    /// Counts as tripped in the panel directory.
    [[nodiscard]] bool tripped() const { return state != CorrectionState::wrong; }
};

/// What progress is worked out for.
struct ProgressFor {
    trade::Edition edition = trade::Edition::e2023;
    base::Instant now{};
    Recall recall;
    Targets targets;
    std::size_t most_samples = 26;  ///< of recall over time; 0 leaves the history out
    /// What a point is called in a list of corrections; empty: by its id.
    std::function<std::string(const content::PointEntry&)> title_of;
};

/// One learner's progress; nothing in it tells of anybody else.
struct Progress {
    std::size_t answers = 0, right = 0;  ///< right: marked kRecalledFrom or better
    std::size_t removed = 0;             ///< of them on points outside the edition or no longer in the library
    double minutes = 0;                  ///< spent on answering alone
    std::size_t days_studied = 0;        ///< calendar days with an answer, in UTC
    std::optional<base::Instant> first, last;
    std::size_t points = 0, met = 0, due = 0, tripped = 0;  ///< of the edition
    std::vector<TopicProgress> topics;                      ///< in order of name, those without a met point included
    std::vector<ForecastDay> forecast, shock_forecast;      ///< over all points, and over those of shock stakes
    std::size_t shock_met = 0;
    double step_days = 0;                     ///< between samples; 0 when there is no history
    std::vector<RecallSample> history;        ///< over all points, rising in time, the last one now
    std::vector<WeekAnswers> weeks;           ///< from the first answer's to this one, empty weeks included
    std::array<SureTally, 3> sure{};          ///< by memory::Sure
    std::vector<FormTime> times;              ///< of forms with timed answers, in the order of content::Form
    std::vector<OpenCorrection> corrections;  ///< by state, then by stakes, then the latest day first

    [[nodiscard]] double recall_now() const { return forecast.empty() ? 0 : forecast.front().recall; }
};

/// Replays a learner's answers.
/// Takes   a log read with the same index, its answers in any order (equal times keep theirs); those after `now` are
///         passed over. A learner the log does not know has no answers.
/// Gives   the standings a session of the same moment would tell. Samples lie a day, a week, a month, a quarter or a
///         year apart, counted back from now: the shortest step that needs no more than `most_samples`; an even share
///         of the whole time where even years are too many.
[[nodiscard]] Progress progress(const content::Index& index, const CrewLog& log, const base::Id128& learner,
                                const ProgressFor& what);

/// Start of the Monday, in UTC, of the week that holds a moment.
[[nodiscard]] base::Instant monday_of(base::Instant when);

}  // namespace practice
