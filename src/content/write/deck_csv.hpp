#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

#include "base/fault.hpp"

namespace content {

/// A deck that was read from a spreadsheet.
struct SheetDeck {
    std::string name;
    nlohmann::ordered_json document;   ///< of the format greentag-deck/1, not judged yet
    std::map<std::string, int> lines;  ///< JSON pointer of a point, version, gap or question to its line in the sheet
};

/// The columns of a deck as a spreadsheet, in order; docs/authoring.md tells what each takes.
[[nodiscard]] const std::vector<std::string>& sheet_columns();

/// A deck as CSV (RFC 4180), one row for each version and question, without the line of columns.
[[nodiscard]] std::string sheet_of(const nlohmann::ordered_json& deck);
/// The line of columns.
[[nodiscard]] std::string sheet_head();

/// Decks from a spreadsheet saved as CSV. Columns may stand in any order and be left out; an empty cell of deck or
/// point means the row above. Rows without a question's id get a, b, c, ...
/// Takes   deck: the name where no cell gives one.
/// Errors  no CSV, a column that is not known, a row before any point, cells that cannot be taken apart; each with its
///         line. What the cells say is judged when the deck is read.
[[nodiscard]] base::Checked<std::vector<SheetDeck>> decks_of_sheet(std::string_view text, const std::string& file,
                                                                   const std::string& deck);

}  // namespace content
