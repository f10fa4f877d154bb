#include "report/finding_json.hpp"

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include "trade/sample_rules.hpp"

namespace {

using nlohmann::ordered_json;
using trade::Edition;

ordered_json ruling(const sample_rules::Given& given) {
    static const auto book = sample_rules::book(sample_rules::rules(), Edition::e2023);
    return report::ruling_json(sample_rules::judged(book, given), *sample_rules::vocabulary());
}

}  // namespace

TEST_CASE("finding json: an answer with its unit, further values, and everything that was found") {
    trade::Finding finding;
    finding.answer = trade::value_of(20.25, base::Unit::in3);
    finding.also = {{"least_box", trade::value_of("4 x 1-1/2")},
                    {"spare", trade::value_of(0.1 + 0.2, base::Unit::in3)}};
    finding.articles = {"314.16(B)"};
    finding.findings = {"the box is too small"};
    finding.steps = {"one", "two"};
    CHECK(report::finding_json(finding).dump() ==
          R"x({"answer":20.25,"unit":"in3","also":{"least_box":{"value":"4 x 1-1/2","unit":""},)x"
          R"x("spare":{"value":0.3,"unit":"in3"}},"articles":["314.16(B)"],"unknown":[],)x"
          R"x("findings":["the box is too small"],"steps":["one","two"]})x");
}

TEST_CASE("finding json: sizes are text with their unit, and no answer is null") {
    trade::Finding finding;
    finding.answer = trade::value_of(trade::Size::k250);
    CHECK(report::finding_json(finding)["answer"] == "250");
    CHECK(report::finding_json(finding)["unit"] == "kcmil");
    finding.answer.reset();
    finding.lacks("clamps");
    const auto json = report::finding_json(finding);
    CHECK(json["answer"].is_null());
    CHECK(json["unit"] == "");
    CHECK(json["unknown"] == ordered_json{"clamps"});
    CHECK(json["also"].is_object());
}

TEST_CASE("ruling json: what is required, why, where it stands, and how many") {
    const auto json = ruling({{"occupancy", "house"},
                              {"location", "bath"},
                              {"volts", "120"},
                              {"locked", "no"},
                              {"sink_ft", "none"},
                              {"wall_ft", "25"},
                              {"day", "2020-01-01"}});
    CHECK(json["requires"] == ordered_json{"GFCI", "wall-receptacle"});
    CHECK(json["forbids"] == ordered_json{"receptacle-here"});
    CHECK(json["permits"] == ordered_json::array());
    CHECK(json["exempt"] == ordered_json::array());
    CHECK(json["counts"] == ordered_json{{"wall-receptacle", 3}});
    CHECK(json["articles"] == ordered_json{"210.8(A)(2)", "210.52(A)", "406.9"});
    CHECK(json["unknown"] == ordered_json::array());
    REQUIRE(json["findings"].size() == 3);
    CHECK(json["findings"][0] == ordered_json{{"rule", "g.bath"},
                                              {"requires", "GFCI"},
                                              {"article", "210.8(A)(2)"},
                                              {"why", "Water."},
                                              {"unverified", true}});
    CHECK(json["findings"][1]["count"] == 3);
    CHECK_FALSE(json["findings"][1].contains("local"));
}

TEST_CASE("ruling json: exceptions with their own reference, contradictions, and what is still to be told") {
    const auto excused = ruling({{"occupancy", "house"},
                                 {"location", "bath"},
                                 {"volts", "120"},
                                 {"locked", "yes"},
                                 {"sink_ft", "none"},
                                 {"wall_ft", "1"},
                                 {"day", "2020-01-01"}});
    CHECK(excused["requires"] == ordered_json::array());
    CHECK(excused["exempt"] == ordered_json{"GFCI"});
    CHECK(excused["articles"] == ordered_json{"210.8(A) Ex 1"});
    CHECK(excused["findings"][0] == ordered_json{{"exception_to", "g.bath"},
                                                 {"exempt", "GFCI"},
                                                 {"article", "210.8(A) Ex 1"},
                                                 {"why", "Nobody gets at it."}});
    const auto clash = ruling({{"location", "bath"}, {"wet", "no"}});
    CHECK(clash["findings"].back() == ordered_json{{"contradiction", "\"room\" bath does not go with \"wet\" no"}});
    const auto nothing = ruling({});
    CHECK(nothing["unknown"] ==
          ordered_json{"occupancy", "room", "wet", "locked", "volts", "sink_ft", "wall_ft", "day"});
}

TEST_CASE("ruling json: a local rule says so") {
    const auto changes = sample_rules::amendments_of(
        {R"x({"id": "b", "action": "add", "basis": {"kind": "practice"}, "with": {"id": "local.wet", "title": "t", "why": "w",
             "permits": "AFCI", "when": {"wet": true},
             "versions": [{"editions": "2017-2026", "article": "210.8", "basis": {"kind": "practice"}}]}})x"});
    const auto book = sample_rules::book(trade::amended({}, changes, Edition::e2023, "").value(), Edition::e2023);
    const auto json = report::ruling_json(sample_rules::judged(book, {{"wet", "yes"}}), *sample_rules::vocabulary());
    CHECK(json["permits"] == ordered_json{"AFCI"});
    CHECK(json["findings"][0]["local"] == true);
    CHECK(json["findings"][0]["permits"] == "AFCI");
}

TEST_CASE("ruling json: the last of 64 results is named as well") {
    auto words = std::make_shared<trade::Vocabulary>();
    for (int i = 0; i < 64; ++i) words->add(trade::RuleResult{"R" + std::to_string(i), ""});
    trade::Ruling some;
    some.requires_ = (trade::ResultSet{1} << 63) | 1U;
    CHECK(report::ruling_json(some, *words)["requires"] == ordered_json{"R0", "R63"});
    some.requires_ = 0;
    CHECK(report::ruling_json(some, *words)["requires"] == ordered_json::array());
}

TEST_CASE("json text: quotes, backslashes and control signs are escaped, everything else stands as it is") {
    for (const std::string& text :
         {std::string{"plain"}, std::string{"a \"b\" \\ c"}, std::string{"tab\tline\nend\x01"},
          std::string{"\xC3\xA9 \xE2\x84\xA6"}, std::string{}, std::string{"nul\0in", 6}}) {
        std::string line;
        report::append_json_text(line, text);
        CHECK(ordered_json::parse(line).get<std::string>() == text);
    }
}
