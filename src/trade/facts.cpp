#include "trade/facts.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/text.hpp"

namespace trade {
namespace {

using base::number_text;

std::vector<std::string> choices_of(const FactSpec& spec) {
    return base::split(spec.choices, '|');
}

tl::unexpected<base::Faults> refuse(const FactSpec& spec, std::string_view text, const std::string& mend) {
    return base::refuse("\"" + std::string{spec.name} + "\" cannot be '" + std::string{text} + "'", mend);
}

base::Checked<double> in_range(const FactSpec& spec, double value) {
    const bool fits = std::isfinite(value) && value >= spec.least && value <= spec.most &&
                      (!spec.whole || value == std::floor(value));
    if (fits) return value;
    return refuse(spec, number_text(value), "give a " + range_text(spec));
}

/// A unit that nothing here is measured in, and what one of it is; `offset` is added to the number first.
struct Foreign {
    std::string_view unit;
    double offset = 0.0, factor = 1.0;
    base::Unit ours = base::Unit::count;
};

constexpr std::array<Foreign, 7> kForeign = {{{"m", 0.0, 1.0 / 0.3048, base::Unit::ft},
                                              {"cm", 0.0, 1.0 / 2.54, base::Unit::in},
                                              {"mm", 0.0, 1.0 / 25.4, base::Unit::in},
                                              {"yd", 0.0, 3.0, base::Unit::ft},
                                              {"f", -32.0, 5.0 / 9.0, base::Unit::celsius},
                                              {"kv", 0.0, 1000.0, base::Unit::volt},
                                              {"ka", 0.0, 1000.0, base::Unit::amp}}};

/// What a number with a foreign unit comes to in the unit of a fact; nothing where that makes no sense.
std::optional<double> from_foreign(const FactSpec& spec, std::string_view text) {
    const auto letter = text.find_first_not_of("0123456789.,- ");
    const auto number = base::parse_typed_quantity(text.substr(0, letter));
    if (letter == std::string_view::npos || !number || number->unit) return std::nullopt;
    const auto* known = std::ranges::find(kForeign, base::lower(base::trim(text.substr(letter))), &Foreign::unit);
    if (known == kForeign.end()) return std::nullopt;
    return base::convert((number->value + known->offset) * known->factor, known->ours, spec.unit);
}

/// "it is measured in ft: 42 m is 137.8 ft"; else what the fact may be.
std::string mend_for_number(const FactSpec& spec, std::string_view text) {
    const auto ours = from_foreign(spec, text);
    if (!ours) return "give a " + range_text(spec);
    const std::string unit{base::symbol(spec.unit)};
    return "it is measured in " + unit + ": " + std::string{text} + " is " + number_text(*ours, 1) + " " + unit;
}

base::Checked<double> parse_number(const FactSpec& spec, std::string_view text) {
    const auto typed = base::parse_typed_quantity(text);
    if (!typed) return refuse(spec, text, mend_for_number(spec, text));
    if (!typed->unit) return in_range(spec, typed->value);
    const auto converted = base::convert(typed->value, *typed->unit, spec.unit);
    // Degrees have no zero in common: told what they come to, never turned over in silence.
    if (typed->unit == base::Unit::fahrenheit) return refuse(spec, text, mend_for_number(spec, text));
    if (!converted)
        return refuse(spec, text,
                      spec.unit == base::Unit::count ? "it is a plain number"
                                                     : "it is measured in " + std::string{base::symbol(spec.unit)});
    return in_range(spec, *converted);
}

base::Checked<FactValue> parse_flag(const FactSpec& spec, std::string_view text) {
    const std::string small = base::lower(text);
    if (small == "yes" || small == "true" || small == "1") return FactValue{true};
    if (small == "no" || small == "false" || small == "0") return FactValue{false};
    return refuse(spec, text, "say yes or no");
}

base::Checked<FactValue> parse_choice(const FactSpec& spec, std::string_view text) {
    std::string word = base::lower(text);
    std::replace(word.begin(), word.end(), ' ', '-');
    std::replace(word.begin(), word.end(), '_', '-');
    const auto known = choices_of(spec);
    const auto is_known = [&](std::string_view one) { return std::ranges::find(known, one) != known.end(); };
    if (is_known(word)) return FactValue{word};
    const std::string_view metal = word == "copper"                            ? "cu"
                                   : word == "aluminum" || word == "aluminium" ? "al"
                                                                               : std::string_view{};
    if (is_known(metal)) return FactValue{std::string{metal}};
    const auto near = base::nearest(word, known);
    return refuse(spec, text, near ? "did you mean '" + *near + "'?" : "it is one of " + base::join(known, ", "));
}

constexpr int kMostItems = 1000;

/// "4x12", "4 x 12 AWG", "1x6@2": a count, a size, and for devices the gangs.
std::optional<Item> parse_item(std::string_view text, bool devices) {
    const auto cross = text.find_first_of("xX*");
    if (cross == std::string_view::npos) return std::nullopt;
    std::string_view rest = text.substr(cross + 1);
    Item item;
    const auto gangs_at = rest.find('@');
    if (gangs_at != std::string_view::npos) {
        const auto gangs = base::parse_typed_quantity(rest.substr(gangs_at + 1));
        if (!devices || !gangs || gangs->unit || gangs->value < 1 || gangs->value != std::floor(gangs->value) ||
            gangs->value > kMostItems)
            return std::nullopt;
        item.gangs = static_cast<int>(gangs->value);
        rest = rest.substr(0, gangs_at);
    }
    const auto count = base::parse_typed_quantity(text.substr(0, cross));
    const auto size = parse_size(rest);
    if (!count || count->unit || !size) return std::nullopt;
    if (count->value < 0 || count->value != std::floor(count->value) || count->value > kMostItems) return std::nullopt;
    item.count = static_cast<int>(count->value);
    item.size = *size;
    return item;
}

base::Checked<FactValue> parse_items(const FactSpec& spec, std::string_view text) {
    std::vector<Item> items;
    if (base::lower(text) == "none") return FactValue{std::move(items)};
    for (const auto& part : base::split(text, ',')) {
        if (base::trim(part).empty()) continue;
        const auto item = parse_item(base::trim(part), spec.kind == FactKind::devices);
        if (!item) return refuse(spec, part, "give a " + range_text(spec));
        items.push_back(*item);
    }
    // A list left empty by oversight is not the same as none.
    if (items.empty()) return refuse(spec, text, "say none, or give a " + range_text(spec));
    return FactValue{std::move(items)};
}

base::Checked<FactValue> parse_numbers(const FactSpec& spec, std::string_view text) {
    std::vector<double> numbers;
    for (const auto& part : base::split(text, ',')) {
        auto number = parse_number(spec, base::trim(part));
        if (!number) return tl::unexpected<base::Faults>{number.error()};
        numbers.push_back(*number);
    }
    return FactValue{std::move(numbers)};
}

void note(const base::Reader& reader, const base::Faults& faults) {
    for (const auto& fault : faults) reader.fault(fault.what, fault.mend);
}

int read_count(const base::Reader& reader, std::string_view key, int least) {
    const double value = reader.number_or(key, 1);
    if (value >= least && value <= kMostItems && value == std::floor(value)) return static_cast<int>(value);
    reader.fault("\"" + std::string{key} + "\" should be a whole number from " + std::to_string(least) + " to " +
                     std::to_string(kMostItems),
                 "write a whole number");
    return 1;
}

std::string size_text(const base::Reader& reader) {
    if (std::holds_alternative<double>(reader.node().value)) return number_text(reader.as_number());
    return reader.as_text();
}

std::optional<Item> read_item(const FactSpec& spec, const base::Reader& reader) {
    if (std::holds_alternative<std::string>(reader.node().value)) {
        auto item = parse_item(reader.as_text(), spec.kind == FactKind::devices);
        if (!item) reader.fault("'" + reader.as_text() + "' says no count and size", "write it like 4x12");
        return item;
    }
    if (spec.kind == FactKind::devices)
        reader.only({"size", "count", "gangs"});
    else
        reader.only({"size", "count"});
    const std::string text = size_text(reader.member("size"));
    const auto size = parse_size(text);
    if (!size) {
        reader.fault("'" + text + "' is no conductor size", "write it like 12, 1/0 or 250");
        return std::nullopt;
    }
    return Item{*size, read_count(reader, "count", 0), read_count(reader, "gangs", 1)};
}

using Found = std::optional<FactValue>;

Found read_items(const FactSpec& spec, const std::vector<base::Reader>& readers) {
    std::vector<Item> items;
    for (const auto& reader : readers)
        if (const auto item = read_item(spec, reader)) items.push_back(*item);
    return FactValue{std::move(items)};
}

Found read_numbers(const FactSpec& spec, const std::vector<base::Reader>& readers) {
    std::vector<double> numbers;
    for (const auto& reader : readers) {
        const auto number = std::holds_alternative<std::string>(reader.node().value)
                                ? parse_number(spec, reader.as_text())
                                : in_range(spec, reader.as_number());
        if (number)
            numbers.push_back(*number);
        else
            note(reader, number.error());
    }
    return FactValue{std::move(numbers)};
}

Found read_plain(const FactSpec& spec, const base::Reader& reader) {
    const auto& value = reader.node().value;
    base::Checked<FactValue> found;
    if (const auto* number = std::get_if<double>(&value)) {
        if (spec.kind == FactKind::number) {
            const auto fits = in_range(spec, *number);
            if (fits) return FactValue{*fits};
            note(reader, fits.error());
            return std::nullopt;
        }
        found = parse_fact(spec, number_text(*number));
    } else if (const auto* flag = std::get_if<bool>(&value)) {
        if (spec.kind == FactKind::flag) return FactValue{*flag};
        found = refuse(spec, *flag ? "true" : "false", "give a " + range_text(spec));
    } else {
        found = parse_fact(spec, reader.as_text());
    }
    if (found) return *found;
    note(reader, found.error());
    return std::nullopt;
}

Found read_fact(const FactSpec& spec, const base::Reader& object) {
    const base::Reader reader = object.member(spec.name);
    const auto& value = reader.node().value;
    const bool list = std::holds_alternative<base::Located::List>(value);
    const bool several = spec.kind == FactKind::wires || spec.kind == FactKind::devices;
    if (list && several) return read_items(spec, object.items(spec.name));
    if (list && spec.kind == FactKind::numbers) return read_numbers(spec, object.items(spec.name));
    if (several && std::holds_alternative<base::Located::Members>(value)) return read_items(spec, {reader});
    if (std::holds_alternative<std::string>(value) || std::holds_alternative<double>(value) ||
        std::holds_alternative<bool>(value))
        return read_plain(spec, reader);
    reader.fault("\"" + std::string{spec.name} + "\" cannot be " + std::string{reader.node().kind()},
                 "give a " + range_text(spec));
    return std::nullopt;
}

void check_names(const std::vector<FactSpec>& specs, const base::Reader& object,
                 const std::vector<std::string>& beside) {
    std::vector<std::string> known = beside;
    for (const auto& spec : specs) known.emplace_back(spec.name);
    for (const auto& [name, value] : object.members()) {
        if (std::find(known.begin(), known.end(), name) != known.end()) continue;
        const auto near = base::nearest(name, known);
        value.fault("there is no fact '" + name + "'",
                    near ? "did you mean '" + *near + "'?" : "known here: " + base::join(known, ", "));
    }
}

template <class T>
const T* get(const Facts& facts, std::string_view name) {
    const auto* value = facts.find(name);
    return value == nullptr ? nullptr : std::get_if<T>(value);
}

template <class T>
std::optional<T> copy(const T* value) {
    return value == nullptr ? std::nullopt : std::optional<T>{*value};
}

}  // namespace

void Facts::set(std::string_view name, FactValue value) {
    for (auto& [known, held] : values_) {
        if (known != name) continue;
        held = std::move(value);
        return;
    }
    values_.emplace_back(std::string{name}, std::move(value));
}

void Facts::remove(std::string_view name) {
    std::erase_if(values_, [&](const auto& held) { return held.first == name; });
}

const FactValue* Facts::find(std::string_view name) const {
    const auto found = std::find_if(values_.begin(), values_.end(), [&](const auto& v) { return v.first == name; });
    return found == values_.end() ? nullptr : &found->second;
}

std::optional<double> Facts::number(std::string_view name) const {
    return copy(get<double>(*this, name));
}
std::optional<bool> Facts::flag(std::string_view name) const {
    return copy(get<bool>(*this, name));
}
std::optional<Size> Facts::size(std::string_view name) const {
    return copy(get<Size>(*this, name));
}
std::string_view Facts::choice(std::string_view name) const {
    const auto* word = get<std::string>(*this, name);
    return word == nullptr ? std::string_view{} : std::string_view{*word};
}
const std::vector<Item>* Facts::items(std::string_view name) const {
    return get<std::vector<Item>>(*this, name);
}
const std::vector<double>* Facts::numbers(std::string_view name) const {
    return get<std::vector<double>>(*this, name);
}

base::Checked<FactValue> parse_fact(const FactSpec& spec, std::string_view typed) {
    const std::string_view text = base::trim(typed);
    switch (spec.kind) {
        case FactKind::number: {
            auto number = parse_number(spec, text);
            if (!number) return tl::unexpected<base::Faults>{number.error()};
            return FactValue{*number};
        }
        case FactKind::flag:
            return parse_flag(spec, text);
        case FactKind::choice:
            return parse_choice(spec, text);
        case FactKind::word:
            return FactValue{std::string{text}};
        case FactKind::size: {
            const auto size = parse_size(text);
            if (!size) return refuse(spec, text, "give a " + range_text(spec));
            return FactValue{*size};
        }
        case FactKind::wires:
        case FactKind::devices:
            return parse_items(spec, text);
        case FactKind::numbers:
            return parse_numbers(spec, text);
    }
    return refuse(spec, text, "");
}

Facts read_facts(const std::vector<FactSpec>& specs, const base::Reader& object,
                 const std::vector<std::string>& beside) {
    check_names(specs, object, beside);
    Facts facts;
    for (const auto& spec : specs) {
        if (!object.has(spec.name)) continue;
        if (auto value = read_fact(spec, object)) facts.set(spec.name, std::move(*value));
    }
    return facts;
}

std::string range_text(const FactSpec& spec) {
    switch (spec.kind) {
        case FactKind::flag:
            return "yes or no";
        case FactKind::choice:
            return base::join(choices_of(spec), ", ");
        case FactKind::word:
            return "name";
        case FactKind::size:
            return "conductor size such as 12, 1/0 or 250";
        case FactKind::wires:
            return "list such as 4x12, 2x14 (count x size)";
        case FactKind::devices:
            return "list such as 1x12, or 1x6@2 for a device two gangs wide";
        case FactKind::number:
        case FactKind::numbers:
            break;
    }
    std::string text = spec.whole ? "whole number" : "number";
    if (spec.kind == FactKind::numbers) text = "list of numbers";
    if (spec.unit != base::Unit::count) text += " of " + std::string{base::symbol(spec.unit)};
    return text + ", " + number_text(spec.least) + " to " + number_text(spec.most);
}

std::string flag_name(std::string_view fact) {
    std::string name = "--" + std::string{fact};
    std::replace(name.begin(), name.end(), '_', '-');
    return name;
}

std::string to_text(const FactValue& value) {
    struct Writer {
        std::string operator()(double number) const { return number_text(number); }
        std::string operator()(bool flag) const { return flag ? "yes" : "no"; }
        std::string operator()(const std::string& word) const { return word; }
        std::string operator()(Size size) const { return std::string{name_of(size)}; }
        std::string operator()(const std::vector<Item>& items) const {
            std::vector<std::string> parts;
            for (const auto& item : items)
                parts.push_back(std::to_string(item.count) + "x" + std::string{name_of(item.size)} +
                                (item.gangs > 1 ? "@" + std::to_string(item.gangs) : ""));
            return parts.empty() ? "none" : base::join(parts, ", ");
        }
        std::string operator()(const std::vector<double>& numbers) const {
            std::vector<std::string> parts;
            for (const double number : numbers) parts.push_back(number_text(number));
            return base::join(parts, ", ");
        }
    };
    return std::visit(Writer{}, value);
}

}  // namespace trade
