#include "report/chart/svg.hpp"

#include <array>
#include <charconv>
#include <cmath>

#include "base/text.hpp"

namespace report::chart {
namespace {

constexpr double kMost = 1e12;
constexpr double kMarker = 4.5;

std::string fixed(double value, int places) {
    std::array<char, 400> text{};
    const auto end = std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed, places).ptr;
    return {text.data(), end};
}

bool all_zero(std::string_view digits) {
    return digits.find_first_of("123456789") == std::string_view::npos;
}

std::string pair_text(Spot at) {
    return number(at.x) + " " + number(at.y);
}

std::string attribute(std::string_view name, std::string_view value) {
    return " " + std::string{name} + "=\"" + std::string{value} + "\"";
}

/// A text without the bytes that are no UTF-8.
std::string mended(std::string_view text) {
    std::string all{text};
    while (const auto bad = base::first_bad_utf8(all)) all[*bad] = '?';
    return all;
}

std::vector<Spot> outline(Spot at, std::size_t look) {
    const double r = kMarker;
    switch (look % kLooks) {
        case 1:
            return {{at.x - r, at.y - r}, {at.x + r, at.y - r}, {at.x + r, at.y + r}, {at.x - r, at.y + r}};
        case 2:
            return {{at.x, at.y - r * 1.2}, {at.x + r * 1.15, at.y + r * 0.9}, {at.x - r * 1.15, at.y + r * 0.9}};
        case 3:
            return {{at.x, at.y - r * 1.3}, {at.x + r * 1.3, at.y}, {at.x, at.y + r * 1.3}, {at.x - r * 1.3, at.y}};
        default:
            return {{at.x, at.y + r * 1.2}, {at.x + r * 1.15, at.y - r * 0.9}, {at.x - r * 1.15, at.y - r * 0.9}};
    }
}

}  // namespace

std::string escaped(std::string_view text) {
    std::string out;
    for (const char c : mended(text)) {
        const auto byte = static_cast<unsigned char>(c);
        if (c == '&')
            out += "&amp;";
        else if (c == '<')
            out += "&lt;";
        else if (c == '>')
            out += "&gt;";
        else if (c == '"')
            out += "&quot;";
        else if (c == '\'')
            out += "&#39;";
        else if (byte >= 0x20 && byte != 0x7f)
            out += c;
        else if (c == '\n' || c == '\t')
            out += ' ';
    }
    // U+FFFE and U+FFFF are well-formed UTF-8 and yet no XML characters.
    for (const std::string_view none : {"\xEF\xBF\xBE", "\xEF\xBF\xBF"})
        for (auto at = out.find(none); at != std::string::npos; at = out.find(none)) out.replace(at, none.size(), "?");
    return out;
}

std::string id_text(std::string_view text) {
    std::string id{text};
    for (char& c : id) {
        const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
        const bool other = (c >= '0' && c <= '9') || c == '-' || c == '_' || c == '.';
        if (!letter && !other) c = '-';
    }
    return id;
}

std::string number(double value, int places) {
    std::string text = fixed(value, places);
    if (text.find('.') != std::string::npos) {
        text.erase(text.find_last_not_of('0') + 1);
        if (text.back() == '.') text.pop_back();
    }
    return text == "-0" ? "0" : text;
}

std::string grouped(double value, int places) {
    std::string text = fixed(std::abs(value), places);
    const auto point = text.find('.');
    for (auto at = point == std::string::npos ? text.size() : point; at > 3; at -= 3) text.insert(at - 3, ",");
    return (value < 0 && !all_zero(text) ? "-" : "") + text;
}

bool drawable(double value) {
    return std::abs(value) <= kMost;  // false for what is no number
}

double text_width(std::string_view text, double font_size) {
    return 0.6 * font_size * static_cast<double>(base::display_width(mended(text)));
}

void Shapes::text(Spot at, std::string_view words, Anchor anchor, std::string_view classes) {
    markup_ += "<text" + attribute("x", number(at.x)) + attribute("y", number(at.y));
    if (anchor != Anchor::start) markup_ += attribute("text-anchor", anchor == Anchor::middle ? "middle" : "end");
    if (!classes.empty()) markup_ += attribute("class", classes);
    markup_ += ">" + escaped(words) + "</text>\n";
}

void Shapes::line(Spot from, Spot to, std::string_view classes) {
    path({from, to}, classes);
}

