#include "report/chart/bar_plot.hpp"

#include <algorithm>
#include <cmath>

namespace report::chart {
namespace {

constexpr double kSlack = 1e-9;  // of a step, for scores that came out of a sum
constexpr double kNarrow = 3;    // pixels: a bar has no gap beside it from there down
constexpr double kWidestBar = 60;

double height(double given) {
    return drawable(given) && given > 0 ? given : 0;
}

struct Bars {
    double first = 0, step = 1;
    std::vector<double> shares;  ///< they sum to 1, or are all 0
    double sum = 0;
    bool marked = false;
    double pass = 0;  ///< the pass mark, where there is one

    [[nodiscard]] bool passes(std::size_t n) const { return !marked || score(n) >= pass - kSlack * step; }
    [[nodiscard]] double score(std::size_t n) const { return first + step * static_cast<double>(n); }
};

Bars bars_of(const Scores& scores, const std::optional<double>& pass_mark) {
    Bars bars;
    if (drawable(scores.first)) bars.first = scores.first;
    if (drawable(scores.step) && scores.step > 0) bars.step = scores.step;
    bars.pass = pass_mark.value_or(0);
    bars.marked = pass_mark.has_value() && drawable(bars.pass);
    for (const double one : scores.heights) bars.sum += height(one);
    for (const double one : scores.heights) bars.shares.push_back(bars.sum > 0 ? height(one) / bars.sum : 0);
    return bars;
}

struct Sides {
    double below = 0, from = 0;  ///< shares of the scores
};

Sides sides(const Bars& bars) {
    Sides sides;
    for (std::size_t n = 0; n < bars.shares.size(); ++n) (bars.passes(n) ? sides.from : sides.below) += bars.shares[n];
    return sides;
}

Axis across_axis(const Bars& bars, const std::string& title) {
    Range range;
    if (!bars.shares.empty()) {
        range.add(bars.first - bars.step / 2);
        range.add(bars.score(bars.shares.size() - 1) + bars.step / 2);
    }
    if (bars.marked) range.add(bars.pass - bars.step / 2);
    // A tick between two scores would name a score that nobody can have.
    const bool whole = bars.step == std::trunc(bars.step) && bars.first == std::trunc(bars.first);
    return {range.low(), range.high(), title, Unit::plain, false, true, whole};
}

void draw_bars(Frame& frame, const Bars& bars) {
    for (std::size_t n = 0; n < bars.shares.size(); ++n) {
        const double left = frame.x(bars.score(n) - bars.step / 2), right = frame.x(bars.score(n) + bars.step / 2);
        const double gap = right - left > kNarrow ? std::min(2.0, (right - left) / 5) : 0;
        const double width = std::min(kWidestBar, right - left - gap);
        const double top = frame.y(bars.shares[n]);
        if (frame.bottom() - top < 0.05) continue;
        frame.shapes().rect({(left + right - width) / 2, top}, width, frame.bottom() - top,
                            bars.passes(n) ? "full" : "open");
    }
}

std::string percent(double share) {
    return number(share * 100, 1) + " %";
}

void say_bars(Frame& frame, const Bars& bars) {
    const auto most = std::max_element(bars.shares.begin(), bars.shares.end());
    double mean = 0;
    for (std::size_t n = 0; n < bars.shares.size(); ++n) mean += bars.shares[n] * bars.score(n);
    const auto top = static_cast<std::size_t>(most - bars.shares.begin());
    frame.say("Scores from " + number(bars.first, 2) + " to " + number(bars.score(bars.shares.size() - 1), 2) +
              ", mean " + number(mean, 1) + ", most often " + number(bars.score(top), 2) + " (" + percent(*most) +
              ").");
}

void tell_sides(Frame& frame, const Bars& bars) {
    const auto both = sides(bars);
    const std::string told = "pass mark " + number(bars.pass, 2);
    frame.mark(bars.pass - bars.step / 2, told);
    const std::string from = "at or above the pass mark: " + percent(both.from);
    const std::string below = "below the pass mark: " + percent(both.below);
    frame.key_box("full", from);
    frame.key_box("open", below);
    frame.say("The " + told + "; " + from + ", " + below + ".");
}

}  // namespace

std::string bar_plot(const Words& words, const Scores& scores, std::optional<double> pass_mark,
                     const std::string& across_title, const std::string& up_title, const Size& size) {
    const Bars bars = bars_of(scores, pass_mark);
    const double most = bars.sum > 0 ? *std::max_element(bars.shares.begin(), bars.shares.end()) : 1;
    Frame frame{words, size, across_axis(bars, across_title), {0, most, up_title, Unit::percent, true, true}};
    if (bars.sum <= 0) {
        frame.say_empty("Nothing to show yet.");
        return frame.svg();
    }
    draw_bars(frame, bars);
    say_bars(frame, bars);
    if (bars.marked) tell_sides(frame, bars);
    return frame.svg();
}

}  // namespace report::chart
