#include "report/chart/line_plot.hpp"

#include <algorithm>
#include <numeric>

namespace report::chart {
namespace {

constexpr std::size_t kMarkers = 8;  // about so many on a line, however many points it has
constexpr double kLetter = 13;       // height of a letter at the end of a line

struct Drawn {
    std::size_t look = 0;
    const LineSeries* series = nullptr;
    std::vector<LinePoint> points;
};

std::vector<Drawn> drawable_series(const std::vector<LineSeries>& series) {
    std::vector<Drawn> all;
    for (std::size_t n = 0; n < series.size(); ++n) {
        Drawn one{n, &series[n], {}};
        for (const auto& point : series[n].points)
            if (drawable(point.x) && drawable(point.y)) one.points.push_back(point);
        std::stable_sort(one.points.begin(), one.points.end(), [](const auto& a, const auto& b) { return a.x < b.x; });
        if (!one.points.empty()) all.push_back(std::move(one));
    }
    return all;
}

bool banded(const LinePoint& point) {
    return drawable(point.low) && drawable(point.high) && point.low < point.high;
}

LineAxes holding(const std::vector<Drawn>& all, LineAxes axes) {
    Range across, up;
    for (const auto& [axis, range] : {std::pair{&axes.across, &across}, std::pair{&axes.up, &up}})
        if (axis->low != axis->high) {
            range->add(axis->low);
            range->add(axis->high);
        }
    for (const auto& one : all)
        for (const auto& point : one.points) {
            across.add(point.x);
            up.add(point.y);
            if (!banded(point)) continue;
            up.add(point.low);
            up.add(point.high);
        }
    axes.across.low = across.low();
    axes.across.high = across.high();
    axes.up.low = up.low();
    axes.up.high = up.high();
    return axes;
}

/// Bands of neighbouring points that have one.
void draw_band(Frame& frame, const Drawn& one) {
    std::vector<Spot> above, below;
    const auto flush = [&] {
        if (above.size() > 1) {
            const std::string edge = line_class(one.look) + " edge";
            frame.shapes().path(above, edge);
            frame.shapes().path(below, edge);
            above.insert(above.end(), below.rbegin(), below.rend());
            frame.shapes().path(above, "band " + line_class(one.look), true);
        }
        above.clear();
        below.clear();
    };
    for (const auto& point : one.points) {
        if (!banded(point)) {
            flush();
            continue;
        }
        above.push_back({frame.x(point.x), frame.y(point.high)});
        below.push_back({frame.x(point.x), frame.y(point.low)});
    }
    flush();
}

void draw_line(Frame& frame, const Drawn& one) {
    std::vector<Spot> spots;
    for (const auto& point : one.points) spots.push_back({frame.x(point.x), frame.y(point.y)});
    if (spots.size() > 1) frame.shapes().path(spots, line_class(one.look));
    const std::size_t every = std::max<std::size_t>(1, spots.size() / kMarkers);
    // Each look begins elsewhere, so that lines on top of each other still show their markers.
    const std::size_t first = spots.size() > kMarkers ? one.look % every : 0;
    for (std::size_t n = first; n < spots.size(); n += every) frame.shapes().marker(spots[n], one.look);
}

/// Letters at the ends of the lines, moved apart where they would cover each other.
void draw_letters(Frame& frame, const std::vector<Drawn>& all) {
    std::vector<std::size_t> order(all.size());
    std::iota(order.begin(), order.end(), 0);
    const auto end_of = [&](std::size_t n) { return frame.y(all[n].points.back().y); };
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return end_of(a) < end_of(b); });
    std::vector<double> at;
    for (const auto n : order) at.push_back(at.empty() ? end_of(n) : std::max(end_of(n), at.back() + kLetter));
    // What was pushed below the plot comes back up, the others before it.
    double limit = std::max(frame.bottom(), frame.top() + kLetter * static_cast<double>(all.size()));
    for (auto place = at.rbegin(); place != at.rend(); ++place, limit -= kLetter) *place = std::min(*place, limit);
    for (std::size_t k = 0; k < order.size(); ++k)
        frame.shapes().text({frame.x(all[order[k]].points.back().x) + 8, at[k] + 4}, letter(all[order[k]].look),
                            Anchor::start, "bold halo");
}

std::string told(const Frame& frame, const LinePoint& point) {
    return frame.y_text(point.y) +
           (banded(point) ? " (" + frame.y_text(point.low) + " to " + frame.y_text(point.high) + ")" : "") + " at " +
           frame.x_text(point.x);
}

void say(Frame& frame, const Drawn& one) {
    const auto by_y = [](const auto& a, const auto& b) { return a.y < b.y; };
    const auto [least, most] = std::minmax_element(one.points.begin(), one.points.end(), by_y);
    std::string sentence = one.series->name + ": " + told(frame, one.points.front());
    if (one.points.size() > 1) sentence += ", last " + told(frame, one.points.back());
    if (one.points.size() > 2) sentence += "; least " + told(frame, *least) + ", greatest " + told(frame, *most);
    frame.say(sentence + ".");
}

}  // namespace

std::string line_plot(const Words& words, const std::vector<LineSeries>& series, const LineAxes& axes,
                      const Size& size) {
    const auto all = drawable_series(series);
    const auto held = holding(all, axes);
    Frame frame{words, size, held.across, held.up};
    if (all.empty()) {
        frame.say_empty("Nothing to show yet.");
        return frame.svg();
    }
    for (const auto& one : all) draw_band(frame, one);
    for (const auto& one : all) {
        draw_line(frame, one);
        say(frame, one);
    }
    if (all.size() > 1) draw_letters(frame, all);
    for (const auto& one : all) {
        if (one.series->name.empty()) continue;
        frame.key(one.look, (all.size() > 1 ? letter(one.look) + ": " : "") + one.series->name);
    }
    return frame.svg();
}

}  // namespace report::chart
