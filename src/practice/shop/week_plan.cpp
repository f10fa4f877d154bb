#include "practice/shop/week_plan.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <numeric>
#include <set>
#include <tuple>

#include "practice/shop/week_slots.hpp"
#include "practice/shop/week_weights.hpp"

namespace practice {
namespace {

constexpr double kRecentArticle = 0.6;
constexpr double kSameTopic = 0.8;
constexpr int kRecentWeeks = 3;
// A portion has to gain this much on another before the two change places.
constexpr double kGained = 1.25;
// A portion that had no week at all gains as much as one that comes so many weeks sooner.
constexpr double kLeftOverCounts = 26.0;
constexpr int kNone = -1;

constexpr std::array<std::string_view, 5> kWhy = {"pinned", "weak", "stakes", "outline", "turn"};

bool share(const std::vector<int>& a, const std::vector<int>& b) {
    return std::find_first_of(a.begin(), a.end(), b.begin(), b.end()) != a.end();
}

std::vector<PlannedPoint> planned(const std::vector<WeekPoint>& points) {
    std::vector<PlannedPoint> list;
    for (const auto& point : points)
        list.push_back({point.id, point.title, point.article, point.stakes, point.unverified});
    return list;
}

/// What a week is given: a portion, or what the previous plan has for it.
struct Place {
    enum class State : std::uint8_t { open, off, kept, pinned, held, filled };
    State state = State::open;
    int portion = kNone;
    double weight = 0;  ///< when it was placed
};

class Planner {
public:
    Planner(const std::vector<Portion>& portions, const WeekPlanFor& what)
        : portions_{portions},
          what_{what},
          slots_{week_slots(what)},
          now_{week_weights(portions, what)},
          uses_(portions.size(), 0),
          places_(slots_.size()) {
        for (std::size_t p = 0; p < portions.size(); ++p)
            for (const auto& point : portions[p].points) portion_of_[point.id] = static_cast<int>(p);
    }

    WeekPlan plan() {
        place_fixed();
        place_pins();
        hold_previous();
        fill_open(chosen());
        part_neighbours();
        if (new_week()) exchange();
        return written();
    }

private:
    using State = Place::State;

    [[nodiscard]] const Portion& portion(int p) const { return portions_[static_cast<std::size_t>(p)]; }
    [[nodiscard]] double now(int p) const { return now_[static_cast<std::size_t>(p)]; }
    [[nodiscard]] int& uses(int p) { return uses_[static_cast<std::size_t>(p)]; }

    [[nodiscard]] const std::vector<int>& articles(std::size_t at) const {
        static const std::vector<int> none;
        if (places_[at].state == State::kept) return slots_[at].before->articles;
        return places_[at].portion == kNone ? none : portion(places_[at].portion).articles;
    }

    /// The portion that has most of these points, if it is at least half of them.
    [[nodiscard]] int matching(const std::vector<PlannedPoint>& points) const {
        std::map<int, std::size_t> shared;
        for (const auto& point : points)
            if (const auto found = portion_of_.find(point.id); found != portion_of_.end()) ++shared[found->second];
        int best = kNone;
        for (const auto& [p, count] : shared)
            if (2 * count >= points.size() && (best == kNone || count > shared[best])) best = p;
        return best;
    }

    void put(std::size_t at, State state, int p, double weight) {
        places_[at] = {state, p, weight};
        if (p != kNone) ++uses(p);
    }

    void take_away(std::size_t at) {
        if (places_[at].portion != kNone) --uses(places_[at].portion);
        places_[at] = {};
    }

    void place_fixed() {
        for (std::size_t at = 0; at < slots_.size(); ++at) {
            const auto& slot = slots_[at];
            if (slot.kept())
                put(at, slot.before->off ? State::off : State::kept, matching(slot.before->points),
                    slot.before->weight);
            else if (slot.holiday != nullptr)
                places_[at].state = State::off;
        }
    }

    /// The portion a pin means: the one it had, else the least used and then the weightiest of its article.
    [[nodiscard]] int pinned_portion(const WeekSlot& slot) const {
        const auto reference = *trade::parse_article(slot.pin->article);
        if (slot.before != nullptr && slot.before->pin == slot.pin->article)
            if (const int old = matching(slot.before->points); old != kNone && stands_under(portion(old), reference))
                return old;
        int best = kNone;
        for (std::size_t p = 0; p < portions_.size(); ++p)
            if (stands_under(portions_[p], reference) &&
                (best == kNone ||
                 std::tuple(uses_[p], -now_[p]) < std::tuple(uses_[static_cast<std::size_t>(best)], -now(best))))
                best = static_cast<int>(p);
        return best;
    }

    void place_pins() {
        for (std::size_t at = 0; at < slots_.size(); ++at)
            if (slots_[at].pin != nullptr && places_[at].state == State::open) {
                const int p = pinned_portion(slots_[at]);
                put(at, State::pinned, p, now(p));
            }
    }

