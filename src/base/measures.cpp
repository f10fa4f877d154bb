#include "base/measures.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

#include "base/text.hpp"

namespace base {
namespace {

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}
bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/// A number as it stands in the text.
struct Number {
    std::size_t begin = 0, end = 0;
    double value = 0.0;
    bool sized = false;  ///< written like 4/0, which only a wire size is
};

/// Digits with grouping commas and a decimal point: "1,500", "4.5".
std::size_t end_of_digits(std::string_view text, std::size_t at) {
    const auto digit_at = [&](std::size_t i) { return i < text.size() && is_digit(text[i]); };
    while (digit_at(at)) ++at;
    while (at < text.size() && text[at] == ',' && digit_at(at + 1) && digit_at(at + 2) && digit_at(at + 3) &&
           !digit_at(at + 4))
        at += 4;
    if (at < text.size() && text[at] == '.' && digit_at(at + 1))
        for (++at; digit_at(at);) ++at;
    return at;
}

double value_of(std::string_view digits) {
    std::string plain;
    for (const char c : digits)
        if (c != ',') plain += c;
    return std::stod(plain);
}

/// "/4" that makes a fraction of the number before it, as "120/240" does not.
std::optional<double> below_line(std::string_view text, std::size_t at, double above, std::size_t& end) {
    if (at + 1 >= text.size() || text[at] != '/' || !is_digit(text[at + 1])) return std::nullopt;
    end = end_of_digits(text, at + 1);
    const double below = value_of(text.substr(at + 1, end - at - 1));
    constexpr std::array kRuled = {2.0, 3.0, 4.0, 8.0, 16.0, 32.0, 64.0};
    const bool ruled = std::find(kRuled.begin(), kRuled.end(), below) != kRuled.end();
    if (below == 0.0 || (ruled && above < below)) return below;
    return std::nullopt;
}

Number number_at(std::string_view text, std::size_t at) {
    Number number{at, end_of_digits(text, at), 0.0, false};
    number.value = value_of(text.substr(at, number.end - at));
    std::size_t end = 0;
    if (const auto below = below_line(text, number.end, number.value, end)) {
        // Sizes run 1, 1/0, 2/0 ...: one step thicker each.
        number.sized = *below == 0.0;
        number.value = number.sized ? 1.0 - number.value : number.value / *below;
        number.end = end;
        return number;
    }
    // "1-1/4" and "1 1/4".
    if (number.end + 1 < text.size() && (text[number.end] == '-' || text[number.end] == ' ') &&
        is_digit(text[number.end + 1])) {
        const std::size_t part = end_of_digits(text, number.end + 1);
        const double above = value_of(text.substr(number.end + 1, part - number.end - 1));
        if (const auto below = below_line(text, part, above, end); below && *below != 0.0) {
            number.value += above / *below;
            number.end = end;
        }
    }
    return number;
}

/// True where a number may begin: not inside a word such as "cat5" or a reference such as 210.8(A)(2).
bool may_begin(std::string_view text, std::size_t at) {
    if (!is_digit(text[at])) return false;
    if (at == 0) return true;
    const char before = text[at - 1];
    if (before == '(') return text.substr(at).find(')') > 3 || at < 2 || text[at - 2] == ' ';
    return !is_letter(before) && !is_digit(before) && before != '.' && before != ')';
}

/// After these, "in" is the little word and no inch.
bool begins_clause(std::string_view text, std::size_t at) {
    while (at < text.size() && text[at] == ' ') ++at;
    std::size_t end = at;
    while (end < text.size() && (is_letter(text[end]) || is_digit(text[end]))) ++end;
    const std::string word = lower(text.substr(at, end - at));
    constexpr std::array<std::string_view, 32> kClauses = {
        "this", "the",  "a",     "an",   "its",  "each",      "one",      "that",  "these", "those", "which",
        "any",  "all",  "every", "both", "some", "parallel",  "series",   "place", "use",   "it",    "them",
        "2017", "2020", "2023",  "2026", "his",  "dwellings", "kitchens", "total", "here",  "homes"};
    return std::find(kClauses.begin(), kClauses.end(), word) != kClauses.end();
}

using UnitEnd = std::optional<std::pair<Unit, std::size_t>>;

std::size_t end_of_word(std::string_view text, std::size_t from) {
    while (from < text.size() && (is_letter(text[from]) || is_digit(text[from]))) ++from;
    return from;
}

/// "sq ft", "cu. in", "circular mils": a unit of two words, the first of which ends at `one`.
UnitEnd two_word_unit(std::string_view text, std::size_t at, std::size_t one) {
    const std::size_t second = one < text.size() && text[one] == '.' ? one + 1 : one;
    if (second >= text.size() || (text[second] != ' ' && text[second] != '-')) return std::nullopt;
    const std::size_t two = end_of_word(text, second + 1);
    const std::string pair = lower(text.substr(at, one - at)) + ' ' + lower(text.substr(second + 1, two - second - 1));
    const auto unit = parse_unit(pair);
    return unit ? UnitEnd{std::pair{*unit, two}} : std::nullopt;
}

/// True where "in" after a number is the little word: after a reference, after a year, before a clause.
bool is_little_word(std::string_view text, const Number& number, std::size_t end) {
    const bool reference = text.substr(number.begin, number.end - number.begin).find('.') != std::string_view::npos &&
                           number.value >= 90.0;
    const bool year = number.value >= 1900 && number.value < 2100 && std::floor(number.value) == number.value;
    const bool dotted = end < text.size() && text[end] == '.';
    return !dotted && (reference || year || begins_clause(text, end));
}

/// The unit that follows, and where it ends.
UnitEnd unit_after(std::string_view text, const Number& number) {
    std::size_t at = number.end;
    if (at < text.size() && (text[at] == ' ' || text[at] == '-')) ++at;
    if (at < text.size() && text[at] == '%') return std::pair{Unit::percent, at + 1};
    if (at >= text.size() || !is_letter(text[at])) return std::nullopt;
    const std::size_t end = end_of_word(text, at);
    if (const auto unit = two_word_unit(text, at, end)) return unit;
    const std::string_view word = text.substr(at, end - at);
    const auto unit = parse_unit(word);
    // Pieces of a thing are told by the thing.
    if (!unit || *unit == Unit::count) return std::nullopt;
    // A single letter is a unit only as written for one: "20 A", never "2 a", nor the plural of "600s".
    if (word.size() == 1 && (word != symbol(*unit) || (at == number.end && word == "s"))) return std::nullopt;
    if (word == "in" && is_little_word(text, number, end)) return std::nullopt;
    return std::pair{*unit, end};
}

/// True for what may stand between two numbers that share the unit after the second.
bool joins(std::string_view between) {
    constexpr std::array<std::string_view, 14> kJoins = {
        " and ", " or ", ", ", " to ", "/", "Y/", "-", " by ", " x ", "- and ", "- or ", " and/or ", ", or ", ", and "};
    return std::find(kJoins.begin(), kJoins.end(), between) != kJoins.end();
}

struct Found {
    Number number;
    std::optional<Unit> unit;
    std::size_t end = 0;  ///< of the unit
};

std::vector<Found> all_found(std::string_view text) {
    std::vector<Found> all;
    for (std::size_t at = 0; at < text.size();) {
        if (!may_begin(text, at)) {
            ++at;
            continue;
        }
        Found one{number_at(text, at), std::nullopt, 0};
        one.end = one.number.end;
        if (const auto unit = unit_after(text, one.number)) {
            one.unit = unit->first;
            one.end = unit->second;
        } else if (one.number.sized) {
            one.unit = Unit::awg;
        }
        at = one.end;
        all.push_back(one);
    }
    // From the end, so that a unit wanders through a whole list.
    for (std::size_t i = all.size(); i-- > 1;)
        if (!all[i - 1].unit && all[i].unit && joins(text.substr(all[i - 1].end, all[i].number.begin - all[i - 1].end)))
            all[i - 1].unit = all[i].unit;
    return all;
}

/// "6 ft 7 in".
bool is_foot_and_inches(std::string_view text, const Found& feet, const Found& inches) {
    const std::string_view between = text.substr(feet.end, inches.number.begin - feet.end);
    return feet.unit == Unit::ft && inches.unit == Unit::in && (between == " " || between == ". ");
}

constexpr std::array<std::string_view, 13> kWords = {"zero",  "one",   "two",  "three", "four",   "five",  "six",
                                                     "seven", "eight", "nine", "ten",   "eleven", "twelve"};

}  // namespace

