#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "trade/rules/vocabulary.hpp"

namespace trade {

struct Condition;
struct Test;

/// Whether something holds when not every fact is known.
enum class Truth : std::uint8_t { no, maybe, yes };

/// What the words of a case leave of many conditions, one bit each by the number of the condition.
struct Sifted {
    using Bits = std::vector<std::uint64_t>;

    Bits left;  ///< not refuted by any word
    Bits sure;  ///< every test of words holds

    /// What several words of a fact came to the last time: the same few sets come up again and again.
    struct Held {
        WordSet words = 0;
        Bits by_some, by_all;
    };
    std::vector<Held> held;
    const void* held_for = nullptr;  ///< the sieve that they are of

    [[nodiscard]] Truth of_words(std::size_t condition) const;
    /// The first condition that is left, at or after `from`; `end` when there is none before it.
    [[nodiscard]] std::size_t next(std::size_t from, std::size_t end) const;
};

/// Tests the words of all conditions of a book at once. Most rules have nothing to do with a case and are refuted by a
/// word or two, so this is where judging by the hundred thousand saves its time.
class Sieve {
public:
    Sieve() = default;
    /// Conditions are numbered in the order given; they are not needed afterwards.
    Sieve(const std::vector<const Condition*>& conditions, const Vocabulary& vocabulary);

    /// `sifted` may have served other cases before, best of the same book: then it saves time.
    void sift(const CaseFacts& facts, Sifted& sifted) const;

private:
    using Bits = Sifted::Bits;

    /// What each word of one fact, and the fact left wholly open, means for the conditions.
    struct OfFact {
        std::size_t fact = 0;
        WordSet every = 0;
        std::vector<Bits> allowed;  ///< by word: conditions that the word does not refute
        Bits by_some, by_all;       ///< conditions that some word, or every word, does not refute
    };

    void add(std::size_t condition, const Test& test, const Vocabulary& vocabulary);
    void join(const OfFact& of_fact, WordSet words, Sifted::Held& held) const;

    std::vector<OfFact> facts_;
    Bits whole_;  ///< one bit for each condition
};

}  // namespace trade
