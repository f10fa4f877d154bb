#include "trade/table.hpp"

#include <doctest/doctest.h>

namespace {

trade::Table cover() {
    trade::Table table;
    table.id = "cover";
    table.keys = {"method", "place"};
    table.columns = {{"depth", base::Unit::in}, {"size", base::Unit::awg}};
    table.rows = {{{{"method", "pvc"}, {"place", "garden"}}, {{"depth", "18"}, {"size", "4/0"}}, {}},
                  {{{"method", "pvc"}, {"place", "road"}}, {{"depth", "24"}}, {}},
                  {{{"method", "rmc"}, {"place", "garden"}}, {{"depth", "6.5 in"}}, {}}};
    return table;
}

}  // namespace

TEST_CASE("table: the one row that fits gives its value and unit") {
    const auto found = look_up(cover(), {{"method", "pvc"}, {"place", "road"}}, "depth");
    CHECK(found == base::Quantity{24, base::Unit::in});
}

TEST_CASE("table: fewer keys will do where they single out a row") {
    CHECK(look_up(cover(), {{"place", "road"}}, "depth")->value == 24);
    CHECK_FALSE(look_up(cover(), {{"method", "pvc"}}, "depth").has_value());
}

TEST_CASE("table: nothing comes of what does not fit") {
    const auto table = cover();
    CHECK_FALSE(look_up(table, {}, "depth").has_value());
    CHECK_FALSE(look_up(table, {{"place", "attic"}}, "depth").has_value());
    CHECK_FALSE(look_up(table, {{"colour", "road"}}, "depth").has_value());
    CHECK_FALSE(look_up(table, {{"place", "road"}}, "width").has_value());
    CHECK_FALSE(look_up(table, {{"place", "road"}}, "size").has_value());
}

TEST_CASE("table: a value that is no plain number is none") {
    CHECK_FALSE(look_up(cover(), {{"method", "rmc"}}, "depth").has_value());
    CHECK_FALSE(look_up(cover(), {{"method", "pvc"}, {"place", "garden"}}, "size").has_value());
}

TEST_CASE("table: kinds of basis are read and written") {
    using Kind = trade::Basis::Kind;
    for (const Kind kind : {Kind::published, Kind::practice, Kind::memory})
        CHECK(trade::parse_basis_kind(trade::to_text(kind)) == kind);
    CHECK_FALSE(trade::parse_basis_kind("hearsay").has_value());
}
