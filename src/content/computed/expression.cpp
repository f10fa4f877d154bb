#include "content/computed/expression.hpp"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cmath>
#include <vector>

#include "base/text.hpp"

namespace content {
namespace {

struct Broken {
    std::string what;
};

bool is_name(char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_';
}

/// A parser by descent, one function a level: comparison, sum, product, factor.
class Parser {
public:
    Parser(std::string_view text, const FactTexts& facts) : rest_{text}, facts_{&facts} {}

    double whole() {
        const double value = comparison();
        skip();
        if (!rest_.empty()) throw Broken{"'" + std::string{rest_} + "' is left over"};
        return value;
    }

private:
    void skip() { rest_ = base::trim(rest_); }

    bool take(std::string_view sign) {
        skip();
        if (!rest_.starts_with(sign)) return false;
        rest_.remove_prefix(sign.size());
        return true;
    }

    double comparison() {
        const std::string word = quoted_fact();
        if (!word.empty()) return compared_words(word);
        const double left = sum();
        for (const std::string_view sign : {"<=", ">=", "!=", "<", ">", "="}) {
            if (!take(sign)) continue;
            const double right = sum();
            constexpr double kSlack = 1e-9;
            if (sign == "=") return std::abs(left - right) <= kSlack ? 1.0 : 0.0;
            if (sign == "!=") return std::abs(left - right) > kSlack ? 1.0 : 0.0;
            const bool holds = sign == "<="   ? left <= right + kSlack
                               : sign == ">=" ? left + kSlack >= right
                               : sign == "<"  ? left < right
                                              : left > right;
            return holds ? 1.0 : 0.0;
        }
        return left;
    }

    /// The name of a fact that is compared with a word in quotes; nothing taken when that does not follow.
    std::string quoted_fact() {
        skip();
        const auto end =
            static_cast<std::size_t>(std::find_if_not(rest_.begin(), rest_.end(), is_name) - rest_.begin());
        const std::string_view after = base::trim(rest_.substr(end));
        if (end == 0 || !(after.starts_with("='") || after.starts_with("= '") || after.starts_with("!='") ||
                          after.starts_with("!= '")))
            return {};
        std::string name{rest_.substr(0, end)};
        rest_ = after;
        return name;
    }

    double compared_words(const std::string& name) {
        const bool differs = take("!");
        take("=");
        take("'");
        const auto close = rest_.find('\'');
        if (close == std::string_view::npos) throw Broken{"a quote is not closed"};
        const bool same = fact(name) == rest_.substr(0, close);
        rest_.remove_prefix(close + 1);
        return same != differs ? 1.0 : 0.0;
    }

    double sum() {
        double value = product();
        for (;;) {
            if (take("+"))
                value += product();
            else if (take("-"))
                value -= product();
            else
                return value;
        }
    }

    double product() {
        double value = factor();
        for (;;) {
            if (take("*")) {
                value *= factor();
            } else if (take("/")) {
                const double by = factor();
                if (by == 0.0) throw Broken{"a division by zero"};
                value /= by;
            } else {
                return value;
            }
        }
    }

    double factor() {
        // Nobody nests as deep as this by hand, and each level is a frame of the stack.
        constexpr int kDeepest = 200;
        if (depth_ == kDeepest) throw Broken{"it is nested more than " + std::to_string(kDeepest) + " deep"};
        ++depth_;
        const double value = unguarded_factor();
        --depth_;
        return value;
    }

    double unguarded_factor() {
        if (take("-")) return -factor();
        if (take("(")) {
            const double value = comparison();
            if (!take(")")) throw Broken{"a ) is missing"};
            return value;
        }
        skip();
        // "inf" and "nan" would be read as numbers, and with them the beginning of many a name.
        if (rest_.empty() || (rest_.front() != '.' && std::isdigit(static_cast<unsigned char>(rest_.front())) == 0))
            return named();
        double number = 0.0;
        const auto [end, error] = std::from_chars(rest_.data(), rest_.data() + rest_.size(), number);
        if (error != std::errc{}) throw Broken{"'" + std::string{rest_} + "' makes no sense"};
        rest_.remove_prefix(static_cast<std::size_t>(end - rest_.data()));
        return number;
    }

    double named() {
        const auto end =
            static_cast<std::size_t>(std::find_if_not(rest_.begin(), rest_.end(), is_name) - rest_.begin());
        if (end == 0)
            throw Broken{rest_.empty() ? "something is missing at the end"
                                       : "'" + std::string{rest_} + "' makes no sense"};
        const std::string name{rest_.substr(0, end)};
        rest_.remove_prefix(end);
        if (take("(")) return function(name);
        const auto typed = base::lower(fact(name));
        double number = 0.0;
        const auto [stop, error] = std::from_chars(typed.data(), typed.data() + typed.size(), number);
        if (error != std::errc{} || stop != typed.data() + typed.size() || !std::isfinite(number))
            throw Broken{"the fact '" + name + "' is '" + typed + "', no number"};
        return number;
    }

    double function(const std::string& name) {
        std::vector<double> given = {comparison()};
        while (take(",")) given.push_back(comparison());
        if (!take(")")) throw Broken{"a ) is missing"};
        if (name == "min") return *std::min_element(given.begin(), given.end());
        if (name == "max") return *std::max_element(given.begin(), given.end());
        constexpr double kSlack = 1e-9;
        if (given.size() == 1 && name == "ceil") return std::ceil(given[0] - kSlack);
        if (given.size() == 1 && name == "floor") return std::floor(given[0] + kSlack);
        if (given.size() == 1 && name == "round") return std::round(given[0]);
        throw Broken{"there is no function '" + name + "' of that kind"};
    }

    const std::string& fact(const std::string& name) const {
        const auto found = facts_->find(name);
        if (found == facts_->end()) throw Broken{"there is no fact '" + name + "'"};
        return found->second;
    }

    int depth_ = 0;
    std::string_view rest_;
    const FactTexts* facts_;
};

}  // namespace

base::Checked<double> work_out(std::string_view expression, const FactTexts& facts) {
    try {
        return Parser{expression, facts}.whole();
    } catch (const Broken& broken) {
        return base::refuse("the sum '" + std::string{expression} + "': " + broken.what, "correct the sum");
    }
}

base::Checked<std::string> fill(std::string_view text, const FactTexts& facts) {
    std::string filled;
    for (std::size_t at = 0; at < text.size();) {
        const auto open = text.find('{', at);
        const auto close = open == std::string_view::npos ? open : text.find('}', open);
        if (close == std::string_view::npos) return filled + std::string{text.substr(at)};
        filled += text.substr(at, open - at);
        const std::string_view slot = text.substr(open + 1, close - open - 1);
        if (slot.starts_with('=')) {
            const auto value = work_out(slot.substr(1), facts);
            if (!value) return tl::unexpected<base::Faults>{value.error()};
            filled += base::number_text(*value);
        } else {
            const auto fact = facts.find(std::string{slot});
            filled += fact == facts.end() ? std::string{text.substr(open, close - open + 1)} : fact->second;
        }
        at = close + 1;
    }
    return filled;
}

}  // namespace content
