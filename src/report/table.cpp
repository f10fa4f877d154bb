#include "report/table.hpp"

#include <cmath>

#include "base/text.hpp"

namespace report {

void add_row(std::vector<std::string>& lines, const Page& page, const std::string& name, std::size_t width,
             const std::string& cells, Ink ink) {
    if (width + base::display_width(cells) <= page.width) {
        lines.push_back(inked(page, ink, padded(name, width) + cells));
        return;
    }
    if (!name.empty()) add(lines, page, name, 0, ink);
    lines.push_back(inked(page, ink, std::string{base::trim(cells)}.insert(0, name.empty() ? 0 : 2, ' ')));
}

std::string right_set(const std::string& text, std::size_t width) {
    return text.size() >= width ? text : std::string(width - text.size(), ' ') + text;
}

std::string percent(double share) {
    return std::to_string(std::lround(100 * share)) + " %";
}

}  // namespace report
