#include "trade/finding.hpp"

#include <algorithm>

namespace trade {

Value value_of(std::string_view words, base::Unit unit) {
    return {0.0, std::string{words}, unit};
}

Value value_of(Size size) {
    return {0.0, std::string{name_of(size)}, size < Size::k250 ? base::Unit::awg : base::Unit::kcmil};
}

std::string to_text(const Value& value) {
    if (value.is_number()) return base::to_text(base::Quantity{value.number, value.unit});
    if (value.unit == base::Unit::count) return value.words;
    return value.words + " " + std::string{base::symbol(value.unit)};
}

const Value* Finding::find(std::string_view name) const {
    const auto found = std::find_if(also.begin(), also.end(), [&](const Also& a) { return a.name == name; });
    return found == also.end() ? nullptr : &found->value;
}

void Finding::refuse(std::string why) {
    refused_ = true;
    if (std::find(findings.begin(), findings.end(), why) == findings.end()) findings.push_back(std::move(why));
}

void Finding::lacks(std::string_view fact) {
    if (std::find(unknown.begin(), unknown.end(), fact) == unknown.end()) unknown.emplace_back(fact);
}

}  // namespace trade
