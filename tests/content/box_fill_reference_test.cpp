#include "trade/work/box_fill.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "content/trade_data.hpp"
#include "reference/json_file.hpp"

namespace {

using nlohmann::json;
using trade::BoxFill;

const json& published() {
    static const json values = reference::json_file("box_fill.json");
    return values;
}

const content::TradeData& shipped() {
    static const auto data = content::load_trade_data(std::vector<std::string>{PROJECT_FOLDER});
    return data.value();
}

/// The table as shipped, so that the check covers its values too.
const trade::Table& shipped_volumes() {
    return *std::ranges::find(shipped().raw_tables(), "box-volume", &trade::Table::id);
}

const trade::Tables& shipped_tables() {
    return shipped().tables();
}

trade::Item conductors(const json& pair) {
    return {trade::parse_size(pair.at(0).get<std::string>()).value(), pair.at(1)};
}

BoxFill box(const json& found) {
    BoxFill box;
    box.conductors.emplace();
    box.grounds.emplace();
    box.devices.emplace();
    for (const auto& one : found.value("conductors", json::array())) box.conductors->push_back(conductors(one));
    for (const auto& one : found.value("devices", json::array()))
        box.devices->push_back({trade::parse_size(one.at(0).get<std::string>()).value(), one.at(2), one.at(1)});
    if (found.contains("grounds")) box.grounds->push_back(conductors(found.at("grounds")));
    box.clamps = found.value("clamps", false);
    box.fittings = found.value("fittings", 0);
    return box;
}

std::vector<trade::Edition> editions_of(const json& row) {
    return trade::editions_in(trade::parse_edition_range(row.at("editions").get<std::string>()).value());
}

double filled(const BoxFill& found, trade::Edition edition) {
    const auto finding = trade::box_fill(found, {edition, &shipped_tables(), true});
    REQUIRE(finding.answer.has_value());
    CHECK(finding.answer->unit == base::Unit::in3);
    return finding.answer->number;
}

}  // namespace

TEST_CASE("box fill reference: the shipped volumes are the published ones") {
    const auto& in3 = published().at("volumes").at("in3");
    CHECK(shipped_volumes().rows.size() == in3.size());
    for (const auto& [size, volume] : in3.items()) {
        CAPTURE(size);
        CHECK(look_up(shipped_volumes(), {{"size", size}}, "volume")->value == volume.get<double>());
    }
}

TEST_CASE("box fill reference: every worked example comes out as its source has it") {
    REQUIRE(published().at("examples").size() >= 15);
    for (const auto& row : published().at("examples"))
        for (const auto edition : editions_of(row)) {
            CAPTURE(row.at("id").get<std::string>());
            CAPTURE(trade::to_text(edition));
            CHECK(filled(box(row.at("box")), edition) == doctest::Approx(row.at("in3").get<double>()).epsilon(1e-9));
        }
}

TEST_CASE("box fill reference: every counting rule adds its allowances to a box with one 10 AWG") {
    const auto& in3 = published().at("volumes").at("in3");
    for (const auto& row : published().at("counting"))
        for (const auto edition : editions_of(row)) {
            CAPTURE(row.at("rule").get<std::string>());
            BoxFill found = box(row.at("adds"));
            found.conductors->push_back({trade::Size::awg10, 1});
            const double added =
                row.at("allowances").get<double>() * in3.at(row.at("of").get<std::string>()).get<double>();
            CHECK(filled(found, edition) == doctest::Approx(2.5 + added).epsilon(1e-9));
        }
}
