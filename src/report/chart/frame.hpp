#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "report/chart/svg.hpp"
#include "report/chart/ticks.hpp"

namespace report::chart {

/// What a chart is called. All of it is plain text and escaped by the chart.
struct Words {
    std::string id;     ///< unlike any other on the page
    std::string title;  ///< one line or two, above the chart and read out
    std::string about;  ///< a sentence or two on how to read it, read out before the figures
};

/// Pixels of the drawing itself; the page may stretch it, and a phone shows 360 as they are.
struct Size {
    int width = 360;  ///< at least 240
    int plot = 220;   ///< height of the plot alone, at least 40; where rows set the height it is not used
};

enum class Unit : std::uint8_t {
    plain,
    percent  ///< values are shares, 0..1, and told as "40 %"
};

struct Axis {
    double low = 0, high = 1;  ///< what has to be seen
    std::string title;
    Unit unit = Unit::plain;
    bool outward = false;  ///< the ends move out to round numbers
    bool shown = true;
    bool whole = false;  ///< ticks at whole numbers alone
};

/// Where the line of a series ends, in pixels.
struct LineEnd {
    Spot at;
    std::size_t series = 0;
};

/// The common part of every chart: heading, axes with round ticks, a key below, and the words for those who do not see
/// it. Takes shapes in pixels, gives one SVG document that needs nothing else.
class Frame {
public:
    Frame(const Words& words, const Size& size, const Axis& across, const Axis& up);

    /// Pixels of a value, held within the plot.
    [[nodiscard]] double x(double value) const;
    [[nodiscard]] double y(double value) const;
    [[nodiscard]] double left() const { return left_; }
    [[nodiscard]] double right() const { return right_; }
    /// Ends of the whole sheet, margins taken off.
    [[nodiscard]] double first_column() const;
    [[nodiscard]] double last_column() const;
    [[nodiscard]] double top() const { return top_; }
    [[nodiscard]] double bottom() const { return bottom_; }

    /// A value as the axis tells it: shares with the decimals of the ticks, others with one more: "62 %", "12.5".
    [[nodiscard]] std::string x_text(double value) const { return value_text(value, across_); }
    [[nodiscard]] std::string y_text(double value) const { return value_text(value, up_); }

    [[nodiscard]] Shapes& shapes() { return shapes_; }

    /// An upright line through the plot with its words above; one a chart.
    void mark(double value, std::string_view words);
    /// The letter of each series right of its end, moved up or down where letters would cover each other.
    void letters(std::vector<LineEnd> ends);
    /// One entry of the key: a sample of the look, or of the class when one is named, and words, wrapped.
    void key(std::size_t look, std::string_view words);
    void key_line(std::string_view classes, std::string_view words);
    void key_box(std::string_view classes, std::string_view words);
    void key_marker(std::size_t look, bool hollow, std::string_view words);
    /// Adds a sentence for those who do not see the chart.
    void say(std::string_view sentence);
    /// Tells in the plot, and in words, that there is nothing to draw.
    void say_empty(std::string_view words);

    [[nodiscard]] std::string svg() const;

private:
    struct Scale {
        Ticks ticks;
        Unit unit = Unit::plain;
    };
    static std::string value_text(double value, const Scale& scale);
    static std::string tick_text(double value, const Scale& scale);
    static Scale scale_of(const Axis& axis, std::size_t most);
    static double widest(const Scale& scale);
    [[nodiscard]] bool fits(double apart) const;
    void fit_across(const Axis& across);
    void draw_heading(const std::string& title, const std::string& y_title);
    void draw_axes(const Axis& across, const Axis& up);
    void key_words(std::string_view words);

    std::string id_, title_, about_;
    int width_;
    Scale across_, up_;
    double left_ = 0, right_ = 0, top_ = 0, bottom_ = 0, y_ = 0;
    Shapes shapes_;
};

}  // namespace report::chart
