#include <algorithm>
#include <array>
#include <optional>
#include <ostream>
#include <set>
#include <utility>

#include <nlohmann/json.hpp>

#include "base/text.hpp"
#include "cli/batch.hpp"
#include "cli/context.hpp"
#include "report/finding_json.hpp"
#include "report/finding_text.hpp"
#include "trade/rules/book.hpp"

namespace cli {
namespace {

using base::Exit;
using base::Failure;
using nlohmann::ordered_json;
using trade::CaseFacts;

bool is_beside(std::string_view name) {
    return name == "id" || name == "edition" || name == "jurisdiction" || name == "date" || name == "ask";
}

void set_fact(CaseFacts& facts, const std::string& name, const base::Reader& value) {
    const auto& node = value.node().value;
    base::Checked<void> set;
    if (const auto* number = std::get_if<double>(&node))
        set = facts.set(name, *number);
    else if (const auto* flag = std::get_if<bool>(&node))
        set = facts.set(name, *flag);
    else if (const auto* text = std::get_if<std::string>(&node))
        set = facts.set(name, *text);
    else
        set = base::refuse("\"" + name + "\" cannot be " + std::string{value.node().kind()}, "give one value");
    if (set) return;
    for (const auto& fault : set.error()) value.fault(fault.what, fault.mend);
}

/// A result by its name, in whatever case it is spelled. Errors: none of that name, with the nearest.
base::Checked<trade::ResultSet> result_named(const std::string& name, const trade::Vocabulary& vocabulary) {
    const auto names = vocabulary.result_names();
    for (std::size_t i = 0; i < names.size(); ++i)
        if (base::lower(names[i]) == base::lower(name)) return trade::ResultSet{1} << i;
    const auto near = base::nearest(name, names);
    return base::refuse("there is no result '" + name + "'",
                        near ? "did you mean '" + *near + "'?" : "'greentag require --list' names them");
}

/// The results that "ask" limits the answer to; every one without it.
trade::ResultSet asked(const base::Reader& object, const trade::Vocabulary& vocabulary) {
    if (!object.has("ask")) return trade::kEveryResult;
    trade::ResultSet set = 0;
    for (const auto& item : object.items("ask")) {
        const auto one = result_named(item.as_text(), vocabulary);
        if (one)
            set |= *one;
        else
            item.fault(one.error().front().what, one.error().front().mend);
    }
    if (set == 0 && object.items("ask").empty())
        object.member("ask").fault("it asks for nothing", "name a result, or leave \"ask\" out to ask for all");
    return set;
}

void read_case(const base::Reader& object, CaseFacts& facts) {
    facts.clear();
    for (const auto& [name, value] : object.members())
        if (!is_beside(name)) set_fact(facts, name, value);
}

/// The facts typed as NAME=VALUE.
void read_words(const Context& context, CaseFacts& facts, base::Faults& faults) {
    std::set<std::string> said;
    for (const auto& word : context.values("FACTS")) {
        const auto equal = word.find('=');
        if (equal == std::string::npos) {
            faults.push_back({"", "", 0, "'" + word + "' is no fact", "write it like location=kitchen", false});
            continue;
        }
        if (!said.insert(word.substr(0, equal)).second) {
            faults.push_back({"", "", 0, "\"" + word.substr(0, equal) + "\" is said twice", "say it once", false});
            continue;
        }
        const auto set = facts.set(word.substr(0, equal), std::string_view{word}.substr(equal + 1));
        if (!set) faults.insert(faults.end(), set.error().begin(), set.error().end());
    }
}

trade::ResultSet asked(const Context& context, const trade::Vocabulary& vocabulary, base::Faults& faults) {
    trade::ResultSet set = 0;
    for (const auto& name : context.values("--ask")) {
        const auto one = result_named(name, vocabulary);
        if (one)
            set |= *one;
        else
            faults.insert(faults.end(), one.error().begin(), one.error().end());
    }
    return set == 0 ? trade::kEveryResult : set;
}

void refuse_faulty(const Context& context, const base::Faults& faults, Exit exit) {
    if (!base::any_errors(faults)) return;
    tell(context.err(), faults);
    throw Failure{exit, "the facts cannot be used",
                  "'greentag require --list' names the facts, docs/formats/facts.md explains them"};
}

Exit run_one(Context& context, const content::TradeData& data) {
    Place place = place_for(context, data);
    CaseFacts facts{data.vocabulary()};
    base::Faults faults;
    trade::ResultSet wanted = asked(context, data.vocabulary(), faults);
    if (context.has("--facts")) {
        const auto located = base::parse_located(facts_text(context), context.value("--facts"));
        if (!located) refuse_faulty(context, located.error(), Exit::bad_data);
        const base::Reader object{*located, context.value("--facts"), "", faults};
        read_case(object, facts);
        if (object.has("ask")) wanted = asked(object, data.vocabulary());
        if (!context.has("--edition") && !context.has("--jurisdiction")) place.under = under_for(object, place, data);
        refuse_faulty(context, faults, Exit::bad_data);
    }
    read_words(context, facts, faults);
    refuse_faulty(context, faults, Exit::usage);
    const content::Under& under = place.under;
    trade::Ruling ruling;
    data.book(under.edition, under.jurisdiction, under.day).judge(facts, wanted, ruling);
    if (context.json()) {
        ordered_json out = {{"ok", true}, {"edition", trade::to_text(under.edition)}};
        out.update(report::ruling_json(ruling, data.vocabulary()));
        context.out() << out.dump(2) << '\n';
    } else {
        context.print(report::ruling_text(ruling, data.vocabulary(), under, context.page()));
    }
    return ruling.unknown.empty() ? Exit::fine : Exit::problems;
}

/// Judges the simple lines of a batch without taking memory for each.
class QuickJudge {
public:
    QuickJudge(const content::TradeData& data, Place here)
        : data_{&data}, here_{std::move(here)}, facts_{data.vocabulary()} {}

