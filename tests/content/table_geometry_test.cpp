#include <algorithm>
#include <numbers>
#include <set>

#include <doctest/doctest.h>

#include "content/shipped_tables.hpp"

// Laws of nature and of order that the tables must keep, whoever printed them.
namespace {

using shipped::circular_mils;
using shipped::has;
using shipped::key;
using shipped::number;
using trade::TableRow;

double constant(const std::string& name) {
    return trade::look_up(shipped::table("voltage-drop-constant"), {{"name", name}}, "value").value().value;
}

bool thinner(const std::string& one, const std::string& other) {
    return circular_mils(one) < circular_mils(other);
}

std::vector<const TableRow*> rows_where(const trade::Table& table, const std::map<std::string, std::string>& keys) {
    std::vector<const TableRow*> rows;
    for (const auto& row : table.rows)
        if (std::all_of(keys.begin(), keys.end(), [&](const auto& k) { return row.keys.at(k.first) == k.second; }))
            rows.push_back(&row);
    return rows;
}

/// The rows of one material, thin to thick.
std::vector<const TableRow*> ampacities(const std::string& material) {
    auto rows = rows_where(shipped::table("ampacity"), {{"material", material}});
    std::sort(rows.begin(), rows.end(),
              [](const auto* a, const auto* b) { return thinner(a->keys.at("size"), b->keys.at("size")); });
    return rows;
}

/// "7-1/2" is 7.5.
double horsepower(const std::string& text) {
    const auto dash = text.find('-');
    if (dash != std::string::npos) return std::stod(text.substr(0, dash)) + horsepower(text.substr(dash + 1));
    const auto slash = text.find('/');
    return slash == std::string::npos ? std::stod(text)
                                      : std::stod(text.substr(0, slash)) / std::stod(text.substr(slash + 1));
}

/// The area belongs to the diameter: half the last digit of the diameter and half the last digit of the area may
/// differ.
void check_round(const TableRow& row, double last_of_diameter, double last_of_area) {
    const double diameter = number(row, "diameter");
    const double area = std::numbers::pi / 4.0 * diameter * diameter;
    const double slack = std::numbers::pi / 2.0 * diameter * last_of_diameter / 2.0 + last_of_area / 2.0;
    CHECK(std::abs(number(row, "area") - area) <= slack);
}

}  // namespace

TEST_CASE("table geometry: the wire gauge follows its law within the print") {
    const auto& table = shipped::table("awg");
    CHECK(table.rows.size() == 22);
    for (const auto& row : table.rows) {
        const std::string size = row.keys.at("size");
        CAPTURE(size);
        const double diameter = shipped::gauge_diameter(shipped::gauge(size));
        // Five decimals are printed, some of them cut and not rounded; the worst, 1/0, is 1.1 of the last digit off.
        CHECK(std::abs(number(row, "diameter_in") - diameter) <= 1.2e-5);
        CHECK(number(row, "cmil") == doctest::Approx(circular_mils(size)).epsilon(2.5e-4));
        CHECK(number(row, "cmil") == doctest::Approx(std::pow(1000.0 * number(row, "diameter_in"), 2)).epsilon(2.5e-4));
        const double ohm = 1000.0 * constant("rho-copper-20c") / circular_mils(size);
        CHECK(number(row, "ohm_20c") == doctest::Approx(ohm).epsilon(1.5e-3));
    }
}

TEST_CASE("table geometry: circular mils by the gauge law, and resistance falls with them") {
    const auto& rows = shipped::table("conductor-resistance").rows;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const std::string size = rows[i].keys.at("size");
        CAPTURE(size);
        CHECK(number(rows[i], "cmil") == doctest::Approx(circular_mils(size)).epsilon(3e-3));
        if (shipped::in_kcmil(size)) CHECK(number(rows[i], "cmil") == circular_mils(size));
        if (i == 0) continue;
        CHECK(number(rows[i], "cmil") > number(rows[i - 1], "cmil"));
        CHECK(number(rows[i], "cu_stranded") < number(rows[i - 1], "cu_stranded"));
        CHECK(number(rows[i], "al_stranded") < number(rows[i - 1], "al_stranded"));
    }
}

