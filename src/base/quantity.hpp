#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace base {

/// Units that answers come in. `count` is a plain number; `awg` is a wire size, where smaller means thicker.
enum class Unit : std::uint8_t {
    count,
    in,
    ft,
    in2,
    in3,
    ft2,
    amp,
    milliamp,
    volt,
    voltamp,
    watt,
    kilowatt,
    ohm,
    percent,
    lb,
    hour,
    minute,
    second,
    awg,
    kcmil,
    cmil,
    horsepower,
    celsius,
    fahrenheit,
    kilovoltamp,
    watthour,
    kilowatthour,
    inch_pound,
    foot_pound
};

/// The spelling used in content files: "in3", "mA", "%".
[[nodiscard]] std::string_view symbol(Unit unit);
/// The spelling used for people: "cubic inches", "inches".
[[nodiscard]] std::string_view spoken(Unit unit);
[[nodiscard]] std::optional<Unit> parse_unit(std::string_view text);

struct Quantity {
    double value = 0.0;
    Unit unit = Unit::count;

    friend bool operator==(const Quantity&, const Quantity&) = default;
};

/// "18 in3"; a count has no unit.
[[nodiscard]] std::string to_text(const Quantity& quantity);

/// What a person typed where a number is wanted.
struct Typed {
    double value = 0.0;
    std::optional<Unit> unit;  ///< empty when none was typed
};

/// Reads "18", "18.0 cu in", "1-1/4 in", "1 1/4\"", "4 ft", "4'", ".5", "20A", "12 AWG", "1,200 VA".
/// Nothing when the text is not a number with at most one unit.
[[nodiscard]] std::optional<Typed> parse_typed_quantity(std::string_view text);

/// The same amount in another unit, where that makes sense (feet and inches, amperes and milliamperes, ...).
[[nodiscard]] std::optional<double> convert(double value, Unit from, Unit to);

}  // namespace base
