#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "trade/edition.hpp"

namespace content {

/// Facts by name, each a text with slots ("{n}x{size}", "{=2*n}").
using FactSlots = std::vector<std::pair<std::string, std::string>>;

/// A way to a wrong answer: the same working with other facts, under another edition, or another of its values; or an
/// answer of its own.
struct WrongPath {
    FactSlots facts;  ///< in place of the right ones; an empty text takes the fact away
    std::optional<trade::Edition> edition;
    std::string value;  ///< which value is taken instead
    std::string as;     ///< an answer of its own: a sum or text with slots; for rules, results joined by '+'
    std::string mistake;
};

/// How the answer of an ask is worked out by the trade engine when it is posed.
struct Computed {
    enum class By : std::uint8_t { calculator, rules, switching };

    By by = By::calculator;
    std::string calculator;
    FactSlots facts;
    std::string value;  ///< calculator: a further value by name, or "article"; rules: "count:RESULT"; switching:
                        ///< "fault", "lamps", "reading", ...; empty: the answer
    std::vector<std::string> asked;  ///< rules: the results looked at
    std::vector<WrongPath> paths;
    int places = 2;    ///< decimals of a number
    std::string says;  ///< how an option words a value: "{value} between splices"; empty: the value
    std::map<std::string, std::string> phrases;  ///< words for particular values, such as "GFCI+AFCI"
};

}  // namespace content