void Shapes::path(const std::vector<Spot>& spots, std::string_view classes, bool closed) {
    if (spots.empty()) return;
    std::string d = "M" + pair_text(spots.front());
    for (std::size_t n = 1; n < spots.size(); ++n) d += "L" + pair_text(spots[n]);
    markup_ += "<path" + attribute("d", d + (closed ? "Z" : "")) + attribute("class", classes) + "/>\n";
}

void Shapes::rect(Spot corner, double width, double height, std::string_view classes) {
    markup_ += "<rect" + attribute("x", number(corner.x)) + attribute("y", number(corner.y)) +
               attribute("width", number(width)) + attribute("height", number(height)) + attribute("class", classes) +
               "/>\n";
}

void Shapes::marker(Spot at, std::size_t look, bool hollow) {
    const std::string classes = "k" + std::to_string(look % kLooks) + (hollow ? " hollow" : "");
    if (look % kLooks == 0) {
        markup_ += "<circle" + attribute("cx", number(at.x)) + attribute("cy", number(at.y)) +
                   attribute("r", number(kMarker)) + attribute("class", classes) + "/>\n";
        return;
    }
    if (look % kLooks != kLooks - 1) return path(outline(at, look), classes, true);
    const double r = kMarker;
    markup_ += "<path" +
               attribute("d", "M" + pair_text({at.x - r, at.y - r}) + "L" + pair_text({at.x + r, at.y + r}) + "M" +
                                  pair_text({at.x - r, at.y + r}) + "L" + pair_text({at.x + r, at.y - r})) +
               attribute("class", classes) + "/>\n";
}

std::string line_class(std::size_t look) {
    return "l" + std::to_string(look % kLooks);
}

std::string letter(std::size_t series) {
    return {static_cast<char>('A' + series % 26)};
}

std::string_view style_sheet() {
    // Every colour that carries text or a series has a contrast of 7 or more on white. A print in black and white
    // loses nothing: each look has its dash and its marker.
    static constexpr std::string_view kSheet =
        "<style>.chart{display:block;width:100%;height:auto}.chart text{font:12px sans-serif;fill:#111}"
        ".chart .head{font-size:14px;font-weight:bold}.chart .bold{font-weight:bold}.chart .small{font-size:11px}"
        ".chart .halo{paint-order:stroke;stroke:#fff;stroke-width:3;stroke-linejoin:round}"
        ".chart .sheet{fill:#fff}.chart path{fill:none}"
        ".chart .grid{stroke:#ccc;stroke-width:1}.chart .axis{stroke:#444;stroke-width:1.5}"
        ".chart .even{stroke:#444;stroke-width:1.5;stroke-dasharray:2 4}"
        ".chart .mark{stroke:#111;stroke-width:2;stroke-dasharray:10 3}"
        ".chart .full{fill:#333;stroke:#111;stroke-width:.5}.chart .open{fill:#fff;stroke:#333;stroke-width:1}"
        ".chart .k0,.chart .l0{stroke:#111}.chart .k0{fill:#111}"
        ".chart .k1,.chart .l1{stroke:#0a4a85}.chart .k1{fill:#0a4a85}"
        ".chart .k2,.chart .l2{stroke:#8c0014}.chart .k2{fill:#8c0014}"
        ".chart .k3,.chart .l3{stroke:#14532d}.chart .k3{fill:#14532d}"
        ".chart .k4,.chart .l4{stroke:#5b2a86}.chart .k4{fill:#5b2a86}"
        ".chart .k5,.chart .l5{stroke:#5f3b00}.chart .k5{fill:none;stroke-width:2.5}"
        ".chart .l0,.chart .l1,.chart .l2,.chart .l3,.chart .l4,.chart .l5{stroke-width:2}"
        ".chart .l1{stroke-dasharray:8 4}.chart .l2{stroke-dasharray:2 3}.chart .l3{stroke-dasharray:12 4 2 4}"
        ".chart .l4{stroke-dasharray:5 2}.chart .l5{stroke-dasharray:12 3 2 3 2 3}"
        ".chart .hollow{fill:#fff;stroke-width:1.5}.chart .solid{stroke-dasharray:none}"
        ".chart .edge{stroke-width:1}"
        ".chart .band{fill-opacity:.12;stroke:none}.chart .band.l0{fill:#111}.chart .band.l1{fill:#0a4a85}"
        ".chart .band.l2{fill:#8c0014}.chart .band.l3{fill:#14532d}.chart .band.l4{fill:#5b2a86}"
        ".chart .band.l5{fill:#5f3b00}</style>\n";
    return kSheet;
}

}  // namespace report::chart
