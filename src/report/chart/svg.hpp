#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace report::chart {

/// Text as it stands between tags and in attributes: the five signs escaped, what XML 1.0 forbids left out, bytes that
/// are no UTF-8 shown as "?".
[[nodiscard]] std::string escaped(std::string_view text);

/// An id that is safe in attributes and references: other than ASCII letters, digits, "-", "_" and "." become "-".
[[nodiscard]] std::string id_text(std::string_view text);

/// A number with a point and at most `places` decimals, trailing zeros dropped, the same under every locale.
/// Takes   a finite value.
[[nodiscard]] std::string number(double value, int places = 1);

/// The same with exactly `places` decimals and commas between thousands, for people: "12,500", "0.50".
[[nodiscard]] std::string grouped(double value, int places = 0);

/// Whether a value can be drawn: finite, and within 1e12 of zero.
[[nodiscard]] bool drawable(double value);

/// Pixels of a line of text in a wide sans-serif face; an estimate on the safe side.
[[nodiscard]] double text_width(std::string_view text, double font_size);

/// A place on the drawing in its own pixels, y downwards.
struct Spot {
    double x = 0, y = 0;
};

enum class Anchor { start, middle, end };

/// How many series can be told apart by dash, marker and letter; beyond it the looks come round again.
inline constexpr std::size_t kLooks = 6;

/// Shapes in the order they are drawn. Looks and classes are those of style_sheet().
class Shapes {
public:
    void text(Spot at, std::string_view words, Anchor anchor = Anchor::start, std::string_view classes = {});
    void line(Spot from, Spot to, std::string_view classes);
    void path(const std::vector<Spot>& spots, std::string_view classes, bool closed = false);
    void rect(Spot corner, double width, double height, std::string_view classes);
    /// The marker of a look: disc, square, triangle, diamond, triangle upside down, cross. `hollow`: white inside.
    void marker(Spot at, std::size_t look, bool hollow = false);

    [[nodiscard]] const std::string& markup() const { return markup_; }

private:
    std::string markup_;
};

/// Class of the line of a look: its colour and its dash.
[[nodiscard]] std::string line_class(std::size_t look);

/// "A" to "Z", and round again.
[[nodiscard]] std::string letter(std::size_t series);

/// The style element that all charts share, every rule bound to class "chart".
[[nodiscard]] std::string_view style_sheet();

}  // namespace report::chart
