// Asking for facts, held against every way to say what was left unsaid, in small worlds made up at random.
#include <algorithm>
#include <array>

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "trade/rules/book.hpp"

namespace {

using base::Random;
using trade::Edition;
using trade::Ruling;
using Names = std::vector<std::string>;

/// A small world for the property below: facts with words, one number, and rules made of them at random.
class SmallWorld {
public:
    explicit SmallWorld(base::Seed seed, std::uint64_t rules = 0) : random_{seed} {
        for (std::size_t i = 0; i < kWordFacts; ++i) add_fact(i);
        trade::CaseFact number;
        number.name = "n";
        number.kind = trade::CaseFact::Kind::number;
        number.most = 100.0;
        number.may_be_none = true;
        words_->add(number);
        for (const char* name : {"R0", "R1", "R2"}) words_->add(trade::RuleResult{name, ""});
        for (auto left = random_.below(3); left > 0; --left) add_implication();
        if (rules == 0) rules = 1 + random_.below(5);
        for (; rules > 0; --rules) rules_.push_back(any_rule());
    }

    [[nodiscard]] trade::RuleBook book() { return trade::make_book(words_, rules_, Edition::e2023, "").value(); }
    /// A book of each rule by itself.
    [[nodiscard]] std::vector<trade::RuleBook> books_of_one() {
        std::vector<trade::RuleBook> books;
        for (const auto& rule : rules_) books.push_back(trade::make_book(words_, {rule}, Edition::e2023, "").value());
        return books;
    }
    [[nodiscard]] const trade::Vocabulary& vocabulary() const { return *words_; }
    [[nodiscard]] Random& random() { return random_; }

    /// What a fact may be said to be.
    [[nodiscard]] Names sayings(std::size_t fact) const {
        const auto& one = words_->facts()[fact];
        return one.has_words() ? one.choices : Names{"0", "4.9", "5", "5.1", "10", "11", "none"};
    }

private:
    static constexpr std::size_t kWordFacts = 4;

    void add_fact(std::size_t i) {
        trade::CaseFact fact;
        fact.name = "f" + std::to_string(i);
        fact.kind = trade::CaseFact::Kind::choice;
        for (std::uint64_t w = 0; w < 2 + random_.below(2); ++w) fact.choices.push_back("w" + std::to_string(w));
        words_->add(fact);
    }
    trade::WordSet some_words(std::size_t fact) {
        const auto every = words_->facts()[fact].every();
        return 1 + random_.below(every - 1);
    }
    void add_implication() {
        trade::Implication one;
        one.fact = random_.below(kWordFacts);
        one.other = (one.fact + 1 + random_.below(kWordFacts - 1)) % kWordFacts;
        one.words = some_words(one.fact);
        one.then = some_words(one.other);
        words_->add(one);
    }
    trade::Clause any_clause() {
        trade::Clause clause;
        const auto fact = random_.below(kWordFacts + 1);
        clause.fact = words_->facts()[fact].name;
        if (fact == kWordFacts) {
            constexpr double kEnd = 5.0;
            switch (random_.below(4)) {
                case 0:
                    clause.least = kEnd;
                    break;
                case 1:
                    clause.most = kEnd;
                    break;
                case 2:
                    clause.over = kEnd;
                    break;
                default:
                    clause.under = 2 * kEnd;
            }
            return clause;
        }
        const auto set = some_words(fact);
        const auto& choices = words_->facts()[fact].choices;
        for (std::size_t w = 0; w < choices.size(); ++w)
            if (((set >> w) & 1U) != 0) clause.words.push_back(choices[w]);
        clause.negated = random_.below(3) == 0;
        return clause;
    }
    trade::When any_when(int depth) {
        trade::When when;
        for (auto left = random_.below(3); left > 0; --left) when.all.push_back(any_clause());
        if (depth == 0) {
            if (when.all.empty()) when.all.push_back(any_clause());
            return when;
        }
        if (random_.below(2) == 0) when.any.push_back({any_when(depth - 1), any_when(depth - 1)});
        if (random_.below(3) == 0) when.none.push_back(any_when(depth - 1));
        return when;
    }
    trade::Rule any_rule() {
        constexpr std::array kEffects = {trade::Effect::requires_, trade::Effect::permits, trade::Effect::forbids};
        trade::Rule rule;
        rule.id = "r" + std::to_string(rules_.size());
        rule.effect = kEffects.at(random_.below(kEffects.size()));
        rule.result = "R" + std::to_string(random_.below(3));
        rule.when = any_when(2);
        if (random_.below(4) == 0) rule.count = trade::Count{"n", 5.0, 5.0};
        if (random_.below(2) == 0) rule.exceptions.push_back({any_when(1), "", ""});
        rule.versions.push_back({});
        rule.versions.back().editions = {Edition::e2017, Edition::e2026};
        return rule;
    }

