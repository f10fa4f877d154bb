#include <algorithm>
#include <filesystem>

#include <doctest/doctest.h>

#include "content/check/check.hpp"
#include "content/contents.hpp"
#include "content/differences.hpp"
#include "content/sample_trade.hpp"

namespace {

using sample_trade::tells;

const std::string kList = R"json({
  "format": "greentag-changes/1", "from": "2017", "to": "2020",
  "changes": [
    {"rule": "g.bath", "change": "changed", "says": "Up to 250 V now, until then 125 V.", "basis": {"kind": "practice"}},
    {"rule": "g.sink", "change": "new", "says": "Sinks count now.", "basis": {"kind": "practice"}}
  ]
})json";

/// What the check of the change lists finds, one line each.
std::vector<std::string> found(const std::string& list) {
    return sample_trade::found(content::check_changes, list);
}

}  // namespace

TEST_CASE("change lists: one that declares exactly what differs has no faults") {
    CHECK(found(kList).empty());
}

TEST_CASE("change lists: a difference that is not declared is told, and one that is none") {
    using sample_rules::spoiled;
    const auto missing = found(spoiled(kList, "\"rule\": \"g.sink\"", "\"rule\": \"w.wall\""));
    CHECK(missing.size() == 2);
    CHECK(tells(missing, "rule 'g.sink' is new from 2017 to 2020, and no change list says so"));
    CHECK(tells(missing, "rule 'w.wall' is declared new from 2017 to 2020, but nothing about it differs"));
    CHECK(tells(found(spoiled(kList, "\"changed\"", "\"gone\"")), "is declared gone, but it is changed"));
    CHECK(tells(found(spoiled(kList, "\"rule\": \"g.sink\"", "\"rule\": \"g.bath\"")), "stands twice"));
    CHECK(tells(found(spoiled(kList, "\"rule\": \"g.sink\"", "\"table\": \"g.sink\"")), "table 'g.sink' is declared"));
}

TEST_CASE("change lists: once points are declared, what their verified versions say differently has to be") {
    using sample_rules::spoiled;
    const std::string point =
        R"(, {"point": "box.volume", "change": "new", "says": "Not told before.", "basis": {"kind": "practice"}}
  ]
})";
    const auto with_point = spoiled(kList, "\n  ]\n}", point);
    CHECK(found(with_point).empty());
    CHECK(tells(
        found(spoiled(with_point, "\"change\": \"new\", \"says\": \"Not", "\"change\": \"moved\", \"says\": \"Not")),
        "point 'box.volume' is declared moved, but it is new"));
    const auto other = found(spoiled(with_point, "box.volume", "box.accessible"));
    CHECK(tells(other, "point 'box.volume' is new from 2017 to 2020, and no change list says so"));
    CHECK(tells(other, "point 'box.accessible' is declared new from 2017 to 2020, but nothing about it differs"));
    CHECK(tells(
        found(spoiled(with_point, "\"point\": \"box.volume\"", "\"point\": \"box.volume\", \"rule\": \"g.sink\"")),
        "more than one of rule, table and point"));
}

TEST_CASE("change lists: content laid over from a folder without lists need not be declared") {
    auto contents = sample_trade::contents();
    content::add_document(contents, kList, {"list.json", 0, 0, 0});
    const auto told = [&] {
        base::Faults faults;
        content::check_changes(contents, content::TradeData::make(contents).value(), faults);
        return faults.size();
    };
    CHECK(told() == 0);
    contents.changes.pop_back();
    CHECK(told() == 1);
    // The list now lies in another root than the rules.
    contents.files = {{"rules.json", 0, 0, 0}, {"list.json", 1, 0, 0}};
    CHECK(told() == 0);
}

TEST_CASE("change lists: a list that makes no sense is refused where it stands") {
    using sample_rules::spoiled;
    CHECK(tells(found(spoiled(kList, "\"to\": \"2020\"", "\"to\": \"2023\"")), "from one edition to the next"));
    CHECK(tells(found(spoiled(kList, "\"new\"", "\"added\"")), "'added' is no kind of change"));
    CHECK(tells(found(spoiled(kList, ", \"says\": \"Sinks count now.\"", "")), "\"says\""));
    CHECK(tells(found(spoiled(kList, "\"from\": \"2017\"", "\"from\": \"1999\"")), "this is no edition"));
}

TEST_CASE("change lists: without any, nothing has to be declared") {
    auto contents = sample_trade::contents();
    base::Faults faults;
    content::check_changes(contents, content::TradeData::make(contents).value(), faults);
    CHECK(faults.empty());
}

TEST_CASE("differences: a rule has moved when its reference is another one, not when its number was not looked up") {
    const auto moves = [](const std::string& article, const std::string& more) {
        const std::string held =
            R"json({"editions": "2017-2026", "article": "406.9", "basis": {"kind": "practice"}})json";
        const std::string two = R"json({"editions": "2017-2023", "article": "406.9(B)", "basis": {"kind": "practice"}},
            {"editions": "2026", "article": ")json" +
                                article + R"json(", "basis": {"kind": "practice"})json" + more + "}";
        const auto contents =
            sample_trade::contents(sample_trade::kPlaces, sample_rules::spoiled(sample_rules::kRules, held, two));
        const auto data = content::TradeData::make(contents).value();
        const auto both = [&](trade::Edition from, trade::Edition to) {
            return std::ranges::any_of(content::differences(contents, data, {from, "", ""}, {to, "", ""}),
                                       [](const auto& one) { return one.id == "r.wet"; });
        };
        const bool onward = both(trade::Edition::e2023, trade::Edition::e2026);
        CHECK(onward == both(trade::Edition::e2026, trade::Edition::e2023));
        return onward;
    };
    const std::string unverified = ", \"unverified\": true";
    CHECK(moves("406.26(B)", ""));
    CHECK(moves("406.26(B)", unverified));
    CHECK(moves("406.9", ""));
    CHECK_FALSE(moves("406.9", unverified));
    CHECK_FALSE(moves("Article 406", unverified));
    CHECK(moves("Article 404", unverified));
}

TEST_CASE("change lists: as shipped they are the differences between the editions, to the rule") {
    // The decks have no part in it, and reading them takes a while under the sanitizers.
    auto contents =
        content::load_contents(content::find_sources({PROJECT_FOLDER}).value(),
                               {"greentag-facts/1", "greentag-rules/1", "greentag-table/1", "greentag-changes/1"});
    const auto data = content::TradeData::make(contents).value();
    std::erase_if(contents.changes, [](const auto& change) { return change.of == content::Differs::point; });
    REQUIRE(contents.changes.size() > 200);
    base::Faults faults;
    content::check_changes(contents, data, faults);
    for (const auto& fault : faults) FAIL_CHECK(base::to_text(fault));
    // Over two steps what both lists say of a rule is told.
    const auto far =
        content::differences(contents, data, {trade::Edition::e2017, "", ""}, {trade::Edition::e2023, "", ""});
    CHECK(std::ranges::any_of(far, [](const auto& one) { return one.says.size() == 2; }));
}
