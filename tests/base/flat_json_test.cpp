#include "base/flat_json.hpp"

#include <doctest/doctest.h>

#include <string>

#include "base/located_json.hpp"
#include "base/random.hpp"

namespace {

using base::FlatObject;

/// Both readings as one text: what a flat object holds, told the same way from either.
std::string told(const FlatObject& object) {
    std::string all;
    for (const auto& member : object.members()) {
        all += std::string{member.name} + "=";
        if (member.kind == FlatObject::Kind::text) all += "'" + std::string{member.text} + "'";
        if (member.kind == FlatObject::Kind::number) all += std::to_string(member.number);
        if (member.kind == FlatObject::Kind::flag) all += member.flag ? "true" : "false";
        if (member.kind == FlatObject::Kind::list)
            for (const auto& item : object.items(member)) all += "'" + std::string{item} + "',";
        all += ";";
    }
    return all;
}

std::string told(const base::Located& object) {
    std::string all;
    for (const auto& [name, node] : std::get<base::Located::Members>(object.value)) {
        all += name + "=";
        if (const auto* text = std::get_if<std::string>(&node.value)) all += "'" + *text + "'";
        if (const auto* number = std::get_if<double>(&node.value)) all += std::to_string(*number);
        if (const auto* flag = std::get_if<bool>(&node.value)) all += *flag ? "true" : "false";
        if (const auto* list = std::get_if<base::Located::List>(&node.value))
            for (const auto& item : *list) all += "'" + std::get<std::string>(item.value) + "',";
        all += ";";
    }
    return all;
}

}  // namespace

TEST_CASE("flat json: simple objects are read") {
    FlatObject object;
    REQUIRE(object.read(R"( { "a" : "x y", "n":-1.5e2 ,"t":true,"f" : false, "l":["p", "q"], "e": [ ] } )"));
    CHECK(told(object) == "a='x y';n=-150.000000;t=true;f=false;l='p','q',;e=;");
    REQUIRE(object.find("n") != nullptr);
    CHECK(object.find("n")->number == -150.0);
    CHECK(object.find("b") == nullptr);
    REQUIRE(object.read("{}"));
    CHECK(object.members().empty());
}

TEST_CASE("flat json: whatever else there is is left to the general reader") {
    FlatObject object;
    for (const char* line : {"",
                             " ",
                             "[]",
                             "{",
                             "{}x",
                             "{\"a\"}",
                             "{\"a\":}",
                             "{\"a\":1,}",
                             "{,}",
                             "{\"a\":01}",
                             "{\"a\":1.}",
                             "{\"a\":.5}",
                             "{\"a\":+1}",
                             "{\"a\":1e}",
                             "{\"a\":-}",
                             "{\"a\":null}",
                             "{\"a\":{}}",
                             "{\"a\":[1]}",
                             "{\"a\":[\"x\",]}",
                             "{\"a\":tru}",
                             "{\"a\":\"\\n\"}",
                             "{\"a\":\"\t\"}",
                             "{\"a\":\"\xC3\xA4\"}",
                             "{\"a\":\"x}",
                             "{'a':1}",
                             "{\"a\":1e999}",
                             "{\"a\":1,\"a\":2}",
                             "{\"ab\":1,\"ba\":2,\"ab\":3}",
                             "{\"a\":1 \"b\":2}",
                             "{\"a\":trueish}"})
        CHECK_MESSAGE(!object.read(line), line);
}

TEST_CASE("flat json: property: what it reads the general reader reads the same") {
    base::Random random{11};
    const std::string signs = "{}[]\":,-+.0123456789eEtruefalsnab \\\t";
    FlatObject object;
    int read = 0;
    for (int i = 0; i < 20'000; ++i) {
        std::string line = R"({"a":"x","num":-12.50,"t":true,"l":["p","q"],"b":1e3})";
        for (auto changes = random.below(3); changes > 0; --changes) {
            const auto at = static_cast<std::size_t>(random.below(line.size()));
            const char sign = signs[static_cast<std::size_t>(random.below(signs.size()))];
            if (random.below(2) == 0)
                line[at] = sign;
            else
                line.insert(at, 1, sign);
        }
        if (!object.read(line)) continue;
        ++read;
        const auto general = base::parse_located(line, "");
        REQUIRE_MESSAGE(general.has_value(), line);
        CHECK_MESSAGE(told(object) == told(*general), line);
    }
    CHECK(read > 6'000);
}
