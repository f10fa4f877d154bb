#include "base/quantity.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "base/text.hpp"

namespace base {
namespace {

struct UnitRow {
    Unit unit;
    std::string_view symbol, spoken;
    std::string_view also;  // other spellings, small letters, separated by '|'
    Unit root;              // convertible units share a root
    double in_root;
};

constexpr std::array kUnits = {
    UnitRow{Unit::count, "count", "", "pieces|pcs", Unit::count, 1},
    UnitRow{Unit::in, "in", "inches", "in.|inch|inches|\"|''", Unit::in, 1},
    UnitRow{Unit::ft, "ft", "feet", "ft.|foot|feet|'", Unit::in, 12},
    UnitRow{Unit::in2, "in2", "square inches", "in^2|in\xC2\xB2|sq in|sq. in.|square inches|square inch", Unit::in2, 1},
    UnitRow{Unit::in3, "in3", "cubic inches",
            "in^3|in\xC2\xB3|cu in|cu. in.|cu.in.|cu in.|cu. in|cubic inches|cubic inch|cubic in|ci", Unit::in3, 1},
    UnitRow{Unit::ft2, "ft2", "square feet", "ft^2|ft\xC2\xB2|sq ft|sq. ft.|sq. ft|square feet|square foot|sf",
            Unit::ft2, 1},
    UnitRow{Unit::amp, "A", "amperes", "a|amp|amps|ampere|amperes", Unit::amp, 1},
    UnitRow{Unit::milliamp, "mA", "milliamperes", "ma|milliamp|milliamps|milliamperes", Unit::amp, 0.001},
    UnitRow{Unit::volt, "V", "volts", "v|volt|volts", Unit::volt, 1},
    UnitRow{Unit::voltamp, "VA", "volt-amperes", "va|volt-amperes|volt-amps|voltamps", Unit::voltamp, 1},
    UnitRow{Unit::watt, "W", "watts", "w|watt|watts", Unit::watt, 1},
    UnitRow{Unit::kilowatt, "kW", "kilowatts", "kw|kilowatt|kilowatts", Unit::watt, 1000},
    UnitRow{Unit::ohm, "ohm", "ohms", "ohm|ohms|\xCE\xA9|\xE2\x84\xA6", Unit::ohm, 1},
    UnitRow{Unit::percent, "%", "percent", "percent|pct|per cent", Unit::percent, 1},
    UnitRow{Unit::lb, "lb", "pounds", "lb.|lbs|pound|pounds", Unit::lb, 1},
    UnitRow{Unit::hour, "h", "hours", "hr|hrs|hour|hours", Unit::second, 3600},
    UnitRow{Unit::minute, "min", "minutes", "minute|minutes|mins", Unit::second, 60},
    UnitRow{Unit::second, "s", "seconds", "sec|secs|second|seconds", Unit::second, 1},
    UnitRow{Unit::awg, "AWG", "AWG", "awg|ga|gauge|gage", Unit::awg, 1},
    UnitRow{Unit::kcmil, "kcmil", "thousand circular mils", "mcm", Unit::cmil, 1000},
    UnitRow{Unit::cmil, "cmil", "circular mils", "circular mils", Unit::cmil, 1},
    UnitRow{Unit::horsepower, "hp", "horsepower", "horsepower", Unit::horsepower, 1},
    UnitRow{Unit::celsius, "C", "degrees Celsius",
            "\xC2\xB0"
            "c|degrees celsius",
            Unit::celsius, 1},
    // No zero in common with Celsius, so no conversion by a factor.
    UnitRow{Unit::fahrenheit, "F", "degrees Fahrenheit",
            "\xC2\xB0"
            "f|degrees fahrenheit",
            Unit::fahrenheit, 1},
    UnitRow{Unit::kilovoltamp, "kVA", "kilovolt-amperes", "kva|kilovolt-amperes", Unit::voltamp, 1000},
    UnitRow{Unit::watthour, "Wh", "watt-hours", "wh|watt-hours", Unit::watthour, 1},
    UnitRow{Unit::kilowatthour, "kWh", "kilowatt-hours", "kwh|kilowatt-hours", Unit::watthour, 1000},
    UnitRow{Unit::inch_pound, "in-lb", "inch-pounds", "in-lb|in-lbs|in lb|inch-pounds|inch pounds", Unit::inch_pound,
            1},
    UnitRow{Unit::foot_pound, "ft-lb", "foot-pounds", "ft-lb|ft-lbs|ft lb|foot-pounds|foot pounds", Unit::inch_pound,
            12},
};

const UnitRow& row_of(Unit unit) {
    return *std::find_if(kUnits.begin(), kUnits.end(), [unit](const UnitRow& r) { return r.unit == unit; });
}

bool spelled(const UnitRow& row, std::string_view text) {
    if (text == row.symbol || lower(row.symbol) == text) return true;
    const auto also = split(row.also, '|');
    return std::find(also.begin(), also.end(), text) != also.end();
}

std::optional<double> take_decimal(std::string_view& text) {
    double value = 0.0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed);
    // "inf" and "nan" would be read as numbers.
    if (error != std::errc{} || !std::isfinite(value)) return std::nullopt;
    text.remove_prefix(static_cast<std::size_t>(end - text.data()));
    return value;
}

/// "/4" after a number makes it a fraction; a zero below the line is refused.
std::optional<double> take_fraction(std::string_view& text, double above) {
    if (text.empty() || text.front() != '/') return above;
    text.remove_prefix(1);
    const auto below = take_decimal(text);
    if (!below || *below == 0.0) return std::nullopt;
    return above / *below;
}

/// "1-1/4" and "1 1/4": a whole number followed by a fraction.
std::optional<double> take_mixed(std::string_view& text) {
    const auto first = take_decimal(text);
    if (!first) return std::nullopt;
    std::string_view ahead = text;
    if (!ahead.empty() && (ahead.front() == '-' || ahead.front() == ' ')) {
        ahead.remove_prefix(1);
        const auto above = take_decimal(ahead);
        if (above && *above >= 0.0 && !ahead.empty() && ahead.front() == '/') {
            const auto part = take_fraction(ahead, *above);
            if (!part) return std::nullopt;
            text = ahead;
            return *first + *part;
        }
    }
    return take_fraction(text, *first);
}

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

/// True for a comma between a digit and a group of exactly three.
bool groups_thousands(std::string_view text, std::size_t at) {
    if (text[at] != ',' || at == 0 || !is_digit(text[at - 1])) return false;
    const std::string_view after = text.substr(at + 1);
    const auto digits = std::find_if_not(after.begin(), after.end(), is_digit) - after.begin();
    return digits == 3;
}

/// Commas that group thousands are dropped; any other comma stays and spoils the number.
std::string without_grouping(std::string_view text) {
    std::string plain;
    for (std::size_t i = 0; i < text.size(); ++i)
        if (!groups_thousands(text, i)) plain += text[i];
    return plain;
}

}  // namespace

