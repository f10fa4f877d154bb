#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/quantity.hpp"
#include "trade/edition.hpp"

namespace trade {

/// Where a statement or value comes from.
struct Basis {
    enum class Kind : std::uint8_t { published, practice, memory };
    Kind kind = Kind::memory;
    std::string source;  ///< title and place of what was seen; needed when published

    friend bool operator==(const Basis&, const Basis&) = default;
};

[[nodiscard]] std::string_view to_text(Basis::Kind kind);
[[nodiscard]] std::optional<Basis::Kind> parse_basis_kind(std::string_view text);

struct TableRow {
    std::map<std::string, std::string> keys;    ///< one entry per key of the table
    std::map<std::string, std::string> values;  ///< by column; text, since wire sizes run past 1 AWG
    Basis basis;
};

/// A table of the code, or of the trade, as data.
struct Table {
    std::string id, title, article;
    EditionRange editions;
    std::vector<std::string> keys;
    std::map<std::string, base::Unit> columns;
    std::vector<TableRow> rows;
};

/// The value in one column of the one row whose keys are all as given.
/// Nothing when no row or more than one fits, the column is unknown, or the value is not a plain number.
[[nodiscard]] std::optional<base::Quantity> look_up(const Table& table, const std::map<std::string, std::string>& row,
                                                    std::string_view column);

}  // namespace trade