    void hold_previous() {
        for (std::size_t at = 0; at < slots_.size(); ++at) {
            const auto* before = slots_[at].before;
            if (before == nullptr || places_[at].state != State::open) continue;
            const int p = matching(before->points);
            if (p != kNone && (uses(p) == 0 || before->again)) put(at, State::held, p, before->weight);
        }
    }

    [[nodiscard]] std::map<int, int> weeks_by_article() const {
        std::map<int, int> weeks;
        for (const auto& portion : portions_)
            for (const int article : portion.articles) weeks[article];
        for (std::size_t at = 0; at < slots_.size(); ++at)
            for (const int article : articles(at)) ++weeks[article];
        return weeks;
    }

    /// Portions that bring every article without a week to one, the weightiest first.
    [[nodiscard]] std::vector<int> needed() const {
        std::set<int> missing;
        for (const auto& [article, weeks] : weeks_by_article())
            if (weeks == 0) missing.insert(article);
        std::vector<int> order(portions_.size());
        std::iota(order.begin(), order.end(), 0);
        std::stable_sort(order.begin(), order.end(), [this](int a, int b) { return now(a) > now(b); });
        std::vector<int> list;
        for (const int p : order) {
            const auto& own = portion(p).articles;
            if (std::none_of(own.begin(), own.end(), [&](int article) { return missing.count(article) > 0; })) continue;
            list.push_back(p);
            for (const int article : own) missing.erase(article);
        }
        return list;
    }

    [[nodiscard]] std::vector<std::size_t> open_slots() const {
        std::vector<std::size_t> open;
        for (std::size_t at = 0; at < places_.size(); ++at)
            if (places_[at].state == State::open) open.push_back(at);
        return open;
    }

    /// Opens held weeks for articles that have none: those that come again first, then the lightest, and never the
    /// only week of an article.
    void make_room(std::size_t wanted) {
        auto weeks = weeks_by_article();
        std::vector<std::size_t> held;
        for (std::size_t at = 0; at < places_.size(); ++at)
            if (places_[at].state == State::held) held.push_back(at);
        std::stable_sort(held.begin(), held.end(), [this](std::size_t a, std::size_t b) {
            return std::tuple(!slots_[a].before->again, now(places_[a].portion)) <
                   std::tuple(!slots_[b].before->again, now(places_[b].portion));
        });
        std::size_t open = open_slots().size();
        for (const std::size_t at : held) {
            const auto own = articles(at);
            if (open >= wanted) return;
            if (std::any_of(own.begin(), own.end(), [&weeks](int article) { return weeks[article] < 2; })) continue;
            for (const int article : own) --weeks[article];
            take_away(at);
            ++open;
        }
    }

    struct Candidate {
        int portion = kNone;
        int round = 0;  ///< how many weeks it has already
    };

    /// As many portions as there are open weeks.
    std::vector<Candidate> chosen() {
        const auto musts = needed();
        make_room(musts.size());
        const std::size_t room = open_slots().size();
        std::vector<Candidate> list;
        auto times = uses_;
        const auto take = [&](int p) { list.push_back({p, times[static_cast<std::size_t>(p)]++}); };
        for (const int p : musts)
            if (list.size() < room) take(p);
        while (list.size() < room) {
            int best = 0;
            for (int p = 1; p < static_cast<int>(portions_.size()); ++p)
                if (std::tuple(times[static_cast<std::size_t>(p)], -now(p)) <
                    std::tuple(times[static_cast<std::size_t>(best)], -now(best)))
                    best = p;
            take(best);
        }
        return list;
    }

    /// The nearest week with an article before or after; kNone: there is none yet.
    [[nodiscard]] int neighbour(std::size_t at, int step) const {
        for (int n = static_cast<int>(at) + step; n >= 0 && n < static_cast<int>(places_.size()); n += step) {
            const auto state = places_[static_cast<std::size_t>(n)].state;
            if (state == State::open) return kNone;
            if (state != State::off) return n;
        }
        return kNone;
    }

    [[nodiscard]] int clashes(std::size_t at) const {
        int count = 0;
        for (const int step : {-1, 1})
            if (const int next = neighbour(at, step); next != kNone)
                count += share(articles(at), articles(static_cast<std::size_t>(next))) ? 1 : 0;
        return count;
    }

    /// A portion's weight in a week, less what speaks for a change.
    [[nodiscard]] double fresh_weight(int p, std::size_t at) const {
        double weight = now(p);
        int near = neighbour(at, -1);
        if (near != kNone && places_[static_cast<std::size_t>(near)].portion != kNone &&
            portion(places_[static_cast<std::size_t>(near)].portion).topic == portion(p).topic)
            weight *= kSameTopic;
        for (int back = 0; back < kRecentWeeks && near != kNone; ++back) {
            if (share(portion(p).articles, articles(static_cast<std::size_t>(near)))) return weight * kRecentArticle;
            near = neighbour(static_cast<std::size_t>(near), -1);
        }
        return weight;
    }

