#include "trade/rules/sieve.hpp"

#include <algorithm>
#include <bit>

#include "trade/rules/condition.hpp"

namespace trade {
namespace {

constexpr std::size_t kBlock = 64;

std::uint64_t bit_of(std::size_t condition) {
    return std::uint64_t{1} << condition % kBlock;
}

/// std::has_single_bit counts all bits, which without the machine's own instruction for it is slow.
bool is_one(WordSet words) {
    return words != 0 && (words & (words - 1)) == 0;
}

void narrow(std::vector<std::uint64_t>& bits, const std::vector<std::uint64_t>& by) {
    for (std::size_t block = 0; block < bits.size(); ++block) bits[block] &= by[block];
}

}  // namespace

Truth Sifted::of_words(std::size_t condition) const {
    if ((left[condition / kBlock] & bit_of(condition)) == 0) return Truth::no;
    return (sure[condition / kBlock] & bit_of(condition)) != 0 ? Truth::yes : Truth::maybe;
}

std::size_t Sifted::next(std::size_t from, std::size_t end) const {
    for (std::size_t block = from / kBlock; block < left.size() && block * kBlock < end; ++block) {
        const std::uint64_t mask = block == from / kBlock ? ~std::uint64_t{0} << from % kBlock : ~std::uint64_t{0};
        const std::uint64_t rest = left[block] & mask;
        if (rest != 0) return std::min(end, block * kBlock + static_cast<std::size_t>(std::countr_zero(rest)));
    }
    return end;
}

Sieve::Sieve(const std::vector<const Condition*>& conditions, const Vocabulary& vocabulary) {
    whole_.resize((conditions.size() + kBlock - 1) / kBlock);
    for (std::size_t i = 0; i < conditions.size(); ++i) whole_[i / kBlock] |= bit_of(i);
    for (std::size_t i = 0; i < conditions.size(); ++i)
        for (const auto& test : conditions[i]->words) add(i, test, vocabulary);
    for (auto& fact : facts_) {
        Sifted::Held held;
        join(fact, fact.every, held);
        fact.by_some = std::move(held.by_some);
        fact.by_all = std::move(held.by_all);
    }
}

void Sieve::join(const OfFact& of_fact, WordSet words, Sifted::Held& held) const {
    held.words = words;
    held.by_some.assign(whole_.size(), 0);
    held.by_all = whole_;
    for (WordSet rest = words; rest != 0; rest &= rest - 1) {
        const auto& allowed = of_fact.allowed[static_cast<std::size_t>(std::countr_zero(rest))];
        narrow(held.by_all, allowed);
        for (std::size_t block = 0; block < allowed.size(); ++block) held.by_some[block] |= allowed[block];
    }
}

void Sieve::add(std::size_t condition, const Test& test, const Vocabulary& vocabulary) {
    auto found = std::find_if(facts_.begin(), facts_.end(), [&](const OfFact& one) { return one.fact == test.fact; });
    if (found == facts_.end()) {
        const CaseFact& fact = vocabulary.facts()[test.fact];
        facts_.push_back({test.fact, fact.every(), std::vector(fact.choices.size(), whole_), {}, {}});
        found = facts_.end() - 1;
    }
    for (std::size_t word = 0; word < found->allowed.size(); ++word)
        if (((test.words >> word) & 1U) == 0) found->allowed[word][condition / kBlock] &= ~bit_of(condition);
}

void Sieve::sift(const CaseFacts& facts, Sifted& sifted) const {
    sifted.left = whole_;
    sifted.sure = whole_;
    if (sifted.held_for != this) sifted.held.assign(facts_.size(), {});
    sifted.held_for = this;
    for (std::size_t i = 0; i < facts_.size(); ++i) {
        const OfFact& of_fact = facts_[i];
        const WordSet words = facts[of_fact.fact].words;
        if (words == of_fact.every) {
            narrow(sifted.left, of_fact.by_some);
            narrow(sifted.sure, of_fact.by_all);
        } else if (is_one(words)) {
            const auto& allowed = of_fact.allowed[static_cast<std::size_t>(std::countr_zero(words))];
            narrow(sifted.left, allowed);
            narrow(sifted.sure, allowed);
        } else {
            Sifted::Held& held = sifted.held[i];
            if (held.words != words || held.by_some.empty()) join(of_fact, words, held);
            narrow(sifted.left, held.by_some);
            narrow(sifted.sure, held.by_all);
        }
    }
}

}  // namespace trade
