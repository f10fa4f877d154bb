#pragma once

#include <charconv>
#include <string>
#include <string_view>
#include <vector>

#include "base/random.hpp"
#include "report/chart/svg.hpp"

/// Reads what the charts write; enough of a reader for that, and no more.
namespace reading {

inline bool has(std::string_view text, std::string_view part) {
    return text.find(part) != std::string_view::npos;
}

inline std::size_t count(std::string_view text, std::string_view part) {
    std::size_t found = 0;
    for (auto at = text.find(part); at != std::string_view::npos; at = text.find(part, at + part.size())) ++found;
    return found;
}

/// True when every element that opens is closed in turn and no sign stands where it may not.
inline bool well_formed(const std::string& text) {
    std::vector<std::string> open;
    for (auto at = text.find('<'); at != std::string::npos; at = text.find('<', at + 1)) {
        const auto end = text.find('>', at);
        if (end == std::string::npos || text.find('<', at + 1) < end) return false;
        const std::string tag = text.substr(at + 1, end - at - 1);
        if (tag.ends_with("/")) continue;
        const bool closes = tag.starts_with("/");
        const std::string name = tag.substr(closes ? 1 : 0, tag.find(' ') - (closes ? 1 : 0));
        if (!closes) {
            open.push_back(name);
            continue;
        }
        if (open.empty() || open.back() != name) return false;
        open.pop_back();
    }
    for (auto at = text.find('&'); at != std::string::npos; at = text.find('&', at + 1))
        if (text.find(';', at) > at + 6) return false;
    return open.empty();
}

inline std::string attribute(std::string_view tag, const std::string& name) {
    const auto at = tag.find(" " + name + "=\"");
    if (at == std::string_view::npos) return {};
    const auto from = at + name.size() + 3;
    return std::string{tag.substr(from, tag.find('"', from) - from)};
}

inline double value(const std::string& text) {
    double read = -1e9;
    std::from_chars(text.data(), text.data() + text.size(), read);
    return read;
}

/// The part between the first opening and closing tag of a name.
inline std::string inside(const std::string& svg, const std::string& name) {
    const auto at = svg.find("<" + name);
    const auto from = svg.find('>', at) + 1;
    return svg.substr(from, svg.find("</" + name + ">", from) - from);
}

/// A line of text and the room it takes, by the estimate that the charts go by.
struct Text {
    std::string words, classes;
    double left = 0, right = 0, base = 0;

    [[nodiscard]] bool covers(const Text& other) const {
        return left < other.right && other.left < right && base - 9 < other.base + 1 && other.base - 9 < base + 1;
    }
};

inline std::vector<Text> texts(const std::string& svg) {
    std::vector<Text> all;
    for (auto at = svg.find("<text"); at != std::string::npos; at = svg.find("<text", at + 1)) {
        const auto end = svg.find('>', at);
        const auto tag = std::string_view{svg}.substr(at, end - at);
        Text text{svg.substr(end + 1, svg.find('<', end) - end - 1), attribute(tag, "class"), 0, 0, 0};
        const double size = has(text.classes, "head") ? 14 : has(text.classes, "small") ? 11 : 12;
        // An entity is one sign on the screen.
        std::string shown;
        for (std::size_t n = 0; n < text.words.size(); ++n) {
            shown += text.words[n];
            if (text.words[n] == '&') n = text.words.find(';', n);
        }
        const double width = report::chart::text_width(shown, size);
        const double x = value(attribute(tag, "x"));
        const std::string anchor = attribute(tag, "text-anchor");
        text.left = anchor == "end" ? x - width : anchor == "middle" ? x - width / 2 : x;
        text.right = text.left + width;
        text.base = value(attribute(tag, "y"));
        all.push_back(std::move(text));
    }
    return all;
}

/// Pairs of texts that cover each other, and texts that leave the sheet, told for a person.
inline std::vector<std::string> crowded(const std::string& svg, double width) {
    std::vector<std::string> told;
    const auto all = texts(svg);
    for (std::size_t n = 0; n < all.size(); ++n) {
        if (all[n].left < 0 || all[n].right > width) told.push_back(all[n].words + " leaves the sheet");
        for (std::size_t k = 0; k < n; ++k)
            if (all[n].covers(all[k])) told.push_back(all[n].words + " over " + all[k].words);
    }
    return told;
}

/// What holds for every chart, whatever it shows.
inline std::vector<std::string> wrong(const std::string& svg, const std::string& id) {
    std::vector<std::string> told;
    const auto hold = [&](bool holds, const char* what) {
        if (!holds) told.emplace_back(what);
    };
    hold(well_formed(svg), "not well-formed");
    hold(svg.starts_with("<svg xmlns=\"http://www.w3.org/2000/svg\""), "does not begin with its element");
    hold(has(svg, "role=\"img\" aria-labelledby=\"" + id + "-title " + id + "-desc\""), "no role or label");
    hold(count(svg, "<title id=\"" + id + "-title\">") == 1, "no title");
    hold(count(svg, "<desc id=\"" + id + "-desc\">") == 1, "no description");
    hold(!inside(svg, "desc").empty(), "an empty description");
    for (const char* word : {"<script", "<image", "href", "url(", "@import", "nan", "inf\"", "-0\"", "<foreignObject"})
        hold(!has(svg, word), word);
    return told;
}

/// Values of every kind that a caller may come with.
inline double any_value(base::Random& random) {
    switch (random.below(12)) {
        case 0:
            return 0;
        case 1:
            return 1;
        case 2:
            return 1e300 * 1e300;
        case 3:
            return 1e300 * 1e300 * 0;
        case 4:
            return 1e12 * (random.unit() - 0.5);
        case 5:
            return 1e-12 * random.unit();
        case 6:
            return -random.unit();
        default:
            return random.unit();
    }
}

}  // namespace reading
