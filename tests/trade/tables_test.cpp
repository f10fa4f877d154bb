#include "trade/tables.hpp"

#include <doctest/doctest.h>

namespace {

using trade::Edition;
using trade::Material;
using trade::Rating;
using trade::Size;
using trade::Table;
using Cells = std::map<std::string, std::string>;

Table table(const std::string& id, const std::vector<Cells>& rows) {
    Table table;
    table.id = id;
    for (const auto& cells : rows) table.rows.push_back({{}, cells, {}});
    return table;
}

/// Invented values in the shape of every table that the calculators read.
std::vector<Table> invented() {
    return {
        table("grounding-electrode", {{{"largest_cu", "2"}, {"largest_al", "1/0"}, {"cu", "8"}, {"al", "6"}},
                                      {{"largest_cu", "350"}, {"largest_al", "1100"}, {"cu", "1/0"}, {"al", "3/0"}},
                                      {{"largest_cu", "over"}, {"largest_al", "over"}, {"cu", "3/0"}, {"al", "250"}}}),
        table("conductor-resistance", {{{"size", "2"}, {"cmil", "66360"}, {"cu_stranded", "0.19"}},
                                       {{"size", "1/0"}, {"cmil", "105600"}},
                                       {{"size", "350"}, {"cmil", "350000"}}}),
        table("box-volume", {{{"size", "14"}, {"volume", "2"}}, {{"size", "12"}, {"volume", "2-1/4"}}}),
        table("ampacity", {{{"material", "cu"}, {"size", "12"}, {"c60", "20"}, {"c75", "25"}, {"c90", "30"}},
                           {{"material", "al"}, {"size", "12"}, {"c60", "15"}, {"c75", "20"}}}),
        table("ambient-correction", {{{"top_c", "30"}, {"f60", "1"}, {"f75", "1"}, {"f90", "1"}},
                                     {{"top_c", "60"}, {"f75", "0.58"}, {"f90", "0.71"}}}),
        table("conductor-adjustment", {{{"from", "1"}, {"percent", "100"}}, {{"from", "4"}, {"percent", "80"}}}),
        table("small-conductor", {{{"material", "copper"}, {"size", "12"}, {"most", "20"}}}),
        table("standard-overcurrent", {{{"rating", "6"}, {"fuse_only", "1"}},
                                       {{"rating", "10"}, {"editions_from", "2023"}},
                                       {{"rating", "15"}},
                                       {{"rating", "20"}}}),
        table("conductor-area", {{{"insulation", "THHN"}, {"size", "12"}, {"area", "0.0133"}, {"diameter", "0.13"}},
                                 {{"insulation", "THHN"}, {"size", "10"}, {"area", "0.0211"}, {"diameter", "0.164"}}}),
        table("dwelling-load", {{{"rule", "unit"}, {"editions", "2017-2023"}, {"value", "3"}},
                                {{"rule", "unit"}, {"editions", "2026"}, {"value", "2"}}}),
        table("voltage-drop-constant", {{{"name", "k-copper-75c"}, {"value", "12.5"}},
                                        {{"name", "k-aluminium-75c"}, {"value", "20.5"}},
                                        {{"name", "branch-limit"}, {"value", "4"}},
                                        {{"name", "of-no-use-here"}, {"value", "7"}}}),
        table("working-space", {{{"volts_to_ground", "0-150"}, {"condition", "1"}, {"depth", "3"}}}),
        table("somebody-else", {{{"anything", "at all"}}}),
    };
}

const trade::Tables& typed() {
    static const trade::Tables tables = trade::typed_tables(invented()).value();
    return tables;
}

/// The faults of one table with these rows.
base::Faults faults(const std::string& id, const std::vector<Cells>& rows) {
    const auto made = trade::typed_tables({table(id, rows)});
    return made ? base::Faults{} : made.error();
}

}  // namespace

TEST_CASE("tables: cells are typed, mixed numbers among them, and what a table lacks stays unknown") {
    CHECK(typed().box_volume[index_of(Size::awg12)] == 2.25);
    CHECK(typed().box_volume[index_of(Size::awg10)] == 0.0);
    CHECK(typed().ampacity_of(Material::cu, Rating::c90, Size::awg12) == 30.0);
    CHECK(typed().ampacity_of(Material::al, Rating::c60, Size::awg12) == 15.0);
    CHECK_FALSE(typed().ampacity_of(Material::al, Rating::c90, Size::awg12).has_value());
    CHECK_FALSE(typed().ampacity_of(Material::cu, Rating::c60, Size::awg14).has_value());
    CHECK(typed().small_conductor_limit(Material::cu, Size::awg12) == 20.0);
    CHECK_FALSE(typed().small_conductor_limit(Material::cu, Size::awg6).has_value());
    CHECK(typed().depths.front().most_volts == 150.0);
    CHECK(typed().raceways.empty());
}

TEST_CASE("tables: bands of temperature end where they end, and above the last nothing is known") {
    CHECK(typed().ambient_factor(Rating::c60, -5.0) == 1.0);
    CHECK(typed().ambient_factor(Rating::c75, 30.0) == 1.0);
    CHECK(typed().ambient_factor(Rating::c75, 30.1) == 0.58);
    CHECK_FALSE(typed().ambient_factor(Rating::c60, 45.0).has_value());
    CHECK_FALSE(typed().ambient_factor(Rating::c90, 61.0).has_value());
}

