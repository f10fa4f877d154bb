#include "trade/wire.hpp"

#include <doctest/doctest.h>

namespace {

using trade::Size;

}  // namespace

TEST_CASE("wire: every size is read back from its name and from its text, in every spelling of its unit") {
    for (std::size_t i = 0; i < trade::kSizes; ++i) {
        const Size size = trade::size_at(i);
        const std::string name{name_of(size)};
        CAPTURE(name);
        CHECK(trade::parse_size(name) == size);
        CHECK(trade::parse_size(to_text(size)) == size);
        CHECK(trade::parse_size(" #" + name + " ") == size);
        if (size < Size::k250) {
            CHECK(trade::parse_size(name + "AWG") == size);
            CHECK(trade::parse_size(name + " awg") == size);
        } else {
            CHECK(trade::parse_size(name + " MCM") == size);
            CHECK(trade::parse_size(name + "kcmil") == size);
        }
    }
}

TEST_CASE("wire: sizes run from thin to thick and carry the unit people use") {
    CHECK(to_text(Size::awg12) == "12 AWG");
    CHECK(to_text(Size::awg3_0) == "3/0 AWG");
    CHECK(to_text(Size::k250) == "250 kcmil");
    CHECK(to_text(Size::k2000) == "2000 kcmil");
    CHECK(Size::awg18 < Size::awg14);
    CHECK(Size::awg1 < Size::awg1_0);
    CHECK(Size::awg4_0 < Size::k250);
    CHECK(index_of(Size::k2000) + 1 == trade::kSizes);
}

TEST_CASE("wire: a size with the unit of another kind of size is a slip and is refused") {
    for (std::size_t i = 0; i < trade::kSizes; ++i) {
        const Size size = trade::size_at(i);
        const std::string name{name_of(size)};
        CAPTURE(name);
        CHECK_FALSE(trade::parse_size(name + (size < Size::k250 ? " kcmil" : " AWG")).has_value());
    }
}

TEST_CASE("wire: what is no size is not taken for the nearest one") {
    for (const char* text : {"", "awg", "#", "13", "5", "0", "5/0", "1 / 0", "225", "12.0", "-12", "12 ft", "12 AWG 2"})
        CHECK_MESSAGE(!trade::parse_size(text), text);
}

TEST_CASE("wire: materials by symbol and by name") {
    CHECK(trade::parse_material(" Copper ") == trade::Material::cu);
    CHECK(trade::parse_material("CU") == trade::Material::cu);
    CHECK(trade::parse_material("al") == trade::Material::al);
    CHECK(trade::parse_material("aluminum") == trade::Material::al);
    CHECK(trade::parse_material(to_text(trade::Material::al)) == trade::Material::al);
    CHECK_FALSE(trade::parse_material("brass").has_value());
    CHECK_FALSE(trade::parse_material("").has_value());
}

TEST_CASE("wire: temperature ratings are 60, 75 and 90, and nothing between") {
    for (const auto rating : {trade::Rating::c60, trade::Rating::c75, trade::Rating::c90})
        CHECK(trade::rating_of(degrees(rating)) == rating);
    CHECK(degrees(trade::Rating::c75) == 75);
    for (const double other : {0.0, 59.9, 70.0, 105.0}) CHECK_FALSE(trade::rating_of(other).has_value());
}
