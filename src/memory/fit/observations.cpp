#include "memory/fit/observations.hpp"

#include <algorithm>
#include <cassert>
#include <limits>
#include <numeric>
#include <tuple>

#include "memory/model.hpp"

namespace memory {
namespace {

auto key(const FitAnswer& answer) {
    return std::tuple{answer.learner, answer.point, answer.at};
}

void sort_and_unite(std::vector<FitAnswer>& answers) {
    std::stable_sort(answers.begin(), answers.end(),
                     [](const FitAnswer& a, const FitAnswer& b) { return key(a) < key(b); });
    answers.erase(std::unique(answers.begin(), answers.end(),
                              [](const FitAnswer& a, const FitAnswer& b) { return key(a) == key(b); }),
                  answers.end());
}

std::uint16_t count(std::uint32_t answers) {
    return static_cast<std::uint16_t>(std::min<std::uint32_t>(answers, std::numeric_limits<std::uint16_t>::max()));
}

Observation observe_one(const RecallState& before, const FitAnswer& answer) {
    const auto features = features_at(before, answer.at);
    Observation row;
    for (std::size_t k = 0; k < kActivationFeatures; ++k)
        row.activation[k] = static_cast<float>(features.activation[k]);
    for (std::size_t k = 0; k < kDecayFeatures; ++k) row.decay[k] = static_cast<float>(features.decay[k]);
    row.delay = static_cast<float>(features.delay);
    row.days =
        static_cast<float>(before.answers() == 0 ? 0 : std::max(0.0, base::days_between(before.last, answer.at)));
    row.recalled_before = count(before.recalled);
    row.failed_before = count(before.failed);
    row.form = answer.form;
    row.held_back = answer.held_back;
    row.recalled = answer.mark >= static_cast<float>(kRecalledFrom);
    return row;
}

std::uint32_t branch_for(Observations& data, const FitAnswer& answer) {
    auto& branch = data.branch_of_learner[answer.learner * data.families + data.family_of_point[answer.point]];
    if (branch == Observations::kNoBranch) branch = static_cast<std::uint32_t>(data.branches++);
    return branch;
}

}  // namespace

Observations observe(std::vector<FitAnswer> answers, std::size_t learners, std::vector<std::uint32_t> family_of_point) {
    Observations data;
    data.learners = learners;
    data.points = family_of_point.size();
    data.family_of_point = std::move(family_of_point);
    for (const auto family : data.family_of_point) data.families = std::max<std::size_t>(data.families, family + 1U);
    data.branch_of_learner.assign(learners * data.families, Observations::kNoBranch);
    sort_and_unite(answers);
    data.rows.reserve(answers.size());
    RecallState state;
    for (const auto& answer : answers) {
        assert(answer.learner < learners && answer.point < data.points && answer.form < kForms);
        const bool same = !data.pairs.empty() && data.pairs.back().learner == answer.learner &&
                          data.pairs.back().point == answer.point;
        if (!same) {
            state = {};
            data.pairs.push_back({answer.learner, answer.point, branch_for(data, answer), data.rows.size(), 0});
        }
        if (!answer.told) data.rows.push_back(observe_one(state, answer));
        data.pairs.back().end = data.rows.size();
        state = advance(state, answer.at, answer.told ? 0 : static_cast<double>(answer.mark), answer.sure);
    }
    return data;
}

Observations part(const Observations& all, bool held_back) {
    Observations part = all;
    part.rows.clear();
    part.pairs.clear();
    for (Pair pair : all.pairs) {
        const std::size_t begin = part.rows.size();
        for (std::size_t r = pair.begin; r < pair.end; ++r)
            if (all.rows[r].held_back == held_back) part.rows.push_back(all.rows[r]);
        if (part.rows.size() == begin) continue;
        pair.begin = begin;
        pair.end = part.rows.size();
        part.pairs.push_back(pair);
    }
    return part;
}

void hold_back_last(std::vector<FitAnswer>& answers, double share) {
    std::vector<std::size_t> order(answers.size());
    std::iota(order.begin(), order.end(), 0);
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return std::tuple{answers[a].learner, answers[a].at} < std::tuple{answers[b].learner, answers[b].at};
    });
    for (std::size_t begin = 0; begin < order.size();) {
        std::size_t end = begin;
        while (end < order.size() && answers[order[end]].learner == answers[order[begin]].learner) ++end;
        const auto kept = end - static_cast<std::size_t>(share * static_cast<double>(end - begin));
        for (std::size_t n = begin; n < end; ++n) answers[order[n]].held_back = n >= kept;
        begin = end;
    }
}

}  // namespace memory