TEST_CASE("table geometry: resistance times circular mils is the same for every size") {
    struct Band {
        std::string column;
        double least, most;
    };
    // Strands lie longer than the conductor, hence 2 % more than solid wire.
    const std::vector<Band> bands = {{"cu_stranded", 12.75, 12.95},
                                     {"cu_solid", 12.5, 12.7},
                                     {"al_stranded", 21.1, 21.3},
                                     {"al_solid", 20.65, 20.85}};
    for (const auto& band : bands) {
        CAPTURE(band.column);
        int seen = 0;
        for (const auto& row : shipped::table("conductor-resistance").rows) {
            if (!has(row, band.column)) continue;
            CAPTURE(row.keys.at("size"));
            ++seen;
            const double k = number(row, band.column) * number(row, "cmil") / 1000.0;
            CHECK(k >= band.least);
            CHECK(k <= band.most);
        }
        CHECK(seen >= 6);
    }
    CHECK(constant("k-copper-75c") == doctest::Approx(12.9).epsilon(0.008));
    CHECK(constant("k-aluminium-75c") == doctest::Approx(21.2).epsilon(0.008));
}

TEST_CASE("table geometry: copper warms from 20 to 75 C by its coefficient") {
    const double warmed = constant("rho-copper-20c") * (1.0 + constant("alpha-copper-20c") * 55.0);
    for (const auto* size : {"14", "12", "10", "8"}) {
        const auto solid = trade::look_up(shipped::table("conductor-resistance"), {{"size", size}}, "cu_solid").value();
        // Three printed digits, and a gauge rounded to tens of circular mils.
        CHECK(solid.value == doctest::Approx(1000.0 * warmed / circular_mils(size)).epsilon(6e-3));
    }
}

TEST_CASE("table geometry: resistance in a plastic raceway is the direct-current one, for these sizes") {
    for (const auto& row : shipped::table("conductor-impedance").rows)
        for (const std::string material : {"cu", "al"}) {
            const std::string column = "r_" + material + "_pvc";
            if (!has(row, column)) continue;
            const std::string size = row.keys.at("size");
            CAPTURE(size);
            CAPTURE(column);
            const auto direct =
                trade::look_up(shipped::table("conductor-resistance"), {{"size", size}}, material + "_stranded");
            REQUIRE(direct.has_value());
            // Two printed digits.
            CHECK(number(row, column) == doctest::Approx(direct->value).epsilon(0.05));
            CHECK(number(row, "r_" + material + "_steel") >= number(row, column));
            CHECK(number(row, "x_steel") > number(row, "x_pvc"));
        }
}

TEST_CASE("table geometry: ambient factors are the root of what temperature leaves, at the top of the band") {
    const auto& rows = shipped::table("ambient-correction").rows;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const double top = key(rows[i], "top_c");
        CAPTURE(top);
        if (i > 0) CHECK(top == key(rows[i - 1], "top_c") + 5.0);
        for (const auto& [column, rated] : {std::pair{"f60", 60.0}, std::pair{"f75", 75.0}, std::pair{"f90", 90.0}}) {
            CAPTURE(column);
            CHECK(has(rows[i], column) == (top < rated));
            if (!has(rows[i], column)) continue;
            const double factor = std::sqrt((rated - top) / (rated - 30.0));
            CHECK(std::abs(number(rows[i], column) - factor) <= 0.005);
        }
    }
    CHECK(key(rows.front(), "top_c") == 10.0);
    CHECK(key(rows.back(), "top_c") == 85.0);
}

TEST_CASE("table geometry: more conductors never carry more, and no count is left out") {
    const auto& rows = shipped::table("conductor-adjustment").rows;
    CHECK(key(rows.front(), "from") == 1.0);
    CHECK_FALSE(has(rows.back(), "to"));
    for (std::size_t i = 1; i < rows.size(); ++i) {
        CHECK(key(rows[i], "from") == number(rows[i - 1], "to") + 1.0);
        CHECK(number(rows[i], "percent") < number(rows[i - 1], "percent"));
    }
}

