#include "trade/rules/condition.hpp"

#include <algorithm>

#include "base/text.hpp"

namespace trade {
namespace {

Truth opposite(Truth truth) {
    if (truth == Truth::maybe) return truth;
    return truth == Truth::yes ? Truth::no : Truth::yes;
}

Truth holds(const Test& test, const CaseFacts& facts) {
    const Known& known = facts[test.fact];
    if (test.of_words) {
        if ((known.words & test.words) == 0) return Truth::no;
        return (known.words & ~test.words) == 0 ? Truth::yes : Truth::maybe;
    }
    const bool low = test.over ? known.most <= test.least : known.most < test.least;
    const bool high = test.under ? known.least >= test.most : known.least > test.most;
    if (low || high) return Truth::no;
    const bool above = test.over ? known.least > test.least : known.least >= test.least;
    const bool below = test.under ? known.most < test.most : known.most <= test.most;
    return above && below ? Truth::yes : Truth::maybe;
}

Truth holds_any(const std::vector<Condition>& conditions, const CaseFacts& facts) {
    Truth most = Truth::no;
    for (const auto& condition : conditions) {
        most = std::max(most, trade::holds(condition, facts));
        if (most == Truth::yes) break;
    }
    return most;
}

}  // namespace

Truth holds(const Condition& condition, const CaseFacts& facts) {
    Truth least = Truth::yes;
    for (const auto& test : condition.words) {
        least = std::min(least, holds(test, facts));
        if (least == Truth::no) return least;
    }
    return holds_beyond_words(condition, facts, least);
}

Truth holds_beyond_words(const Condition& condition, const CaseFacts& facts, Truth of_words) {
    Truth least = of_words;
    for (const auto& test : condition.numbers) {
        least = std::min(least, holds(test, facts));
        if (least == Truth::no) return least;
    }
    for (const auto& alternatives : condition.any) {
        least = std::min(least, holds_any(alternatives, facts));
        if (least == Truth::no) return least;
    }
    for (const auto& barred : condition.none) {
        least = std::min(least, opposite(holds(barred, facts)));
        if (least == Truth::no) return least;
    }
    return least;
}

void add_open_facts(const Condition& condition, const CaseFacts& facts, FactBits& unknown) {
    for (const auto* tests : {&condition.words, &condition.numbers})
        for (const auto& test : *tests)
            if (holds(test, facts) == Truth::maybe) unknown.add(test.fact);
    for (const auto& alternatives : condition.any) {
        if (holds_any(alternatives, facts) != Truth::maybe) continue;
        for (const auto& alternative : alternatives)
            if (holds(alternative, facts) == Truth::maybe) add_open_facts(alternative, facts, unknown);
    }
    for (const auto& barred : condition.none)
        if (holds(barred, facts) == Truth::maybe) add_open_facts(barred, facts, unknown);
}

void Compiler::note(const Spot& spot, std::string what, std::string mend) const {
    faults_->push_back({spot.file, spot.pointer, spot.line, std::move(what), std::move(mend), false});
}

std::optional<std::size_t> Compiler::fact(const std::string& name, const Spot& spot) const {
    const auto found = vocabulary_->find(name);
    if (found) return found;
    const auto near = base::nearest(name, vocabulary_->fact_names());
    note(spot, "there is no fact '" + name + "'",
         near ? "did you mean '" + *near + "'?" : "decks/rules/facts.json has the facts there are");
    return std::nullopt;
}

std::optional<std::size_t> Compiler::measure(const std::string& name, const Spot& spot) const {
    const auto at = fact(name, spot);
    if (!at || vocabulary_->facts()[*at].kind == CaseFact::Kind::number) return at;
    note(spot, "nothing can be counted by \"" + name + "\"", "name a fact that is a number");
    return std::nullopt;
}

ResultSet Compiler::result(const std::string& name, const Spot& spot) const {
    const auto found = vocabulary_->find_result(name);
    if (found) return ResultSet{1} << *found;
    const auto near = base::nearest(name, vocabulary_->result_names());
    note(spot, "there is no result '" + name + "'",
         near ? "did you mean '" + *near + "'?" : "decks/rules/facts.json has the results there are");
    return 0;
}

WordSet Compiler::words(const Clause& clause, const CaseFact& fact) const {
    WordSet set = 0;
    for (const auto& word : clause.words) {
        if (const auto one = fact.words(word)) {
            set |= *one;
            continue;
        }
        std::vector<std::string> known = fact.choices;
        for (const auto& [name, group] : fact.groups) known.push_back(name);
        const auto near = base::nearest(word, known);
        note(clause.spot, "\"" + fact.name + "\" is never '" + word + "'",
             near ? "did you mean '" + *near + "'?" : "it is one of " + base::join(known, ", "));
    }
    return clause.negated ? fact.every() & ~set : set;
}

std::optional<Test> Compiler::test(const Clause& clause) const {
    const auto at = fact(clause.fact, clause.spot);
    if (!at) return std::nullopt;
    const CaseFact& fact = vocabulary_->facts()[*at];
    Test test;
    test.fact = *at;
    test.of_words = fact.has_words();
    const bool ends = clause.equal || clause.least || clause.most || clause.over || clause.under;
    if (test.of_words == clause.words.empty() || test.of_words == ends) {
        note(clause.spot, "\"" + fact.name + "\" is asked for in the wrong way",
             test.of_words ? "name one of its words" : "give a number, or {\"least\": …, \"most\": …}");
        return std::nullopt;
    }
    if (test.of_words) {
        test.words = words(clause, fact);
        return test;
    }
    if (clause.equal) test.least = test.most = *clause.equal;
    if (clause.least) test.least = *clause.least;
    if (clause.most) test.most = *clause.most;
    if (clause.over) test.least = *clause.over;
    if (clause.under) test.most = *clause.under;
    test.over = clause.over.has_value();
    test.under = clause.under.has_value();
    return test;
}

void Compiler::add(const When& when, Condition& to) const {
    for (const auto& clause : when.all)
        if (const auto one = test(clause)) (one->of_words ? to.words : to.numbers).push_back(*one);
    for (const auto& alternatives : when.any) {
        std::vector<Condition> compiled;
        for (const auto& one : alternatives) compiled.push_back(compile({&one}));
        to.any.push_back(std::move(compiled));
    }
    for (const auto& barred : when.none) to.none.push_back(compile({&barred}));
}

Condition Compiler::compile(const std::vector<const When*>& parts) const {
    Condition condition;
    for (const auto* part : parts) add(*part, condition);
    return condition;
}

}  // namespace trade
