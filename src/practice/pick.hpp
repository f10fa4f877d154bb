#pragma once

#include <cstdint>
#include <deque>
#include <functional>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "base/instant.hpp"
#include "base/random.hpp"
#include "content/library.hpp"
#include "memory/model.hpp"
#include "memory/schedule/worth.hpp"
#include "practice/recall.hpp"
#include "store/answer_log.hpp"

namespace practice {

/// Which points a session is about.
struct Filter {
    std::vector<std::string> topics;    ///< empty: all
    std::vector<std::string> tags;      ///< a point with any of them; empty: all
    std::vector<base::PointId> points;  ///< only these; empty: all

    [[nodiscard]] bool open() const { return topics.empty() && tags.empty() && points.empty(); }
};

/// Recall below which a point counts as due.
struct Targets {
    double ordinary = 0.90;
    double shock = 0.95;  ///< where not knowing can stop a heart, one in twenty forgotten is the most we plan for

    [[nodiscard]] double of(content::Stakes stakes) const {
        return stakes == content::Stakes::shock ? shock : ordinary;
    }
};

/// What picking is done for.
struct PickFor {
    trade::Edition edition = trade::Edition::e2023;
    base::Instant horizon{};  ///< until when a point has to last: the exam, else 90 days ahead
    base::Instant joined{};   ///< since when the learner studies
    double session_seconds = 600;
    Recall recall;
    Targets targets;
    Filter filter;
    base::Seed seed = 0;
    /// Points that have changed for the learner, and since when: due until they are answered after that.
    std::unordered_map<base::PointId, base::Instant> changed;
};

/// Why something comes up.
enum class Reason : std::uint8_t { urgent, changed, fresh, rotation, correction, call, look_up };
[[nodiscard]] std::string_view to_text(Reason reason);

struct Choice {
    const content::PointEntry* point = nullptr;  ///< set for all but a call
    const content::ScenarioEntry* call = nullptr;
    Reason reason = Reason::rotation;
};

/// How things stand with the points in scope.
struct Standing {
    std::size_t in_scope = 0, fresh = 0, due = 0;
    std::size_t changed = 0;  ///< known once, and different since under the learner's edition
    std::size_t urgent = 0;   ///< sure and wrong, and not proved since on later days
};

/// Chooses what to ask next: coverage first. Deterministic in library, states, seed and the moments asked at.
///
/// Order: corrections that have waited long enough; points someone was sure and wrong about, from the next day on;
/// points that have changed with the edition; then all others by memory::schedule::worth, the rule that rehearsals are
/// played with: rotation, longest unasked first, with a few departures that have earned their place. Neighbouring asks
/// come from different topics, and not from points that need one another, where nothing much is lost by it. A point is
/// not asked twice within four hours, except as a correction. docs/decisions/coverage-first.md gives the reasons.
class Picker {
public:
    Picker(const content::Index& index, store::RecallStates states, PickFor what);

    /// The next choice, or nothing when all points rest.
    [[nodiscard]] std::optional<Choice> next(base::Instant now);
    /// The service call whose points have waited longest, if there is one all of whose points may be asked.
    [[nodiscard]] std::optional<Choice> call(base::Instant now);
    /// A point waiting to be put right, whether or not it has waited long enough.
    [[nodiscard]] std::optional<Choice> correction_left();

    /// Tells what came of an ask, so that the next choice knows.
    void answered(const content::PointEntry& point, const memory::RecallState& after, bool is_correction);

    /// The point was put but not answered: it rests for this session.
    void passed_over(const content::PointEntry& point);

    [[nodiscard]] const memory::RecallState& state(const base::PointId& id) const;
    /// When the learner last answered anything; nothing when never.
    [[nodiscard]] std::optional<base::Instant> latest() const;
    [[nodiscard]] Standing standing(base::Instant now) const;
    [[nodiscard]] std::vector<const content::PointEntry*> in_scope() const;
    [[nodiscard]] std::size_t corrections_left() const { return corrections_.size(); }

private:
    struct Correction {
        const content::PointEntry* point = nullptr;
        std::size_t failed_at = 0;  ///< count of asks when it was answered wrong
    };

    /// A point in scope with its state beside it: picking looks at all of them, and looking each up would cost most.
    struct Item {
        const content::PointEntry* point = nullptr;
        memory::RecallState state;
        memory::Parameters params;
        std::uint32_t family = 0;  ///< its topic by number
        bool passed_over = false;
        std::optional<base::Instant> changed;  ///< since when it is different from what was learned
    };

    [[nodiscard]] const Item* find(const base::PointId& id) const;
    [[nodiscard]] bool needs_met(const content::PointEntry& point) const;
    [[nodiscard]] memory::schedule::Candidate candidate(const Item& item) const;
    [[nodiscard]] memory::schedule::Outlook look_out(base::Instant now) const;
    [[nodiscard]] const Item* best(const std::function<double(const Item&)>& worth) const;
    [[nodiscard]] static bool is_changed(const Item& item);
    [[nodiscard]] bool may_be_asked(const Item& item, base::Instant now) const;
    [[nodiscard]] bool related_to_recent(const content::PointEntry& point) const;
    [[nodiscard]] std::optional<double> call_worth(const content::ScenarioEntry& call,
                                                   const memory::schedule::Outlook& outlook) const;
    std::optional<Choice> take_correction(std::size_t least_wait);

    const content::Index* index_;
    store::RecallStates states_;  ///< of points out of scope as well: needs may lie there
    PickFor what_;
    std::vector<Item> items_;  ///< sorted by id, as the index is
    std::vector<Correction> corrections_;
    std::deque<const content::PointEntry*> recent_;  ///< asked last, the latest first
    std::size_t asked_ = 0;                          ///< in this session
    double answers_ = 0;                             ///< of the learner, ever
};

/// Below its target, or answered wrong last: that an answer is still fresh says nothing then.
[[nodiscard]] bool is_due(const memory::RecallState& state, base::Instant now, double target,
                          const memory::Parameters& params);

/// When the point falls below its target; nothing before its first answer.
[[nodiscard]] std::optional<base::Instant> due_at(const memory::RecallState& state, const content::PointEntry& point,
                                                  const PickFor& what);

}  // namespace practice
