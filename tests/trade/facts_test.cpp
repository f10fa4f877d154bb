#include "trade/facts.hpp"

#include <cmath>
#include <limits>

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "base/text.hpp"

namespace {

using base::Unit;
using trade::FactKind;
using trade::FactSpec;
using trade::FactValue;
using trade::Item;
using trade::Size;
using Items = std::vector<Item>;
using Numbers = std::vector<double>;

const FactSpec kLength = {"length", FactKind::number, "how long", Unit::ft, 0.0, 1000.0};
const FactSpec kCount = {"count", FactKind::number, "how many", Unit::count, 1.0, 100.0, true};
const FactSpec kClamps = {"clamps", FactKind::flag, "are there clamps?"};
const FactSpec kMaterial = {
    "material", FactKind::choice, "of what", Unit::count, 0, 0, false, "copper|aluminium|steel-pipe"};
const FactSpec kSize = {"size", FactKind::size, "conductor size"};
const FactSpec kWires = {"pass_through", FactKind::wires, "conductors"};
const FactSpec kDevices = {"devices", FactKind::devices, "devices"};
const FactSpec kLoads = {"loads", FactKind::numbers, "loads", Unit::watt, 0.0, 5000.0};
const FactSpec kAmbient = {"ambient", FactKind::number, "how warm", Unit::celsius, -50.0, 100.0};
const FactSpec kMetal = {"metal", FactKind::choice, "of what", Unit::count, 0, 0, false, "cu|al"};
const FactSpec kName = {"name", FactKind::word, "a name"};

const std::vector<FactSpec> kAll = {kLength, kCount, kClamps, kMaterial, kSize, kWires, kDevices, kLoads, kName};

FactValue parsed(const FactSpec& spec, std::string_view text) {
    const auto value = trade::parse_fact(spec, text);
    REQUIRE_MESSAGE(value.has_value(), text);
    return *value;
}

/// The one fault of a fact that is refused.
base::Fault fault(const FactSpec& spec, std::string_view text) {
    const auto value = trade::parse_fact(spec, text);
    REQUIRE_MESSAGE(!value.has_value(), text);
    REQUIRE(value.error().size() == 1);
    return value.error().front();
}

struct FromJson {
    trade::Facts facts;
    base::Faults faults;
};

FromJson from_json(const std::string& text) {
    const auto located = base::parse_located(text, "facts.json");
    REQUIRE(located.has_value());
    FromJson read;
    read.facts = trade::read_facts(kAll, base::Reader{*located, "facts.json", "", read.faults}, {"id", "edition"});
    return read;
}

/// The one fault of a JSON object that is refused.
base::Fault json_fault(const std::string& text) {
    const auto read = from_json(text);
    REQUIRE_MESSAGE(read.faults.size() == 1, text);
    CHECK_FALSE(read.faults.front().warning);
    return read.faults.front();
}

bool tells(const std::string& text, std::string_view part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("facts: numbers are read with and without their unit, and a unit that converts is converted") {
    CHECK(parsed(kLength, "120") == FactValue{120.0});
    CHECK(parsed(kLength, " 120 ft ") == FactValue{120.0});
    CHECK(parsed(kLength, "18 in") == FactValue{1.5});
    CHECK(parsed(kLength, "2-1/2 ft") == FactValue{2.5});
    CHECK(parsed(kLength, "0") == FactValue{0.0});
    CHECK(parsed(kLength, "1,000") == FactValue{1000.0});
    CHECK(parsed(kCount, "100") == FactValue{100.0});
}

TEST_CASE(
    "facts: a wrong unit, a value out of range and a fraction where none may be are refused, with what would do") {
    CHECK(tells(fault(kLength, "120 V").mend, "measured in ft"));
    CHECK(tells(fault(kCount, "3 ft").mend, "plain number"));
    CHECK(tells(fault(kLength, "-1").mend, "number of ft, 0 to 1000"));
    CHECK(tells(fault(kLength, "1000.1").what, "\"length\" cannot be '1000.1'"));
    CHECK(tells(fault(kLength, "13000 in").what, "1083.3333"));
    CHECK(tells(fault(kCount, "2.5").mend, "whole number, 1 to 100"));
    CHECK(tells(fault(kCount, "0").mend, "1 to 100"));
    for (const char* text : {"", "ft", "long", "inf", "nan", "1/0", "12 12"}) (void)fault(kLength, text);
    // Units that nothing is measured in here are worked out, not taken: a slip of the pen must not pass for a length.
    CHECK(fault(kLength, "42 m").mend == "it is measured in ft: 42 m is 137.8 ft");
    CHECK(fault(kLength, "600mm").mend == "it is measured in ft: 600mm is 2 ft");
    CHECK(fault(kAmbient, "86F").mend == "it is measured in C: 86F is 30 C");
    CHECK(fault(kAmbient, "-4 F").mend == "it is measured in C: -4 F is -20 C");
    CHECK(tells(fault(kLength, "86 F").mend, "number of ft"));
    CHECK(tells(fault(kCount, "3 m").mend, "number, 1 to 100"));
}

TEST_CASE("facts: yes and no in the words people type, and nothing else") {
    for (const char* text : {"yes", "YES", "true", "1"}) CHECK(parsed(kClamps, text) == FactValue{true});
    for (const char* text : {"no", "False", "0"}) CHECK(parsed(kClamps, text) == FactValue{false});
    for (const char* text : {"", "none", "2", "maybe"}) CHECK(fault(kClamps, text).mend == "say yes or no");
}

TEST_CASE("facts: choices take spaces and underlines for hyphens, and a slip is told the nearest word") {
    CHECK(parsed(kMaterial, "Copper") == FactValue{std::string{"copper"}});
    CHECK(parsed(kMaterial, "steel pipe") == FactValue{std::string{"steel-pipe"}});
    CHECK(parsed(kMaterial, "STEEL_PIPE") == FactValue{std::string{"steel-pipe"}});
    CHECK(parsed(kMetal, "Copper") == FactValue{std::string{"cu"}});
    CHECK(parsed(kMetal, "aluminum") == FactValue{std::string{"al"}});
    (void)fault(kMetal, "");
    CHECK(fault(kMaterial, "coper").mend == "did you mean 'copper'?");
    CHECK(tells(fault(kMaterial, "granite").mend, "copper, aluminium, steel-pipe"));
    (void)fault(kMaterial, "");
}

TEST_CASE("facts: conductors and devices by count and size") {
    CHECK(parsed(kWires, "4x12, 2 x 14 AWG,1*250") ==
          FactValue{Items{{Size::awg12, 4}, {Size::awg14, 2}, {Size::k250, 1}}});
    CHECK(parsed(kWires, "none") == FactValue{Items{}});
    CHECK(parsed(kWires, "0x12") == FactValue{Items{{Size::awg12, 0}}});
    CHECK(parsed(kDevices, "1x12, 1x6@2") == FactValue{Items{{Size::awg12, 1, 1}, {Size::awg6, 1, 2}}});
    for (const char* text :
         {"12", "4x", "x12", "4x13", "1.5x12", "-1x12", "4x12@2", "4x250 AWG", "4 ft x12", "1001x12"})
        CHECK_MESSAGE(tells(fault(kWires, text).mend, "4x12"), text);
    for (const char* text : {"1x12@0", "1x12@1.5", "1x12@", "1x12@x", "1x12@2 ft"}) (void)fault(kDevices, text);
}

TEST_CASE("facts: an empty list is no way to say none") {
    for (const char* text : {"", " ", ",", " , "}) {
        CHECK(tells(fault(kWires, text).mend, "say none"));
        CHECK(tells(fault(kDevices, text).mend, "say none"));
        (void)fault(kLoads, text);
    }
}

TEST_CASE("facts: several numbers, each within the range, each with its unit or none") {
    CHECK(parsed(kLoads, "900, 1.2 kW, 100W") == FactValue{Numbers{900.0, 1200.0, 100.0}});
    CHECK(tells(fault(kLoads, "900, 6 kW").what, "'6000'"));
    CHECK(tells(fault(kLoads, "900,,100").mend, "list of numbers of W, 0 to 5000"));
    (void)fault(kLoads, "900, x");
}

TEST_CASE("facts: a size by itself") {
    CHECK(parsed(kSize, "3/0 AWG") == FactValue{Size::awg3_0});
    CHECK(tells(fault(kSize, "250 AWG").mend, "conductor size such as"));
    CHECK(parsed(kName, " emt ") == FactValue{std::string{"emt"}});
}

TEST_CASE("facts: property: a value printed the way it is typed reads back as the same value") {
    for (base::Seed seed = 1; seed <= 500; ++seed) {
        base::Random random{seed};
        const auto size = [&] { return trade::size_at(random.below(trade::kSizes)); };
        Items wires, devices;
        for (auto left = random.below(5); left > 0; --left)
            wires.push_back({size(), static_cast<int>(random.below(50))});
        for (auto left = random.below(5); left > 0; --left)
            devices.push_back({size(), 1 + static_cast<int>(random.below(9)), 1 + static_cast<int>(random.below(3))});
        Numbers loads;
        for (auto left = 1 + random.below(4); left > 0; --left)
            loads.push_back(static_cast<double>(random.below(5001)));
        const std::vector<std::pair<FactSpec, FactValue>> values = {
            {kWires, wires},
            {kDevices, devices},
            {kLoads, loads},
            {kSize, size()},
            {kClamps, random.below(2) == 1},
            {kMaterial, std::string{"steel-pipe"}},
            {kLength, static_cast<double>(random.below(4001)) / 4.0}};
        for (const auto& [spec, value] : values) CHECK_MESSAGE(parsed(spec, to_text(value)) == value, to_text(value));
    }
}

TEST_CASE("facts: from JSON in its own types and as text") {
    const auto read = from_json(R"({"id": 7, "edition": "2020", "length": 12.5, "count": "3", "clamps": true,
        "material": "copper", "size": 12, "pass_through": [{"size": "12", "count": 4}, "2x14", {"size": 10}],
        "devices": [{"size": 6, "gangs": 2}], "loads": [900, "1 kW"], "name": "emt"})");
    CHECK(read.faults.empty());
    CHECK(read.facts.number("length") == 12.5);
    CHECK(read.facts.number("count") == 3.0);
    CHECK(read.facts.flag("clamps") == true);
    CHECK(read.facts.choice("material") == "copper");
    CHECK(read.facts.size("size") == Size::awg12);
    CHECK(*read.facts.items("pass_through") == Items{{Size::awg12, 4}, {Size::awg14, 2}, {Size::awg10, 1}});
    CHECK(*read.facts.items("devices") == Items{{Size::awg6, 1, 2}});
    CHECK(*read.facts.numbers("loads") == Numbers{900.0, 1000.0});
    CHECK(from_json(R"({"pass_through": {"size": "12", "count": 2}})").facts.items("pass_through")->front().count == 2);
    CHECK(from_json(R"({"pass_through": "none"})").facts.items("pass_through")->empty());
    CHECK(from_json(R"({"pass_through": []})").facts.items("pass_through")->empty());
    CHECK(from_json(R"({"clamps": "no"})").facts.flag("clamps") == false);
    CHECK(from_json("{}").facts.all().empty());
}

TEST_CASE("facts: from JSON: unknown names are told the nearest known one") {
    const auto wrong = json_fault(R"({"lenght": 3})");
    CHECK(tells(wrong.what, "there is no fact 'lenght'"));
    CHECK(wrong.mend == "did you mean 'length'?");
    CHECK(wrong.pointer == "/lenght");
    CHECK(tells(json_fault(R"({"zzzzzzzz": 3})").mend, "known here: id, edition, length"));
}

TEST_CASE("facts: from JSON: every kind of wrong value is one fault at its place, and the fact is not there") {
    const std::vector<std::pair<std::string, std::string>> wrong = {
        {"length", "-1"},         {"length", "1e7"},        {"length", "\"3 V\""},   {"length", "true"},
        {"length", "[1]"},        {"length", "null"},       {"length", "{}"},        {"count", "2.5"},
        {"clamps", "3"},          {"clamps", "\"so\""},     {"material", "true"},    {"material", "\"tin\""},
        {"material", "12"},       {"size", "13"},           {"size", "\"250 AWG\""}, {"pass_through", "12"},
        {"pass_through", "true"}, {"pass_through", "\"\""}, {"loads", "\"\""},       {"loads", "{}"},
    };
    for (const auto& [name, value] : wrong) {
        const std::string text = "{\"" + name + "\": " + value + "}";
        CAPTURE(text);
        CHECK(json_fault(text).pointer == "/" + name);
        CHECK_FALSE(from_json(text).facts.has(name));
    }
}

TEST_CASE("facts: from JSON: faults within lists are at the item") {
    CHECK(json_fault(R"({"pass_through": ["4x12", "4x13"]})").pointer == "/pass_through/1");
    CHECK(json_fault(R"({"pass_through": [{"size": "13"}]})").pointer == "/pass_through/0");
    CHECK(json_fault(R"({"loads": [1, -2]})").pointer == "/loads/1");
    for (const char* text :
         {R"({"pass_through": [{"size": 12, "count": -1}]})", R"({"devices": [{"size": 12, "gangs": 0}]})",
          R"({"pass_through": [{"size": 12, "count": 1.5}]})", R"({"pass_through": [{"size": 12, "count": 1e9}]})"})
        CHECK(tells(json_fault(text).what, "should be a whole number from"));
}

TEST_CASE("facts: a fact said again takes the place of the first, and can be taken away") {
    trade::Facts facts;
    facts.set("length", 3.0);
    facts.set("length", 4.0);
    CHECK(facts.number("length") == 4.0);
    CHECK(facts.all().size() == 1);
    CHECK_FALSE(facts.flag("length").has_value());
    CHECK(facts.choice("length").empty());
    CHECK(facts.items("length") == nullptr);
    facts.remove("length");
    CHECK_FALSE(facts.has("length"));
    CHECK_FALSE(facts.number("length").has_value());
}

TEST_CASE("facts: what a fact may be is told for help, and options are named after facts") {
    CHECK(range_text(kLength) == "number of ft, 0 to 1000");
    CHECK(range_text(kCount) == "whole number, 1 to 100");
    CHECK(range_text(kMaterial) == "copper, aluminium, steel-pipe");
    CHECK(range_text(kClamps) == "yes or no");
    CHECK(trade::flag_name("pass_through") == "--pass-through");
}
