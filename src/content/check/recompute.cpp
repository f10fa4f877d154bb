#include "content/check/recompute.hpp"

#include <utility>

#include "base/measures.hpp"
#include "base/text.hpp"
#include "content/computed/expression.hpp"
#include "trade/table.hpp"

namespace content {
namespace {

using Value = base::Checked<base::Typed>;

Value refused(std::string what, std::string mend) {
    return tl::unexpected<base::Faults>{{{"", "", 0, std::move(what), std::move(mend), false}}};
}

Value from_table(const Contents& contents, const Check& check) {
    const auto* table = contents.table(check.table);
    if (table == nullptr) return refused("there is no table '" + check.table + "'", "see decks/tables/");
    const auto value = trade::look_up(*table, check.row, check.column);
    if (!value)
        return refused("no one row of table '" + check.table + "' fits, or it has no such column",
                       "compare \"row\" and \"column\" with decks/tables/" + check.table + ".json");
    return base::Typed{value->value, value->unit};
}

Value by_calculator(const trade::Tables* tables, const Check& check, trade::Edition edition) {
    const auto* calculator = trade::find_calculator(check.calculator);
    if (calculator == nullptr || tables == nullptr) return tl::unexpected<base::Faults>{base::Faults{}};
    const auto finding = calculator->run(check.facts, {edition, tables, false});
    if (!finding.answer)
        return refused("'" + check.calculator + "' cannot be worked out: " +
                           (finding.unknown.empty() ? base::join(finding.findings, "; ")
                                                    : "unknown " + base::join(finding.unknown, ", ")),
                       "complete the facts");
    const auto* value = check.value.empty() ? &*finding.answer : finding.find(check.value);
    if (value == nullptr)
        return refused("'" + check.calculator + "' gives no '" + check.value + "'",
                       "see its help for the values there are");
    if (value->is_number()) return base::Typed{value->number, value->unit};
    // A conductor size as the number that people give for it.
    const auto measures = base::measures_in(value->words);
    if (!measures.empty()) return base::Typed{measures.front().quantity.value, measures.front().quantity.unit};
    const auto typed = base::parse_typed_quantity(value->words);
    if (!typed) return refused("'" + value->words + "' is no number", "check something that is one");
    return *typed;
}

}  // namespace

Value recompute(const Contents& contents, const trade::Tables* tables, const Check& check, trade::Edition edition) {
    if (!check.table.empty()) return from_table(contents, check);
    if (check.sum.empty()) return by_calculator(tables, check, edition);
    const auto value = work_out(check.sum, {});
    if (!value)
        return refused("the sum '" + check.sum + "' cannot be worked out: " + value.error().front().what, "correct it");
    return base::Typed{*value, std::nullopt};
}

}  // namespace content
