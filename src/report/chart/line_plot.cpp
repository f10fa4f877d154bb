#include "report/chart/line_plot.hpp"

#include <algorithm>

namespace report::chart {
namespace {

constexpr std::size_t kMarkers = 8;  // about so many on a line, however many points it has

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

std::vector<LineEnd> ends_of(const Frame& frame, const std::vector<Drawn>& all) {
    std::vector<LineEnd> ends;
    for (const auto& one : all)
        ends.push_back({{frame.x(one.points.back().x), frame.y(one.points.back().y)}, one.look});
    return ends;
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
    if (all.size() > 1) frame.letters(ends_of(frame, all));
    for (const auto& one : all) {
        if (one.series->name.empty()) continue;
        frame.key(one.look, (all.size() > 1 ? letter(one.look) + ": " : "") + one.series->name);
    }
    return frame.svg();
}

}  // namespace report::chart
