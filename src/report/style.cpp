#include "report/style.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/text.hpp"

namespace report {
namespace {

// Bright variants keep their contrast on both dark and light terminals better than the plain ones.
constexpr std::array<std::string_view, 6> kCodes = {"", "\x1b[1m", "\x1b[2m", "\x1b[1;32m", "\x1b[1;31m", "\x1b[1;33m"};
constexpr std::string_view kReset = "\x1b[0m";

}  // namespace

std::string inked(const Page& page, Ink ink, std::string_view text) {
    if (!page.color || ink == Ink::plain || text.empty()) return std::string{text};
    return std::string{kCodes.at(static_cast<std::size_t>(ink))} + std::string{text} + std::string{kReset};
}

void add(std::vector<std::string>& lines, const Page& page, std::string_view text, std::size_t indent, Ink ink) {
    const std::string margin(indent, ' ');
    for (const auto& line : base::wrap(text, page.width > indent ? page.width - indent : 8))
        lines.push_back(margin + inked(page, ink, line));
}

void add_hanging(std::vector<std::string>& lines, const Page& page, const std::string& head, std::string_view text,
                 Ink ink) {
    const std::size_t indent = base::display_width(head);
    const std::size_t room = page.width > indent ? page.width - indent : 8;
    bool first = true;
    for (const auto& line : base::wrap(text, room)) {
        lines.push_back((first ? head : std::string(indent, ' ')) + inked(page, ink, line));
        first = false;
    }
}

std::string counted(std::size_t count, const std::string& noun) {
    return std::to_string(count) + " " + noun + (count == 1 ? "" : "s");
}

std::string stretch(double days) {
    constexpr double kYear = 365.25;
    if (days >= 2 * kYear) return "over 2 years";
    if (days >= 60) return counted(static_cast<std::size_t>(std::lround(days / 30.4)), "month");
    if (days >= 1) return counted(static_cast<std::size_t>(std::lround(days)), "day");
    const double minutes = days * 24 * 60;
    if (minutes >= 60) return counted(static_cast<std::size_t>(std::lround(minutes / 60)), "hour");
    return counted(static_cast<std::size_t>(std::max(0L, std::lround(minutes))), "minute");
}

std::string padded(std::string_view text, std::size_t width) {
    const std::size_t used = base::display_width(text);
    return std::string{text} + std::string(width > used ? width - used : 0, ' ');
}

}  // namespace report
