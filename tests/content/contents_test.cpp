#include "content/contents.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "content/check/check.hpp"
#include "content/sample.hpp"

namespace {

content::Contents loaded(const std::vector<std::string>& roots) {
    auto contents = content::load_contents(roots);
    REQUIRE(contents.has_value());
    return std::move(*contents);
}

std::size_t points_in(const content::Contents& contents) {
    std::size_t count = 0;
    for (const auto& deck : contents.decks) count += deck.points.size();
    return count;
}

}  // namespace

TEST_CASE("contents: a folder is read in full, in the order of its paths") {
    const sample::Folder folder{"contents-whole"};
    folder.write_sample();
    folder.write("decks/notes.txt", "no content");
    const auto contents = loaded({folder.path()});
    CHECK(contents.faults.empty());
    REQUIRE(contents.files.size() == 4);
    CHECK(contents.files[0].path == folder.in("decks/boxes.json"));
    CHECK(contents.files[0].size == sample::kDeck.size());
    CHECK(contents.files[3].path == folder.in("scenarios/calls.json"));
}

TEST_CASE("contents: a later root lays its points, calls, tables and jurisdictions over those of an earlier one") {
    const sample::Folder below{"contents-below"};
    const sample::Folder above{"contents-above"};
    below.write_sample();
    above.write("decks/mine.json", sample::spoiled(sample::kDeck, "Boxes stay reachable", "Mine"));
    above.write("decks/mine-too.json", sample::spoiled(sample::kPlaces, "\"Alder\"", "\"Mine\""));
    above.write("decks/table.json", sample::spoiled(sample::kTable, "Volume per conductor", "Mine"));
    above.write("scenarios/mine.json", sample::spoiled(sample::kCalls, "A warm ceiling", "Mine"));
    const auto contents = loaded({below.path(), above.path()});
    CHECK(contents.faults.empty());
    CHECK(points_in(contents) == 2);
    CHECK(contents.point({"box.accessible"})->title == "Mine");
    CHECK(contents.table("box-volume")->title == "Mine");
    REQUIRE(contents.jurisdictions.size() == 1);
    CHECK(contents.jurisdictions[0].name == "Mine");
    CHECK(contents.families.at(0).scenarios.empty());
    CHECK(contents.families.at(1).scenarios.at(0).title == "Mine");
}

TEST_CASE("contents: what the points that gave way had used is not called unused") {
    const sample::Folder below{"contents-used-below"};
    const sample::Folder above{"contents-used-above"};
    below.write_sample();
    above.write("decks/mine.json", sample::kDeck);
    above.write("scenarios/mine.json", sample::kCalls);
    CHECK(content::check_contents(loaded({below.path(), above.path()})).empty());
}

TEST_CASE("contents: an overlay leaves alone what it does not name") {
    const sample::Folder below{"contents-rest-below"};
    const sample::Folder above{"contents-rest-above"};
    below.write_sample();
    above.write("decks/mine.json", sample::spoiled(sample::kDeck, "\"id\": \"box.volume\"", "\"id\": \"box.mine\""));
    const auto contents = loaded({below.path(), above.path()});
    CHECK(points_in(contents) == 3);
    CHECK(contents.point({"box.volume"})->place.file == below.in("decks/boxes.json"));
    CHECK(contents.point({"box.accessible"})->place.file == above.in("decks/mine.json"));
}

TEST_CASE("contents: an id twice in one root is a fault that names the other place") {
    const sample::Folder folder{"contents-twice"};
    folder.write_sample();
    folder.write("decks/copy.json", sample::kDeck);
    folder.write("scenarios/copy.json", sample::kCalls);
    const auto faults = loaded({folder.path()}).faults;
    REQUIRE(faults.size() == 3);
    CHECK(faults[0].what.find("'box.accessible' is taken by " + folder.in("decks/boxes.json")) != std::string::npos);
    CHECK(faults[2].what.find("'call.attic' is taken") != std::string::npos);
    CHECK(faults[2].pointer == "/scenarios/0");
}

TEST_CASE("contents: faults of all files are told, none stops the reading of another") {
    const sample::Folder folder{"contents-faults"};
    folder.write_sample();
    folder.write("decks/broken.json", "{");
    folder.write("decks/latin.json", "{\n\"format\": \"caf\xE9\"}");
    const auto contents = loaded({folder.path()});
    REQUIRE(contents.faults.size() == 2);
    CHECK(contents.faults[0].file == folder.in("decks/broken.json"));
    CHECK(contents.faults[1].what == "holds bytes that are not UTF-8");
    CHECK(contents.faults[1].line == 2);
    CHECK(points_in(contents) == 2);
}

TEST_CASE("contents: roots that are no content folders are all told") {
    const sample::Folder folder{"contents-roots"};
    const auto contents = content::load_contents({folder.in("nowhere"), folder.in("decks")});
    REQUIRE_FALSE(contents.has_value());
    REQUIRE(contents.error().size() == 2);
    CHECK(contents.error()[0].what == "there is no such content folder");
    CHECK(contents.error()[1].what == "this folder holds neither decks/ nor scenarios/");
}

TEST_CASE("contents: a jurisdiction has the edition of its latest adoption") {
    const auto contents = sample::contents();
    const auto& alder = contents.jurisdictions.at(0);
    const auto on = [&](const char* day) { return alder.edition_on(base::parse_instant(day).value()); };
    CHECK_FALSE(on("2018-06-30").has_value());
    CHECK(on("2018-07-01") == trade::Edition::e2017);
    CHECK(on("2021-06-30") == trade::Edition::e2017);
    CHECK(on("2026-01-01") == trade::Edition::e2020);
}