    Random random_;
    std::shared_ptr<trade::Vocabulary> words_ = std::make_shared<trade::Vocabulary>();
    std::vector<trade::Rule> rules_;
};

using Saying = std::vector<std::string>;  ///< by fact; empty: not said

/// Everything that the answer of a case consists of.
struct Answer {
    trade::ResultSet requires_ = 0, permits = 0, forbids = 0;
    std::vector<double> counts;  ///< the most of each result
    friend bool operator==(const Answer&, const Answer&) = default;
};

struct Outcome {
    Answer answer;
    std::vector<std::size_t> unknown;
    bool contradicts = false;
};

Outcome outcome(const SmallWorld& world, const trade::RuleBook& book, const Saying& said) {
    trade::CaseFacts facts{world.vocabulary()};
    for (std::size_t i = 0; i < said.size(); ++i)
        if (!said[i].empty())
            REQUIRE(facts.set(world.vocabulary().facts()[i].name, std::string_view{said[i]}).has_value());
    Ruling ruling;
    book.judge(facts, trade::kEveryResult, ruling);
    Outcome out{{ruling.requires_, ruling.permits, ruling.forbids, std::vector<double>(3, 0.0)},
                ruling.unknown,
                !ruling.findings.empty()};
    for (const auto& fired : ruling.fired)
        if (fired.count && fired.rule->effect == trade::Effect::requires_) {
            auto& most = out.answer.counts.at(world.vocabulary().find_result(fired.rule->result).value());
            most = std::max(most, *fired.count);
        }
    return out;
}

/// Every way to say what was left unsaid, contradictions left out.
std::vector<Answer> completions(const SmallWorld& world, const trade::RuleBook& book, Saying said,
                                std::size_t from = 0) {
    while (from < said.size() && !said[from].empty()) ++from;
    if (from == said.size()) {
        const auto out = outcome(world, book, said);
        CHECK(out.unknown.empty());
        return out.contradicts ? std::vector<Answer>{} : std::vector<Answer>{out.answer};
    }
    std::vector<Answer> all;
    for (const auto& word : world.sayings(from)) {
        said[from] = word;
        for (auto& one : completions(world, book, said, from + 1)) all.push_back(std::move(one));
    }
    return all;
}

}  // namespace

TEST_CASE(
    "rule book: property: when completions of a case differ something is asked for, and asking ends in one answer") {
    std::size_t differing = 0;
    std::size_t settled_early = 0;
    for (base::Seed seed = 1; seed <= 1500; ++seed) {
        CAPTURE(seed);
        SmallWorld world{seed};
        const auto book = world.book();
        Saying said(world.vocabulary().facts().size());
        for (std::size_t i = 0; i < said.size(); ++i) {
            const auto known = world.sayings(i);
            if (world.random().below(2) == 0) said[i] = known[world.random().below(known.size())];
        }
        const auto out = outcome(world, book, said);
        if (out.contradicts) continue;
        const auto all = completions(world, book, said);
        const bool differ = std::ranges::any_of(all, [&](const Answer& one) { return one != all.front(); });
        differing += differ ? 1U : 0U;
        if (differ) CHECK_FALSE(out.unknown.empty());
        if (out.unknown.empty()) {
            settled_early += std::ranges::any_of(said, &std::string::empty) ? 1U : 0U;
            for (const auto& one : all) CHECK(one == out.answer);
        }
        // Only what was left unsaid is asked for.
        for (const auto fact : out.unknown) CHECK(said[fact].empty());
        // What is surely required stays so, whatever is said next, unless it hangs on a count.
        for (const auto& one : all)
            if (out.unknown.empty() || !std::ranges::count(out.unknown, said.size() - 1))
                CHECK((out.answer.requires_ & ~one.requires_) == 0);
    }
    // The property says something only where both kinds of case come up.
    CHECK(differing > 200);
    CHECK(settled_early > 200);
}

TEST_CASE("rule book: property: a book of many rules says what its rules say one by one") {
    for (base::Seed seed = 1; seed <= 12; ++seed) {
        SmallWorld world{seed, 30 + 20 * seed};
        const auto whole = world.book();
        const auto parts = world.books_of_one();
        Ruling together, alone;
        for (int round = 0; round < 60; ++round) {
            trade::CaseFacts facts{world.vocabulary()};
            for (std::size_t fact = 0; fact < world.vocabulary().facts().size(); ++fact) {
                const Names sayings = world.sayings(fact);
                if (world.random().below(3) == 0) continue;
                const std::string said = sayings[world.random().below(sayings.size())];
                REQUIRE(facts.set(fact, std::string_view{said}).has_value());
            }
            auto copy = facts;
            whole.judge(copy, trade::kEveryResult, together);
            Names fired, one_by_one;
            for (const auto& one : together.fired) fired.push_back(one.rule->id);
            std::size_t excepted = 0, open = 0;
            for (const auto& part : parts) {
                copy = facts;
                part.judge(copy, trade::kEveryResult, alone);
                for (const auto& one : alone.fired) one_by_one.push_back(one.rule->id);
                excepted += alone.excepted.size();
                open += alone.open.size();
            }
            CHECK(fired == one_by_one);
            CHECK(together.excepted.size() == excepted);
            CHECK(together.open.size() == open);
        }
    }
}