    /// Articles of which half or more of what is left is: they have to go now, or would end side by side.
    [[nodiscard]] std::set<int> pressing(const std::vector<Candidate>& left) const {
        std::map<int, std::size_t> counts;
        for (const auto& one : left)
            for (const int article : portion(one.portion).articles) ++counts[article];
        std::set<int> found;
        for (const auto& [article, count] : counts)
            if (2 * count >= left.size()) found.insert(article);
        return found;
    }

    [[nodiscard]] std::size_t best_for(std::size_t at, const std::vector<Candidate>& left) {
        const auto press = pressing(left);
        std::size_t best = 0;
        std::tuple<int, bool, int, double> best_rank{};
        for (std::size_t n = 0; n < left.size(); ++n) {
            const auto& own = portion(left[n].portion).articles;
            const bool pressed = std::any_of(own.begin(), own.end(), [&](int a) { return press.count(a) > 0; });
            places_[at] = {State::filled, left[n].portion, 0};
            const int clash = clashes(at);
            places_[at] = {};
            const std::tuple rank{clash, !pressed, left[n].round, -fresh_weight(left[n].portion, at)};
            if (n == 0 || rank < best_rank) {
                best = n;
                best_rank = rank;
            }
        }
        return best;
    }

    void fill_open(std::vector<Candidate> left) {
        for (const std::size_t at : open_slots()) {
            const std::size_t n = best_for(at, left);
            put(at, State::filled, left[n].portion, now(left[n].portion));
            left.erase(left.begin() + static_cast<std::ptrdiff_t>(n));
        }
    }

    /// Where two neighbours still share an article, one of them changes places with another newly filled week.
    void part_neighbours() {
        std::vector<std::size_t> movable;
        for (std::size_t at = 0; at < places_.size(); ++at)
            if (places_[at].state == State::filled) movable.push_back(at);
        for (const std::size_t at : movable)
            for (const std::size_t other : movable) {
                if (clashes(at) == 0) break;
                const int before = clashes(at) + clashes(other);
                std::swap(places_[at], places_[other]);
                if (clashes(at) + clashes(other) >= before) std::swap(places_[at], places_[other]);
            }
    }

    [[nodiscard]] bool new_week() const {
        return what_.previous != nullptr && monday_of(what_.previous->as_of) < monday_of(what_.today);
    }

    /// A portion without a week, and its weight when it was left over.
    [[nodiscard]] std::vector<Place> waiting() const {
        std::vector<Place> list;
        for (const auto& left : what_.previous->left_over)
            if (const int p = matching(left.points); p != kNone && uses_[static_cast<std::size_t>(p)] == 0)
                list.push_back({State::filled, p, left.weight});
        return list;
    }

    /// How much heavier the later portion is now; 0 when it does not go before the earlier one.
    [[nodiscard]] double gain(const Place& earlier, const Place& later) const {
        if (earlier.portion == later.portion || earlier.weight <= 0 || later.weight <= 0) return 0;
        const double ahead = now(later.portion) - now(earlier.portion);
        const double grown = now(later.portion) / later.weight;
        return grown >= kGained * now(earlier.portion) / earlier.weight ? std::max(0.0, ahead) : 0;
    }

    [[nodiscard]] bool may_swap(std::size_t a, std::size_t b) {
        const int before = clashes(a) + clashes(b);
        std::swap(places_[a], places_[b]);
        const bool good = clashes(a) + clashes(b) <= before;
        std::swap(places_[a], places_[b]);
        return good;
    }

    [[nodiscard]] bool may_replace(std::size_t at, const Place& by, const std::map<int, int>& weeks) {
        for (const int article : articles(at))
            if (weeks.at(article) < 2 && !share(portion(by.portion).articles, {article})) return false;
        const Place old = places_[at];
        const int before = clashes(at);
        places_[at] = by;
        const bool good = clashes(at) <= before;
        places_[at] = old;
        return good;
    }

