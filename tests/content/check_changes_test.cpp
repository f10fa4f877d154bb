#include <algorithm>
#include <filesystem>

#include <doctest/doctest.h>

#include "content/check/check.hpp"
#include "content/contents.hpp"
#include "content/differences.hpp"
#include "content/sample_trade.hpp"

namespace {

const std::string kList = R"json({
  "format": "greentag-changes/1", "from": "2017", "to": "2020",
  "changes": [
    {"rule": "g.bath", "change": "changed", "says": "Up to 250 V now, until then 125 V.", "basis": {"kind": "practice"}},
    {"rule": "g.sink", "change": "new", "says": "Sinks count now.", "basis": {"kind": "practice"}}
  ]
})json";

/// What the check of the change lists finds, one line each.
std::vector<std::string> found(const std::string& list) {
    auto contents = sample_trade::contents();
    content::add_document(contents, list, {"changes.json", 0, 0, 0});
    base::Faults faults = contents.faults;
    content::check_changes(contents, content::TradeData::make(contents).value(), faults);
    std::vector<std::string> lines;
    for (const auto& fault : faults) lines.push_back(fault.what);
    return lines;
}

bool tells(const std::vector<std::string>& lines, const std::string& part) {
    return std::ranges::any_of(lines, [&](const auto& line) { return line.find(part) != std::string::npos; });
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

TEST_CASE("change lists: as shipped they are the differences between the editions, to the rule") {
    // The decks have no part in it, and reading them takes a while under the sanitizers.
    const auto contents =
        content::load_contents(content::find_sources({PROJECT_FOLDER}).value(),
                               {"greentag-facts/1", "greentag-rules/1", "greentag-table/1", "greentag-changes/1"});
    const auto data = content::TradeData::make(contents).value();
    REQUIRE(contents.changes.size() > 200);
    base::Faults faults;
    content::check_changes(contents, data, faults);
    for (const auto& fault : faults) FAIL_CHECK(base::to_text(fault));
    // Over two steps what both lists say of a rule is told.
    const auto far =
        content::differences(contents, data, {trade::Edition::e2017, "", ""}, {trade::Edition::e2023, "", ""});
    CHECK(std::ranges::any_of(far, [](const auto& one) { return one.says.size() == 2; }));
}
