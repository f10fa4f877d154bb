#include "memory/rehearsal/own_policy.hpp"

#include <algorithm>
#include <cmath>

#include "memory/fit/fit.hpp"

namespace memory::rehearsal {
namespace {

// Before anything is seen of the learner's pace: as many seconds an ask, and as many days that this belief weighs.
constexpr double kSecondsAnAsk = 30;
constexpr double kBelievedDays = 3;
constexpr std::size_t kDaysBetweenFits = 7;

/// The scores are for a whole sitting, the room is for single points: those beyond it lose what being new gave them.
void keep_to_room(const Desk& desk, const schedule::Outlook& outlook, std::span<double> scores) {
    std::vector<std::size_t> fresh;
    for (std::size_t point = 0; point < scores.size(); ++point)
        if (desk.states[point].answers() == 0) fresh.push_back(point);
    const auto room = static_cast<std::ptrdiff_t>(std::ceil(std::min(outlook.room, static_cast<double>(fresh.size()))));
    const auto end = fresh.begin() + room;
    std::nth_element(fresh.begin(), end, fresh.end(), [&](std::size_t a, std::size_t b) {
        return scores[a] != scores[b] ? scores[a] > scores[b] : a < b;
    });
    auto full = outlook;
    full.room = 0;
    for (auto at = end; at != fresh.end(); ++at)
        scores[*at] = worth({&desk.states[*at], desk.weights[*at], desk.families[*at]}, full);
}

}  // namespace

schedule::Pace OwnRule::pace(const Desk& desk) const {
    const double believed = kBelievedDays * desk.seconds_a_day / kSecondsAnAsk;
    const double a_day = (believed + asks_) / (kBelievedDays + static_cast<double>(desk.day));
    return {a_day, static_cast<double>(desk.days - desk.day)};
}

void OwnRule::score(const Desk& desk, std::span<double> scores) {
    const Parameters* params = parameters(desk);
    candidates_.clear();
    for (std::size_t point = 0; point < scores.size(); ++point)
        candidates_.push_back({&desk.states[point], desk.weights[point], desk.families[point],
                               params == nullptr ? nullptr : params + point});
    const auto outlook = schedule::look_out(candidates_, desk.now, desk.horizon, pace(desk));
    for (std::size_t point = 0; point < scores.size(); ++point) scores[point] = worth(candidates_[point], outlook);
    keep_to_room(desk, outlook, scores);
}

void OwnRule::answered(const Told& told) {
    if (!told.correction) ++asks_;
}

void OwnRuleFitted::answered(const Told& told) {
    OwnRule::answered(told);
    FitAnswer answer;
    answer.point = static_cast<std::uint32_t>(told.point);
    answer.mark = told.recalled ? 1.0F : 0.0F;
    answer.at = told.at;
    answers_.push_back(answer);
}

const Parameters* OwnRuleFitted::parameters(const Desk& desk) {
    if (desk.day >= fitted_on_ + kDaysBetweenFits && !answers_.empty()) fit_again(desk);
    return params_.empty() ? nullptr : params_.data();
}

void OwnRuleFitted::fit_again(const Desk& desk) {
    fitted_on_ = desk.day;
    const auto data = observe(answers_, 1, {desk.families.begin(), desk.families.end()});
    const auto fitted = fit(data, shipped_priors());
    const Places places{data};
    Shared shared{};
    std::copy_n(fitted.at.begin(), kShared, shared.begin());
    Parameters learner = from_shared(shared);
    learner.learner_ease = fitted.at[places.learner_ease(0)];
    learner.learner_forgets = fitted.at[places.learner_forgets(0)];
    params_.assign(desk.states.size(), learner);
    for (std::size_t point = 0; point < params_.size(); ++point) {
        const std::uint32_t family = desk.families[point];
        const auto branch = data.branch(0, family);
        params_[point].point_ease = fitted.at[places.point_ease(point)] + fitted.at[places.family_ease(family)] +
                                    (branch == Observations::kNoBranch ? 0 : fitted.at[places.branch_ease(branch)]);
    }
}

}  // namespace memory::rehearsal
