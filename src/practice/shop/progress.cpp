#include "practice/shop/progress.hpp"

#include <algorithm>
#include <cassert>
#include <chrono>
#include <cmath>
#include <map>
#include <string_view>
#include <tuple>

#include "memory/due.hpp"
#include "memory/model.hpp"

namespace practice {
namespace {

constexpr double kMonth = 365.25 / 12;
constexpr std::array<double, 5> kSteps{1, 7, kMonth, 3 * kMonth, 365.25};
constexpr std::size_t kForms = kCallForm + std::size_t{1};
constexpr std::uint32_t kOut = 0xFFFF'FFFF;

std::int64_t day_of(base::Instant when) {
    return std::chrono::floor<std::chrono::days>(when).time_since_epoch().count();
}

std::int64_t week_of(base::Instant when) {
    return std::chrono::floor<std::chrono::weeks>(when - base::Instant{} + std::chrono::days{3}).count();
}

/// The log keeps marks in single precision, where nine tenths lie below nine tenths.
double mark_of(const memory::FitAnswer& answer) {
    return std::round(static_cast<double>(answer.mark) * 1e6) / 1e6;
}

bool recalled(const memory::FitAnswer& answer) {
    return mark_of(answer) >= memory::kRecalledFrom;
}

std::vector<memory::FitAnswer> answers_of(const CrewLog& log, const base::Id128& learner, base::Instant now) {
    std::vector<memory::FitAnswer> own;
    const auto known = std::find(log.learners.begin(), log.learners.end(), learner);
    if (known == log.learners.end()) return own;
    const auto number = static_cast<std::uint32_t>(known - log.learners.begin());
    for (const auto& answer : log.answers)
        if (answer.learner == number && answer.at <= now) own.push_back(answer);
    const auto earlier = [](const auto& a, const auto& b) { return a.at < b.at; };
    if (!std::is_sorted(own.begin(), own.end(), earlier)) std::stable_sort(own.begin(), own.end(), earlier);
    return own;
}

/// A point of the edition, with what the learner remembers of it.
struct Slot {
    const content::PointEntry* point = nullptr;
    std::uint32_t topic = 0;
    memory::Parameters params;
    memory::RecallState state;
};

/// What points add up to at a moment.
struct Sum {
    double recall = 0;
    std::size_t met = 0, due = 0;
    [[nodiscard]] double mean() const { return met == 0 ? 0 : recall / static_cast<double>(met); }
};

struct Sums {
    std::vector<Sum> topics;
    Sum all, shock;
};

/// The points of an edition while answers are replayed.
class Shelf {
public:
    Shelf(const content::Index& index, const ProgressFor& what) : what_{&what}, slot_of_(index.points.size(), kOut) {
        std::map<std::string_view, std::uint32_t> topics;
        for (const auto& point : index.points)
            if (point.editions.contains(what.edition)) topics.emplace(point.topic, 0);
        for (auto& [name, number] : topics) {
            number = static_cast<std::uint32_t>(names_.size());
            names_.emplace_back(name);
        }
        for (std::size_t n = 0; n < index.points.size(); ++n) {
            const auto& point = index.points[n];
            if (!point.editions.contains(what.edition)) continue;
            slot_of_[n] = static_cast<std::uint32_t>(slots_.size());
            slots_.push_back({&point, topics[point.topic], what.recall.of(point), {}});
        }
    }

    /// Nothing for a point that is not of the edition.
    [[nodiscard]] Slot* slot(std::uint32_t point) {
        if (point >= slot_of_.size() || slot_of_[point] == kOut) return nullptr;
        return &slots_[slot_of_[point]];
    }
    [[nodiscard]] const std::vector<Slot>& slots() const { return slots_; }
    [[nodiscard]] const std::vector<std::string>& names() const { return names_; }

