#pragma once

#include <string>
#include <vector>

#include "base/ids.hpp"
#include "content/contents.hpp"
#include "content/outline.hpp"
#include "trade/article.hpp"
#include "trade/edition.hpp"

namespace practice {

/// A point as the plan of the year sees it.
struct WeekPoint {
    base::PointId id;
    std::string title;
    std::string article;       ///< the reference as the edition has it
    trade::Article reference;  ///< the same, read; article 0 when it is no reference
    std::string topic, deck, deck_title;
    content::Stakes stakes = content::Stakes::inspection;
    double outline = 1.0;  ///< exam questions for each point of its section, against the outline's mean; in [0.25, 4]
    bool unverified = false;
};

/// The points an edition has, by article. With an outline only those that one of its sections claims, unverified ones
/// among them: they are kept out of exams, and taught all the same.
/// Takes   contents without faults; an outline of theirs, or null for everything.
[[nodiscard]] std::vector<WeekPoint> week_points(const content::Contents& contents, trade::Edition edition,
                                                 const content::Outline* outline = nullptr);

/// What one meeting takes on: 4 to 12 points that stand together.
struct Portion {
    std::string title;          ///< "210.8(A)(1) to 210.8(B): Ground-fault protection"; no two are the same
    std::vector<int> articles;  ///< whose points it has, ascending; 0 stands for points without a reference
    std::string topic;          ///< of most of its points
    std::vector<WeekPoint> points;
};

/// Fewest and most points of a week. Fewer only when there are no more in all.
inline constexpr std::size_t kFewestInWeek = 4;
inline constexpr std::size_t kMostInWeek = 12;

/// Divides points into portions. The rule: points are put in the order of the book. An article of at most 12 points
/// is one group; a larger one falls into groups by section, and what cites it as a whole into groups by topic and deck.
/// A group is cut into even runs of at most 6, and neighbouring runs are joined into portions of at most 12 so that the
/// sum of these is least: (points - 10) squared for each portion, and 1000 for one under 4 points; 6 for each border
/// between articles inside a portion, 30 more where that is one between chapters (hundreds), 20 more where a piece of
/// an article of over 12 points meets another article; 15 for each group cut in two. All costs are chosen. Weakness and
/// seed have no part in it, so that portions stay as they are while the crew changes.
[[nodiscard]] std::vector<Portion> portions_of(std::vector<WeekPoint> points);

}  // namespace practice
