#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/fault.hpp"
#include "trade/rules/rule.hpp"
#include "trade/rules/vocabulary.hpp"

namespace trade {

/// Whether something holds when not every fact is known.
enum class Truth : std::uint8_t { no, maybe, yes };

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

/// What the rules say of a case. Points into the book and its vocabulary; used again for the next case to save time.
struct Ruling {
    ResultSet requires_ = 0, permits = 0, forbids = 0;
    ResultSet exempt = 0;  ///< would be required but for exceptions
    std::vector<Fired> fired;
    std::vector<Excepted> excepted;
    std::vector<std::size_t> unknown;   ///< facts that would change the answer, by number, rising
    std::vector<std::string> findings;  ///< facts that contradict each other
    std::vector<std::size_t> open;      ///< rules that the facts leave open, by their place in the book

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
    std::shared_ptr<const Vocabulary> vocabulary_;
    std::unique_ptr<std::vector<Rule>> rules_;
    std::vector<Compiled> compiled_;
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
