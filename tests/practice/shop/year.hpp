#pragma once

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <string>
#include <unordered_map>
#include <vector>

#include "base/random.hpp"
#include "content/contents.hpp"
#include "practice/shop/week_plan.hpp"

/// Invented points for plans of a year.
namespace year {

inline std::chrono::sys_days day(int y, unsigned m, unsigned d) {
    return std::chrono::sys_days{std::chrono::year{y} / static_cast<int>(m) / static_cast<int>(d)};
}

inline practice::WeekPoint point(const std::string& article, const std::string& id, const std::string& topic = "boxes",
                                 content::Stakes stakes = content::Stakes::inspection) {
    practice::WeekPoint one;
    one.id.text = id;
    one.title = "title of " + id;
    one.article = article;
    one.reference = trade::parse_article(article).value_or(trade::Article{});
    one.topic = topic;
    one.deck = topic;
    one.deck_title = "All on " + topic;
    one.stakes = stakes;
    return one;
}

/// So many points on an article, in sections of a few points each.
inline void add_article(std::vector<practice::WeekPoint>& points, int article, std::size_t count,
                        const std::string& topic = "boxes", content::Stakes stakes = content::Stakes::inspection) {
    for (std::size_t n = 0; n < count; ++n)
        points.push_back(
            point(std::to_string(article) + "." + std::to_string(1 + n / 4) + "(A)(" + std::to_string(1 + n % 4) + ")",
                  "p." + std::to_string(article) + "." + std::to_string(n), topic, stakes));
}

/// Articles of all sizes, some references to whole articles, some points without a reference.
inline std::vector<practice::WeekPoint> random_points(base::Random& random, std::size_t articles) {
    std::vector<practice::WeekPoint> points;
    for (std::size_t n = 0; n < articles; ++n) {
        const int article = 90 + static_cast<int>(random.below(800));
        const auto count = 1 + random.below(random.below(5) == 0 ? 60 : 8);
        for (std::uint64_t k = 0; k < count; ++k) {
            std::string reference = "Article " + std::to_string(article);
            if (random.below(4) != 0)
                reference = std::to_string(article) + "." + std::to_string(1 + random.below(1 + count / 3)) + "(" +
                            static_cast<char>('A' + random.below(4)) + ")";
            if (random.below(60) == 0) reference = "none";
            points.push_back(point(reference, "p." + std::to_string(n) + "." + std::to_string(k),
                                   "topic" + std::to_string(random.below(12)),
                                   static_cast<content::Stakes>(random.below(4))));
            points.back().outline = 0.25 + random.unit();
        }
    }
    return points;
}

inline std::unordered_map<base::PointId, double> random_weakness(base::Random& random,
                                                                 const std::vector<practice::Portion>& portions) {
    std::unordered_map<base::PointId, double> weakness;
    for (const auto& portion : portions)
        for (const auto& one : portion.points)
            if (random.below(10) != 0) weakness[one.id] = random.unit();
    return weakness;
}

/// From the first Monday of 2026.
inline practice::WeekPlanFor plan_for(base::Seed seed = 1) {
    practice::WeekPlanFor what;
    what.start = what.today = day(2026, 1, 5);
    what.seed = seed;
    return what;
}

}  // namespace year
