#include "content/trade_data.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "content/sample_trade.hpp"

namespace {

using sample_rules::spoiled;
using trade::Edition;

trade::ResultSet required(const std::string& place, const std::string& day, const sample_rules::Given& given) {
    trade::CaseFacts facts{sample_trade::data().vocabulary()};
    for (const auto& [name, text] : given) REQUIRE(facts.set(name, std::string_view{text}).has_value());
    trade::Ruling ruling;
    sample_trade::data().book(Edition::e2023, place, day).judge(facts, trade::kEveryResult, ruling);
    return ruling.requires_;
}

base::Faults faults(const content::Contents& contents) {
    const auto made = content::TradeData::make(contents);
    REQUIRE_FALSE(made.has_value());
    return made.error();
}

bool tells(const base::Faults& faults, std::string_view part) {
    return std::ranges::any_of(faults, [&](const auto& f) { return f.what.find(part) != std::string::npos; });
}

}  // namespace

TEST_CASE("trade data: a place's amendments count there, on their days, and nowhere else") {
    const sample_rules::Given sink = {{"occupancy", "shop"}, {"location", "hall"}, {"sink_ft", "1"}};
    CHECK(required("", "2026-01-01", sink) != 0);
    CHECK(required("plain", "2026-01-01", sink) != 0);
    CHECK(required("ours", "2024-06-01", sink) == 0);
    CHECK(required("ours", "2026-01-01", sink) != 0);
    const sample_rules::Given yard = {{"occupancy", "shop"}, {"location", "yard"}, {"sink_ft", "none"}};
    CHECK(required("plain", "2026-01-01", yard) == 0);
    CHECK(required("ours", "2026-01-01", yard) != 0);
    const sample_rules::Given wall = {{"occupancy", "house"}, {"room", "bath"}, {"sink_ft", "none"},
                                      {"locked", "yes"},      {"wall_ft", "5"}, {"day", "2020-01-01"}};
    CHECK(required("ours", "2026-05-31", wall) == 0);
    CHECK(required("ours", "2026-06-01", wall) != 0);
    CHECK(required("nowhere", "2026-05-31", wall) != 0);
}

TEST_CASE("trade data: a book is made once and kept") {
    const auto& data = sample_trade::data();
    CHECK(&data.book(Edition::e2023, "ours", "2026-01-01") == &data.book(Edition::e2023, "ours", "2026-01-01"));
    CHECK(&data.book(Edition::e2023, "ours", "2026-01-01") != &data.book(Edition::e2023, "ours", "2024-06-01"));
    CHECK(data.jurisdiction("ours") != nullptr);
    CHECK(data.jurisdiction("theirs") == nullptr);
    CHECK(data.rules_for(Edition::e2023, "ours", "2026-01-01").size() == data.rules().size());
}

TEST_CASE("trade data: rules, amendments and tables with faults are refused, each told once") {
    const auto rules = faults(
        sample_trade::contents(sample_trade::kPlaces, spoiled(sample_rules::kRules, "{\"under\": 6}", "\"near\"")));
    CHECK(rules.size() == 1);
    CHECK(tells(rules, "\"sink_ft\" is asked for in the wrong way"));
    CHECK(tells(
        faults(sample_trade::contents(spoiled(sample_trade::kPlaces, "\"rule\": \"g.sink\"", "\"rule\": \"g.snk\""))),
        "there is no rule 'g.snk' to change"));
    CHECK(tells(faults(sample_trade::contents(
                    spoiled(sample_trade::kPlaces, "\"location\": \"yard\"", "\"location\": \"garden\""))),
                "\"location\" is never 'garden'"));
    CHECK(tells(faults(sample_trade::contents(sample_trade::kPlaces, sample_rules::kRules,
                                              spoiled(sample::kTable, "\"volume\": 2.25", "\"volume\": \"much\""))),
                "table 'box-volume': 'much' should be a number"));
}

