#pragma once

#include <optional>
#include <string>
#include <vector>

#include "trade/edition.hpp"
#include "trade/table.hpp"

namespace trade {

/// Where in a file something stands, for faults that are found later.
struct Spot {
    std::string file, pointer;
    int line = 0;
};

/// A test of one fact, by names as written. Words: within (or, negated, outside) the named words. Numbers and days:
/// the ends that are stated; `over` and `under` leave the end itself out.
struct Clause {
    std::string fact;
    std::vector<std::string> words;
    bool negated = false;
    std::optional<double> least, most, over, under;
    std::optional<double> equal;
    Spot spot;
};

/// What has to hold: every clause, one of each list of alternatives, and nothing of `none`.
struct When {
    std::vector<Clause> all;
    std::vector<std::vector<When>> any;
    std::vector<When> none;

    [[nodiscard]] bool empty() const { return all.empty() && any.empty() && none.empty(); }
};

/// How many of something are called for: one up to `first` of a fact's measure, one more for each further `each` or
/// part of it; none at 0.
struct Count {
    std::string of;
    double first = 1.0, each = 1.0;
};

struct Exception {
    When when;
    std::string why, article;
};

/// A rule as one run of editions has it.
struct RuleVersion {
    EditionRange editions;
    std::string article;
    When when;  ///< beside what the rule itself asks for
    std::vector<Exception> exceptions;
    Basis basis;
    bool unverified = false;
    Spot spot;
};

enum class Effect : std::uint8_t { requires_, permits, forbids };
[[nodiscard]] std::string_view to_text(Effect effect);

/// A protection rule: facts in, a call for something out.
struct Rule {
    std::string id, title, why, topic;
    Effect effect = Effect::requires_;
    std::string result;  ///< one of the vocabulary's results
    std::optional<Count> count;
    When when;
    std::vector<Exception> exceptions;  ///< in every edition
    std::vector<RuleVersion> versions;
    std::string from;    ///< set by a delay: not before this day, "2027-01-01"
    bool local = false;  ///< came with an amendment
    Spot spot;

    [[nodiscard]] const RuleVersion* version(Edition edition) const;
};

/// A local change to the rules.
struct Amendment {
    enum class Action : std::uint8_t { add, remove, replace, delay };

    Action action = Action::add;
    std::string id, rule;                  ///< its own id; the rule it changes (not for add)
    std::optional<Rule> with;              ///< add, replace
    std::optional<EditionRange> editions;  ///< only under these; empty: under every one
    std::string from, until;  ///< in force from this day, up to the day before `until`; empty: always. For a delay the
                              ///< rule waits until `until`.
    std::string note;
    Basis basis;
    Spot spot;
};

}  // namespace trade
