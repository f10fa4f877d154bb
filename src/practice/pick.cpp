#include "practice/pick.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "content/look_up.hpp"
#include "memory/due.hpp"
#include "practice/stakes_weight.hpp"

namespace practice {
namespace {

using content::PointEntry;

constexpr double kRestDays = 4.0 / 24.0;
// A point failed at eight in the evening is asked again the next morning.
constexpr double kUrgentAfterDays = 11.0 / 24.0;
constexpr double kSecondLookAfterDays = 3.0;
constexpr std::size_t kAsksBeforeCorrection = 4;
// Another topic is preferred unless its best point is worth less than this share of the best of all.
constexpr double kTopicChangeWorth = 0.5;
// So many asks lie between a point and one that needs it, where nothing much is lost by it.
constexpr std::size_t kApart = 4;
constexpr double kLeastWorth = 1e-9;
// One point that has waited for ever must not carry a whole service call.
constexpr double kMostDaysInCall = 30.0;
// Before a learner's pace is known: seconds an ask, and days that this belief weighs. As in rehearsals.
constexpr double kSecondsAnAsk = 30;
constexpr double kBelievedDays = 3;

template <class T>
bool shares(const std::vector<T>& a, const std::vector<T>& b) {
    return std::any_of(a.begin(), a.end(), [&](const T& x) { return std::find(b.begin(), b.end(), x) != b.end(); });
}

bool passes(const PointEntry& point, const PickFor& what) {
    if (!point.editions.contains(what.edition)) return false;
    const auto& topics = what.filter.topics;
    if (!topics.empty() && std::find(topics.begin(), topics.end(), point.topic) == topics.end()) return false;
    const auto& points = what.filter.points;
    if (!points.empty() && std::find(points.begin(), points.end(), point.id) == points.end()) return false;
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
    static constexpr std::array<std::string_view, 7> kNames = {"urgent",     "changed", "new",    "rotation",
                                                               "correction", "call",    "look-up"};
    return kNames.at(static_cast<std::size_t>(reason));
}

bool is_due(const memory::RecallState& state, base::Instant now, double target, const memory::Parameters& params) {
    return state.answers() > 0 && (state.last_mark < memory::kRecalledFrom || memory::due(state, now, target, params));
}

std::optional<base::Instant> due_at(const memory::RecallState& state, const PointEntry& point, const PickFor& what) {
    if (state.answers() == 0) return std::nullopt;
    return memory::due_at(state, what.targets.of(point.stakes), what.recall.of(point));
}

Picker::Picker(const content::Index& index, store::RecallStates states, PickFor what)
    : index_{&index}, states_{std::move(states)}, what_{std::move(what)} {
    items_.reserve(index.points.size());
    std::map<std::string_view, std::uint32_t> families;
    for (const auto& point : index.points)
        if (passes(point, what_)) {
            const auto changed = what_.changed.find(point.id);
            const auto family =
                families.try_emplace(point.topic, static_cast<std::uint32_t>(families.size())).first->second;
            items_.push_back({&point, state(point.id), what_.recall.of(point), family, false,
                              changed == what_.changed.end() ? std::nullopt : std::optional{changed->second}});
        }
    for (const auto& [id, state] : states_)
        if (!content::looked_up(id)) answers_ += state.answers();
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

memory::schedule::Candidate Picker::candidate(const Item& item) const {
    return {&item.state, stakes_weight(item.point->stakes), item.family,
            what_.recall.fitted() ? &item.params : nullptr};
}

memory::schedule::Outlook Picker::look_out(base::Instant now) const {
    std::vector<memory::schedule::Candidate> all;
    all.reserve(items_.size());
    for (const auto& item : items_) all.push_back(candidate(item));
    const double days = std::max(0.0, base::days_between(what_.joined, now));
    const double believed = kBelievedDays * what_.session_seconds / kSecondsAnAsk;
    const double days_left = std::max(1.0, std::ceil(base::days_between(now, what_.horizon)));
    return memory::schedule::look_out(all, now, what_.horizon,
                                      {(believed + answers_) / (kBelievedDays + days), days_left});
}

bool Picker::is_changed(const Item& item) {
    return item.changed && item.state.answers() > 0 && item.state.last <= *item.changed;
}

bool Picker::may_be_asked(const Item& item, base::Instant now) const {
    if (item.passed_over) return false;
    return item.state.answers() == 0 ? needs_met(*item.point) : rested(item.state, now);
}

bool Picker::related_to_recent(const PointEntry& point) const {
    if (!recent_.empty() && recent_.front()->topic == point.topic) return true;
    return std::any_of(recent_.begin(), recent_.end(), [&](const PointEntry* one) {
        return std::find(point.needs.begin(), point.needs.end(), one->id) != point.needs.end() ||
               std::find(one->needs.begin(), one->needs.end(), point.id) != one->needs.end();
    });
}

/// The item that is worth most, above nothing; one unrelated to those just asked where it is worth about as much. Equal
/// ones go by lot.
const Picker::Item* Picker::best(const std::function<double(const Item&)>& worth) const {
    struct Best {
        const Item* item = nullptr;
        double worth = 0.0, lot = 0.0;

        void hold(const Item& one, double value, double by_lot) {
            if (value > worth || (value == worth && item != nullptr && by_lot > lot)) *this = {&one, value, by_lot};
        }
    };
    Best top;
    Best other;
    for (const auto& item : items_) {
        const double value = worth(item);
        if (value <= 0.0 || (value < top.worth && value < other.worth)) continue;
        const double by_lot = lot(what_.seed, item.point->id.text);
        top.hold(item, value, by_lot);
        if (!related_to_recent(*item.point)) other.hold(item, value, by_lot);
    }
    return other.item != nullptr && other.worth >= kTopicChangeWorth * top.worth ? other.item : top.item;
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
    const auto stakes = [](const Item& item) { return stakes_weight(item.point->stakes); };
    if (const auto* item =
            best([&](const Item& one) { return !one.passed_over && is_urgent(one.state, now) ? stakes(one) : 0.0; }))
        return Choice{item->point, nullptr, Reason::urgent};
    if (const auto* item =
            best([&](const Item& one) { return !one.passed_over && is_changed(one) ? stakes(one) : 0.0; }))
        return Choice{item->point, nullptr, Reason::changed};
    const auto outlook = look_out(now);
    if (const auto* item = best([&](const Item& one) {
            // Under a clock set back a point may have waited for less than nothing, and must not be locked away.
            return may_be_asked(one, now) ? std::max(kLeastWorth, memory::schedule::worth(candidate(one), outlook))
                                          : 0.0;
        }))
        return Choice{item->point, nullptr, item->state.answers() == 0 ? Reason::fresh : Reason::rotation};
    return take_correction(0);
}

std::optional<double> Picker::call_worth(const content::ScenarioEntry& call,
                                         const memory::schedule::Outlook& outlook) const {
    if (!call.editions.contains(what_.edition)) return std::nullopt;
    const bool filtered = !what_.filter.open();
    double sum = 0.0;
    std::size_t asks = 0;
    for (const auto& id : call.points) {
        const Item* item = find(id);
        // Points in a gap of this edition are left out of the call; points outside the filter rule it out.
        if (item == nullptr && filtered) return std::nullopt;
        if (item == nullptr) continue;
        if (item->passed_over || !rested(item->state, outlook.now)) return std::nullopt;
        sum += std::min(kMostDaysInCall, memory::schedule::worth(candidate(*item), outlook));
        ++asks;
    }
    if (asks < 3) return std::nullopt;
    return sum / static_cast<double>(asks) * (0.75 + 0.25 * lot(what_.seed, call.id));
}

std::optional<Choice> Picker::call(base::Instant now) {
    const content::ScenarioEntry* top = nullptr;
    double most = 0.0;
    const auto outlook = look_out(now);
    for (const auto& call : index_->scenarios) {
        const auto value = call_worth(call, outlook);
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
    recent_.push_front(&point);
    if (recent_.size() > kApart) recent_.pop_back();
    ++asked_;
    ++answers_;
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
        else if (is_due(item.state, now, what_.targets.of(item.point->stakes), item.params))
            ++standing.due;
        if (is_changed(item)) ++standing.changed;
        if (item.state.watch > 0) ++standing.urgent;
    }
    return standing;
}

}  // namespace practice
