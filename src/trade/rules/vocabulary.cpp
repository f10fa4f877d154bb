#include "trade/rules/vocabulary.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <limits>

#include "base/text.hpp"

namespace trade {
namespace {

constexpr double kEndless = std::numeric_limits<double>::infinity();

/// "One-family dwelling" and "one_family_dwelling" for "one-family-dwelling".
std::string plain_word(std::string_view text) {
    std::string word = base::lower(base::trim(text));
    std::replace(word.begin(), word.end(), ' ', '-');
    std::replace(word.begin(), word.end(), '_', '-');
    return word;
}

std::vector<std::string> words_of(const CaseFact& fact) {
    std::vector<std::string> words = fact.choices;
    for (const auto& [name, set] : fact.groups) words.push_back(name);
    return words;
}

tl::unexpected<base::Faults> no_such_word(const CaseFact& fact, std::string_view text) {
    const auto near = base::nearest(plain_word(text), words_of(fact));
    return base::refuse("\"" + fact.name + "\" cannot be '" + std::string{text} + "'",
                        near ? "did you mean '" + *near + "'?" : "it is one of " + base::join(words_of(fact), ", "));
}

tl::unexpected<base::Faults> no_such_number(const CaseFact& fact, std::string_view text) {
    std::string mend = "give a number";
    if (fact.unit != base::Unit::count) mend += " of " + std::string{base::symbol(fact.unit)};
    mend += ", " + base::number_text(fact.least) + " to " + base::number_text(fact.most);
    if (fact.may_be_none) mend += ", or none";
    return base::refuse("\"" + fact.name + "\" cannot be '" + std::string{text} + "'", mend);
}

std::string shown(const CaseFact& fact, WordSet set) {
    std::vector<std::string> words;
    for (std::size_t i = 0; i < fact.choices.size(); ++i)
        if (((set >> i) & 1U) != 0) words.push_back(fact.choices[i]);
    return words.size() > 3 ? std::to_string(words.size()) + " choices" : base::join(words, " or ");
}

WordSet mapped(WordSet words, const std::vector<std::size_t>& map) {
    WordSet set = 0;
    for (std::size_t i = 0; i < map.size(); ++i)
        if (((words >> i) & 1U) != 0 && map[i] < kMostWords) set |= WordSet{1} << map[i];
    return set;
}

}  // namespace

std::vector<std::size_t> same_words(const CaseFact& fact, const CaseFact& other) {
    std::vector<std::size_t> map;
    for (const auto& word : fact.choices) {
        const auto found = std::find(other.choices.begin(), other.choices.end(), word);
        map.push_back(found == other.choices.end() ? kMostWords
                                                   : static_cast<std::size_t>(found - other.choices.begin()));
    }
    return map;
}

std::optional<WordSet> CaseFact::words(std::string_view wanted) const {
    const auto at = [&](std::string_view word) -> std::optional<WordSet> {
        const auto found = std::find(choices.begin(), choices.end(), word);
        if (found == choices.end()) return std::nullopt;
        return WordSet{1} << (found - choices.begin());
    };
    // Most are spelled as the vocabulary spells them.
    if (const auto one = at(wanted)) return one;
    std::string word = plain_word(wanted);
    if (kind == Kind::flag && (word == "true" || word == "false")) word = word == "true" ? "yes" : "no";
    if (const auto one = at(word)) return one;
    const auto group = groups.find(word);
    return group == groups.end() ? std::nullopt : std::optional{group->second};
}

WordSet CaseFact::every() const {
    return choices.size() >= kMostWords ? ~WordSet{0} : (WordSet{1} << choices.size()) - 1;
}

void Vocabulary::add(CaseFact fact) {
    by_name_.emplace(fact.name, facts_.size());
    facts_.push_back(std::move(fact));
}

std::optional<std::size_t> Vocabulary::find(std::string_view name) const {
    const auto found = by_name_.find(name);
    return found == by_name_.end() ? std::nullopt : std::optional{found->second};
}

std::optional<std::size_t> Vocabulary::find_result(std::string_view name) const {
    const auto found =
        std::find_if(results_.begin(), results_.end(), [&](const RuleResult& r) { return r.name == name; });
    if (found == results_.end()) return std::nullopt;
    return static_cast<std::size_t>(found - results_.begin());
}

std::vector<std::string> Vocabulary::fact_names() const {
    std::vector<std::string> names;
    for (const auto& fact : facts_) names.push_back(fact.name);
    return names;
}

std::vector<std::string> Vocabulary::result_names() const {
    std::vector<std::string> names;
    for (const auto& result : results_) names.push_back(result.name);
    return names;
}

CaseFacts::CaseFacts(const Vocabulary& vocabulary) : vocabulary_{&vocabulary} {
    for (const auto& fact : vocabulary.facts()) {
        if (fact.has_words())
            blank_.push_back({fact.every(), 0.0, 0.0, false});
        else
            blank_.push_back({0, -kEndless, kEndless, false});
    }
    known_ = blank_;
}

void CaseFacts::clear() {
    std::copy(blank_.begin(), blank_.end(), known_.begin());
}

base::Checked<std::size_t> CaseFacts::number_of(std::string_view name) const {
    const auto at = vocabulary_->find(name);
    if (at) return *at;
    const auto near = base::nearest(name, vocabulary_->fact_names());
    return base::refuse("there is no fact '" + std::string{name} + "'",
                        near ? "did you mean '" + *near + "'?" : "docs/formats/facts.md lists them");
}

base::Checked<void> CaseFacts::set_number(std::size_t at, double number) {
    const CaseFact& fact = vocabulary_->facts()[at];
    if (!std::isfinite(number) || number < fact.least || number > fact.most)
        return no_such_number(fact, base::number_text(number));
    known_[at] = {0, number, number, true};
    return {};
}

base::Checked<void> CaseFacts::set(std::string_view name, std::string_view text) {
    const auto at = number_of(name);
    return at ? set(*at, text) : tl::unexpected<base::Faults>{at.error()};
}

base::Checked<void> CaseFacts::set(std::size_t at, std::string_view text) {
    const CaseFact& fact = vocabulary_->facts()[at];
    if (fact.has_words()) {
        const auto words = fact.words(text);
        if (!words) return no_such_word(fact, text);
        known_[at] = {*words, 0.0, 0.0, true};
        return {};
    }
    if (fact.kind == CaseFact::Kind::date) {
        const auto day = day_number(text);
        if (!day)
            return base::refuse("\"" + fact.name + "\" cannot be '" + std::string{text} + "'",
                                "write a day like 2026-09-01");
        known_[at] = {0, *day, *day, true};
        return {};
    }
    if (fact.may_be_none && plain_word(text) == "none") {
        known_[at] = {0, kEndless, kEndless, true};
        return {};
    }
    const auto typed = base::parse_typed_quantity(text);
    const auto number = !typed         ? std::nullopt
                        : !typed->unit ? std::optional{typed->value}
                                       : base::convert(typed->value, *typed->unit, fact.unit);
    return number ? set_number(at, *number) : no_such_number(fact, text);
}

base::Checked<void> CaseFacts::set(std::string_view name, double number) {
    const auto at = number_of(name);
    return at ? set(*at, number) : tl::unexpected<base::Faults>{at.error()};
}

base::Checked<void> CaseFacts::set(std::size_t at, double number) {
    const CaseFact& fact = vocabulary_->facts()[at];
    if (fact.kind == CaseFact::Kind::number) return set_number(at, number);
    return set(at, std::string_view{base::number_text(number)});
}

base::Checked<void> CaseFacts::set(std::string_view name, bool flag) {
    const auto at = number_of(name);
    return at ? set(*at, flag) : tl::unexpected<base::Faults>{at.error()};
}

base::Checked<void> CaseFacts::set(std::size_t at, bool flag) {
    const CaseFact& fact = vocabulary_->facts()[at];
    if (!fact.has_words()) return no_such_number(fact, flag ? "true" : "false");
    const auto words = fact.words(flag ? "yes" : "no");
    if (!words) return no_such_word(fact, flag ? "true" : "false");
    known_[at] = {*words, 0.0, 0.0, true};
    return {};
}

std::vector<std::string> CaseFacts::draw_conclusions() {
    std::vector<std::string> clashes;
    const auto& facts = vocabulary_->facts();
    for (const auto& i : vocabulary_->implications()) {
        const WordSet words = known_[i.fact].words;
        if ((words & ~i.words) != 0) continue;
        Known& other = known_[i.other];
        const WordSet then = i.same ? mapped(words, i.map) : i.then;
        if ((other.words & then) == 0) {
            // What was said stands; the pair is told, so that whoever said it can look again.
            clashes.push_back("\"" + facts[i.fact].name + "\" " + shown(facts[i.fact], words) + " does not go with \"" +
                              facts[i.other].name + "\" " + shown(facts[i.other], other.words));
            continue;
        }
        other.words &= then;
    }
    for (const auto& c : vocabulary_->ceilings()) {
        const Known& over = known_[c.not_over];
        Known& under = known_[c.fact];
        if (!over.given) continue;
        if (under.least > over.most)
            clashes.push_back("\"" + facts[c.fact].name + "\" " + base::number_text(under.least) +
                              " cannot be over \"" + facts[c.not_over].name + "\" " + base::number_text(over.most));
        else
            under.most = std::min(under.most, over.most);
    }
    return clashes;
}

std::optional<double> day_number(std::string_view text) {
    const auto parts = base::split(base::trim(text), '-');
    if (parts.size() != 3 || parts[0].size() != 4 || parts[1].size() != 2 || parts[2].size() != 2) return std::nullopt;
    double day = 0.0;
    for (const auto& part : parts)
        for (const char c : part) {
            if (c < '0' || c > '9') return std::nullopt;
            day = day * 10.0 + (c - '0');
        }
    const auto whole = static_cast<unsigned>(day);
    const std::chrono::year_month_day date{std::chrono::year{static_cast<int>(whole / 10000)},
                                           std::chrono::month{whole / 100 % 100}, std::chrono::day{whole % 100}};
    return date.ok() ? std::optional{day} : std::nullopt;
}

}  // namespace trade
