#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/quantity.hpp"
#include "trade/wire.hpp"

namespace trade {

/// One value that a calculator gives: a number with its unit, or words ("3/0", "1-1/4", "yes").
struct Value {
    double number = 0.0;
    std::string words;  ///< empty for a number
    base::Unit unit = base::Unit::count;

    [[nodiscard]] bool is_number() const { return words.empty(); }
    friend bool operator==(const Value&, const Value&) = default;
};

[[nodiscard]] inline Value value_of(double number, base::Unit unit) {
    return {number, {}, unit};
}
[[nodiscard]] Value value_of(std::string_view words, base::Unit unit = base::Unit::count);
/// A conductor size in AWG or kcmil.
[[nodiscard]] Value value_of(Size size);

/// "20.25 in3", "3/0 AWG", "yes".
[[nodiscard]] std::string to_text(const Value& value);

/// A further value that the working came by, under a name that the calculator's help explains.
struct Also {
    std::string_view name;  ///< of a literal
    Value value;
};

/// What a calculator says of the facts it was given.
struct Finding {
    std::optional<Value> answer;        ///< empty exactly when blocked() says so
    std::vector<Also> also;             ///< values on the way, and beside the answer
    std::vector<std::string> steps;     ///< the working, in the order a person would do it; none when not asked for
    std::vector<std::string> articles;  ///< the references that govern, for the edition
    std::vector<std::string> unknown;   ///< facts to ask for, by the name the facts use; nothing but those
    std::vector<std::string> findings;  ///< what is wrong or doubtful about the facts, such as a breaker too large

    /// A further value by name; null when there is none.
    [[nodiscard]] const Value* find(std::string_view name) const;
    /// Notes a fact as missing, once.
    void lacks(std::string_view fact);
    /// Says why no fact that one could still tell would lead to an answer: where a table of ours ends, or what is wrong
    /// with the facts. The reason is a finding, once, and there is no answer then.
    void refuse(std::string why);
    /// Whether there can be no answer: facts are missing, or refuse() said why.
    [[nodiscard]] bool blocked() const { return refused_ || !unknown.empty(); }

private:
    bool refused_ = false;
};

}  // namespace trade
