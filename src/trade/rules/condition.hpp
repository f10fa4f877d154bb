#pragma once

#include <cstdint>
#include <limits>
#include <optional>
#include <vector>

#include "trade/rules/book.hpp"
#include "trade/rules/rule.hpp"
#include "trade/rules/vocabulary.hpp"

namespace trade {

/// A test of one fact, by number.
struct Test {
    std::size_t fact = 0;
    bool of_words = true;
    WordSet words = 0;
    double least = -std::numeric_limits<double>::infinity(), most = std::numeric_limits<double>::infinity();
    bool over = false, under = false;  ///< the end itself is left out
};

/// A condition compiled for fast evaluation.
struct Condition {
    std::vector<Test> words, numbers;  ///< all of them
    std::vector<std::vector<Condition>> any;
    std::vector<Condition> none;
};

/// Whether the condition holds, in the logic of three values (Kleene).
[[nodiscard]] Truth holds(const Condition& condition, const CaseFacts& facts);
/// The same when what its words come to is known already.
[[nodiscard]] Truth holds_beyond_words(const Condition& condition, const CaseFacts& facts, Truth of_words);

/// Marks the facts whose being unknown leaves an open condition open: one that holds() gives maybe for.
void add_open_facts(const Condition& condition, const CaseFacts& facts, FactBits& unknown);

/// Turns names into numbers; what the vocabulary does not have is noted.
class Compiler {
public:
    Compiler(const Vocabulary& vocabulary, base::Faults& faults) : vocabulary_{&vocabulary}, faults_{&faults} {}

    /// All of several parts together.
    [[nodiscard]] Condition compile(const std::vector<const When*>& parts) const;
    [[nodiscard]] ResultSet result(const std::string& name, const Spot& spot) const;
    [[nodiscard]] std::optional<std::size_t> fact(const std::string& name, const Spot& spot) const;
    /// A fact that is a number, for counting by.
    [[nodiscard]] std::optional<std::size_t> measure(const std::string& name, const Spot& spot) const;

private:
    void add(const When& when, Condition& to) const;
    [[nodiscard]] std::optional<Test> test(const Clause& clause) const;
    [[nodiscard]] WordSet words(const Clause& clause, const CaseFact& fact) const;
    void note(const Spot& spot, std::string what, std::string mend) const;

    const Vocabulary* vocabulary_;
    base::Faults* faults_;
};

}  // namespace trade
