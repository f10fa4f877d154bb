#pragma once

#include <string>
#include <vector>

#include "base/random.hpp"
#include "practice/crew_log.hpp"
#include "practice/shop/progress.hpp"

/// Records made up for tests of progress: points in four topics, and answers by number.
namespace made {

using base::Instant;

inline const Instant kNow = *base::parse_instant("2026-03-04T12:00:00Z");  // a Wednesday

inline base::Id128 learner(std::uint8_t number) {
    base::Id128 id;
    id.bytes[15] = number;
    return id;
}

inline content::PointEntry point(const std::string& id, const std::string& topic, content::Stakes stakes,
                                 std::uint8_t editions = 15) {
    content::PointEntry entry;
    entry.id.text = id;
    entry.topic = topic;
    entry.stakes = stakes;
    entry.editions = content::EditionSet{editions};
    return entry;
}

/// Sorted by id; every fourth of each stakes, and every ninth of no edition at all.
inline content::Index index(std::size_t points) {
    content::Index index;
    for (std::size_t n = 0; n < points; ++n)
        index.points.push_back(point("p." + std::to_string(1000 + n), "topic " + std::to_string(n % 5),
                                     static_cast<content::Stakes>(n % 4),
                                     n % 9 == 8 ? std::uint8_t{0} : std::uint8_t{15}));
    return index;
}

inline practice::CrewLog log(const content::Index& index, std::size_t learners) {
    practice::CrewLog log;
    for (const auto& entry : index.points) log.points.push_back(entry.id);
    log.in_library = log.points.size();
    log.points.push_back({"gone.from.the.library"});
    log.family_of_point.assign(log.points.size(), 0);
    for (std::size_t n = 1; n <= learners; ++n) log.learners.push_back(learner(static_cast<std::uint8_t>(n)));
    return log;
}

/// Days before now, of the first learner.
inline memory::FitAnswer answer(std::uint32_t point, double days_ago, double mark,
                                memory::Sure sure = memory::Sure::fairly, std::int64_t took_ms = 5000) {
    memory::FitAnswer answer;
    answer.point = point;
    answer.mark = static_cast<float>(mark);
    answer.sure = sure;
    answer.took_ms = took_ms;
    answer.at = base::after_days(kNow, -days_ago);
    return answer;
}

inline std::vector<memory::FitAnswer> answers(base::Random& random, std::size_t count, std::size_t points,
                                              double days) {
    std::vector<memory::FitAnswer> all;
    for (std::size_t n = 0; n < count; ++n) {
        auto one = answer(static_cast<std::uint32_t>(random.below(points)), days * random.unit(),
                          random.below(4) == 0 ? 0.5 : 1, static_cast<memory::Sure>(random.below(3)),
                          static_cast<std::int64_t>(random.below(20'000)));
        one.form = static_cast<std::uint8_t>(random.below(7));
        all.push_back(one);
    }
    return all;
}

inline practice::ProgressFor what() {
    practice::ProgressFor what;
    what.now = kNow;
    return what;
}

}  // namespace made
