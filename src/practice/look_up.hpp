#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/ids.hpp"
#include "base/instant.hpp"
#include "base/random.hpp"
#include "content/library.hpp"
#include "store/answer_log.hpp"

namespace practice {

/// A place that somebody looked for in their own book.
struct LookUp {
    base::PointId point;  ///< whose place it was
    base::Instant at{};
    std::int64_t took_ms = 0;  ///< from when it was shown
    double mark = 0.0;
};
/// Nothing when the answer is of another kind.
[[nodiscard]] std::optional<LookUp> look_up_in(const store::AnswerRecord& record);

/// How somebody finds their way in one article of the book.
struct LookUpFamily {
    int article = 0;
    std::size_t places = 0;  ///< that there are to find
    std::size_t asked = 0, found = 0;
    double seconds = 0.0;  ///< that a look-up likely takes, one that failed counting three minutes or more; > 0
};

/// What is to be looked up next: every article of the book comes round, and one comes the oftener the longer the
/// learner takes to find something in it.
///
/// The time of an article is the geometric mean of its look-ups, drawn to the learner's own by the weight of three
/// look-ups, that one to a minute by the weight of five (both chosen, not fitted): times spread by factors, and few of
/// them must not rule. An article is drawn by the square of its time and the root of the number of its places; the one
/// just asked rests for a turn. Within it comes what was never looked up, else what was looked up longest ago.
/// Deterministic in library, history and seed.
class LookUpPicker {
public:
    /// What is looked for, and where from.
    struct For {
        trade::Edition edition = trade::Edition::e2023;
        std::vector<std::string> topics, tags;  ///< empty: all
        base::Seed seed = 0;
    };
    LookUpPicker(const content::Library& library, For what, const std::vector<LookUp>& before);

    /// The next point to look up; nothing when all have been within four hours.
    [[nodiscard]] const content::PointEntry* next(base::Instant now);
    /// How often the point's place was looked for.
    [[nodiscard]] std::size_t times(const base::PointId& point) const;
    void answered(const LookUp& one);
    void passed_over(const base::PointId& point);

    /// The article of a point and how it stands there.
    [[nodiscard]] LookUpFamily family_of(const base::PointId& point) const;
    /// The articles looked into, the slowest first.
    [[nodiscard]] std::vector<LookUpFamily> families() const;
    [[nodiscard]] std::size_t places() const { return places_.size(); }
    [[nodiscard]] std::size_t articles() const { return articles_.size(); }

private:
    struct Place {
        const content::PointEntry* entry = nullptr;
        int article = 0;
        std::size_t times = 0;
        std::optional<base::Instant> last;
        bool passed_over = false;
    };
    struct Tally {
        std::size_t places = 0, asked = 0, found = 0;
        double logs = 0.0;  ///< sum of the logarithms of seconds
    };
    [[nodiscard]] double overall() const;
    [[nodiscard]] double seconds(const Tally& tally) const;
    [[nodiscard]] const Place* place_in(int article, base::Instant now) const;

    For what_;
    std::map<base::PointId, Place> places_;
    std::map<int, Tally> articles_;
    Tally all_;
    int latest_ = 0;  ///< the article asked last
    std::size_t drawn_ = 0;
};

}  // namespace practice