std::vector<Measure> measures_in(std::string_view text) {
    const auto all = all_found(text);
    std::vector<Measure> measures;
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (!all[i].unit) continue;
        const std::size_t begin = all[i].number.begin;
        if (i + 1 < all.size() && is_foot_and_inches(text, all[i], all[i + 1])) {
            const double inches = 12.0 * all[i].number.value + all[i + 1].number.value;
            measures.push_back({{inches, Unit::in}, std::string{text.substr(begin, all[i + 1].end - begin)}});
            ++i;
            continue;
        }
        measures.push_back({{all[i].number.value, *all[i].unit}, std::string{text.substr(begin, all[i].end - begin)}});
    }
    return measures;
}

std::vector<double> numbers_in(std::string_view text) {
    std::vector<double> numbers;
    for (const auto& one : all_found(text)) numbers.push_back(one.number.value);
    for (const auto& word : words(std::string{text}))
        if (const auto at = std::find(kWords.begin(), kWords.end(), word); at != kWords.end())
            numbers.push_back(static_cast<double>(at - kWords.begin()));
    return numbers;
}

bool same_amount(const Quantity& a, const Quantity& b) {
    const auto in_b = convert(a.value, a.unit, b.unit);
    constexpr double kSlack = 1e-6;
    return in_b && std::abs(*in_b - b.value) <= kSlack * std::max(1.0, std::abs(b.value));
}

}  // namespace base
