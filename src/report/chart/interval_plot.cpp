#include "report/chart/interval_plot.hpp"

#include <algorithm>

#include "base/text.hpp"

namespace report::chart {
namespace {

constexpr double kLine = 15, kBar = 18, kGap = 6, kAboveRows = 18, kCap = 5, kLetter = 7.2, kBetween = 12;
constexpr double kEmpty = 60;

bool known(const IntervalRow& row) {
    return drawable(row.at) && drawable(row.low) && drawable(row.high);
}

Axis axis_for(const std::vector<IntervalRow>& rows, const std::optional<Reference>& reference, const std::string& title,
              Unit unit) {
    Range range;
    for (const auto& row : rows) {
        if (!known(row)) continue;
        for (const double value : {row.at, row.low, row.high}) range.add(value);
    }
    if (reference) range.add(reference->at);
    return {range.low(), range.high(), title, unit, true, true};
}

std::string figures(const Frame& frame, const IntervalRow& row) {
    if (!known(row)) return "not known";
    return frame.x_text(row.at) + " (" + frame.x_text(row.low) + " to " + frame.x_text(row.high) + ")";
}

/// The texts of one row: the figures stand right of the last line of the name, or below it where both have no room.
struct RowText {
    std::vector<std::string> name;
    std::string figures;
    double height = 0;  ///< of the texts alone
};

RowText text_of(const Frame& frame, const IntervalRow& row) {
    const double room = frame.last_column() - frame.first_column();
    RowText text;
    text.name =
        base::wrap(row.name + (row.state.empty() ? "" : ": " + row.state), static_cast<std::size_t>(room / kLetter));
    text.figures = figures(frame, row);
    const double last = text.name.empty() ? 0 : text_width(text.name.back(), 12);
    if (text.name.empty() || last + kBetween + text_width(text.figures, 12) > room) text.name.emplace_back();
    text.height = kLine * static_cast<double>(text.name.size());
    return text;
}

void draw_interval(Frame& frame, const IntervalRow& row, double y) {
    const std::string classes = line_class(row.look) + " solid";
    const double from = frame.x(row.low), to = frame.x(row.high);
    frame.shapes().line({from, y}, {to, y}, classes);
    for (const double end : {from, to}) frame.shapes().line({end, y - kCap}, {end, y + kCap}, classes);
    frame.shapes().marker({frame.x(row.at), y}, row.look);
}

void draw_row(Frame& frame, const IntervalRow& row, const RowText& text, double y) {
    if (known(row)) draw_interval(frame, row, y + text.height + kBar / 2);
    for (const auto& line : text.name) {
        y += kLine;
        if (!line.empty()) frame.shapes().text({frame.first_column(), y - 2}, line, Anchor::start, "halo");
    }
    frame.shapes().text({frame.last_column(), y - 2}, text.figures, Anchor::end, "halo");
    frame.say(row.name + ": " + text.figures + (row.state.empty() ? "" : ", " + row.state) + ".");
}

}  // namespace

std::string interval_plot(const Words& words, const std::vector<IntervalRow>& rows, const std::string& axis_title,
                          Unit unit, const std::optional<Reference>& reference, const Size& size) {
    const auto across = axis_for(rows, reference, axis_title, unit);
    const Axis up{0, 1, {}, Unit::plain, false, false};
    const bool referred = reference && drawable(reference->at);
    const Frame measure{words, size, across, up};
    std::vector<RowText> texts;
    double height = referred ? kAboveRows : 0;
    for (const auto& row : rows) {
        texts.push_back(text_of(measure, row));
        height += texts.back().height + kBar + kGap;
    }
    Frame frame{words, {size.width, static_cast<int>(rows.empty() ? height + kEmpty : height)}, across, up};
    double y = frame.top() + (referred ? kAboveRows : 0);
    if (referred) {
        const std::string told = (reference->name.empty() ? "" : reference->name + " ") + frame.x_text(reference->at);
        frame.mark(reference->at, told);
        frame.say("Held against: " + told + ".");
    }
    for (std::size_t n = 0; n < rows.size(); ++n) {
        draw_row(frame, rows[n], texts[n], y);
        y += texts[n].height + kBar + kGap;
    }
    if (rows.empty()) frame.say_empty("Nothing to show yet.");
    return frame.svg();
}

}  // namespace report::chart