TEST_CASE("trade data: a rule that a later amendment hides is looked at all the same") {
    const std::string both = spoiled(
        sample_trade::kPlaces, R"({"id": "halls", "action": "replace")",
        R"x({"id": "once", "action": "replace", "rule": "a.rooms", "until": "2025-01-01", "basis": {"kind": "practice"}, "with":
         {"id": "a.rooms", "title": "Baths", "why": "Arcs.", "requires": "AFCI", "when": {"room": "barn"},
          "versions": [{"editions": "2017-2026", "article": "210.12(A)", "basis": {
    "kind" : "practice"}}]
}
}
, {"id": "halls", "action": "replace")x");
    CHECK(tells(faults(sample_trade::contents(both)), "\"room\" is never 'barn'"));
    CHECK(content::TradeData::make(sample_trade::contents(spoiled(both, "\"barn\"", "\"bath\""))).has_value());
}

TEST_CASE("trade data: an amendment that fits only on some days takes no other with it") {
    const std::string places = spoiled(spoiled(sample_trade::kPlaces, "\"id\": \"yards\", \"action\": \"add\"",
                                               "\"id\": \"yards\", \"action\": \"add\", \"from\": \"2026-01-01\""),
                                       "\"rule\": \"w.wall\"", "\"rule\": \"local.yard\"");
    const auto data = content::TradeData::make(sample_trade::contents(places));
    REQUIRE(data.has_value());
    const auto rules = data->rules_for(Edition::e2023, "ours", "2025-06-01");
    CHECK(std::ranges::none_of(rules, [](const auto& r) { return r.id == "g.sink"; }));
}

TEST_CASE("trade data: the files of the trade are told by their format, a later root lies over an earlier one") {
    const sample::Folder below{"trade-below"};
    const sample::Folder above{"trade-above"};
    for (const char* folder : {"decks/rules", "decks/tables", "decks/jurisdictions"}) {
        std::filesystem::create_directories(below.in(folder));
        std::filesystem::create_directories(above.in(folder));
    }
    below.write("decks/rules/facts.json", sample_rules::kFacts);
    below.write("decks/rules/sample.json", sample_rules::kRules);
    below.write("decks/tables/box-volume.json", sample::kTable);
    below.write("decks/jurisdictions/places.json", sample_trade::kPlaces);
    // Decks are not read: a fault in one keeps nobody from the rules.
    below.write("decks/broken.json", "{");
    const auto first = content::load_trade_data(std::vector<std::string>{below.path()});
    REQUIRE(first.has_value());
    CHECK(first->rules().size() == 5);
    CHECK(first->jurisdictions().size() == 2);
    CHECK(first->tables().box_volume[index_of(trade::Size::awg12)] == 2.25);
    above.write("decks/rules/mine.json",
                spoiled(R"json({"format": "greentag-rules/1", "name": "m", "title": "t", "topic": "mine",
      "rules": [{"id": "g.sink", "title": "My sinks", "why": "w", "requires": "GFCI", "when": {"wet": true},
        "versions": [{"editions": "2017-2026", "article": "210.8", "basis": {"kind": "practice"}}]}]})json",
                        "\"m\"", "\"mine\""));
    above.write("decks/tables/box-volume.json", spoiled(sample::kTable, "2.25", "2.5"));
    const auto over = content::load_trade_data(std::vector<std::string>{below.path(), above.path()});
    REQUIRE(over.has_value());
    CHECK(over->rules().size() == 5);
    CHECK(std::ranges::count_if(over->rules(), [](const auto& r) { return r.title == "My sinks"; }) == 1);
    CHECK(over->tables().box_volume[index_of(trade::Size::awg12)] == 2.5);
    above.write("decks/rules/mine.json", R"({"format": "greentag-rules/1")");
    const auto broken = content::load_trade_data(std::vector<std::string>{below.path(), above.path()});
    REQUIRE_FALSE(broken.has_value());
    CHECK(broken.error().front().file == above.in("decks/rules/mine.json"));
}
