#include "report/chart/ticks.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "report/chart/svg.hpp"

namespace report::chart {
namespace {

// A tick that rounding pushed just over an end still counts.
constexpr double kSlack = 1e-9;
// Far finer than the slack, or a width just over a step would be allowed ticks beyond both of its ends.
constexpr double kFine = 1e-13;
// With fewer steps a stretch could fall between two ticks.
constexpr std::size_t kFewest = 3;

struct Step {
    double mantissa = 1;
    int power = 0;

    /// Divided, not multiplied by a tenth: 3 / 10 is the double nearest to .3.
    [[nodiscard]] double times(double count) const {
        const double scale = std::pow(10.0, std::abs(power));
        return power >= 0 ? count * mantissa * scale : count * mantissa / scale;
    }
    [[nodiscard]] Step next() const {
        if (mantissa < 2) return {2, power};
        if (mantissa < 5) return {5, power};
        return {1, power + 1};
    }
};

/// The smallest round step that needs no more than `most` steps for the width.
Step step_for(double width, std::size_t most) {
    Step step{1, -15};
    while (step.times(static_cast<double>(most)) < width * (1 - kFine)) step = step.next();
    return step;
}

void part(double& low, double& high) {
    // Nearer than this, neighbouring ticks would be the same double.
    const double least = std::max(1e-9, 1e-9 * std::max(std::abs(low), std::abs(high)));
    if (high - low >= least) return;
    const double by = std::max(0.5, std::abs(low) * 0.1);
    low -= by;
    high += by;
}

}  // namespace

Ticks round_ticks(double low, double high, std::size_t most, bool outward, bool whole) {
    if (!drawable(low) || !drawable(high)) low = 0, high = 1;
    if (low > high) std::swap(low, high);
    part(low, high);
    Step step = step_for(high - low, std::max<std::size_t>(kFewest, most));
    const bool any_whole = outward || std::ceil(low - kSlack) <= std::floor(high + kSlack);
    if (whole && any_whole && step.power < 0) step = {1, 0};
    double first = std::floor(low / step.times(1) + kSlack);
    double last = std::ceil(high / step.times(1) - kSlack);
    if (!outward) {
        first = std::ceil(low / step.times(1) - kSlack);
        last = std::floor(high / step.times(1) + kSlack);
    }
    Ticks ticks;
    const auto steps = static_cast<int>(last - first);
    for (int n = 0; n <= steps; ++n) ticks.at.push_back(step.times(first + n));
    ticks.low = outward ? ticks.at.front() : low;
    ticks.high = outward ? ticks.at.back() : high;
    ticks.places = std::max(0, -step.power);
    return ticks;
}

void Range::add(double value) {
    if (!drawable(value)) return;
    low_ = empty_ ? value : std::min(low_, value);
    high_ = empty_ ? value : std::max(high_, value);
    empty_ = false;
}

}  // namespace report::chart