    [[nodiscard]] Sums sums(base::Instant at) const {
        Sums sums;
        sums.topics.resize(names_.size());
        for (const auto& slot : slots_) {
            if (slot.state.answers() == 0) continue;
            const double recall = memory::recall_probability(slot.state, at, slot.params);
            const bool failed = slot.state.last_mark < memory::kRecalledFrom;
            const bool due = failed || recall <= what_->targets.of(slot.point->stakes);
            const bool shock = slot.point->stakes == content::Stakes::shock;
            for (Sum* sum : {&sums.topics[slot.topic], &sums.all, shock ? &sums.shock : nullptr}) {
                if (sum == nullptr) continue;
                sum->recall += recall;
                ++sum->met;
                sum->due += due ? 1 : 0;
            }
        }
        return sums;
    }

private:
    const ProgressFor* what_;
    std::vector<std::uint32_t> slot_of_;  ///< by number of the library's point
    std::vector<Slot> slots_;
    std::vector<std::string> names_;
};

double step_for(double days, std::size_t most) {
    for (const double step : kSteps)
        if (std::floor(days / step) + 1 <= static_cast<double>(most)) return step;
    return days / static_cast<double>(most);
}

std::vector<base::Instant> sample_times(base::Instant first, const ProgressFor& what, double step) {
    std::vector<base::Instant> times{what.now};
    while (times.size() < what.most_samples) {
        const auto before = base::after_days(what.now, -step * static_cast<double>(times.size()));
        if (before < first) break;
        times.push_back(before);
    }
    std::reverse(times.begin(), times.end());
    return times;
}

void take_sample(Progress& to, const Shelf& shelf, base::Instant at) {
    const Sums sums = shelf.sums(at);
    to.history.push_back({at, sums.all.met, sums.all.mean()});
    for (std::size_t n = 0; n < to.topics.size(); ++n)
        to.topics[n].history.push_back({at, sums.topics[n].met, sums.topics[n].mean()});
}

/// Folds the answers into the shelf and looks at it on the way. Sampling costs points times samples, whatever the
/// number of answers.
void replay(Progress& to, Shelf& shelf, const std::vector<memory::FitAnswer>& answers, const ProgressFor& what) {
    std::vector<base::Instant> times;
    if (!answers.empty() && what.most_samples > 0) {
        const auto first = answers.front().at;
        to.step_days = step_for(base::days_between(first, what.now), what.most_samples);
        times = sample_times(first, what, to.step_days);
    }
    auto next = times.begin();
    for (const auto& answer : answers) {
        for (; next != times.end() && *next < answer.at; ++next) take_sample(to, shelf, *next);
        Slot* slot = shelf.slot(answer.point);
        if (slot == nullptr) {
            ++to.removed;
            continue;
        }
        slot->state = memory::advance(slot->state, answer.at, mark_of(answer), answer.sure);
        auto& begun = to.topics[slot->topic].begun;
        if (!begun) begun = answer.at;
    }
    for (; next != times.end(); ++next) take_sample(to, shelf, *next);
}

void foretell(Progress& to, const Shelf& shelf, base::Instant now) {
    for (const int days : kForecastDays) {
        const Sums sums = shelf.sums(base::after_days(now, days));
        to.forecast.push_back({days, sums.all.mean(), sums.all.due});
        to.shock_forecast.push_back({days, sums.shock.mean(), sums.shock.due});
        to.shock_met = sums.shock.met;
        for (std::size_t n = 0; n < to.topics.size(); ++n)
            to.topics[n].forecast.push_back({days, sums.topics[n].mean(), sums.topics[n].due});
    }
}

void stand(Progress& to, const Shelf& shelf) {
    for (const auto& slot : shelf.slots()) {
        auto& standing = to.topics[slot.topic].standing;
        ++standing.points;
        standing.met += slot.state.answers() > 0 ? 1 : 0;
        standing.urgent += slot.state.watch > 0 ? 1 : 0;
    }
    for (auto& topic : to.topics) {
        topic.standing.recall = topic.forecast.front().recall;
        topic.standing.due = topic.forecast.front().due;
        to.points += topic.standing.points;
        to.met += topic.standing.met;
        to.due += topic.standing.due;
        to.tripped += topic.standing.urgent;
    }
}

std::optional<CorrectionState> correction_state(const memory::RecallState& state) {
    if (state.answers() == 0) return std::nullopt;
    if (state.sure_and_wrong()) return CorrectionState::sure_and_wrong;
    if (state.watch > 0) return CorrectionState::to_prove;
    if (state.last_mark < memory::kRecalledFrom) return CorrectionState::wrong;
    return std::nullopt;
}

std::vector<OpenCorrection> open_corrections(const Shelf& shelf, const ProgressFor& what) {
    std::vector<OpenCorrection> open;
    for (const auto& slot : shelf.slots()) {
        const auto state = correction_state(slot.state);
        if (!state) continue;
        const auto& point = *slot.point;
        open.push_back({point.id, what.title_of ? what.title_of(point) : point.id.text, point.topic, point.stakes,
                        *state, slot.state.last});
    }
    const auto rank = [](const OpenCorrection& one) { return std::tuple{one.state, one.stakes, -day_of(one.last)}; };
    std::stable_sort(open.begin(), open.end(), [&](const auto& a, const auto& b) { return rank(a) < rank(b); });
    return open;
}

std::vector<WeekAnswers> weeks_of(const std::vector<memory::FitAnswer>& answers, base::Instant now) {
    std::vector<WeekAnswers> weeks;
    if (answers.empty()) return weeks;
    const auto first = week_of(answers.front().at);
    weeks.resize(static_cast<std::size_t>(week_of(now) - first + 1));
    for (std::size_t n = 0; n < weeks.size(); ++n)
        weeks[n].monday = monday_of(answers.front().at) + std::chrono::weeks{n};
    for (const auto& answer : answers) {
        auto& week = weeks[static_cast<std::size_t>(week_of(answer.at) - first)];
        ++week.answers;
        week.right += recalled(answer) ? 1 : 0;
        week.minutes += static_cast<double>(answer.took_ms) / 60'000;
    }
    return weeks;
}

double quantile(std::vector<double>& values, double share) {
    const double place = share * static_cast<double>(values.size() - 1);
    const auto at = static_cast<std::ptrdiff_t>(place);
    std::nth_element(values.begin(), values.begin() + at, values.end());
    const double low = values[static_cast<std::size_t>(at)];
    const double part = place - static_cast<double>(at);
    if (part <= 0) return low;
    return low + part * (*std::min_element(values.begin() + at + 1, values.end()) - low);
}

std::vector<FormTime> times_of(const std::vector<memory::FitAnswer>& answers) {
    std::array<std::vector<double>, kForms> seconds;
    for (const auto& answer : answers)
        if (answer.took_ms > 0 && answer.form < kForms)
            seconds[answer.form].push_back(static_cast<double>(answer.took_ms) / 1000);
    std::vector<FormTime> times;
    for (std::size_t form = 0; form < kForms; ++form) {
        auto& own = seconds[form];
        if (own.empty()) continue;
        const std::string_view name =
            form == kCallForm ? "service call" : content::to_text(static_cast<content::Form>(form));
        times.push_back({std::string{name}, own.size(), quantile(own, 0.5), quantile(own, 0.25), quantile(own, 0.75)});
    }
    return times;
}

void count(Progress& to, const std::vector<memory::FitAnswer>& answers) {
    to.answers = answers.size();
    if (answers.empty()) return;
    to.first = answers.front().at;
    to.last = answers.back().at;
    std::int64_t day = day_of(*to.first) - 1;
    for (const auto& answer : answers) {
        const bool right = recalled(answer);
        auto& tally = to.sure.at(static_cast<std::size_t>(answer.sure));
        ++tally.answers;
        tally.right += right ? 1 : 0;
        to.right += right ? 1 : 0;
        to.minutes += static_cast<double>(answer.took_ms) / 60'000;
        to.days_studied += day_of(answer.at) != day ? 1 : 0;
        day = day_of(answer.at);
    }
}

}  // namespace

std::string_view to_text(CorrectionState state) {
    static constexpr std::array<std::string_view, 3> kNames{"sure and wrong", "right since, to be proved again",
                                                            "wrong last time"};
    return kNames.at(static_cast<std::size_t>(state));
}

base::Instant monday_of(base::Instant when) {
    return base::Instant{} + std::chrono::weeks{week_of(when)} - std::chrono::days{3};
}

Progress progress(const content::Index& index, const CrewLog& log, const base::Id128& learner,
                  const ProgressFor& what) {
    assert(log.in_library == index.points.size());
    const auto answers = answers_of(log, learner, what.now);
    Shelf shelf{index, what};
    Progress found;
    found.topics.resize(shelf.names().size());
    for (std::size_t n = 0; n < found.topics.size(); ++n) found.topics[n].standing.topic = shelf.names()[n];
    count(found, answers);
    replay(found, shelf, answers, what);
    foretell(found, shelf, what.now);
    stand(found, shelf);
    found.corrections = open_corrections(shelf, what);
    found.weeks = weeks_of(answers, what.now);
    found.times = times_of(answers);
    return found;
}

}  // namespace practice
