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
// Text in a column narrower than this cannot be read.
constexpr std::size_t kLeastRoom = 8;

std::size_t whole(double value) {
    return static_cast<std::size_t>(std::max(0L, std::lround(value)));
}

}  // namespace

std::string inked(const Page& page, Ink ink, std::string_view text) {
    if (!page.color || ink == Ink::plain || text.empty()) return std::string{text};
    return std::string{kCodes.at(static_cast<std::size_t>(ink))} + std::string{text} + std::string{kReset};
}

void add(std::vector<std::string>& lines, const Page& page, std::string_view text, std::size_t indent, Ink ink) {
    const std::size_t most = page.width > kLeastRoom ? page.width - kLeastRoom : 0;
    const std::string margin(std::min(indent, most), ' ');
    for (const auto& line : base::wrap(text, page.width - margin.size()))
        lines.push_back(margin + inked(page, ink, line));
}

void add_hanging(std::vector<std::string>& lines, const Page& page, const std::string& head, std::string_view text,
                 Ink ink) {
    const std::size_t indent = base::display_width(head);
    if (indent + kLeastRoom > page.width) {
        // Too little room beside the head: it stands above.
        add(lines, page, head);
        add(lines, page, text, 2, ink);
        return;
    }
    bool first = true;
    for (const auto& line : base::wrap(text, page.width - indent)) {
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
    // Rounded before it is compared: 59.7 minutes are an hour, not 60 minutes.
    if (whole(days) >= 60) return counted(whole(days / 30.4), "month");
    if (whole(days * 24) >= 24) return counted(whole(days), "day");
    if (whole(days * 24 * 60) >= 60) return counted(whole(days * 24), "hour");
    return counted(whole(days * 24 * 60), "minute");
}

std::string padded(std::string_view text, std::size_t width) {
    const std::size_t used = base::display_width(text);
    return std::string{text} + std::string(width > used ? width - used : 0, ' ');
}

}  // namespace report
