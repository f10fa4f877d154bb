#include "trade/rules/book.hpp"

#include <algorithm>
#include <cmath>

#include "trade/rules/condition.hpp"

namespace trade {

struct RuleBook::Compiled {
    struct Barred {
        Condition when;
        const Exception* exception = nullptr;
    };
    const Rule* rule = nullptr;
    const RuleVersion* version = nullptr;
    Condition when;
    std::vector<Barred> exceptions;
    std::size_t first_exception = 0;  ///< the number of the first in the sieve
    ResultSet result = 0;
    std::optional<std::size_t> counted;  ///< the fact that a count goes by
};

RuleBook::RuleBook() = default;
RuleBook::RuleBook(RuleBook&&) noexcept = default;
RuleBook& RuleBook::operator=(RuleBook&&) noexcept = default;
RuleBook::~RuleBook() = default;

std::size_t RuleBook::size() const {
    return compiled_.size();
}

void Ruling::clear() {
    requires_ = permits = forbids = exempt = may_be = 0;
    fired.clear();
    excepted.clear();
    unknown.clear();
    findings.clear();
    open.clear();
}

namespace {

ResultSet& set_of(Ruling& ruling, Effect effect) {
    if (effect == Effect::permits) return ruling.permits;
    return effect == Effect::forbids ? ruling.forbids : ruling.requires_;
}

}  // namespace

Truth RuleBook::excepted_by(const Compiled& rule, const CaseFacts& facts, const Sifted& sifted,
                            const Exception*& which) const {
    Truth most = Truth::no;
    for (std::size_t i = 0; i < rule.exceptions.size(); ++i) {
        const Truth of_words = sifted.of_words(rule.first_exception + i);
        if (of_words == Truth::no) continue;
        const Truth truth = holds_beyond_words(rule.exceptions[i].when, facts, of_words);
        if (truth == Truth::yes) {
            which = rule.exceptions[i].exception;
            return Truth::yes;
        }
        most = std::max(most, truth);
    }
    return most;
}

void RuleBook::judge_one(std::size_t at, const CaseFacts& facts, Ruling& ruling, ResultSet& would_be) const {
    const Compiled& rule = compiled_[at];
    const Truth truth = holds_beyond_words(rule.when, facts, ruling.sifted.of_words(at));
    if (truth == Truth::no) return;
    const Exception* exception = nullptr;
    const Truth barred = excepted_by(rule, facts, ruling.sifted, exception);
    if (barred == Truth::yes) {
        if (truth != Truth::yes) return;
        ruling.excepted.push_back({rule.rule, rule.version, exception});
        if (rule.rule->effect == Effect::requires_) would_be |= rule.result;
    } else if (truth == Truth::yes && barred == Truth::no) {
        Fired fired{rule.rule, rule.version, std::nullopt};
        if (rule.counted && facts[*rule.counted].given)
            fired.count = count_for(*rule.rule->count, facts[*rule.counted].least);
        else if (rule.counted)
            ruling.asked_back.add(*rule.counted);
        // A count of nothing calls for nothing.
        if (!fired.count || *fired.count > 0.0) set_of(ruling, rule.rule->effect) |= rule.result;
        ruling.fired.push_back(fired);
    } else {
        ruling.open.push_back({at, truth == Truth::maybe});
    }
}

void RuleBook::ask_back(const CaseFacts& facts, Ruling& ruling) const {
    // What is required anyhow needs no fact more, unless the open rule may call for more of it.
    for (const auto& open : ruling.open) {
        const Compiled& rule = compiled_[open.rule];
        if (!rule.counted && (set_of(ruling, rule.rule->effect) & rule.result) != 0) continue;
        if (rule.rule->effect == Effect::requires_) ruling.may_be |= rule.result & ~ruling.requires_;
        if (open.itself) add_open_facts(rule.when, facts, ruling.asked_back);
        for (std::size_t i = 0; i < rule.exceptions.size(); ++i) {
            const Truth of_words = ruling.sifted.of_words(rule.first_exception + i);
            const Condition& when = rule.exceptions[i].when;
            if (of_words != Truth::no && holds_beyond_words(when, facts, of_words) == Truth::maybe)
                add_open_facts(when, facts, ruling.asked_back);
        }
    }
    ruling.asked_back.append_to(ruling.unknown);
}

void RuleBook::judge(CaseFacts& facts, ResultSet asked, Ruling& ruling) const {
    ruling.clear();
    ruling.findings = facts.draw_conclusions();
    ruling.asked_back.clear(vocabulary_->facts().size());
    sieve_.sift(facts, ruling.sifted);
    ResultSet would_be = 0;
    const std::size_t rules = compiled_.size();
    for (auto i = ruling.sifted.next(0, rules); i < rules; i = ruling.sifted.next(i + 1, rules))
        if ((compiled_[i].result & asked) != 0) judge_one(i, facts, ruling, would_be);
    ruling.exempt = would_be & ~ruling.requires_;
    ask_back(facts, ruling);
}

base::Checked<RuleBook> make_book(std::shared_ptr<const Vocabulary> vocabulary, std::vector<Rule> rules,
                                  Edition edition, std::string_view day) {
    RuleBook book;
    book.vocabulary_ = std::move(vocabulary);
    book.rules_ = std::make_unique<std::vector<Rule>>(std::move(rules));
    base::Faults faults;
    const Compiler compiler{*book.vocabulary_, faults};
    for (const auto& rule : *book.rules_) {
        const RuleVersion* version = rule.version(edition);
        if (version == nullptr || (!rule.from.empty() && !day.empty() && day < rule.from)) continue;
        RuleBook::Compiled compiled;
        compiled.rule = &rule;
        compiled.version = version;
        compiled.when = compiler.compile({&rule.when, &version->when});
        for (const auto* list : {&rule.exceptions, &version->exceptions})
            for (const auto& exception : *list)
                compiled.exceptions.push_back({compiler.compile({&exception.when}), &exception});
        compiled.result = compiler.result(rule.result, rule.spot);
        if (rule.count) compiled.counted = compiler.measure(rule.count->of, rule.spot);
        book.compiled_.push_back(std::move(compiled));
    }
    if (!faults.empty()) return tl::unexpected<base::Faults>{std::move(faults)};
    std::vector<const Condition*> conditions;
    for (const auto& rule : book.compiled_) conditions.push_back(&rule.when);
    for (auto& rule : book.compiled_) {
        rule.first_exception = conditions.size();
        for (const auto& barred : rule.exceptions) conditions.push_back(&barred.when);
    }
    book.sieve_ = Sieve{conditions, *book.vocabulary_};
    return book;
}

double count_for(const Count& count, double measure) {
    constexpr double kSlack = 1e-9;
    if (measure <= 0.0) return 0.0;
    if (measure <= count.first + kSlack) return 1.0;
    return 1.0 + std::ceil((measure - count.first) / count.each - kSlack);
}

std::vector<std::string> names_of(ResultSet set, const Vocabulary& vocabulary) {
    std::vector<std::string> names;
    for (std::size_t i = 0; i < vocabulary.results().size(); ++i)
        if (((set >> i) & 1U) != 0) names.push_back(vocabulary.results()[i].name);
    return names;
}

}  // namespace trade