std::string_view symbol(Unit unit) {
    return row_of(unit).symbol;
}
std::string_view spoken(Unit unit) {
    return row_of(unit).spoken;
}

std::optional<Unit> parse_unit(std::string_view text) {
    for (const auto& row : kUnits)
        if (text == row.symbol) return row.unit;
    const std::string small = lower(text);
    for (const auto& row : kUnits)
        if (spelled(row, small)) return row.unit;
    return std::nullopt;
}

std::string to_text(const Quantity& quantity) {
    std::string number = number_text(quantity.value);
    if (quantity.unit == Unit::count) return number;
    if (quantity.unit == Unit::percent) return number + "%";
    return number + " " + std::string{symbol(quantity.unit)};
}

std::optional<Typed> parse_typed_quantity(std::string_view text) {
    const std::string plain = without_grouping(trim(text));
    std::string_view rest = plain;
    if (!rest.empty() && rest.front() == '#') rest.remove_prefix(1);
    const auto value = take_mixed(rest);
    if (!value) return std::nullopt;
    rest = trim(rest);
    while (!rest.empty() && rest.front() == '-') rest.remove_prefix(1);
    if (rest.empty()) return Typed{*value, std::nullopt};
    const auto unit = parse_unit(rest);
    if (!unit) return std::nullopt;
    return Typed{*value, unit};
}

std::optional<double> convert(double value, Unit from, Unit to) {
    const UnitRow& a = row_of(from);
    const UnitRow& b = row_of(to);
    if (a.root != b.root) return std::nullopt;
    return from == to ? value : value * a.in_root / b.in_root;
}

}  // namespace base
