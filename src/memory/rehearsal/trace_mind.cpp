#include "memory/rehearsal/trace_mind.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

#include "base/random.hpp"

namespace memory::rehearsal {
namespace {

constexpr double kDecay = 0.177;
constexpr double kDecayByActivation = 0.217;
constexpr double kThreshold = -0.704;
constexpr double kNoise = 0.255;
// Log odds. The constants above come from word pairs of a foreign language; a question that offers choices or speaks of
// daily work cues more. Chosen so that four answers ten days apart are recalled about half the time ten days on.
constexpr double kCue = 1.2;
constexpr double kBetweenSittings = 0.025;
constexpr double kSittingSeconds = 3600;
constexpr double kDaySeconds = 86'400;

/// Older traces for what was met before: few and scattered when partly known, many when well known.
std::vector<Trace> older_traces(const Known& known, base::Random& random) {
    std::vector<Trace> traces;
    if (known.held <= 0) return traces;
    const auto meetings = std::lround(known.well ? 10 + 30 * known.held : 1 + 9 * known.held);
    std::vector<double> ages;
    for (long n = 0; n < meetings; ++n) ages.push_back(20 * std::pow(75, random.unit()));
    std::sort(ages.begin(), ages.end(), std::greater<>{});
    for (const double days : ages) {
        const double at = -days * kDaySeconds * kBetweenSittings;
        traces.push_back({at, trace_decay(trace_activation(traces, at))});
    }
    return traces;
}

}  // namespace

double trace_activation(const std::vector<Trace>& traces, double at) {
    double sum = 0;
    for (const Trace& trace : traces) sum += std::exp(-trace.decay * std::log(std::max(1.0, at - trace.at)));
    return sum > 0 ? std::log(sum) : -std::numeric_limits<double>::infinity();
}

double trace_decay(double activation) {
    return kDecayByActivation * std::exp(activation) + kDecay;
}

double trace_recall(double activation) {
    return 1 / (1 + std::exp((kThreshold - activation) / kNoise));
}

TraceMind::TraceMind(const Learner& learner) : last_{learner.start} {
    base::Random random{base::derive_seed(learner.seed, "older traces")};
    for (std::size_t point = 0; point < learner.known.size(); ++point) {
        traces_.push_back(older_traces(learner.known[point], random));
        ease_.push_back(kNoise * (kCue + learner.ease + learner.point_ease[point]));
    }
}

double TraceMind::clock(base::Instant at) const {
    const double seconds = kDaySeconds * base::days_between(last_, at);
    return last_clock_ + (seconds > kSittingSeconds ? kBetweenSittings * seconds : seconds);
}

double TraceMind::chance(std::size_t point, base::Instant at) const {
    return trace_recall(trace_activation(traces_[point], clock(at)) + ease_[point]);
}

void TraceMind::answered(std::size_t point, base::Instant at, bool /*recalled*/) {
    last_clock_ = clock(at);
    last_ = at;
    auto& traces = traces_[point];
    traces.push_back({last_clock_, trace_decay(trace_activation(traces, last_clock_))});
}

}  // namespace memory::rehearsal