    /// False for what the general way has to look at: other places and days, and whatever is wrong.
    bool judge(const base::FlatObject& object, std::string& line) {
        facts_.clear();
        auto edition = std::optional{here_.under.edition};
        auto wanted = std::optional{trade::kEveryResult};
        for (std::size_t at = 0; at < object.members().size(); ++at) {
            const auto& member = object.members()[at];
            if (member.name == "edition")
                edition = edition_of(member);
            else if (member.name == "ask")
                wanted = asked(object, member);
            else if (member.name != "id" && !set(at, member))
                return false;
            if (!edition || !wanted) return false;
        }
        const auto at =
            std::find(trade::kEditions.begin(), trade::kEditions.end(), *edition) - trade::kEditions.begin();
        auto& [book, ruling] = by_edition_.at(static_cast<std::size_t>(at));
        if (book == nullptr) book = &data_->book(*edition, here_.under.jurisdiction, here_.under.day);
        book->judge(facts_, *wanted, ruling);
        report::append_ruling(line, ruling, data_->vocabulary());
        return true;
    }

private:
    using Kind = base::FlatObject::Kind;

    static std::optional<trade::Edition> edition_of(const base::FlatObject::Member& member) {
        if (member.kind == Kind::number) return trade::parse_edition(base::number_text(member.number));
        return member.kind == Kind::text ? trade::parse_edition(std::string{member.text}) : std::nullopt;
    }

    [[nodiscard]] std::optional<trade::ResultSet> asked(const base::FlatObject& object,
                                                        const base::FlatObject::Member& list) const {
        if (list.kind != Kind::list || list.count == 0) return std::nullopt;
        trade::ResultSet set = 0;
        for (const auto& name : object.items(list)) {
            const auto at = data_->vocabulary().find_result(name);
            if (!at) return std::nullopt;
            set |= trade::ResultSet{1} << *at;
        }
        return set;
    }

    bool set(std::size_t at, const base::FlatObject::Member& member) {
        const auto fact = number_of(at, member.name);
        if (!fact) return false;
        switch (member.kind) {
            case Kind::number:
                return facts_.set(*fact, member.number).has_value();
            case Kind::flag:
                return facts_.set(*fact, member.flag).has_value();
            case Kind::text:
                return facts_.set(*fact, member.text).has_value();
            case Kind::list:
                break;
        }
        return false;
    }

