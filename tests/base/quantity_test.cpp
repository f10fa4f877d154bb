#include "base/quantity.hpp"

#include <vector>

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "base/text.hpp"

namespace {

using base::Unit;

constexpr Unit kAll[] = {Unit::count,    Unit::in,   Unit::ft,      Unit::in3,    Unit::ft2,      Unit::amp,
                         Unit::milliamp, Unit::volt, Unit::voltamp, Unit::watt,   Unit::kilowatt, Unit::ohm,
                         Unit::percent,  Unit::lb,   Unit::hour,    Unit::minute, Unit::second,   Unit::awg};

}  // namespace

TEST_CASE("quantity: what people type is read") {
    struct Row {
        std::string text;
        double value;
        std::optional<Unit> unit;
    };
    const std::vector<Row> rows = {
        {"18", 18, {}},
        {" 18.0 ", 18, {}},
        {".5", 0.5, {}},
        {"18.0 cu in", 18, Unit::in3},
        {"18 cu. in.", 18, Unit::in3},
        {"18in\xC2\xB3", 18, Unit::in3},
        {"18 IN3", 18, Unit::in3},
        {"1-1/4 in", 1.25, Unit::in},
        {"1 1/4\"", 1.25, Unit::in},
        {"1 1/4''", 1.25, Unit::in},
        {"3/4", 0.75, {}},
        {"3/4 inch", 0.75, Unit::in},
        {"6-in", 6, Unit::in},
        {"4 ft", 4, Unit::ft},
        {"4'", 4, Unit::ft},
        {"20A", 20, Unit::amp},
        {"20 Amps", 20, Unit::amp},
        {"5 mA", 5, Unit::milliamp},
        {"5 milliamps", 5, Unit::milliamp},
        {"12 AWG", 12, Unit::awg},
        {"#12", 12, {}},
        {"12 ga", 12, Unit::awg},
        {"1,200 VA", 1200, Unit::voltamp},
        {"1,234,567 W", 1234567, Unit::watt},
        {"2.5 kW", 2.5, Unit::kilowatt},
        {"3 %", 3, Unit::percent},
        {"3 percent", 3, Unit::percent},
        {"25 \xCE\xA9", 25, Unit::ohm},
        {"50 lbs", 50, Unit::lb},
        {"120 V", 120, Unit::volt},
        {"9 sq ft", 9, Unit::ft2},
        {"3 hours", 3, Unit::hour},
        {"7 count", 7, Unit::count},
    };
    for (const auto& row : rows) {
        CAPTURE(row.text);
        const auto typed = base::parse_typed_quantity(row.text);
        REQUIRE(typed.has_value());
        CHECK(typed->value == doctest::Approx(row.value).epsilon(1e-12));
        CHECK(typed->unit == row.unit);
    }
}

TEST_CASE("quantity: what is no number with at most one unit is refused") {
    for (const std::string_view bad :
         {"",         " ",     "b",     "in",       "in 18", "18 furlongs",      "18 in in", "1/0",
          "1 1/0 in", "1/2/3", "1.2.3", "12,5",     "1,20",  "1,2000",           "1,200,0",  ",200",
          "10-2",     "1e5",   "inf",   "infinity", "nan",   "18 in3 or 20 in3", "0x12",     "--5",
          "#"}) {
        CAPTURE(bad);
        CHECK_FALSE(base::parse_typed_quantity(bad).has_value());
    }
}

TEST_CASE("quantity: every unit is read by its symbol and by its spoken name") {
    for (const Unit unit : kAll) {
        CAPTURE(base::symbol(unit));
        CHECK(base::parse_unit(base::symbol(unit)) == unit);
        if (!base::spoken(unit).empty()) CHECK(base::parse_unit(base::spoken(unit)) == unit);
    }
    for (const std::string_view none : {"", " ", "furlong", "|", "in|"})
        CHECK_FALSE(base::parse_unit(none).has_value());
}

TEST_CASE("quantity: property: what is written is read back") {
    base::Random random{21};
    for (int i = 0; i < 2000; ++i) {
        const base::Quantity given{static_cast<double>(random.below(100'000)) / 16.0, kAll[random.below(18)]};
        const std::string text = base::to_text(given);
        CAPTURE(text);
        const auto typed = base::parse_typed_quantity(text);
        REQUIRE(typed.has_value());
        CHECK(typed->value == given.value);
        CHECK(typed->unit.value_or(Unit::count) == given.unit);
    }
}

TEST_CASE("quantity: property: fractions are read as their quotient") {
    for (int whole = 0; whole <= 12; ++whole)
        for (int below = 2; below <= 16; ++below)
            for (int above = 1; above < below; ++above) {
                const std::string part = std::to_string(above) + "/" + std::to_string(below);
                const std::string text = whole == 0 ? part : std::to_string(whole) + "-" + part;
                const auto typed = base::parse_typed_quantity(text + " in");
                REQUIRE_MESSAGE(typed.has_value(), text);
                CHECK(typed->value == doctest::Approx(whole + static_cast<double>(above) / below).epsilon(1e-12));
            }
}

TEST_CASE("quantity: conversions by table, both ways") {
    struct Row {
        double value;
        Unit from;
        double same;
        Unit to;
    };
    const std::vector<Row> rows = {{2, Unit::ft, 24, Unit::in},
                                   {0.005, Unit::amp, 5, Unit::milliamp},
                                   {1.5, Unit::kilowatt, 1500, Unit::watt},
                                   {2, Unit::hour, 120, Unit::minute},
                                   {3, Unit::minute, 180, Unit::second},
                                   {7, Unit::awg, 7, Unit::awg}};
    for (const auto& row : rows) {
        CHECK(base::convert(row.value, row.from, row.to).value() == doctest::Approx(row.same));
        CHECK(base::convert(row.same, row.to, row.from).value() == doctest::Approx(row.value));
    }
}

TEST_CASE("quantity: what is not of one kind is not converted") {
    CHECK_FALSE(base::convert(1, Unit::in, Unit::in3).has_value());
    CHECK_FALSE(base::convert(1, Unit::watt, Unit::voltamp).has_value());
    CHECK_FALSE(base::convert(1, Unit::count, Unit::awg).has_value());
    CHECK_FALSE(base::convert(1, Unit::ft2, Unit::ft).has_value());
}