TEST_CASE("table geometry: ampacity grows with size and with the temperature of the insulation") {
    for (const std::string material : {"cu", "al"}) {
        CAPTURE(material);
        const auto rows = ampacities(material);
        REQUIRE(rows.size() >= 18);
        for (std::size_t i = 0; i < rows.size(); ++i) {
            CAPTURE(rows[i]->keys.at("size"));
            CHECK(number(*rows[i], "c60") < number(*rows[i], "c75"));
            CHECK(number(*rows[i], "c75") < number(*rows[i], "c90"));
            for (const auto* column : {"c60", "c75", "c90"})
                if (i > 0) CHECK(number(*rows[i], column) > number(*rows[i - 1], column));
        }
    }
}

TEST_CASE("table geometry: aluminium carries less than copper of the same size") {
    for (const auto* aluminium : ampacities("al"))
        for (const std::string column : {"c60", "c75", "c90"}) {
            const auto copper = trade::look_up(shipped::table("ampacity"),
                                               {{"material", "cu"}, {"size", aluminium->keys.at("size")}}, column);
            REQUIRE(copper.has_value());
            CHECK(number(*aluminium, column) < copper->value);
        }
}

TEST_CASE("table geometry: a dwelling service has the smallest conductor of 83 percent of its rating") {
    for (const auto& row : shipped::table("dwelling-service").rows) {
        const double required = 0.83 * key(row, "rating");
        CAPTURE(required);
        CHECK(number(row, "required") == doctest::Approx(required).epsilon(1e-9));
        for (const std::string material : {"cu", "al"}) {
            const auto rows = ampacities(material);
            const auto first = std::find_if(rows.begin(), rows.end(),
                                            [&](const auto* r) { return number(*r, "c75") >= required - 1e-9; });
            REQUIRE(first != rows.end());
            CHECK((*first)->keys.at("size") == row.values.at(material));
        }
    }
}

TEST_CASE("table geometry: raceways are round") {
    for (const auto& row : shipped::table("raceway-area").rows) {
        CAPTURE(row.keys.at("raceway"));
        CAPTURE(row.keys.at("trade_size"));
        check_round(row, 1e-3, 1e-3);
    }
    const auto& rows = shipped::table("raceway-area").rows;
    for (std::size_t i = 1; i < rows.size(); ++i)
        if (rows[i].keys.at("raceway") == rows[i - 1].keys.at("raceway"))
            CHECK(number(rows[i], "area") > number(rows[i - 1], "area"));
}

TEST_CASE("table geometry: insulated conductors are round, thicker than their metal, and grow with size") {
    const auto& rows = shipped::table("conductor-area").rows;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const std::string size = rows[i].keys.at("size");
        CAPTURE(rows[i].keys.at("insulation"));
        CAPTURE(size);
        if (has(rows[i], "diameter")) check_round(rows[i], 1e-3, 1e-4);
        CHECK(number(rows[i], "area") > std::numbers::pi / 4.0 * circular_mils(size) * 1e-6);
        if (i > 0 && rows[i].keys.at("insulation") == rows[i - 1].keys.at("insulation")) {
            CHECK(thinner(rows[i - 1].keys.at("size"), size));
            CHECK(number(rows[i], "area") > number(rows[i - 1], "area"));
        }
    }
}

TEST_CASE("table geometry: a box holds as many conductors as its volume has allowances") {
    const auto& allowances = shipped::table("box-volume");
    for (const auto& row : shipped::table("standard-box").rows)
        for (const std::string size : {"14", "12", "10", "8", "6"}) {
            CAPTURE(row.keys.at("size"));
            CAPTURE(size);
            const double each = trade::look_up(allowances, {{"size", size}}, "volume").value().value;
            CHECK(number(row, "max_" + size) == std::floor(number(row, "volume") / each + 1e-9));
        }
}

