#include <algorithm>

#include "base/text.hpp"
#include "trade/rules/book.hpp"

namespace trade {
namespace {

using Rules = std::vector<Rule>;

bool in_force(const Amendment& amendment, Edition edition, std::string_view day) {
    if (amendment.editions && !amendment.editions->contains(edition)) return false;
    if (day.empty()) return true;
    if (!amendment.from.empty() && day < amendment.from) return false;
    // The day that ends a delay is kept in the rule itself.
    return amendment.action == Amendment::Action::delay || amendment.until.empty() || day < amendment.until;
}

Rules::iterator find(Rules& rules, const std::string& id) {
    return std::find_if(rules.begin(), rules.end(), [&](const Rule& r) { return r.id == id; });
}

base::Fault about(const Amendment& amendment, std::string what, std::string mend) {
    return {amendment.spot.file, amendment.spot.pointer, amendment.spot.line, std::move(what), std::move(mend), false};
}

Rule local(const Amendment& amendment, const std::string& id) {
    Rule rule = *amendment.with;
    rule.id = id;
    rule.local = true;
    return rule;
}

void apply(const Amendment& amendment, Rules& rules, base::Faults& faults) {
    if (amendment.action == Amendment::Action::add) {
        if (find(rules, amendment.with->id) != rules.end())
            faults.push_back(about(amendment, "there is a rule '" + amendment.with->id + "' already",
                                   "give the local rule another id, or replace the one there is"));
        else
            rules.push_back(local(amendment, amendment.with->id));
        return;
    }
    const auto found = find(rules, amendment.rule);
    if (found == rules.end()) {
        std::vector<std::string> ids;
        for (const auto& rule : rules) ids.push_back(rule.id);
        const auto near = base::nearest(amendment.rule, ids);
        faults.push_back(about(amendment, "there is no rule '" + amendment.rule + "' to change",
                               near ? "did you mean '" + *near + "'?" : "'greentag require --list' names the rules"));
        return;
    }
    if (amendment.action == Amendment::Action::remove)
        rules.erase(found);
    else if (amendment.action == Amendment::Action::replace)
        *found = local(amendment, amendment.rule);
    else
        found->from = amendment.until;
}

}  // namespace

base::Checked<std::vector<Rule>> amended(std::vector<Rule> rules, const std::vector<Amendment>& amendments,
                                         Edition edition, std::string_view day) {
    base::Faults faults;
    for (const auto& amendment : amendments)
        if (in_force(amendment, edition, day)) apply(amendment, rules, faults);
    if (!faults.empty()) return tl::unexpected<base::Faults>{std::move(faults)};
    return rules;
}

std::vector<Rule> amended_as_far_as_fits(std::vector<Rule> rules, const std::vector<Amendment>& amendments,
                                         Edition edition, std::string_view day) {
    base::Faults passed_over;
    for (const auto& amendment : amendments)
        if (in_force(amendment, edition, day)) apply(amendment, rules, passed_over);
    return rules;
}

}  // namespace trade
