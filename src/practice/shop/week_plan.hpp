#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "base/fault.hpp"
#include "base/ids.hpp"
#include "base/random.hpp"
#include "practice/shop/week_points.hpp"

namespace practice {

/// Days without a meeting, both ends included.
struct Holiday {
    std::chrono::sys_days from{}, to{};
    std::string name;  ///< may be empty
};

/// A week the lead has given an article.
struct WeekPin {
    std::chrono::sys_days day{};  ///< any day of that week, Monday to Sunday
    std::string article;          ///< "250", or a section such as "210.8"
};

/// Why an article has its week.
enum class WhyWeek : std::uint8_t {
    pinned,   ///< the lead wants it there
    weak,     ///< the crew is weaker on it than on most
    stakes,   ///< more can go wrong with it than with most
    outline,  ///< the exam asks more of it than of most
    turn,     ///< nothing of these: the year goes round every article
};
[[nodiscard]] std::string_view to_text(WhyWeek why);
[[nodiscard]] std::optional<WhyWeek> parse_why_week(std::string_view text);

struct PlannedPoint {
    base::PointId id;
    std::string title, article;
    content::Stakes stakes = content::Stakes::inspection;
    bool unverified = false;

    friend bool operator==(const PlannedPoint&, const PlannedPoint&) = default;
};

struct PlannedWeek {
    int number = 0;  ///< from 1
    std::chrono::sys_days day{};
    std::string title;          ///< empty in a week off
    std::vector<int> articles;  ///< ascending
    std::vector<PlannedPoint> points;
    WhyWeek why = WhyWeek::turn;
    bool again = false;   ///< has had an earlier week of this plan
    bool off = false;     ///< the meeting day is a holiday: no article
    std::string pin;      ///< as the lead wrote it
    std::string holiday;  ///< its name
    double weight = 0;    ///< when it was given its week, against the mean; what later weights are compared with

    friend bool operator==(const PlannedWeek&, const PlannedWeek&) = default;
};

/// A portion for which the weeks did not suffice. It stays in everybody's study; only no meeting takes it.
struct LeftOver {
    std::string title;
    std::vector<PlannedPoint> points;
    double weight = 0;  ///< as of PlannedWeek

    friend bool operator==(const LeftOver&, const LeftOver&) = default;
};

struct WeekPlan {
    std::vector<PlannedWeek> weeks;
    std::vector<LeftOver> left_over;       ///< the weightiest first
    std::vector<int> without_week;         ///< articles no week has; empty when the weeks suffice
    std::chrono::sys_days as_of{};         ///< the day it was made
    std::size_t points = 0, in_weeks = 0;  ///< points there are, and those with a week

    /// The week with the first meeting on the day or after it; null after the last. Weeks off are passed over.
    [[nodiscard]] const PlannedWeek* next(std::chrono::sys_days day) const;

    friend bool operator==(const WeekPlan&, const WeekPlan&) = default;
};

/// What is asked for.
struct WeekPlanFor {
    std::chrono::sys_days start{};  ///< the first meeting is on the first `meets` from this day on
    int weeks = 52;                 ///< 1 to 520
    std::chrono::weekday meets{std::chrono::Monday};
    std::vector<Holiday> holidays;
    std::vector<WeekPin> pins;
    std::unordered_map<base::PointId, double> weakness;  ///< 0 to 1, 1 the weakest; a point without one counts 0.5
    std::chrono::sys_days today{};                       ///< the day the plan is made
    const WeekPlan* previous = nullptr;                  ///< the plan so far; null: none
    base::Seed seed = 1;                                 ///< decides between portions of nearly equal weight
};

/// How many weeks from today on are kept as they were, so that nobody prepares in vain.
inline constexpr int kKeptAhead = 2;
/// How many pairs of later weeks a plan made anew exchanges at most, at most once a calendar week.
inline constexpr int kMostExchanges = 2;

/// The plan of articles for a year.
/// Takes   portions as portions_of gives them, at least one.
/// Gives   one entry for each week; the same for the same input. A portion weighs the mean over its points of
///         stakes_weight * outline * (1 + 2 * weakness), times their number as far as 8, as a meeting asks little more
///         (2 and 8 are chosen; up to 2 in 100 more are added by seed, so that equals take turns from year to year).
///         Every article gets a week if the weeks suffice, then the weightiest portions; when all have one they come
///         again. The weightiest go first, except that two weeks in a row share no article where that can be avoided,
///         and an article that was on in the last three weeks, or the topic of the last one, counts for less. With a
///         previous plan: weeks that have passed are kept to the letter, the next two (kKeptAhead) as well unless they
///         are newly off or pinned; later ones keep their portion, found again by its points, but for these: weeks
///         newly off or pinned, what then has to go elsewhere, articles that are new, and up to kMostExchanges pairs in
///         which the later portion (or one left over) now weighs more and has gained at least a quarter on the other
///         since they were given their weeks. In the calendar week of the previous plan no pair is exchanged.
/// Errors  weeks or weakness out of range, a holiday that ends before it starts, a pin that is no reference, outside
///         the plan, on a holiday, second in its week, on an article without points, or against a week that has passed.
[[nodiscard]] base::Checked<WeekPlan> plan_weeks(const std::vector<Portion>& portions, const WeekPlanFor& what);

/// The Monday of the day's week.
[[nodiscard]] std::chrono::sys_days monday_of(std::chrono::sys_days day);

}  // namespace practice
