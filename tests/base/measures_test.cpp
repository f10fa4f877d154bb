#include "base/measures.hpp"

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "base/text.hpp"

namespace {

/// Every measure of a text as "value unit".
std::string told(const std::string& text) {
    std::vector<std::string> all;
    for (const auto& one : base::measures_in(text)) all.push_back(base::to_text(one.quantity));
    return base::join(all, ", ");
}

}  // namespace

TEST_CASE("measures: numbers with their units, as people write them") {
    CHECK(told("Staple within 12 in of a box and every 4-1/2 ft.") == "12 in, 4.5 ft");
    CHECK(told("1/2 in, 1 1/4 in and 2.25 in3") == "0.5 in, 1.25 in, 2.25 in3");
    CHECK(told("at 80 % or 125% of 1,500 VA") == "80%, 125%, 1500 VA");
    CHECK(told("9 sq ft, 18 square feet, 6.5 cu in") == "9 ft2, 18 ft2, 6.5 in3");
    CHECK(told("a 20-A circuit at 7,200 VA") == "20 A, 7200 VA");
    CHECK(told("86 F is 30 C; 25 in-lb; 2 kVA") == "86 F, 30 C, 25 in-lb, 2 kVA");
}

TEST_CASE("measures: a unit at the end serves every number of a list") {
    CHECK(told("15 and 20 A receptacles") == "15 A, 20 A");
    CHECK(told("circuits of 10, 15 or 20 A at 120/240 V") == "10 A, 15 A, 20 A, 120 V, 240 V");
    CHECK(told("opens at 4 to 6 mA on 208Y/120 V") == "4 mA, 6 mA, 208 V, 120 V");
    CHECK(told("15- and 20-A devices, a box of 4 by 4 in") == "15 A, 20 A, 4 in, 4 in");
    CHECK(told("the 3 men carry 20 lb") == "20 lb");
}

TEST_CASE("measures: wire sizes, feet and inches") {
    CHECK(told("12 AWG, 4/0 AWG and 250 kcmil") == "12 AWG, -3 AWG, 250 kcmil");
    CHECK(told("from 1/0 up") == "0 AWG");
    CHECK(told("no higher than 6 ft 7 in above the floor") == "79 in");
}

TEST_CASE("measures: references, years and the little word are no measures") {
    CHECK(told("see 210.8(A)(2) and 314.16 in the book").empty());
    CHECK(told("GFCI came to 210.8 in 2017, and 15 in this edition").empty());
    CHECK(told("the 600s, and 9 pieces of them").empty());
    CHECK(told("type SJT, cat6, 12-2 cable, 3 wires, 2 a side").empty());
    CHECK(told("").empty());
}

TEST_CASE("measures: what is written comes back, whatever the number") {
    base::Random random{7};
    for (int i = 0; i < 2000; ++i) {
        const int whole = static_cast<int>(random.below(500)) + 1;
        const int eighths = static_cast<int>(random.below(8));
        std::string text = std::to_string(whole);
        if (eighths > 0) text += "-" + std::to_string(eighths) + "/8";
        const auto found = base::measures_in("Cut it to " + text + " in. and go on.");
        REQUIRE(found.size() == 1);
        CHECK(found.front().quantity.value == doctest::Approx(whole + eighths / 8.0));
        CHECK(found.front().quantity.unit == base::Unit::in);
    }
}

TEST_CASE("measures: plain numbers, in figures and in words") {
    CHECK(base::numbers_in("two wires of 12 AWG in 3 boxes") == std::vector<double>{12, 3, 2});
    CHECK(base::same_amount({3, base::Unit::ft}, {36, base::Unit::in}));
    CHECK(base::same_amount({1.5, base::Unit::kilowatt}, {1500, base::Unit::watt}));
    CHECK_FALSE(base::same_amount({3, base::Unit::ft}, {35.9, base::Unit::in}));
    CHECK_FALSE(base::same_amount({20, base::Unit::amp}, {20, base::Unit::volt}));
}
