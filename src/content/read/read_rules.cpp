#include "content/read/read_rules.hpp"

#include <algorithm>
#include <array>
#include <set>

#include "base/text.hpp"
#include "content/read/read_question.hpp"
#include "trade/article.hpp"

namespace content {
namespace {

using base::Located;
using base::Reader;
using trade::CaseFact;

trade::Spot spot_of(const Reader& reader) {
    return {reader.file(), reader.pointer(), reader.line()};
}

bool is_list(const Reader& reader) {
    return std::holds_alternative<Located::List>(reader.node().value);
}
bool is_object(const Reader& reader) {
    return std::holds_alternative<Located::Members>(reader.node().value);
}

/// A word or a list of words; a flag stands for yes or no.
std::vector<std::string> words(const Reader& object, const std::string& key) {
    if (const auto* flag = std::get_if<bool>(&object.member(key).node().value)) return {*flag ? "yes" : "no"};
    if (is_list(object.member(key))) return object.texts(key);
    return {object.member(key).as_text()};
}

std::optional<double> number_if(const Reader& reader, const char* key) {
    if (!reader.has(key)) return std::nullopt;
    return reader.number(key);
}

std::optional<double> day_if(const Reader& reader, const char* key) {
    if (!reader.has(key)) return std::nullopt;
    const std::string text = reader.text(key);
    auto day = trade::day_number(text);
    if (!day && reader.has_text(key)) reader.fault("'" + text + "' is no day", "write it like 2026-09-01");
    return day;
}

void read_range(const Reader& reader, trade::Clause& clause) {
    reader.only({"not", "least", "most", "over", "under", "before", "from"});
    if (reader.has("not")) {
        clause.words = words(reader, "not");
        clause.negated = true;
    }
    clause.least = number_if(reader, "least");
    clause.most = number_if(reader, "most");
    clause.over = number_if(reader, "over");
    clause.under = number_if(reader, "under");
    if (const auto day = day_if(reader, "before")) clause.under = day;
    if (const auto day = day_if(reader, "from")) clause.least = day;
}

trade::Clause read_clause(const std::string& fact, const Reader& object, const Reader& value) {
    trade::Clause clause;
    clause.fact = fact;
    clause.spot = spot_of(value);
    if (const auto* number = std::get_if<double>(&value.node().value))
        clause.equal = *number;
    else if (is_object(value))
        read_range(value, clause);
    else
        clause.words = words(object, fact);
    return clause;
}

void append(trade::When& to, trade::When from) {
    std::move(from.all.begin(), from.all.end(), std::back_inserter(to.all));
    std::move(from.any.begin(), from.any.end(), std::back_inserter(to.any));
    std::move(from.none.begin(), from.none.end(), std::back_inserter(to.none));
}

std::string article_of(const Reader& reader, bool needed) {
    std::string article = needed ? reader.text("article") : reader.text_or("article", "");
    // "Ex" behind a reference stands for its exception, which the reference itself does not name.
    const std::string plain = article.substr(0, article.find(" Ex"));
    if (!article.empty() && !trade::parse_article(plain))
        reader.fault("'" + article + "' is no code reference", "write it like 210.8(A)(2)");
    return article;
}

std::vector<trade::Exception> read_exceptions(const Reader& reader) {
    std::vector<trade::Exception> exceptions;
    for (const auto& item : reader.items_or_none("exceptions")) {
        item.only({"when", "why", "article"});
        exceptions.push_back({read_when(item.member("when")), item.text("why"), article_of(item, false)});
        if (exceptions.back().when.empty())
            item.fault("an exception that always holds leaves no rule", "say when it applies");
    }
    return exceptions;
}

trade::RuleVersion read_version(const Reader& reader) {
    reader.only({"editions", "article", "when", "exceptions", "basis", "unverified"});
    trade::RuleVersion version;
    version.spot = spot_of(reader);
    version.editions = read_editions(reader, "editions");
    version.article = article_of(reader, true);
    if (reader.has("when")) version.when = read_when(reader.member("when"));
    version.exceptions = read_exceptions(reader);
    version.basis = read_basis(reader.member("basis"));
    version.unverified = reader.flag_or("unverified", false);
    return version;
}

void read_effect(const Reader& reader, trade::Rule& rule) {
    constexpr std::array kEffects = {trade::Effect::requires_, trade::Effect::permits, trade::Effect::forbids};
    int said = 0;
    for (const auto effect : kEffects) {
        const std::string key{to_text(effect)};
        if (!reader.has(key)) continue;
        ++said;
        rule.effect = effect;
        rule.result = reader.text(key);
    }
    if (said != 1)
        reader.fault("a rule requires, permits or forbids one thing",
                     "write one of \"requires\", \"permits\", \"forbids\"");
}

void check_versions(const Reader& reader, const trade::Rule& rule) {
    for (std::size_t i = 0; i < rule.versions.size(); ++i)
        for (std::size_t j = i + 1; j < rule.versions.size(); ++j)
            for (const auto edition : trade::kEditions)
                if (rule.versions[i].editions.contains(edition) && rule.versions[j].editions.contains(edition))
                    reader.fault("two versions of '" + rule.id + "' hold in " + trade::to_text(edition),
                                 "end one before the other begins");
    if (rule.versions.empty() && reader.has("versions"))
        reader.fault("the rule '" + rule.id + "' holds in no edition", "give it a version");
}

trade::WordSet read_group(const Reader& object, const std::string& name, const CaseFact& fact) {
    trade::WordSet set = 0;
    for (const auto& word : words(object, name)) {
        const auto one = fact.words(word);
        if (one)
            set |= *one;
        else
            object.fault("the group '" + name + "' names '" + word + "', which is no choice", "correct the word");
    }
    return set;
}

CaseFact::Kind read_kind(const Reader& reader) {
    const std::string kind = reader.text("kind");
    if (kind == "choice") return CaseFact::Kind::choice;
    if (kind == "number") return CaseFact::Kind::number;
    if (kind == "date") return CaseFact::Kind::date;
    if (kind != "flag" && reader.has_text("kind"))
        reader.fault("'" + kind + "' is no kind of fact", "write choice, flag, number or date");
    return CaseFact::Kind::flag;
}

CaseFact read_case_fact(const Reader& reader) {
    reader.only({"name", "kind", "does", "choices", "groups", "unit", "least", "most", "none"});
    CaseFact fact;
    fact.name = reader.text("name");
    fact.does = reader.text("does");
    fact.kind = read_kind(reader);
    fact.may_be_none = reader.flag_or("none", false);
    fact.least = reader.number_or("least", 0.0);
    fact.most = reader.number_or("most", 1e9);
    const std::string unit = reader.text_or("unit", "count");
    if (const auto known = base::parse_unit(unit))
        fact.unit = *known;
    else
        reader.fault("there is no unit '" + unit + "'", "see the units in docs/formats/deck.schema.json");
    if (fact.kind == CaseFact::Kind::flag) fact.choices = {"no", "yes"};
    if (fact.kind == CaseFact::Kind::choice) fact.choices = reader.texts("choices");
    if (fact.choices.size() > trade::kMostWords) {
        reader.fault("more than 64 choices", "make two facts of it");
        fact.choices.resize(trade::kMostWords);
    }
    if (reader.has("groups"))
        for (const auto& [name, value] : reader.member("groups").members())
            fact.groups[name] = read_group(reader.member("groups"), name, fact);
    return fact;
}

void read_implication(const Reader& reader, trade::Vocabulary& vocabulary) {
    reader.only({"when", "then"});
    const auto when = reader.member("when").members();
    const auto then = reader.member("then").members();
    if (when.size() != 1 || then.size() != 1) {
        reader.fault("an implication goes from one fact to one fact", "split it");
        return;
    }
    const auto fact = vocabulary.find(when.front().first);
    const auto other = vocabulary.find(then.front().first);
    if (!fact || !other || !vocabulary.facts()[*fact].has_words() || !vocabulary.facts()[*other].has_words()) {
        reader.fault("it names a fact that has no words or is not there", "correct the name");
        return;
    }
    trade::Implication implication;
    implication.fact = *fact;
    implication.other = *other;
    implication.words = read_group(reader.member("when"), when.front().first, vocabulary.facts()[*fact]);
    const auto said = words(reader.member("then"), then.front().first);
    implication.same = said == std::vector<std::string>{"same"};
    if (!implication.same)
        implication.then = read_group(reader.member("then"), then.front().first, vocabulary.facts()[*other]);
    else
        implication.map = trade::same_words(vocabulary.facts()[*fact], vocabulary.facts()[*other]);
    vocabulary.add(implication);
}

}  // namespace

trade::When read_when(const Reader& reader) {
    trade::When when;
    for (const auto& [name, value] : reader.members()) {
        if (name == "any") {
            std::vector<trade::When> alternatives;
            for (const auto& item : reader.items("any")) alternatives.push_back(read_when(item));
            when.any.push_back(std::move(alternatives));
        } else if (name == "all") {
            for (const auto& item : reader.items("all")) append(when, read_when(item));
        } else if (name == "none") {
            for (const auto& item : reader.items("none")) when.none.push_back(read_when(item));
        } else {
            when.all.push_back(read_clause(name, reader, value));
        }
    }
    return when;
}

trade::Rule read_rule(const Reader& reader, const std::string& topic) {
    reader.only({"id", "title", "why", "requires", "permits", "forbids", "count", "when", "exceptions", "versions"});
    trade::Rule rule;
    rule.spot = spot_of(reader);
    rule.topic = topic;
    rule.id = reader.text("id");
    rule.title = reader.text("title");
    rule.why = reader.text("why");
    read_effect(reader, rule);
    if (reader.has("count")) {
        const Reader count = reader.member("count");
        count.only({"of", "first", "each"});
        rule.count = trade::Count{count.text("of"), count.number("first"), count.number("each")};
        if (rule.count->first <= 0.0 || rule.count->each <= 0.0)
            count.fault("\"first\" and \"each\" are measures over 0", "correct them");
    }
    if (reader.has("when")) rule.when = read_when(reader.member("when"));
    rule.exceptions = read_exceptions(reader);
    for (const auto& item : reader.items("versions")) rule.versions.push_back(read_version(item));
    check_versions(reader, rule);
    return rule;
}

std::vector<trade::Rule> read_rules(const Reader& document) {
    document.only({"format", "name", "title", "topic", "rules"});
    std::vector<trade::Rule> rules;
    const std::string topic = document.text("topic");
    for (const auto& item : document.items("rules")) rules.push_back(read_rule(item, topic));
    return rules;
}

trade::Vocabulary read_vocabulary(const Reader& document) {
    document.only({"format", "results", "facts", "implies", "ceilings"});
    trade::Vocabulary vocabulary;
    std::set<std::string> seen;
    for (const auto& item : document.items("results")) {
        item.only({"name", "does"});
        vocabulary.add(trade::RuleResult{item.text("name"), item.text("does")});
        if (!seen.insert(item.text("name")).second) item.fault("this result stands twice", "keep one of the two");
    }
    if (vocabulary.results().size() > trade::kMostWords) document.fault("more than 64 results", "join some");
    seen.clear();
    for (const auto& item : document.items("facts")) {
        CaseFact fact = read_case_fact(item);
        if (!seen.insert(fact.name).second) item.fault("this fact stands twice", "keep one of the two");
        vocabulary.add(std::move(fact));
    }
    for (const auto& item : document.items_or_none("implies")) read_implication(item, vocabulary);
    for (const auto& item : document.items_or_none("ceilings")) {
        item.only({"fact", "not_over"});
        const auto fact = vocabulary.find(item.text("fact"));
        const auto over = vocabulary.find(item.text("not_over"));
        if (fact && over)
            vocabulary.add(trade::Ceiling{*fact, *over});
        else
            item.fault("it names a fact that is not there", "correct the name");
    }
    return vocabulary;
}

trade::Amendment read_amendment(const Reader& reader) {
    reader.only({"id", "action", "rule", "with", "editions", "from", "until", "note", "basis"});
    trade::Amendment amendment;
    amendment.spot = spot_of(reader);
    amendment.id = reader.text("id");
    const std::string action = reader.text("action");
    using Action = trade::Amendment::Action;
    if (action == "delete")
        amendment.action = Action::remove;
    else if (action == "replace")
        amendment.action = Action::replace;
    else if (action == "delay")
        amendment.action = Action::delay;
    else if (action != "add" && reader.has_text("action"))
        reader.fault("'" + action + "' is no action", "write add, delete, replace or delay");
    const bool brings = amendment.action == Action::add || amendment.action == Action::replace;
    if (amendment.action != Action::add) amendment.rule = reader.text("rule");
    if (brings) amendment.with = read_rule(reader.member("with"), "local");
    if (!brings && reader.has("with")) reader.fault("only add and replace bring a rule", "leave \"with\" out");
    if (reader.has("editions")) amendment.editions = read_editions(reader, "editions");
    if (day_if(reader, "from")) amendment.from = reader.text("from");
    if (day_if(reader, "until")) amendment.until = reader.text("until");
    if (amendment.action == Action::delay && amendment.until.empty())
        reader.fault("a delay says until when", "add \"until\": \"2027-01-01\"");
    amendment.note = reader.text_or("note", "");
    amendment.basis = read_basis(reader.member("basis"));
    return amendment;
}

}  // namespace content