    /// The exchange that brings most, by what is gained and by how many weeks sooner; true when one was made.
    bool exchange_best() {
        double most = 0;
        std::size_t from = 0;
        std::size_t to = places_.size();
        Place incoming;
        const auto consider = [&](double gained, std::size_t a, std::size_t b, const Place& in, bool allowed) {
            if (gained > most && allowed) std::tie(most, from, to, incoming) = std::tuple(gained, a, b, in);
        };
        const auto weeks = weeks_by_article();
        const auto others = waiting();
        for (std::size_t a = 0; a < places_.size(); ++a) {
            if (places_[a].state != State::held) continue;
            for (std::size_t b = a + 1; b < places_.size(); ++b)
                if (places_[b].state == State::held) {
                    const double gained = gain(places_[a], places_[b]) * static_cast<double>(b - a);
                    consider(gained, a, b, {}, gained > most && may_swap(a, b));
                }
            for (const auto& other : others) {
                const double gained = gain(places_[a], other) * kLeftOverCounts;
                consider(gained, a, places_.size(), other, gained > most && may_replace(a, other, weeks));
            }
        }
        if (most == 0) return false;
        const Place out = places_[from];
        const Place in = to < places_.size() ? places_[to] : incoming;
        take_away(from);
        if (to < places_.size()) {
            take_away(to);
            put(to, State::filled, out.portion, now(out.portion));
        }
        put(from, State::filled, in.portion, now(in.portion));
        return true;
    }

    void exchange() {
        for (int n = 0; n < kMostExchanges && exchange_best(); ++n) {
        }
    }

    [[nodiscard]] WeekCauses mean_causes() const {
        std::vector<WeekPoint> all;
        for (const auto& portion : portions_) all.insert(all.end(), portion.points.begin(), portion.points.end());
        return week_causes(all, what_);
    }

    [[nodiscard]] PlannedWeek week(std::size_t at, const WeekCauses& mean) const {
        const auto& slot = slots_[at];
        const auto& place = places_[at];
        PlannedWeek week;
        if (slot.kept()) week = *slot.before;
        week.number = slot.number;
        week.day = slot.day;
        if (slot.kept()) return week;
        week.off = place.state == State::off;
        if (week.off) {
            week.holiday = slot.holiday->name;
            return week;
        }
        const auto& own = portion(place.portion);
        week.title = own.title;
        week.articles = own.articles;
        week.points = planned(own.points);
        week.why = place.state == State::pinned ? WhyWeek::pinned : why_week(week_causes(own.points, what_), mean);
        if (slot.pin != nullptr) week.pin = slot.pin->article;
        week.weight = place.weight;
        return week;
    }

    void write_left_over(WeekPlan& plan) const {
        std::map<int, double> waited;
        if (what_.previous != nullptr)
            for (const auto& place : waiting()) waited[place.portion] = place.weight;
        std::vector<int> order;
        for (int p = 0; p < static_cast<int>(portions_.size()); ++p)
            if (uses_[static_cast<std::size_t>(p)] == 0) order.push_back(p);
        std::stable_sort(order.begin(), order.end(), [this](int a, int b) { return now(a) > now(b); });
        for (const int p : order) {
            const auto known = waited.find(p);
            plan.left_over.push_back(
                {portion(p).title, planned(portion(p).points), known == waited.end() ? now(p) : known->second});
        }
    }

    [[nodiscard]] WeekPlan written() const {
        WeekPlan plan;
        plan.as_of = what_.today;
        const WeekCauses mean = mean_causes();
        std::set<int> met;
        std::set<base::PointId> in_weeks;
        for (std::size_t at = 0; at < slots_.size(); ++at) {
            plan.weeks.push_back(week(at, mean));
            const int p = places_[at].portion;
            if (p != kNone && !met.insert(p).second && !slots_[at].kept()) plan.weeks.back().again = true;
            for (const auto& point : plan.weeks.back().points) in_weeks.insert(point.id);
        }
        plan.points = portion_of_.size();
        for (const auto& [id, p] : portion_of_) plan.in_weeks += in_weeks.count(id);
        for (const auto& [article, weeks] : weeks_by_article())
            if (weeks == 0) plan.without_week.push_back(article);
        write_left_over(plan);
        return plan;
    }

    const std::vector<Portion>& portions_;
    const WeekPlanFor& what_;
    std::vector<WeekSlot> slots_;
    std::vector<double> now_;  ///< weight of each portion
    std::vector<int> uses_;    ///< weeks each portion has
    std::vector<Place> places_;
    std::unordered_map<base::PointId, int> portion_of_;
};

}  // namespace

std::string_view to_text(WhyWeek why) {
    return kWhy.at(static_cast<std::size_t>(why));
}

std::optional<WhyWeek> parse_why_week(std::string_view text) {
    for (std::size_t n = 0; n < kWhy.size(); ++n)
        if (kWhy.at(n) == text) return static_cast<WhyWeek>(n);
    return std::nullopt;
}

const PlannedWeek* WeekPlan::next(std::chrono::sys_days day) const {
    for (const auto& week : weeks)
        if (week.day >= day && !week.off) return &week;
    return nullptr;
}

base::Checked<WeekPlan> plan_weeks(const std::vector<Portion>& portions, const WeekPlanFor& what) {
    if (auto faults = week_plan_faults(portions, what); !faults.empty()) return tl::unexpected(std::move(faults));
    return Planner{portions, what}.plan();
}

}  // namespace practice