    /// The number of a fact. The lines of a batch mostly name their facts in one order.
    std::optional<std::size_t> number_of(std::size_t at, std::string_view name) {
        if (at >= last_.size()) last_.resize(at + 1, 0);
        const auto& facts = data_->vocabulary().facts();
        if (last_[at] < facts.size() && facts[last_[at]].name == name) return last_[at];
        const auto found = data_->vocabulary().find(name);
        if (found) last_[at] = *found;
        return found;
    }

    const content::TradeData* data_;
    Place here_;
    CaseFacts facts_;
    std::vector<std::size_t> last_;  ///< the fact that stood at each place of the line before
    /// A ruling for each book, since what one holds saves time with the same book alone.
    std::array<std::pair<const trade::RuleBook*, trade::Ruling>, trade::kEditions.size()> by_edition_{};
};

Exit run_many(Context& context, const content::TradeData& data) {
    const Place here = place_for(context, data);
    CaseFacts facts{data.vocabulary()};
    trade::Ruling ruling;
    QuickJudge quick{data, here};
    return run_batch(
        context, [&](const base::FlatObject& object, std::string& line) { return quick.judge(object, line); },
        [&](const base::Reader& object, std::string& line) {
            read_case(object, facts);
            const auto under = under_for(object, here, data);
            data.book(under.edition, under.jurisdiction, under.day)
                .judge(facts, asked(object, data.vocabulary()), ruling);
            report::append_ruling(line, ruling, data.vocabulary());
        });
}

std::string may_be(const trade::CaseFact& fact) {
    if (fact.kind == trade::CaseFact::Kind::flag) return "yes or no";
    if (fact.kind == trade::CaseFact::Kind::date) return "a day such as 2026-09-01";
    if (fact.kind == trade::CaseFact::Kind::choice) {
        std::vector<std::string> words = fact.choices;
        for (const auto& [name, set] : fact.groups) words.push_back(name);
        return base::join(words, ", ");
    }
    std::string text = base::number_text(fact.least) + " to " + base::number_text(fact.most);
    if (fact.unit != base::Unit::count) text += " " + std::string{base::symbol(fact.unit)};
    return text + (fact.may_be_none ? ", or none" : "");
}

Exit run_list(Context& context, const content::TradeData& data) {
    const auto under = place_for(context, data).under;
    const auto& vocabulary = data.vocabulary();
    ordered_json rules = ordered_json::array();
    ordered_json facts = ordered_json::array();
    std::vector<std::string> lines = {"Facts:"};
    const auto page = context.page();
    for (const auto& fact : vocabulary.facts()) {
        facts.push_back({{"name", fact.name}, {"does", fact.does}, {"may_be", may_be(fact)}});
        report::add_hanging(lines, page, "  " + fact.name + "  ", fact.does + ": " + may_be(fact));
    }
    lines.emplace_back("Rules of the " + report::under_text(under) + ":");
    for (const auto& rule : data.rules_for(under.edition, under.jurisdiction, under.day)) {
        const auto* version = rule.version(under.edition);
        if (version == nullptr) continue;
        rules.push_back({{"id", rule.id},
                         {to_text(rule.effect), rule.result},
                         {"article", version->article},
                         {"title", rule.title},
                         {"basis", to_text(version->basis.kind)},
                         {"unverified", version->unverified},
                         {"local", rule.local}});
        report::add_hanging(
            lines, page, "  " + rule.id + "  ",
            rule.title + " (" + version->article + ", " + std::string{to_text(rule.effect)} + " " + rule.result + ")");
    }
    if (context.json())
        context.out() << ordered_json{{"ok", true},
                                      {"facts", facts},
                                      {"results", vocabulary.result_names()},
                                      {"rules", rules}}
                             .dump(2)
                      << '\n';
    else
        context.print(lines);
    return Exit::fine;
}

}  // namespace

Exit run_require(Context& context) {
    const auto data = load_trade(context);
    if (context.has("--list")) return run_list(context, data);
    return context.has("--batch") ? run_many(context, data) : run_one(context, data);
}

}  // namespace cli
