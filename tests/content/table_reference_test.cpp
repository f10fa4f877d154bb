#include <algorithm>
#include <set>

#include <doctest/doctest.h>

#include "content/shipped_tables.hpp"
#include "reference/json_file.hpp"

namespace {

using nlohmann::json;
using Texts = std::map<std::string, std::string>;

const json& published() {
    static const json values = reference::json_file("tables.json");
    return values.at("tables");
}

const trade::TableRow* row_with(const trade::Table& table, const Texts& keys) {
    const auto found = std::find_if(table.rows.begin(), table.rows.end(),
                                    [&](const trade::TableRow& row) { return row.keys == keys; });
    return found == table.rows.end() ? nullptr : &*found;
}

/// Remarks are for people and have no counterpart in the sources.
bool is_remark(const std::string& column) {
    return column == "says";
}

void check_cells(const trade::TableRow& ours, const json& wanted) {
    for (const auto& [column, value] : wanted.items()) {
        CAPTURE(column);
        REQUIRE(ours.values.contains(column));
        if (value.is_number())
            CHECK(shipped::number(ours, column) == value.get<double>());
        else
            CHECK(ours.values.at(column) == value.get<std::string>());
    }
    for (const auto& [column, value] : ours.values) {
        CAPTURE(column);
        CHECK_MESSAGE((is_remark(column) || wanted.contains(column) || ours.basis.kind == trade::Basis::Kind::memory),
                      "the sources have no such value: " << value);
    }
}

std::string told(const Texts& keys) {
    std::string text;
    for (const auto& [name, value] : keys) text += name + " " + value + "  ";
    return text;
}

}  // namespace

TEST_CASE("table reference: every value of the sources is shipped with its basis") {
    REQUIRE(published().size() >= 28);
    for (const auto& wanted : published()) {
        const auto& ours = shipped::table(wanted.at("table").get<std::string>());
        REQUIRE_FALSE(wanted.at("rows").empty());
        for (const auto& row : wanted.at("rows")) {
            const auto keys = row.at("keys").get<Texts>();
            INFO(ours.id, ": ", told(keys));
            const auto* found = row_with(ours, keys);
            REQUIRE(found != nullptr);
            check_cells(*found, row.at("values"));
            CHECK(trade::to_text(found->basis.kind) == row.value("basis", wanted.at("basis").get<std::string>()));
        }
    }
}

TEST_CASE("table reference: what is shipped beyond the sources is from memory and says so") {
    std::set<std::string> covered;
    for (const auto& wanted : published()) {
        const auto& ours = shipped::table(wanted.at("table").get<std::string>());
        covered.insert(ours.id);
        std::set<Texts> known;
        for (const auto& row : wanted.at("rows")) known.insert(row.at("keys").get<Texts>());
        for (const auto& row : ours.rows) {
            INFO(ours.id, ": ", told(row.keys));
            CHECK((known.contains(row.keys) || row.basis.kind == trade::Basis::Kind::memory));
        }
    }
    for (const auto& table : shipped::tables()) CHECK_MESSAGE(covered.contains(table.id), table.id);
}

TEST_CASE("table reference: no two rows of a table have the same keys, and every cell has its column") {
    for (const auto& table : shipped::tables()) {
        std::set<Texts> seen;
        for (const auto& row : table.rows) {
            INFO(table.id, ": ", told(row.keys));
            CHECK(seen.insert(row.keys).second);
            for (const auto& [column, value] : row.values)
                CHECK_MESSAGE((is_remark(column) || table.columns.contains(column)), column);
        }
    }
}

TEST_CASE("table reference: a published row names what was seen") {
    for (const auto& table : shipped::tables())
        for (const auto& row : table.rows)
            if (row.basis.kind == trade::Basis::Kind::published) {
                INFO(table.id, ": ", told(row.keys));
                CHECK_FALSE(row.basis.source.empty());
                CHECK(row.basis.source.find("memory") == std::string::npos);
            }
}