TEST_CASE("table geometry: motors draw more with power and less with voltage") {
    const auto& rows = shipped::table("motor-current").rows;
    int compared = 0;
    for (const auto& one : rows)
        for (const auto& other : rows) {
            if (one.keys.at("phase") != other.keys.at("phase")) continue;
            const double power = horsepower(one.keys.at("hp")), more = horsepower(other.keys.at("hp"));
            INFO(one.keys.at("hp"), " at ", one.keys.at("volts"), " V, ", other.keys.at("hp"), " at ",
                 other.keys.at("volts"));
            if (key(one, "volts") == key(other, "volts") && power < more) {
                ++compared;
                CHECK(number(one, "amps") < number(other, "amps"));
            }
            if (power == more && key(one, "volts") < key(other, "volts")) {
                ++compared;
                CHECK(number(one, "amps") > number(other, "amps"));
            }
        }
    CHECK(compared > 500);
}

TEST_CASE("table geometry: a larger device or service never has a smaller grounding conductor") {
    for (const std::string id : {"equipment-ground", "grounding-electrode"}) {
        CAPTURE(id);
        const auto& rows = shipped::table(id).rows;
        for (std::size_t i = 0; i < rows.size(); ++i) {
            const auto& cells = rows[i].values;
            CHECK(thinner(cells.at("cu"), cells.at("al")));
            if (i == 0) continue;
            CHECK(thinner(rows[i - 1].values.at("cu"), cells.at("cu")));
            CHECK(thinner(rows[i - 1].values.at("al"), cells.at("al")));
        }
    }
}

TEST_CASE("table geometry: demand falls with the number of appliances, and the sum does not") {
    const auto& ranges = shipped::table("range-demand").rows;
    for (std::size_t i = 1; i < ranges.size(); ++i) {
        CHECK(key(ranges[i], "appliances") == key(ranges[i - 1], "appliances") + 1.0);
        CHECK(number(ranges[i], "a") <= number(ranges[i - 1], "a"));
        CHECK(number(ranges[i], "b") <= number(ranges[i - 1], "b"));
        CHECK(number(ranges[i], "a") >= number(ranges[i], "b"));
        CHECK(number(ranges[i], "c") > number(ranges[i - 1], "c"));
    }
    const auto& dryers = shipped::table("dryer-demand").rows;
    for (std::size_t i = 1; i < dryers.size(); ++i) {
        CHECK(key(dryers[i], "dryers") == key(dryers[i - 1], "dryers") + 1.0);
        CHECK(number(dryers[i], "percent") <= number(dryers[i - 1], "percent"));
        CHECK(number(dryers[i], "percent") * key(dryers[i], "dryers") >=
              number(dryers[i - 1], "percent") * key(dryers[i - 1], "dryers"));
    }
}

TEST_CASE("table geometry: the rules of a dwelling load hold one value in each edition") {
    std::map<std::string, std::string> units;
    std::set<std::pair<std::string, trade::Edition>> held;
    for (const auto& row : shipped::table("dwelling-load").rows) {
        const std::string rule = row.keys.at("rule");
        CAPTURE(rule);
        CHECK(units.try_emplace(rule, row.values.at("unit")).first->second == row.values.at("unit"));
        CHECK(number(row, "value") > 0.0);
        const auto editions = trade::parse_edition_range(row.keys.at("editions"));
        REQUIRE(editions.has_value());
        for (const auto edition : trade::editions_in(*editions)) {
            CHECK(held.insert({rule, edition}).second);
            CHECK(row.values.at("article") == (edition == trade::Edition::e2026 ? "Article 120" : "Article 220"));
        }
    }
    CHECK(held.size() >= 120);
}

TEST_CASE("table geometry: ground-fault protection trips along its curve") {
    int on_curve = 0;
    for (const auto& row : shipped::table("gfci-trip").rows) {
        const double current = key(row, "current_ma");
        CAPTURE(current);
        CHECK(has(row, "seconds") == (current >= 6.0));
        if (!has(row, "seconds")) continue;
        ++on_curve;
        CHECK(std::abs(number(row, "seconds") - std::pow(20.0 / current, 1.43)) <= 5e-5 + 1e-12);
    }
    CHECK(on_curve == 10);
}
