#include "practice/pick.hpp"

#include <algorithm>
#include <array>

#include "memory/due.hpp"
#include "practice/stakes_weight.hpp"

namespace practice {
namespace {

using content::PointEntry;
using content::Stakes;

constexpr double kRestDays = 4.0 / 24.0;
// A point failed at eight in the evening is asked again the next morning.
constexpr double kUrgentAfterDays = 11.0 / 24.0;
constexpr double kSecondLookAfterDays = 3.0;
constexpr std::size_t kAsksBeforeCorrection = 4;
constexpr std::size_t kFreshPerRotation = 2;
constexpr double kSafeShare = 0.1;
// Another topic is preferred unless its best point has waited less than this share of the longest wait.
constexpr double kTopicChangeWorth = 0.5;
constexpr double kFreshPointDays = 30.0;

template <class T>
bool shares(const std::vector<T>& a, const std::vector<T>& b) {
    return std::any_of(a.begin(), a.end(), [&](const T& x) { return std::find(b.begin(), b.end(), x) != b.end(); });
}

bool passes(const PointEntry& point, const PickFor& what) {
    if (!point.editions.contains(what.edition)) return false;
    const auto& topics = what.filter.topics;
    if (!topics.empty() && std::find(topics.begin(), topics.end(), point.topic) == topics.end()) return false;
    return what.filter.tags.empty() || shares(point.tags, what.filter.tags);
}

/// Days since the last answer. A clock set back by hours must not lock a point away until the old time comes round
/// again: it then counts as just rested.
double idle_days(const memory::RecallState& state, base::Instant now) {
    const double days = base::days_between(state.last, now);
    return days <= -kRestDays ? kRestDays : std::max(0.0, days);
}

/// A share in [0, 1) that is fixed for a name and a seed: breaks ties without favouring the alphabet.
double lot(base::Seed seed, const std::string& name) {
    return static_cast<double>(base::derive_seed(seed, name) >> 11U) * 0x1.0p-53;
}

bool rested(const memory::RecallState& state, base::Instant now) {
    return state.answers() == 0 || idle_days(state, now) >= kRestDays;
}

bool is_urgent(const memory::RecallState& state, base::Instant now) {
    if (state.watch == 0) return false;
    return base::days_between(state.last, now) >= (state.watch > 1 ? kUrgentAfterDays : kSecondLookAfterDays);
}

}  // namespace

std::string_view to_text(Reason reason) {
    static constexpr std::array<std::string_view, 6> kNames = {"urgent",   "changed",    "new",
                                                               "rotation", "correction", "call"};
    return kNames.at(static_cast<std::size_t>(reason));
}

std::optional<base::Instant> due_at(const memory::RecallState& state, const PointEntry& point, const PickFor& what) {
    if (state.answers() == 0) return std::nullopt;
    return memory::due_at(state, what.targets.of(point.stakes), what.recall.of(point));
}

Picker::Picker(const content::Index& index, store::RecallStates states, PickFor what)
    : index_{&index}, states_{std::move(states)}, what_{std::move(what)} {
    items_.reserve(index.points.size());
    for (const auto& point : index.points)
        if (passes(point, what_)) {
            const auto changed = what_.changed.find(point.id);
            items_.push_back({&point, state(point.id), what_.recall.of(point), false,
                              changed == what_.changed.end() ? std::nullopt : std::optional{changed->second}});
        }
}

const Picker::Item* Picker::find(const base::PointId& id) const {
    const auto at =
        std::lower_bound(items_.begin(), items_.end(), id,
                         [](const Item& item, const base::PointId& wanted) { return item.point->id < wanted; });
    return at != items_.end() && at->point->id == id ? &*at : nullptr;
}

const memory::RecallState& Picker::state(const base::PointId& id) const {
    static const memory::RecallState kNever;
    const auto found = states_.find(id);
    return found == states_.end() ? kNever : found->second;
}

std::vector<const PointEntry*> Picker::in_scope() const {
    std::vector<const PointEntry*> points;
    for (const auto& item : items_) points.push_back(item.point);
    return points;
}

bool Picker::needs_met(const PointEntry& point) const {
    return std::all_of(point.needs.begin(), point.needs.end(),
                       [&](const base::PointId& need) { return state(need).answers() > 0 || find(need) == nullptr; });
}

double Picker::waiting(const Item& item, base::Instant now) const {
    const base::Instant until = std::max(what_.horizon, now);
    const auto stakes = item.point->stakes;
    const bool safe = memory::recall_probability(item.state, until, item.params) >= what_.targets.of(stakes);
    return idle_days(item.state, now) * stakes_weight(stakes) * (safe ? kSafeShare : 1.0);
}

bool Picker::is_changed(const Item& item) {
    return item.changed && item.state.answers() > 0 && item.state.last <= *item.changed;
}

double Picker::worth(const Item& item, base::Instant now, Reason reason) const {
    if (item.passed_over) return 0.0;
    const bool never = item.state.answers() == 0;
    const auto stakes = item.point->stakes;
    switch (reason) {
        case Reason::urgent:
            return is_urgent(item.state, now) ? stakes_weight(stakes) : 0.0;
        case Reason::changed:
            return is_changed(item) ? stakes_weight(stakes) : 0.0;
        case Reason::fresh:
            return never && needs_met(*item.point)
                       ? stakes_weight(stakes) * (0.5 + lot(what_.seed, item.point->id.text))
                       : 0.0;
        default:
            return !never && rested(item.state, now) ? waiting(item, now) : 0.0;
    }
}

const PointEntry* Picker::best(base::Instant now, Reason reason) const {
    const PointEntry* top = nullptr;
    const PointEntry* other = nullptr;
    double top_worth = 0.0;
    double other_worth = 0.0;
    for (const auto& item : items_) {
        const double value = worth(item, now, reason);
        if (value > top_worth) {
            top = item.point;
            top_worth = value;
        }
        if (value > other_worth && item.point->topic != last_topic_) {
            other = item.point;
            other_worth = value;
        }
    }
    return other != nullptr && other_worth >= kTopicChangeWorth * top_worth ? other : top;
}

std::optional<Choice> Picker::take_correction(std::size_t least_wait) {
    for (const auto& waiting : corrections_)
        if (asked_ >= waiting.failed_at + least_wait) return Choice{waiting.point, nullptr, Reason::correction};
    return std::nullopt;
}

std::optional<Choice> Picker::correction_left() {
    return take_correction(0);
}

std::optional<Choice> Picker::next(base::Instant now) {
    if (auto correction = take_correction(kAsksBeforeCorrection)) return correction;
    if (const auto* point = best(now, Reason::urgent)) return Choice{point, nullptr, Reason::urgent};
    if (const auto* point = best(now, Reason::changed)) return Choice{point, nullptr, Reason::changed};
    const bool rotation_turn = turn_ % (kFreshPerRotation + 1) == kFreshPerRotation;
    ++turn_;
    const auto* fresh = best(now, Reason::fresh);
    const auto* known = fresh == nullptr || rotation_turn ? best(now, Reason::rotation) : nullptr;
    if (known != nullptr) return Choice{known, nullptr, Reason::rotation};
    if (fresh != nullptr) return Choice{fresh, nullptr, Reason::fresh};
    return take_correction(0);
}

std::optional<double> Picker::call_worth(const content::ScenarioEntry& call, base::Instant now) const {
    if (!call.editions.contains(what_.edition)) return std::nullopt;
    const bool filtered = !what_.filter.topics.empty() || !what_.filter.tags.empty();
    double sum = 0.0;
    std::size_t asks = 0;
    for (const auto& id : call.points) {
        const Item* item = find(id);
        // Points in a gap of this edition are left out of the call; points outside the filter rule it out.
        if (item == nullptr && filtered) return std::nullopt;
        if (item == nullptr) continue;
        if (item->passed_over || !rested(item->state, now)) return std::nullopt;
        sum += item->state.answers() == 0 ? kFreshPointDays : std::min(kFreshPointDays, waiting(*item, now));
        ++asks;
    }
    if (asks < 3) return std::nullopt;
    return sum / static_cast<double>(asks) * (0.75 + 0.25 * lot(what_.seed, call.id));
}

std::optional<Choice> Picker::call(base::Instant now) {
    const content::ScenarioEntry* top = nullptr;
    double most = 0.0;
    for (const auto& call : index_->scenarios) {
        const auto value = call_worth(call, now);
        if (value && *value > most) {
            top = &call;
            most = *value;
        }
    }
    if (top == nullptr) return std::nullopt;
    return Choice{nullptr, top, Reason::call};
}

void Picker::answered(const PointEntry& point, const memory::RecallState& after, bool is_correction) {
    states_[point.id] = after;
    if (const Item* item = find(point.id)) items_[static_cast<std::size_t>(item - items_.data())].state = after;
    last_topic_ = point.topic;
    ++asked_;
    std::erase_if(corrections_, [&](const Correction& c) { return c.point == &point; });
    if (after.last_mark < memory::kRecalledFrom && !is_correction) corrections_.push_back({&point, asked_});
}

void Picker::passed_over(const PointEntry& point) {
    if (const Item* item = find(point.id)) items_[static_cast<std::size_t>(item - items_.data())].passed_over = true;
    std::erase_if(corrections_, [&](const Correction& c) { return c.point == &point; });
}

std::optional<base::Instant> Picker::latest() const {
    std::optional<base::Instant> latest;
    for (const auto& [id, state] : states_)
        if (state.answers() > 0 && (!latest || state.last > *latest)) latest = state.last;
    return latest;
}

Standing Picker::standing(base::Instant now) const {
    Standing standing;
    standing.in_scope = items_.size();
    for (const auto& item : items_) {
        if (item.state.answers() == 0)
            ++standing.fresh;
        else if (memory::due(item.state, now, what_.targets.of(item.point->stakes), item.params))
            ++standing.due;
        if (is_changed(item)) ++standing.changed;
        if (item.state.watch > 0) ++standing.urgent;
    }
    return standing;
}

}  // namespace practice
