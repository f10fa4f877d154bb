#include "content/write/sheet_cells.hpp"

#include <algorithm>

#include "base/text.hpp"

namespace content {
namespace {

bool is_id_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
}

bool is_id(std::string_view text) {
    return std::any_of(text.begin(), text.end(), [](char c) { return c >= 'a' && c <= 'z'; }) &&
           std::all_of(text.begin(), text.end(), is_id_letter);
}

}  // namespace

std::vector<std::string> parts_of(std::string_view cell, char at) {
    std::vector<std::string> parts;
    for (const auto& part : base::split(cell, at))
        if (const auto trimmed = base::trim(part); !trimmed.empty()) parts.emplace_back(trimmed);
    return parts;
}

std::string joined(const std::vector<std::string>& parts, std::string_view with) {
    std::string all;
    for (const auto& part : parts) all += (all.empty() ? "" : std::string{with}) + part;
    return all;
}

MistakeCell mistake_of(std::string_view cell) {
    const std::string text{base::trim(cell)};
    if (is_id(text)) return {text, ""};
    const auto colon = text.find(':');
    if (colon != std::string::npos && is_id(text.substr(0, colon)))
        return {text.substr(0, colon), std::string{base::trim(text.substr(colon + 1))}};
    return {id_of(text), text};
}

std::string id_of(std::string_view words, std::size_t most_words) {
    std::string id;
    std::size_t count = 0;
    for (const auto& word : base::split(base::lower(words), ' ')) {
        std::string kept;
        for (const char c : word)
            if (is_id_letter(c)) kept += c;
        while (!kept.empty() && kept.front() == '-') kept.erase(kept.begin());
        while (!kept.empty() && kept.back() == '-') kept.pop_back();
        if (kept.empty() || (id.empty() && !(kept.front() >= 'a' && kept.front() <= 'z'))) continue;
        if (count++ == most_words) break;
        id += (id.empty() ? "" : "-") + kept;
    }
    return id;
}

std::string unguarded(std::string_view cell) {
    constexpr std::string_view kFormula = "=+-@\t\r";
    const bool guarded = cell.size() > 1 && cell.front() == '\'' && kFormula.find(cell[1]) != std::string_view::npos;
    return std::string{guarded ? cell.substr(1) : cell};
}

}  // namespace content
