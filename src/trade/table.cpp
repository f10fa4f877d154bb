#include "trade/table.hpp"

#include <algorithm>
#include <charconv>

namespace trade {
namespace {

bool fits(const TableRow& row, const std::map<std::string, std::string>& wanted) {
    return std::all_of(wanted.begin(), wanted.end(), [&](const auto& pair) {
        const auto found = row.keys.find(pair.first);
        return found != row.keys.end() && found->second == pair.second;
    });
}

std::optional<double> plain_number(const std::string& text) {
    double value = 0.0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
    return value;
}

}  // namespace

std::string_view to_text(Basis::Kind kind) {
    switch (kind) {
        case Basis::Kind::published:
            return "published";
        case Basis::Kind::practice:
            return "practice";
        case Basis::Kind::memory:
            return "memory";
    }
    return "memory";
}

std::optional<Basis::Kind> parse_basis_kind(std::string_view text) {
    for (const auto kind : {Basis::Kind::published, Basis::Kind::practice, Basis::Kind::memory})
        if (text == to_text(kind)) return kind;
    return std::nullopt;
}

std::optional<base::Quantity> look_up(const Table& table, const std::map<std::string, std::string>& row,
                                      std::string_view column) {
    const auto unit = table.columns.find(std::string{column});
    if (unit == table.columns.end() || row.empty()) return std::nullopt;
    const auto matches = [&](const TableRow& r) { return fits(r, row); };
    if (std::count_if(table.rows.begin(), table.rows.end(), matches) != 1) return std::nullopt;
    const auto& found = *std::find_if(table.rows.begin(), table.rows.end(), matches);
    const auto cell = found.values.find(std::string{column});
    if (cell == found.values.end()) return std::nullopt;
    const auto value = plain_number(cell->second);
    if (!value) return std::nullopt;
    return base::Quantity{*value, unit->second};
}

}  // namespace trade
