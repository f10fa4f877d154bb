#include "report/chart/frame.hpp"

#include <algorithm>
#include <cmath>

#include "base/text.hpp"

namespace report::chart {
namespace {

constexpr int kLeastWidth = 240, kLeastPlot = 40;
constexpr double kMargin = 8, kHeadSize = 14, kTextSize = 12;
constexpr double kHeadLine = 18, kLine = 16;
constexpr double kRight = 24;   // room for the letter at the end of a line
constexpr double kApart = 14;   // between neighbouring labels of an axis
constexpr double kLetter = 13;  // height of a letter at the end of a line
constexpr double kSample = 34;  // length of a sample in the key
constexpr std::size_t kStepsUp = 6, kStepsAcross = 10, kFewest = 3;

std::vector<std::string> wrapped(std::string_view text, double width, double font_size) {
    return base::wrap(text, static_cast<std::size_t>(width / (0.6 * font_size)));
}

}  // namespace

Frame::Frame(const Words& words, const Size& size, const Axis& across, const Axis& up)
    : id_{id_text(words.id)},
      title_{words.title},
      about_{words.about},
      width_{std::max(size.width, kLeastWidth)},
      up_{scale_of(up, kStepsUp)} {
    left_ = up.shown ? kMargin + widest(up_) + 6 : kRight;
    right_ = width_ - kRight;
    fit_across(across);
    draw_heading(words.title, up.shown ? up.title : "");
    top_ = y_ + 12;
    bottom_ = top_ + std::max(size.plot, kLeastPlot);
    draw_axes(across, up);
}

Frame::Scale Frame::scale_of(const Axis& axis, std::size_t most) {
    // Steps are round in what is told, which for shares is per cent.
    const double unit = axis.unit == Unit::percent ? 100 : 1;
    Ticks ticks = round_ticks(axis.low * unit, axis.high * unit, most, axis.outward, axis.whole);
    ticks.low /= unit;
    ticks.high /= unit;
    for (auto& tick : ticks.at) tick /= unit;
    return {ticks, axis.unit};
}

std::string Frame::tick_text(double value, const Scale& scale) {
    if (scale.unit == Unit::percent) return grouped(value * 100, scale.ticks.places) + " %";
    return grouped(value, scale.ticks.places);
}

std::string Frame::value_text(double value, const Scale& scale) {
    if (scale.unit == Unit::percent) return number(value * 100, scale.ticks.places) + " %";
    return number(value, scale.ticks.places + 1);
}

double Frame::widest(const Scale& scale) {
    double most = 0;
    for (const double tick : scale.ticks.at) most = std::max(most, text_width(tick_text(tick, scale), kTextSize));
    return most;
}

/// Whether neighbouring ticks stand that many pixels apart.
bool Frame::fits(double apart) const {
    const auto& t = across_.ticks;
    if (t.at.size() < 2) return true;
    return (right_ - left_) * (t.at[1] - t.at[0]) / (t.high - t.low) >= apart;
}

/// As many ticks as stand side by side, and a margin for the half of the last label that hangs over.
void Frame::fit_across(const Axis& across) {
    for (std::size_t most = kStepsAcross;; --most) {
        across_ = scale_of(across, most);
        if (!across.shown) return;
        const double label = widest(across_);
        const double beside = std::max(kRight, label / 2 + 2);
        left_ = std::max(left_, beside);
        right_ = std::max(width_ - beside, left_ + 40);
        if (fits(label + kApart)) return;
        if (most > kFewest) continue;
        // Every other one, and again, until the rest has room.
        auto& at = across_.ticks.at;
        for (std::size_t kept = 0; !fits(label + kApart); at.resize(kept), kept = 0)
            for (std::size_t n = 0; n < at.size(); n += 2) at[kept++] = at[n];
        return;
    }
}

void Frame::draw_heading(const std::string& title, const std::string& y_title) {
    y_ = 4;
    for (const auto& line : wrapped(title, width_ - 2 * kMargin, kHeadSize * 1.05)) {
        y_ += kHeadLine;
        shapes_.text({kMargin, y_ - 3}, line, Anchor::start, "head");
    }
    if (y_title.empty()) return;
    for (const auto& line : wrapped(y_title, width_ - 2 * kMargin, kTextSize)) {
        y_ += kLine;
        shapes_.text({kMargin, y_}, line);
    }
}

void Frame::draw_axes(const Axis& across, const Axis& up) {
    if (up.shown)
        for (const double tick : up_.ticks.at) {
            shapes_.line({left_, y(tick)}, {right_, y(tick)}, "grid");
            shapes_.text({left_ - 6, y(tick) + 4}, tick_text(tick, up_), Anchor::end);
        }
    y_ = bottom_;
    if (across.shown) {
        for (const double tick : across_.ticks.at) {
            if (!up.shown) shapes_.line({x(tick), top_}, {x(tick), bottom_}, "grid");
            shapes_.line({x(tick), bottom_}, {x(tick), bottom_ + 4}, "axis");
            shapes_.text({x(tick), bottom_ + 17}, tick_text(tick, across_), Anchor::middle);
        }
        y_ += 20;
    }
    shapes_.line({left_, bottom_}, {right_, bottom_}, "axis");
    if (up.shown) shapes_.line({left_, top_}, {left_, bottom_}, "axis");
    for (const auto& line : wrapped(across.title, width_ - 2 * kMargin, kTextSize)) {
        if (line.empty()) continue;
        y_ += kLine;
        const double half = text_width(line, kTextSize) / 2;
        const double middle = std::clamp((left_ + right_) / 2, kMargin + half, std::max(kMargin + half, width_ - half));
        shapes_.text({middle, y_}, line, Anchor::middle);
    }
    y_ += 6;
}

double Frame::first_column() const {
    return kMargin;
}

double Frame::last_column() const {
    return width_ - kMargin;
}

double Frame::x(double value) const {
    const auto& t = across_.ticks;
    return left_ + (right_ - left_) * std::clamp((value - t.low) / (t.high - t.low), 0.0, 1.0);
}

double Frame::y(double value) const {
    const auto& t = up_.ticks;
    return bottom_ - (bottom_ - top_) * std::clamp((value - t.low) / (t.high - t.low), 0.0, 1.0);
}

void Frame::mark(double value, std::string_view words) {
    shapes_.line({x(value), top_}, {x(value), bottom_}, "mark");
    const double width = text_width(words, kTextSize) * 1.05;
    const double room = std::max(kMargin, width_ - kMargin - width);
    const bool fits_right = x(value) + 5 + width <= width_ - kMargin;
    const double from = fits_right ? x(value) + 5 : std::min(room, std::max(kMargin, x(value) - 5 - width));
    shapes_.text({from, top_ + 12}, words, Anchor::start, "bold halo");
}

void Frame::key_words(std::string_view words) {
    for (const auto& line : wrapped(words, width_ - 2 * kMargin - kSample - 8, kTextSize)) {
        y_ += kLine;
        shapes_.text({kMargin + kSample + 8, y_}, line);
    }
}

void Frame::letters(std::vector<LineEnd> ends) {
    std::stable_sort(ends.begin(), ends.end(), [](const auto& a, const auto& b) { return a.at.y < b.at.y; });
    double least = top_;
    for (auto& end : ends) {
        end.at.y = std::max(end.at.y, least);
        least = end.at.y + kLetter;
    }
    // What was pushed below the plot comes back up, and the others make room for it.
    double most = std::max(bottom_, top_ + kLetter * static_cast<double>(ends.size()));
    std::for_each(ends.rbegin(), ends.rend(), [&](LineEnd& end) {
        end.at.y = std::min(end.at.y, most);
        most = end.at.y - kLetter;
    });
    for (const auto& end : ends)
        shapes_.text({end.at.x + 8, end.at.y + 4}, letter(end.series), Anchor::start, "bold halo");
}

void Frame::key_marker(std::size_t look, bool hollow, std::string_view words) {
    shapes_.marker({kMargin + kSample / 2, y_ + kLine - 4}, look, hollow);
    key_words(words);
}

void Frame::key(std::size_t look, std::string_view words) {
    const double middle = y_ + kLine - 4;
    shapes_.line({kMargin, middle}, {kMargin + kSample, middle}, line_class(look));
    shapes_.marker({kMargin + kSample / 2, middle}, look);
    key_words(words);
}

void Frame::key_line(std::string_view classes, std::string_view words) {
    const double middle = y_ + kLine - 4;
    shapes_.line({kMargin, middle}, {kMargin + kSample, middle}, classes);
    key_words(words);
}

void Frame::key_box(std::string_view classes, std::string_view words) {
    shapes_.rect({kMargin + kSample / 2 - 6, y_ + kLine - 10}, 12, 11, classes);
    key_words(words);
}

void Frame::say(std::string_view sentence) {
    about_ += (about_.empty() ? "" : " ") + std::string{sentence};
}

void Frame::say_empty(std::string_view words) {
    shapes_.text({(left_ + right_) / 2, (top_ + bottom_) / 2 + 4}, words, Anchor::middle, "bold halo");
    say(words);
}

std::string Frame::svg() const {
    const std::string width = std::to_string(width_);
    const std::string height = number(std::ceil(y_ + 8), 0);
    // A drawing made for a phone would have shouting letters across a wide page.
    const std::string most = number(width_ * 1.5, 0);
    return "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"chart\" viewBox=\"0 0 " + width + " " + height +
           "\" style=\"max-width:" + most + "px\" role=\"img\" aria-labelledby=\"" + id_ + "-title " + id_ +
           "-desc\">\n<title id=\"" + id_ + "-title\">" + escaped(title_) + "</title>\n<desc id=\"" + id_ + "-desc\">" +
           escaped(about_) + "</desc>\n" + std::string{style_sheet()} + "<rect width=\"" + width + "\" height=\"" +
           height + "\" class=\"sheet\"/>\n" + shapes_.markup() + "</svg>\n";
}

}  // namespace report::chart
