#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <utility>
#include <vector>

/// A small fitter for two parameters, for the tests alone: the simplex search of Nelder & Mead (1965).
namespace least_squares {

using Two = std::array<double, 2>;
using Curve = std::function<double(Two, double)>;

struct Sample {
    double at;
    double value;
};

struct Fit {
    Two parameters;
    double r_squared;
    double max_error;
};

inline double squares(const Curve& curve, Two p, const std::vector<Sample>& samples) {
    double sum = 0;
    for (const Sample& s : samples) sum += std::pow(curve(p, s.at) - s.value, 2);
    return sum;
}

inline Two mix(Two a, Two b, double t) {
    return {a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])};
}

/// One step on three vertices sorted best first: reflect, stretch, pull in, or shrink.
template <class Loss>
void step(std::array<std::pair<double, Two>, 3>& v, const Loss& loss) {
    const auto tried = [&](Two p) { return std::pair{loss(p), p}; };
    const Two middle = mix(v[0].second, v[1].second, 0.5);
    const auto mirrored = tried(mix(v[2].second, middle, 2.0));
    if (mirrored.first < v[0].first) {
        const auto further = tried(mix(v[2].second, middle, 3.0));
        v[2] = std::min(mirrored, further);
    } else if (mirrored.first < v[1].first) {
        v[2] = mirrored;
    } else if (const auto inside = tried(mix(v[2].second, middle, 0.5)); inside.first < v[2].first) {
        v[2] = inside;
    } else {
        for (std::size_t i : {1U, 2U}) v[i] = tried(mix(v[0].second, v[i].second, 0.5));
    }
    std::sort(v.begin(), v.end());
}

template <class Loss>
Two smallest(const Loss& loss, Two start, Two stride) {
    std::array<std::pair<double, Two>, 3> v{};
    const std::array<Two, 3> corners{start, Two{start[0] + stride[0], start[1]}, Two{start[0], start[1] + stride[1]}};
    for (std::size_t i = 0; i < 3; ++i) v[i] = {loss(corners[i]), corners[i]};
    std::sort(v.begin(), v.end());
    for (int round = 0; round < 2000; ++round) step(v, loss);
    return v[0].second;
}

inline Fit judged(const Curve& curve, Two p, const std::vector<Sample>& samples) {
    double mean = 0;
    double worst = 0;
    for (const Sample& s : samples) {
        mean += s.value / static_cast<double>(samples.size());
        worst = std::max(worst, std::abs(curve(p, s.at) - s.value));
    }
    const double spread = squares([&](Two, double) { return mean; }, p, samples);
    return {p, 1 - squares(curve, p, samples) / spread, worst};
}

/// The best of several starts, as one start can end in a local minimum.
inline Fit fitted(const Curve& curve, const std::vector<Two>& starts, const std::vector<Sample>& samples) {
    const auto loss = [&](Two p) { return squares(curve, p, samples); };
    Two best = starts.front();
    for (const Two& start : starts) {
        const Two found = smallest(loss, start, {0.2, 0.2});
        if (loss(found) < loss(best)) best = found;
    }
    return judged(curve, best, samples);
}

}  // namespace least_squares