TEST_CASE("tables: bands of conductors begin where they begin") {
    CHECK(typed().adjustment_percent(3.0) == 100.0);
    CHECK(typed().adjustment_percent(4.0) == 80.0);
    CHECK(typed().adjustment_percent(99.0) == 80.0);
    CHECK_FALSE(typed().adjustment_percent(0.0).has_value());
}

TEST_CASE("tables: standard ratings by edition, fuses apart") {
    CHECK(typed().next_standard_rating(5.0, Edition::e2023) == 10.0);
    CHECK(typed().next_standard_rating(5.0, Edition::e2020) == 15.0);
    CHECK(typed().next_standard_rating(15.0, Edition::e2020) == 15.0);
    CHECK(typed().next_standard_rating(15.01, Edition::e2020) == 20.0);
    CHECK(typed().next_standard_rating(5.0, Edition::e2020, true) == 6.0);
    CHECK(typed().next_standard_rating(6.1, Edition::e2020, true) == 15.0);
    CHECK_FALSE(typed().next_standard_rating(20.5, Edition::e2020).has_value());
    CHECK(typed().standard_rating_below(19.9, Edition::e2020) == 15.0);
    CHECK(typed().standard_rating_below(20.0, Edition::e2020) == 20.0);
    CHECK(typed().standard_rating_below(12.0, Edition::e2023) == 10.0);
    CHECK_FALSE(typed().standard_rating_below(12.0, Edition::e2020).has_value());
}

TEST_CASE("tables: electrode rows get the area of their conductors, whichever table comes first") {
    const auto& rows = typed().grounding_electrode;
    REQUIRE(rows.size() == 3);
    CHECK(rows[0].largest[0] == 66360.0);
    CHECK(rows[0].largest[1] == 105600.0);
    CHECK(rows[1].largest[0] == 350000.0);
    CHECK(rows[1].largest[1] == 1100000.0);
    CHECK(rows[2].largest[0] == 0.0);
    CHECK(rows[2].size[1] == Size::k250);
}

TEST_CASE("tables: insulations are gathered by name, rules of an edition by theirs") {
    const auto* thhn = typed().insulation("thhn");
    REQUIRE(thhn != nullptr);
    CHECK(thhn->area[index_of(Size::awg10)] == 0.0211);
    CHECK(typed().insulation("xhhw") == nullptr);
    CHECK(typed().load_rule("unit", Edition::e2023) == 3.0);
    CHECK(typed().load_rule("unit", Edition::e2026) == 2.0);
    CHECK_FALSE(typed().load_rule("units", Edition::e2026).has_value());
    CHECK(typed().k == std::array{12.5, 20.5});
    CHECK(typed().advised_drop_percent == 4.0);
    CHECK(typed().cmil(Size::k350) == 350000.0);
    CHECK_FALSE(typed().cmil(Size::k400).has_value());
}

TEST_CASE("tables: a cell that is no number, size, material, edition or band is named with table, row and column") {
    const auto one = faults("box-volume", {{{"size", "14"}, {"volume", "2"}}, {{"size", "12"}, {"volume", "two"}}});
    REQUIRE(one.size() == 1);
    CHECK(one.front().pointer == "/rows/1/volume");
    CHECK(one.front().what == "table 'box-volume': 'two' should be a number");
    CHECK(one.front().mend.find("decks/tables/box-volume.json") != std::string::npos);
    const auto pointer = [](const std::string& id, const Cells& row) {
        const auto found = faults(id, {row});
        REQUIRE(found.size() == 1);
        return found.front().pointer;
    };
    CHECK(pointer("box-volume", {{"size", "13"}, {"volume", "2"}}) == "/rows/0/size");
    CHECK(pointer("box-volume", {{"size", "250 AWG"}, {"volume", "2"}}) == "/rows/0/size");
    CHECK(pointer("box-volume", {{"size", "14"}, {"volume", "2 in3"}}) == "/rows/0/volume");
    CHECK(pointer("ampacity", {{"material", "brass"}, {"size", "12"}}) == "/rows/0/material");
    CHECK(pointer("standard-overcurrent", {{"rating", "15"}, {"editions_from", "2019"}}) == "/rows/0/editions_from");
    CHECK(pointer("dwelling-load", {{"rule", "unit"}, {"editions", "2023-2017"}, {"value", "3"}}) ==
          "/rows/0/editions");
    CHECK(pointer("working-space", {{"volts_to_ground", "150"}, {"condition", "1"}, {"depth", "3"}}) ==
          "/rows/0/volts_to_ground");
    CHECK(pointer("equipment-ground", {{"device", "15"}, {"cu", "14 kcmil"}}) == "/rows/0/cu");
}

TEST_CASE("tables: faults of all tables are told at once") {
    const auto made = trade::typed_tables({table("box-volume", {{{"size", "x"}, {"volume", "2"}}}),
                                           table("dryer-demand", {{{"dryers", "few"}, {"percent", "most"}}})});
    REQUIRE_FALSE(made.has_value());
    CHECK(made.error().size() == 3);
}
