#include "report/chart/calibration_plot.hpp"

#include <algorithm>

namespace report::chart {
namespace {

constexpr double kAside = 2.5;  // pixels between neighbouring forecasters
constexpr double kCap = 3.5;    // half the width of the ends of an interval

struct Box {
    double left = 0, top = 0, right = 0, bottom = 0;

    [[nodiscard]] bool meets(const Box& other) const {
        return left < other.right && other.left < right && top < other.bottom && other.top < bottom;
    }
};

std::vector<CalibrationBin> drawable_bins(const Forecaster& forecaster) {
    std::vector<CalibrationBin> bins;
    for (const auto& bin : forecaster.bins)
        if (drawable(bin.forecast) && drawable(bin.observed) && drawable(bin.low) && drawable(bin.high))
            bins.push_back(bin);
    std::stable_sort(bins.begin(), bins.end(), [](const auto& a, const auto& b) { return a.forecast < b.forecast; });
    return bins;
}

std::string answers_text(std::size_t answers) {
    return grouped(static_cast<double>(answers)) + (answers == 1 ? " answer" : " answers");
}

void draw_bin(Frame& frame, const CalibrationBin& bin, std::size_t look, double aside) {
    const double x = frame.x(bin.forecast) + aside;
    const std::string classes = line_class(look) + " solid edge";
    frame.shapes().line({x, frame.y(bin.low)}, {x, frame.y(bin.high)}, classes);
    for (const double end : {bin.low, bin.high})
        frame.shapes().line({x - kCap, frame.y(end)}, {x + kCap, frame.y(end)}, classes);
    frame.shapes().marker({x, frame.y(bin.observed)}, look, bin.answers < kFewAnswers);
}

void say_bin(Frame& frame, const CalibrationBin& bin) {
    frame.say("Forecast " + frame.x_text(bin.forecast) + ", observed " + frame.y_text(bin.observed) + " (" +
              frame.y_text(bin.low) + " to " + frame.y_text(bin.high) + "), " + answers_text(bin.answers) + ".");
}

/// Numbers of answers beside their markers, where they meet neither an interval nor each other.
void draw_counts(Frame& frame, const std::vector<CalibrationBin>& bins) {
    std::vector<Box> taken;
    for (const auto& bin : bins) {
        const double x = frame.x(bin.forecast);
        taken.push_back({x - kCap - 1, frame.y(bin.high) - 1, x + kCap + 1, frame.y(bin.low) + 1});
        taken.push_back({x - 6, frame.y(bin.observed) - 6, x + 6, frame.y(bin.observed) + 6});
    }
    for (const auto& bin : bins) {
        const std::string text = grouped(static_cast<double>(bin.answers));
        const double width = text_width(text, 11);
        const double x = frame.x(bin.forecast), y = frame.y(bin.observed);
        for (const Spot at : {Spot{x + 8, y + 12}, Spot{x - 8 - width, y - 5}, Spot{x + 8, y + 4},
                              Spot{x - 8 - width, y + 4}, Spot{x + 8, y - 5}, Spot{x - 8 - width, y + 12}}) {
            const Box box{at.x, at.y - 9, at.x + width, at.y + 1};
            const bool inside = box.left > frame.left() && box.right < frame.right() + 20 && box.top > frame.top() &&
                                box.bottom < frame.bottom();
            if (!inside || std::any_of(taken.begin(), taken.end(), [&](const Box& b) { return b.meets(box); }))
                continue;
            frame.shapes().text(at, text, Anchor::start, "small halo");
            taken.push_back(box);
            break;
        }
    }
}

std::string key_text(const Forecaster& forecaster, const std::vector<CalibrationBin>& bins) {
    std::size_t answers = 0;
    for (const auto& bin : bins) answers += bin.answers;
    return (forecaster.name.empty() ? "" : forecaster.name + ": ") + answers_text(answers);
}

/// What is drawn of one forecaster.
struct Drawn {
    const Forecaster* forecaster = nullptr;
    std::size_t look = 0;
    std::vector<CalibrationBin> bins;
    double aside = 0;
};

std::vector<Drawn> drawn_of(const std::vector<Forecaster>& forecasters) {
    std::vector<Drawn> all;
    for (std::size_t n = 0; n < forecasters.size(); ++n)
        if (auto bins = drawable_bins(forecasters[n]); !bins.empty())
            all.push_back({&forecasters[n], n, std::move(bins), 0});
    // Side by side, or the intervals of forecasters with the same bins would hide each other.
    for (std::size_t n = 0; n < all.size(); ++n)
        all[n].aside = kAside * (static_cast<double>(n) - static_cast<double>(all.size() - 1) / 2);
    return all;
}

LineEnd draw(Frame& frame, const Drawn& one) {
    std::vector<Spot> line;
    for (const auto& bin : one.bins) line.push_back({frame.x(bin.forecast) + one.aside, frame.y(bin.observed)});
    if (line.size() > 1) frame.shapes().path(line, line_class(one.look));
    frame.say(key_text(*one.forecaster, one.bins) + ".");
    for (const auto& bin : one.bins) {
        draw_bin(frame, bin, one.look, one.aside);
        say_bin(frame, bin);
    }
    return {line.back(), one.look};
}

void draw_key(Frame& frame, const std::vector<Drawn>& all) {
    bool few = false;
    for (const auto& one : all) {
        const std::string head = all.size() > 1 ? letter(one.look) + ": " : "";
        frame.key(one.look, head + key_text(*one.forecaster, one.bins));
        few =
            few || std::any_of(one.bins.begin(), one.bins.end(), [](const auto& b) { return b.answers < kFewAnswers; });
    }
    frame.key_line("even", "observed as often as forecast");
    if (few) frame.key_marker(all.front().look, true, "hollow: fewer than " + std::to_string(kFewAnswers) + " answers");
}

}  // namespace

std::string calibration_plot(const Words& words, const std::vector<Forecaster>& forecasters, const Size& size) {
    const Axis across{0, 1, "mean forecast", Unit::percent, false, true};
    const Axis up{0, 1, "share observed", Unit::percent, false, true};
    Frame frame{words, size, across, up};
    const auto all = drawn_of(forecasters);
    frame.shapes().line({frame.x(0), frame.y(0)}, {frame.x(1), frame.y(1)}, "even");
    if (all.empty()) {
        frame.say_empty("No answers yet.");
        return frame.svg();
    }
    std::vector<LineEnd> ends;
    for (const auto& one : all) ends.push_back(draw(frame, one));
    if (all.size() == 1)
        draw_counts(frame, all.front().bins);
    else
        frame.letters(ends);
    draw_key(frame, all);
    return frame.svg();
}

}  // namespace report::chart
