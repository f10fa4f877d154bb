#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "base/fault.hpp"
#include "base/quantity.hpp"

namespace trade {

/// Words of a choice as a set, one bit each in the order of the fact's choices. A flag has the words "no" and "yes".
using WordSet = std::uint64_t;
inline constexpr std::size_t kMostWords = 64;

/// One fact that rules may ask for.
struct CaseFact {
    enum class Kind : std::uint8_t { choice, flag, number, date };

    std::string name, does;
    Kind kind = Kind::flag;
    base::Unit unit = base::Unit::count;    ///< number
    double least = 0.0, most = 1e9;         ///< number, both included
    bool may_be_none = false;               ///< number: "none" says that there is no such thing near
    std::vector<std::string> choices;       ///< choice, flag
    std::map<std::string, WordSet> groups;  ///< choice: names for several words at once, such as "dwelling"

    /// The set for a word or a group; nothing when the fact has neither.
    [[nodiscard]] std::optional<WordSet> words(std::string_view name) const;
    [[nodiscard]] WordSet every() const;
    [[nodiscard]] bool has_words() const { return kind == Kind::choice || kind == Kind::flag; }
};

/// What is known of one fact: the words still possible, or the numbers still possible, both ends included.
struct Known {
    WordSet words = 0;
    double least = 0.0, most = 0.0;
    bool given = false;
};

/// A thing that a rule can call for: "GFCI", "emergency-disconnect".
struct RuleResult {
    std::string name, does;
};

/// What one fact says of another: when `fact` is within `words`, `other` lies within `then` (or has the same word).
struct Implication {
    std::size_t fact = 0;
    WordSet words = 0;
    std::size_t other = 0;
    WordSet then = 0;
    bool same = false;             ///< `other` has the same word as `fact`
    std::vector<std::size_t> map;  ///< same: the place of each word of `fact` among those of `other`; too large: none
};

/// A measure that cannot be over another: the voltage to ground over the voltage between wires.
struct Ceiling {
    std::size_t fact = 0, not_over = 0;
};

/// The closed vocabulary of the protection rules.
class Vocabulary {
public:
    /// Errors: a name that stands twice, more than 64 words, are the caller's to report; see content/read_rules.
    void add(CaseFact fact);
    void add(RuleResult result) { results_.push_back(std::move(result)); }
    void add(const Implication& implication) { implications_.push_back(implication); }
    void add(const Ceiling& ceiling) { ceilings_.push_back(ceiling); }

    [[nodiscard]] const std::vector<CaseFact>& facts() const { return facts_; }
    [[nodiscard]] const std::vector<RuleResult>& results() const { return results_; }
    [[nodiscard]] const std::vector<Implication>& implications() const { return implications_; }
    [[nodiscard]] const std::vector<Ceiling>& ceilings() const { return ceilings_; }
    [[nodiscard]] std::optional<std::size_t> find(std::string_view name) const;
    [[nodiscard]] std::optional<std::size_t> find_result(std::string_view name) const;
    [[nodiscard]] std::vector<std::string> fact_names() const;
    [[nodiscard]] std::vector<std::string> result_names() const;

private:
    std::vector<CaseFact> facts_;
    std::vector<RuleResult> results_;
    std::vector<Implication> implications_;
    std::vector<Ceiling> ceilings_;
    /// Looks names up without making a string of them.
    struct NameHash {
        using is_transparent = void;
        std::size_t operator()(std::string_view name) const { return std::hash<std::string_view>{}(name); }
    };
    std::unordered_map<std::string, std::size_t, NameHash, std::equal_to<>> by_name_;
};

/// The facts of one case, by their number in the vocabulary. What was not given is wholly open.
class CaseFacts {
public:
    explicit CaseFacts(const Vocabulary& vocabulary);

    /// Says a fact in words: a choice, a group of choices, "yes", "no", a number with or without its unit, "none", a
    /// date. Errors: an unknown fact or word, with the nearest known one; a number out of range; a wrong unit.
    [[nodiscard]] base::Checked<void> set(std::string_view name, std::string_view text);
    [[nodiscard]] base::Checked<void> set(std::string_view name, double number);
    [[nodiscard]] base::Checked<void> set(std::string_view name, bool flag);
    /// The same for a fact by its number, which the vocabulary has to have.
    [[nodiscard]] base::Checked<void> set(std::size_t fact, std::string_view text);
    [[nodiscard]] base::Checked<void> set(std::size_t fact, double number);
    [[nodiscard]] base::Checked<void> set(std::size_t fact, bool flag);

    [[nodiscard]] const Known& operator[](std::size_t fact) const { return known_[fact]; }
    [[nodiscard]] const Vocabulary& vocabulary() const { return *vocabulary_; }

    /// Forgets every fact.
    void clear();
    /// Draws what follows from the facts given. Gives a line for each pair that cannot both be.
    std::vector<std::string> draw_conclusions();

private:
    [[nodiscard]] base::Checked<std::size_t> number_of(std::string_view name) const;
    [[nodiscard]] base::Checked<void> set_number(std::size_t at, double number);

    const Vocabulary* vocabulary_;
    std::vector<Known> blank_, known_;
};

/// For each word of one fact its place among the words of another; past their end where the other lacks it.
[[nodiscard]] std::vector<std::size_t> same_words(const CaseFact& fact, const CaseFact& other);

/// A day as the number 20260901, so that days compare as numbers. Nothing when it is no date.
[[nodiscard]] std::optional<double> day_number(std::string_view text);

}  // namespace trade
