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
    requires_ = permits = forbids = exempt = 0;
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

/// The first exception that surely applies; else whether one may.
template <class Barred>
Truth excepted_by(const std::vector<Barred>& exceptions, const CaseFacts& facts, const Exception*& which) {
    Truth most = Truth::no;
    for (const auto& barred : exceptions) {
        const Truth truth = holds(barred.when, facts);
        if (truth == Truth::yes) {
            which = barred.exception;
            return Truth::yes;
        }
        most = std::max(most, truth);
    }
    return most;
}

}  // namespace

void RuleBook::judge(CaseFacts& facts, ResultSet asked, Ruling& ruling) const {
    ruling.clear();
    ruling.findings = facts.draw_conclusions();
    ResultSet would_be = 0;
    for (std::size_t i = 0; i < compiled_.size(); ++i) {
        const Compiled& rule = compiled_[i];
        if ((rule.result & asked) == 0) continue;
        const Truth truth = holds(rule.when, facts);
        if (truth == Truth::no) continue;
        const Exception* exception = nullptr;
        const Truth barred = excepted_by(rule.exceptions, facts, exception);
        if (barred == Truth::yes) {
            if (truth != Truth::yes) continue;
            ruling.excepted.push_back({rule.rule, rule.version, exception});
            if (rule.rule->effect == Effect::requires_) would_be |= rule.result;
        } else if (truth == Truth::yes && barred == Truth::no) {
            Fired fired{rule.rule, rule.version, std::nullopt};
            if (rule.counted && facts[*rule.counted].given)
                fired.count = count_for(*rule.rule->count, facts[*rule.counted].least);
            else if (rule.counted)
                ruling.unknown.push_back(*rule.counted);
            // A count of nothing calls for nothing.
            if (!fired.count || *fired.count > 0.0) set_of(ruling, rule.rule->effect) |= rule.result;
            ruling.fired.push_back(fired);
        } else {
            ruling.open.push_back(i);
        }
    }
    ruling.exempt = would_be & ~ruling.requires_;
    // What is required anyhow needs no fact more, unless the open rule may call for more of it.
    for (const auto i : ruling.open) {
        const Compiled& rule = compiled_[i];
        if (!rule.counted && (set_of(ruling, rule.rule->effect) & rule.result) != 0) continue;
        add_open_facts(rule.when, facts, ruling.unknown);
        for (const auto& barred : rule.exceptions) add_open_facts(barred.when, facts, ruling.unknown);
    }
    std::sort(ruling.unknown.begin(), ruling.unknown.end());
    ruling.unknown.erase(std::unique(ruling.unknown.begin(), ruling.unknown.end()), ruling.unknown.end());
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
