#pragma once

#include <bit>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/fault.hpp"
#include "trade/rules/rule.hpp"
#include "trade/rules/sieve.hpp"
#include "trade/rules/vocabulary.hpp"

namespace trade {

/// Results as a set, one bit each in the order of the vocabulary.
using ResultSet = std::uint64_t;
inline constexpr ResultSet kEveryResult = ~ResultSet{0};

/// A rule that applies to the case.
struct Fired {
    const Rule* rule = nullptr;
    const RuleVersion* version = nullptr;
    std::optional<double> count;  ///< how many, for a rule that counts
};

/// A rule that would apply but for an exception.
struct Excepted {
    const Rule* rule = nullptr;
    const RuleVersion* version = nullptr;
    const Exception* exception = nullptr;
};

/// Facts as a set, by number.
class FactBits {
public:
    void clear(std::size_t facts) { blocks_.assign((facts + kBlock - 1) / kBlock, 0); }
    void add(std::size_t fact) { blocks_[fact / kBlock] |= std::uint64_t{1} << fact % kBlock; }
    /// Appends their numbers, rising.
    void append_to(std::vector<std::size_t>& numbers) const {
        for (std::size_t block = 0; block < blocks_.size(); ++block)
            for (std::uint64_t rest = blocks_[block]; rest != 0; rest &= rest - 1)
                numbers.push_back(block * kBlock + static_cast<std::size_t>(std::countr_zero(rest)));
    }

private:
    static constexpr std::size_t kBlock = 64;
    std::vector<std::uint64_t> blocks_;
};

/// A rule that the facts leave open.
struct Open {
    std::size_t rule = 0;  ///< its place in the book
    bool itself = true;    ///< its own condition is open, not only an exception's
};

/// What the rules say of a case. Points into the book and its vocabulary; used again for the next case to save time.
struct Ruling {
    ResultSet requires_ = 0, permits = 0, forbids = 0;
    ResultSet exempt = 0;  ///< would be required but for exceptions
    ResultSet may_be = 0;  ///< neither required nor ruled out: a fact that is unknown decides
    std::vector<Fired> fired;
    std::vector<Excepted> excepted;
    std::vector<std::size_t> unknown;   ///< facts that would change the answer, by number, rising
    std::vector<std::string> findings;  ///< facts that contradict each other
    std::vector<Open> open;             ///< rules that the facts leave open
    Sifted sifted;                      ///< what the words leave of rules and exceptions
    FactBits asked_back;                ///< `unknown`, by the number of the fact

    void clear();
};

/// The rules in force under an edition on a day, made ready for fast evaluation.
class RuleBook {
public:
    RuleBook();
    RuleBook(RuleBook&&) noexcept;
    RuleBook& operator=(RuleBook&&) noexcept;
    ~RuleBook();

    /// Judges one case. Facts are narrowed first by what follows from them. Only results in `asked` are looked at.
    /// A fact comes back as unknown when some value of it could change what is required, permitted or forbidden
    /// (within three-valued logic: now and then one is asked for that would not, never the other way round).
    void judge(CaseFacts& facts, ResultSet asked, Ruling& ruling) const;

    [[nodiscard]] const Vocabulary& vocabulary() const { return *vocabulary_; }
    [[nodiscard]] std::size_t size() const;

private:
    friend base::Checked<RuleBook> make_book(std::shared_ptr<const Vocabulary>, std::vector<Rule>, Edition,
                                             std::string_view);
    struct Compiled;
    /// Whether the exceptions of a rule bar it; the first that surely does.
    [[nodiscard]] Truth excepted_by(const Compiled& rule, const CaseFacts& facts, const Sifted& sifted,
                                    const Exception*& which) const;
    void judge_one(std::size_t at, const CaseFacts& facts, Ruling& ruling, ResultSet& would_be) const;
    void ask_back(const CaseFacts& facts, Ruling& ruling) const;

    std::shared_ptr<const Vocabulary> vocabulary_;
    std::unique_ptr<std::vector<Rule>> rules_;
    std::vector<Compiled> compiled_;
    Sieve sieve_;  ///< the rules by their place, then their exceptions
};

/// Compiles the rules that an edition has. `day` ("2026-11-25", may be empty) leaves out rules delayed beyond it.
/// Errors: facts, words and results that the vocabulary does not have, with the nearest known name and their place.
[[nodiscard]] base::Checked<RuleBook> make_book(std::shared_ptr<const Vocabulary> vocabulary, std::vector<Rule> rules,
                                                Edition edition, std::string_view day);

/// The rules with a jurisdiction's amendments laid over them, for an edition and a day (empty: every dated amendment
/// counts). Later amendments lie over earlier ones.
/// Errors: an amendment that names a rule that is not there, or adds one that is.
[[nodiscard]] base::Checked<std::vector<Rule>> amended(std::vector<Rule> rules,
                                                       const std::vector<Amendment>& amendments, Edition edition,
                                                       std::string_view day);

/// The same on a day on which not all of them need fit: one that changes a rule which another amendment brings later,
/// or has taken away by then, changes nothing.
[[nodiscard]] std::vector<Rule> amended_as_far_as_fits(std::vector<Rule> rules,
                                                       const std::vector<Amendment>& amendments, Edition edition,
                                                       std::string_view day);

/// How many are called for by a count, for a measure that is known: 0 at 0.
[[nodiscard]] double count_for(const Count& count, double measure);

/// The names of results in a set, in the order of the vocabulary.
[[nodiscard]] std::vector<std::string> names_of(ResultSet set, const Vocabulary& vocabulary);

}  // namespace trade
