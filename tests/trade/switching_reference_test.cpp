#include <doctest/doctest.h>

#include <algorithm>
#include <set>
#include <string>

#include "reference/json_file.hpp"
#include "trade/switching/fault.hpp"

namespace {

using nlohmann::json;
using trade::switching::LoadState;
using trade::switching::Row;
using trade::switching::Table;

const json& solved() {
    static const json values = reference::json_file("switching.json");
    return values;
}

Table table_of(const json& example) {
    const auto* arrangement = trade::switching::find_arrangement(example.at("arrangement").get<std::string>());
    REQUIRE(arrangement != nullptr);
    const auto fault = trade::switching::find_fault(*arrangement, example.at("fault").get<std::string>());
    REQUIRE(fault.has_value());
    return trade::switching::solve(*arrangement, *fault);
}

char letter(const Row& row, std::size_t load) {
    if (row.breaker == trade::switching::Trip::trips) return 'T';
    switch (row.loads[load]) {
        case LoadState::off:
            return '0';
        case LoadState::on:
            return '1';
        case LoadState::dim:
            return 'd';
        case LoadState::bright:
            return 'b';
        case LoadState::flickers:
            return 'f';
    }
    return '?';
}

std::string column(const Table& table, std::size_t load) {
    std::string text;
    for (const auto& row : table.rows) text += letter(row, load);
    return text;
}

using Names = std::set<std::string>;

Names points_that_are(const Table& table, const Row& row, trade::switching::Live live, const json& among) {
    Names found;
    for (const auto& name : among) {
        CAPTURE(name.get<std::string>());
        const auto node = table.circuit.find_node(name.get<std::string>());
        REQUIRE(node.has_value());
        if (row.live[*node] == live) found.insert(name.get<std::string>());
    }
    return found;
}

Names live_shells(const Table& table, const Row& row, const json& among) {
    Names found = points_that_are(table, row, trade::switching::Live::hot, among);
    found.merge(points_that_are(table, row, trade::switching::Live::through_load, among));
    return found;
}

/// A four-way's way through is told by what it does, not by its handle.
std::string position(const std::string& text) {
    if (text == "straight") return "up";
    return text == "cross" ? "down" : text;
}

}  // namespace

TEST_CASE("switching reference: every load column comes out as solved") {
    REQUIRE(solved().at("examples").size() == 30);
    for (const auto& example : solved().at("examples")) {
        CAPTURE(example.at("id").get<std::string>());
        const Table table = table_of(example);
        REQUIRE(table.circuit.loads.size() == example.at("loads").size());
        for (std::size_t load = 0; load < table.circuit.loads.size(); ++load)
            CHECK(column(table, load) == example.at("loads").at(load).get<std::string>());
    }
}

TEST_CASE("switching reference: the combinations stand in the same order") {
    for (const auto& example : solved().at("examples")) {
        CAPTURE(example.at("id").get<std::string>());
        const Table table = table_of(example);
        REQUIRE(table.rows.size() == example.at("rows").size());
        for (std::size_t row = 0; row < table.rows.size(); ++row)
            for (std::size_t i = 0; i < table.circuit.switches.size(); ++i)
                CHECK(position_text(table.circuit.switches[i], position_of(table.circuit, row, i)) ==
                      position(example.at("rows").at(row).at("positions").at(i)));
    }
}

TEST_CASE("switching reference: what is live, and by what way, in every combination") {
    for (const auto& example : solved().at("examples")) {
        CAPTURE(example.at("id").get<std::string>());
        const Table table = table_of(example);
        for (std::size_t row = 0; row < table.rows.size(); ++row) {
            CAPTURE(row);
            const auto& wanted = example.at("rows").at(row);
            const auto& points = example.at("points");
            using trade::switching::Live;
            CHECK(points_that_are(table, table.rows[row], Live::hot, points) == wanted.at("hot").get<Names>());
            CHECK(points_that_are(table, table.rows[row], Live::through_load, points) ==
                  wanted.at("through_load").get<Names>());
            CHECK(live_shells(table, table.rows[row], example.at("shells")) == wanted.at("live_shells").get<Names>());
        }
    }
}

TEST_CASE("switching reference: breaker and GFCI in every combination") {
    for (const auto& example : solved().at("examples")) {
        CAPTURE(example.at("id").get<std::string>());
        const Table table = table_of(example);
        for (std::size_t row = 0; row < table.rows.size(); ++row) {
            CAPTURE(row);
            const auto& wanted = example.at("rows").at(row);
            CHECK(to_text(table.rows[row].breaker) == wanted.at("breaker").get<std::string>());
            CHECK(to_text(table.rows[row].gfci) == wanted.at("gfci").get<std::string>());
        }
    }
}
