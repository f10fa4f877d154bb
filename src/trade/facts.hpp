#pragma once

#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "base/fault.hpp"
#include "base/located_json.hpp"
#include "base/quantity.hpp"
#include "trade/wire.hpp"

namespace trade {

/// What a fact may look like.
enum class FactKind : std::uint8_t {
    number,   ///< within a range, in a unit
    flag,     ///< yes or no
    choice,   ///< one of a closed list of words
    size,     ///< a conductor size
    wires,    ///< conductors by size: 4x12, 2x14
    devices,  ///< devices by the size on them: 1x12, or 1x6@2 for one that is two gangs wide
    numbers,  ///< several numbers: 9, 14, 16
    word,     ///< a name that the calculator itself looks up
};

/// One fact that a calculator knows: the vocabulary is closed.
struct FactSpec {
    std::string_view name;
    FactKind kind = FactKind::number;
    std::string_view does;                ///< one line for people
    base::Unit unit = base::Unit::count;  ///< number, numbers
    double least = 0.0, most = 1e9;       ///< number, numbers: both included
    bool whole = false;                   ///< number, numbers: no fractions
    std::string_view choices = {};        ///< choice: separated by '|'
};

/// Conductors of one size, or devices with their largest conductor.
struct Item {
    Size size = Size::awg14;
    int count = 1;
    int gangs = 1;  ///< of a device

    friend bool operator==(const Item&, const Item&) = default;
};

using FactValue = std::variant<double, bool, std::string, Size, std::vector<Item>, std::vector<double>>;

/// Facts by name. A fact that was not given is simply not there.
class Facts {
public:
    void set(std::string_view name, FactValue value);
    void remove(std::string_view name);
    [[nodiscard]] bool has(std::string_view name) const { return find(name) != nullptr; }
    [[nodiscard]] const FactValue* find(std::string_view name) const;

    [[nodiscard]] std::optional<double> number(std::string_view name) const;
    [[nodiscard]] std::optional<bool> flag(std::string_view name) const;
    [[nodiscard]] std::optional<Size> size(std::string_view name) const;
    /// The word chosen; empty when it was not given.
    [[nodiscard]] std::string_view choice(std::string_view name) const;
    /// Null when it was not given.
    [[nodiscard]] const std::vector<Item>* items(std::string_view name) const;
    [[nodiscard]] const std::vector<double>* numbers(std::string_view name) const;

    [[nodiscard]] const std::vector<std::pair<std::string, FactValue>>& all() const { return values_; }

private:
    std::vector<std::pair<std::string, FactValue>> values_;
};

/// A fact from what was typed, such as "4x12, 2x14", "120 ft", "yes".
/// "copper" and "aluminum" stand for "cu" and "al" where those are the words.
/// Errors  a single fault: what was wrong, and what would be right. A unit that converts is converted.
[[nodiscard]] base::Checked<FactValue> parse_fact(const FactSpec& spec, std::string_view text);

/// Facts from a JSON object. Values may be written as JSON has them (numbers, true, lists of {size, count}) or as text
/// the way they are typed. Members in `beside` belong to somebody else and are passed over.
/// Errors  go to the reader's faults: unknown names with the nearest known one, wrong kinds, units and ranges.
[[nodiscard]] Facts read_facts(const std::vector<FactSpec>& specs, const base::Reader& object,
                               const std::vector<std::string>& beside);

/// "whole number, 1 to 100", "ft, 0 to 10000", "cu or al": what a fact may be, for help and errors.
[[nodiscard]] std::string range_text(const FactSpec& spec);
/// "--pass-through" for "pass_through".
[[nodiscard]] std::string flag_name(std::string_view fact);
/// A value the way it is typed: "4x12, 2x14".
[[nodiscard]] std::string to_text(const FactValue& value);

}  // namespace trade
