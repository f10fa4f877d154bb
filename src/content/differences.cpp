#include "content/differences.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <tuple>

#include "base/text.hpp"
#include "trade/article.hpp"

namespace content {
namespace {

using trade::Rule;
using Differences = std::vector<Difference>;

bool same(const std::vector<trade::When>& a, const std::vector<trade::When>& b);

bool same(const trade::Clause& a, const trade::Clause& b) {
    return a.fact == b.fact && a.words == b.words && a.negated == b.negated &&
           std::tie(a.least, a.most, a.over, a.under, a.equal) == std::tie(b.least, b.most, b.over, b.under, b.equal);
}

bool same(const trade::When& a, const trade::When& b) {
    const auto lists = [](const std::vector<trade::When>& x, const std::vector<trade::When>& y) { return same(x, y); };
    return std::ranges::equal(a.all, b.all, [](const auto& x, const auto& y) { return same(x, y); }) &&
           std::ranges::equal(a.any, b.any, lists) && same(a.none, b.none);
}

bool same(const std::vector<trade::When>& a, const std::vector<trade::When>& b) {
    return std::ranges::equal(a, b, [](const auto& x, const auto& y) { return same(x, y); });
}

bool same(const std::vector<trade::Exception>& a, const std::vector<trade::Exception>& b) {
    return std::ranges::equal(a, b, [](const auto& x, const auto& y) { return same(x.when, y.when); });
}

/// What a rule says under an edition, or null: it has no version then, or is put off.
struct Side {
    const Rule* rule = nullptr;
    const trade::RuleVersion* version = nullptr;
};

/// True on a day before the one to which an amendment delays the rule.
bool is_put_off(const Rule* rule, const Under& under) {
    return rule != nullptr && !rule->from.empty() && !under.day.empty() && under.day < rule->from;
}

Side side_of(const Rule* rule, const Under& under) {
    if (rule == nullptr || is_put_off(rule, under)) return {};
    const auto* version = rule->version(under.edition);
    return version == nullptr ? Side{} : Side{rule, version};
}

bool says_the_same(const Side& a, const Side& b) {
    const auto count = [](const Rule& r) {
        return r.count ? std::tuple{r.count->of, r.count->first, r.count->each} : std::tuple{std::string{}, 0.0, 0.0};
    };
    return a.rule->effect == b.rule->effect && a.rule->result == b.rule->result && count(*a.rule) == count(*b.rule) &&
           same(a.rule->when, b.rule->when) && same(a.version->when, b.version->when) &&
           same(a.rule->exceptions, b.rule->exceptions) && same(a.version->exceptions, b.version->exceptions);
}

std::map<std::string, std::array<const Rule*, 2>> paired(const std::vector<Rule>& before,
                                                         const std::vector<Rule>& after) {
    std::map<std::string, std::array<const Rule*, 2>> pairs;
    for (const auto& rule : before) pairs[rule.id][0] = &rule;
    for (const auto& rule : after) pairs[rule.id][1] = &rule;
    return pairs;
}

/// True when two versions stand at the same place, as far as is known: an unverified reference that stops on the way to
/// the other one says only that its number has not been looked up.
template <class Version>
bool same_place(const Version& a, const Version& b) {
    if (a.article == b.article) return true;
    const auto stops_short = [](const Version& wide, const Version& other) {
        const auto given = trade::parse_article(wide.article);
        const auto wanted = trade::parse_article(other.article);
        if (!wide.unverified || !given || !wanted) return false;
        const bool whole = given->section == 0 && given->article == wanted->article;
        return whole || trade::compare(*given, *wanted) == trade::ArticleMatch::shorter;
    };
    return stops_short(a, b) || stops_short(b, a);
}

/// Notes the kind of change; nothing when both sides are the same or both are empty.
std::optional<Change> change_of(bool before, bool after, bool same_words, bool same_article) {
    if (!before && !after) return std::nullopt;
    if (!before) return Change::added;
    if (!after) return Change::removed;
    if (!same_words) return Change::changed;
    return same_article ? std::nullopt : std::optional{Change::moved};
}

void add_rules(const TradeData& data, const Under& from, const Under& to, Differences& found) {
    const auto before = data.rules_for(from.edition, from.jurisdiction, from.day);
    const auto after = data.rules_for(to.edition, to.jurisdiction, to.day);
    for (const auto& [id, pair] : paired(before, after)) {
        const Side a = side_of(pair[0], from);
        const Side b = side_of(pair[1], to);
        const bool both = a.version != nullptr && b.version != nullptr;
        const auto change = change_of(a.version != nullptr, b.version != nullptr, both && says_the_same(a, b),
                                      both && same_place(*a.version, *b.version));
        if (!change) continue;
        const Rule& shown = b.rule != nullptr ? *b.rule : *a.rule;
        Difference one;
        one.kind = Difference::Kind::rule;
        one.change = *change;
        one.id = id;
        one.title = shown.title;
        one.topic = shown.topic;
        if (a.version != nullptr) one.article_before = a.version->article;
        if (b.version != nullptr) one.article_after = b.version->article;
        one.local = (a.rule != nullptr && a.rule->local) || (b.rule != nullptr && b.rule->local) ||
                    (pair[0] == nullptr) != (pair[1] == nullptr) || is_put_off(pair[0], from) ||
                    is_put_off(pair[1], to);
        one.unverified = b.version != nullptr && b.version->unverified;
        found.push_back(std::move(one));
    }
}

/// True when a local rule among the differences stands at the article of a point.
bool touched_locally(const Differences& rules, const std::string& article) {
    const auto wanted = trade::parse_article(article);
    return wanted && std::ranges::any_of(rules, [&](const Difference& rule) {
               if (!rule.local || rule.kind != Difference::Kind::rule) return false;
               for (const auto& text : {rule.article_before, rule.article_after}) {
                   const auto here = trade::parse_article(text.substr(0, text.find(" Ex")));
                   if (here && trade::compare(*here, *wanted) == trade::ArticleMatch::exact) return true;
               }
               return false;
           });
}

void add_points(const Contents& contents, const Under& from, const Under& to, Differences& found) {
    Differences points;
    for (const auto& deck : contents.decks)
        for (const auto& point : deck.points) {
            const auto* a = point.version(from.edition);
            const auto* b = point.version(to.edition);
            auto change = change_of(a != nullptr, b != nullptr, a != nullptr && b != nullptr && a->says == b->says,
                                    a != nullptr && b != nullptr && same_place(*a, *b));
            const bool local = b != nullptr && touched_locally(found, b->article);
            if (!change && local) change = Change::changed;
            if (!change) continue;
            Difference one;
            one.change = *change;
            one.id = point.id.text;
            one.title = point.title;
            one.topic = point.topic;
            one.local = local;
            if (a != nullptr) std::tie(one.article_before, one.before) = std::tie(a->article, a->says);
            if (b != nullptr) std::tie(one.article_after, one.after) = std::tie(b->article, b->says);
            one.unverified = b != nullptr && b->unverified;
            points.push_back(std::move(one));
        }
    std::ranges::move(points, std::back_inserter(found));
}

/// The rows of a table that an edition has, each as one text.
std::vector<std::string> rows_of(const trade::Table& table, trade::Edition edition) {
    std::vector<std::string> rows;
    if (!table.editions.contains(edition)) return rows;
    for (const auto& row : table.rows) {
        std::vector<std::string> cells;
        bool holds = true;
        const auto see = [&](const std::string& name, const std::string& text) {
            if (name == "editions") {
                const auto range = trade::parse_edition_range(text);
                holds = holds && (!range || range->contains(edition));
            } else if (name == "editions_from") {
                const auto first = trade::parse_edition(text);
                holds = holds && (!first || *first <= edition);
            } else if (name != "says") {
                cells.push_back(name + " " + text);
            }
        };
        for (const auto& [name, text] : row.keys) see(name, text);
        for (const auto& [name, text] : row.values) see(name, text);
        if (holds) rows.push_back(base::join(cells, ", "));
    }
    std::sort(rows.begin(), rows.end());
    return rows;
}

std::string only_in(const std::vector<std::string>& these, const std::vector<std::string>& those) {
    std::vector<std::string> only;
    std::ranges::set_difference(these, those, std::back_inserter(only));
    return base::join(only, "; ");
}

void add_tables(const TradeData& data, const Under& from, const Under& to, Differences& found) {
    for (const auto& table : data.raw_tables()) {
        const auto before = rows_of(table, from.edition);
        const auto after = rows_of(table, to.edition);
        if (before == after) continue;
        Difference one;
        one.kind = Difference::Kind::table;
        one.change = before.empty() ? Change::added : after.empty() ? Change::removed : Change::changed;
        one.id = table.id;
        one.title = table.title;
        one.topic = "tables";
        one.article_before = one.article_after = table.article;
        one.before = only_in(before, after);
        one.after = only_in(after, before);
        found.push_back(std::move(one));
    }
}

/// What the change lists say of the steps from one edition up to another.
void add_declared(const Contents& contents, const Under& from, const Under& to, Differences& found) {
    for (auto& one : found) {
        if (one.local) continue;
        for (const auto& change : contents.changes)
            if (change.of == one.kind && change.id == one.id && from.edition <= change.from &&
                change.to <= to.edition && !change.says.empty())
                one.says.push_back(change.says);
    }
}

}  // namespace

std::string_view to_text(Change change) {
    constexpr std::array<std::string_view, 4> kNames = {"new", "gone", "changed", "moved"};
    return kNames.at(static_cast<std::size_t>(change));
}

Differences differences(const Contents& contents, const TradeData& data, const Under& from, const Under& to) {
    Differences found;
    add_rules(data, from, to, found);
    add_points(contents, from, to, found);
    add_tables(data, from, to, found);
    add_declared(contents, from, to, found);
    std::ranges::stable_sort(found, {}, [](const Difference& d) { return std::tie(d.topic, d.kind, d.id); });
    return found;
}

}  // namespace content
