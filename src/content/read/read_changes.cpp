#include <algorithm>
#include <array>

#include "content/read/read.hpp"
#include "content/read/read_question.hpp"

namespace content {
namespace {

using base::Reader;

std::optional<trade::Edition> read_edition(const Reader& document, const char* key) {
    const auto edition = trade::parse_edition(document.text(key));
    if (!edition && document.has_text(key))
        document.member(key).fault("this is no edition", "write \"2017\", \"2020\", \"2023\" or \"2026\"");
    return edition;
}

bool are_neighbours(trade::Edition from, trade::Edition to) {
    const auto at = std::find(trade::kEditions.begin(), trade::kEditions.end(), from);
    return at + 1 < trade::kEditions.end() && *(at + 1) == to;
}

DeclaredChange read_change(const Reader& item) {
    item.only({"rule", "table", "point", "change", "says", "basis", "unverified"});
    DeclaredChange one;
    one.place = place_of(item);
    one.of = item.has("table") ? Differs::table : item.has("point") ? Differs::point : Differs::rule;
    if (item.has("rule") + item.has("table") + item.has("point") > 1)
        item.fault("it names more than one of rule, table and point", "write one change for each");
    one.id = item.text(one.of == Differs::table ? "table" : one.of == Differs::point ? "point" : "rule");
    one.change = item.text("change");
    constexpr std::array<std::string_view, 4> kKinds = {"new", "gone", "changed", "moved"};
    if (item.has_text("change") && std::find(kKinds.begin(), kKinds.end(), one.change) == kKinds.end())
        item.member("change").fault("'" + one.change + "' is no kind of change", "write new, gone, changed or moved");
    one.says = one.change == "moved" ? item.text_or("says", "") : item.text("says");
    one.basis = read_basis(item.member("basis"));
    one.unverified = item.flag_or("unverified", false);
    return one;
}

}  // namespace

std::vector<DeclaredChange> read_changes(const Reader& document) {
    document.only({"format", "from", "to", "changes"});
    const auto from = read_edition(document, "from");
    const auto to = read_edition(document, "to");
    if (from && to && !are_neighbours(*from, *to))
        document.fault("a change list goes from one edition to the next", "write one list for each step");
    std::vector<DeclaredChange> all;
    for (const auto& item : document.items("changes")) {
        all.push_back(read_change(item));
        if (from) all.back().from = *from;
        if (to) all.back().to = *to;
    }
    return all;
}

}  // namespace content
