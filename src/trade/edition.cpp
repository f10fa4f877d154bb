#include "trade/edition.hpp"

namespace trade {

std::string to_text(Edition edition) {
    return std::to_string(static_cast<int>(edition));
}

std::optional<Edition> parse_edition(std::string_view text) {
    for (const Edition edition : kEditions)
        if (text == to_text(edition)) return edition;
    return std::nullopt;
}

std::string to_text(const EditionRange& range) {
    return range.first == range.last ? to_text(range.first) : to_text(range.first) + "-" + to_text(range.last);
}

std::optional<EditionRange> parse_edition_range(std::string_view text) {
    const auto dash = text.find('-');
    const auto first = parse_edition(text.substr(0, dash));
    const auto last = dash == std::string_view::npos ? first : parse_edition(text.substr(dash + 1));
    if (!first || !last || *last < *first) return std::nullopt;
    return EditionRange{*first, *last};
}

std::vector<Edition> editions_in(const EditionRange& range) {
    std::vector<Edition> found;
    for (const Edition edition : kEditions)
        if (range.contains(edition)) found.push_back(edition);
    return found;
}

}  // namespace trade
