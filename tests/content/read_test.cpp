#include "content/read/read.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "base/text.hpp"
#include "content/sample.hpp"

namespace {

using base::Fault;
using base::Faults;

/// A change to a document that makes one fault.
struct Spoil {
    std::string from, to;  ///< `to` holds no line feed before the fault
    std::string pointer;
    std::string what;  ///< a part of it
    bool warning = false;
};

int line_of(const std::string& text, const std::string& part) {
    const auto at = text.find(part);
    return 1 + static_cast<int>(std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n'));
}

/// The line on which the value stands that a pointer leads to.
int line_at(const std::string& text, const std::string& pointer) {
    const auto root = base::parse_located(text, "t.json").value();
    const base::Located* at = &root;
    for (const auto& key : base::split(pointer, '/')) {
        if (key.empty()) continue;
        const auto* list = std::get_if<base::Located::List>(&at->value);
        at = list == nullptr ? at->find(key) : &list->at(std::stoul(key));
        REQUIRE(at != nullptr);
    }
    return at->line;
}

Faults faults_of(const std::string& text) {
    content::Contents contents;
    content::add_document(contents, text, {"t.json", 0, 0, 0});
    return contents.faults;
}

std::string told(const Faults& faults) {
    std::string text;
    for (const auto& fault : faults) text += base::to_text(fault) + "\n";
    return text;
}

void check_spoils(const std::string& document, const std::vector<Spoil>& spoils) {
    for (const auto& spoil : spoils) {
        CAPTURE(spoil.to);
        const std::string text = sample::spoiled(document, spoil.from, spoil.to);
        REQUIRE_FALSE(text.empty());
        const Faults faults = faults_of(text);
        CAPTURE(told(faults));
        REQUIRE(faults.size() == 1);
        CHECK(faults[0].file == "t.json");
        CHECK(faults[0].pointer == spoil.pointer);
        CHECK(faults[0].what.find(spoil.what) != std::string::npos);
        CHECK(faults[0].warning == spoil.warning);
        CHECK_FALSE(faults[0].mend.empty());
        CHECK(faults[0].line == line_at(text, spoil.pointer));
    }
}

const content::Point& point(const content::Contents& contents, const std::string& id) {
    const auto* found = contents.point({id});
    REQUIRE(found != nullptr);
    return *found;
}

}  // namespace

TEST_CASE("read: the sample has no fault") {
    CHECK(told(sample::contents().faults).empty());
}

TEST_CASE("read: a deck and a point come through in full") {
    const auto contents = sample::contents();
    const auto& deck = contents.decks.at(0);
    CHECK(deck.name == "boxes");
    CHECK(deck.mistakes.size() == 5);
    const auto& volume = point(contents, "box.volume");
    CHECK(volume.stakes == content::Stakes::inspection);
    CHECK(volume.needs == std::vector<base::PointId>{{"box.accessible"}});
    CHECK(volume.caution == "Dead first.");
    CHECK(volume.topic == "boxes");
    CHECK(volume.deck == "boxes");
    CHECK(volume.version(trade::Edition::e2017) == nullptr);
    CHECK(volume.version(trade::Edition::e2026)->article == "314.16(A)");
    CHECK(volume.gaps.at(0).why == "Left out on purpose.");
    CHECK(point(contents, "box.accessible").version(trade::Edition::e2026)->unverified);
}

TEST_CASE("read: questions of every form come through in full") {
    const auto contents = sample::contents();
    const auto& a = point(contents, "box.accessible").questions;
    const auto& v = point(contents, "box.volume").questions;
    CHECK(a.at(0).right == std::vector<std::string>{"No, it stays reachable for good"});
    CHECK(a.at(0).wrong.at(1).mistake == "m.hidden");
    CHECK(a.at(1).right.size() == 2);
    CHECK(a.at(2).enough == "314.29");
    CHECK(a.at(2).wrong_articles.at(0).article == "314.25");
    CHECK(v.at(0).answer == base::Quantity{2.25, base::Unit::in3});
    CHECK(v.at(0).within == 0.01);
    CHECK(v.at(0).check->row.at("size") == "12");
    CHECK(v.at(1).check->facts.flag("clamps") == true);
    CHECK(v.at(1).check->facts.items("conductors")->at(0).count == 4);
    CHECK(v.at(2).wrong_orders.at(0).after == 3);
    CHECK(v.at(3).ideas.at(1).words.at(0) == "box");
    CHECK(v.at(3).wrong_words.at(0).mistake == "m.glue");
}

TEST_CASE("read: a place points back at the bytes of its point") {
    const auto contents = sample::contents();
    const auto& place = point(contents, "box.volume").place;
    CHECK(place.pointer == "/points/1");
    CHECK(place.line == line_of(sample::kDeck, "\"id\": \"box.volume\"") - 1);
    const auto slice = sample::kDeck.substr(place.begin, place.end - place.begin);
    CHECK(slice.front() == '{');
    CHECK(slice.find("\"id\": \"box.volume\"") != std::string::npos);
    CHECK(slice.back() == '}');
}

TEST_CASE("read: a table keeps the basis of each row, and a call its facts") {
    const auto contents = sample::contents();
    const auto& table = *contents.table("box-volume");
    CHECK(table.rows.at(0).basis.kind == trade::Basis::Kind::published);
    CHECK(table.rows.at(1).basis.kind == trade::Basis::Kind::memory);
    const auto& call = contents.families.at(0).scenarios.at(0);
    CHECK(call.facts.at(0).choices == std::vector<std::string>{"Mrs. Hale"});
    CHECK(call.facts.at(1).choices.size() == 3);
    CHECK(call.asks.at(1).point.text == "box.volume");
    CHECK(contents.jurisdictions.at(0).adoptions.size() == 2);
}

TEST_CASE("read: every kind of fault in a deck, with its pointer") {
    check_spoils(
        sample::kDeck,
        {{"\"format\": \"greentag-deck/1\",", "", "", "\"format\" is missing"},
         {"greentag-deck/1", "greentag-deck/9", "", "'greentag-deck/9' is no format"},
         {"\"deck\": \"boxes\",", "", "", "\"deck\" is missing"},
         {"\"title\": \"Boxes\"", "\"title\": 5", "/title", "should be text but is a number"},
         {"\"topic\": \"boxes\"", "\"topic\": \"boxes\", \"topics\": 1", "/topics", "unknown field \"topics\"", true},
         {"\"stakes\": \"fire\"", "\"stakes\": \"flood\"", "/points/0", "'flood' is no kind of stakes"},
         {"\"tags\": [\"box\", \"rough-in\"],", "", "/points/0", "\"tags\" is missing"},
         {"[\"box\", \"rough-in\"]", "[\"box\", 2]", "/points/0/tags/1", "should be text but is a number"},
         {"[\"box\", \"rough-in\"]", "\"box\"", "/points/0/tags", "should be a list but is text"},
         {"\"editions\": \"2017-2023\"", "\"editions\": \"2023-2017\"", "/points/0/versions/0", "no run of editions"},
         {"\"editions\": \"2017-2023\"", "\"editions\": \"2018\"", "/points/0/versions/0", "no run of editions"},
         {"\"editions\": \"2017-2023\"", "\"editions\": 2017", "/points/0/versions/0/editions",
          "should be text but is a number"},
         {"\"article\": \"314.29\"", "\"article\": \"the box rule\"", "/points/0/versions/0", "is no code reference"},
         {"\"says\": \"A box stays reachable.\",", "", "/points/0/versions/0", "\"says\" is missing"},
         {"{\"kind\": \"published\", \"source\": \"A magazine, on boxes\"}", "{\"kind\": \"published\"}",
          "/points/0/versions/0/basis", "a published basis names its source"},
         {"{\"kind\": \"memory\"}", "{\"kind\": \"hearsay\"}", "/points/0/versions/1/basis", "is no kind of basis"},
         {"{\"kind\": \"memory\"}", "{}", "/points/0/versions/1/basis", "\"kind\" is missing"},
         {"{\"kind\": \"memory\"}", "\"memory\"", "/points/0/versions/1/basis", "should be an object but is text"},
         {",\n          \"basis\": {\"kind\": \"memory\"}", "", "/points/0/versions/1", "\"basis\" is missing"},
         {"\"unverified\": true", "\"unverified\": \"yes\"", "/points/0/versions/1/unverified",
          "should be true or false but is text"},
         {"\"gaps\": [{\"editions\": \"2017\", ", "\"gaps\": [{", "/points/1/gaps/0", "\"editions\" is missing"},
         {"\"caution\"", "\"cautoin\"", "/points/1/cautoin", "unknown field", true}});
}

TEST_CASE("read: every kind of fault in a question, with its pointer") {
    const std::string p0 = "/points/0/questions/";
    const std::string p1 = "/points/1/questions/";
    check_spoils(
        sample::kDeck,
        {{"\"form\": \"choose\"", "\"form\": \"guess\"", p0 + "0", "there is no form 'guess'"},
         {"\"form\": \"choose\", ", "", p0 + "0", "\"form\" is missing"},
         {"\"right\": \"No, it stays reachable for good\",", "", p0 + "0", "\"right\" is missing"},
         {", \"mistake\": \"m.glue\"}]", "}]", p0 + "1/wrong/0", "\"mistake\" is missing"},
         {"[\"Above a lift-out ceiling tile\", \"Behind a blank cover in a wall\"]", "[]", p0 + "1", "no right option"},
         {"\"enough\": \"314.29\"", "\"enough\": \"there\"", p0 + "2", "'there' is no code reference"},
         {"\"article\": \"314.25\"", "\"article\": \"there\"", p0 + "2/mistakes/0", "'there' is no code reference"},
         {"\"unit\": \"in3\", \"within\"", "\"unit\": \"gallons\", \"within\"", p1 + "0/answer", "no unit 'gallons'"},
         {"\"unit\": \"in3\", \"within\"", "\"within\"", p1 + "0/answer", "\"unit\" is missing"},
         {"\"value\": 2.25", "\"value\": \"2.25\"", p1 + "0/answer/value", "should be a number but is text"},
         {"\"answer\": {\"value\": 2.25, \"unit\": \"in3\", \"within\": 0.01},", "", p1 + "0", "\"answer\" is missing"},
         {"\"row\": {\"size\": 12}, ", "", p1 + "0/check", "\"row\" is missing"},
         {"\"box-fill\"", "\"ampacity\"", p1 + "1/check", "there is no calculator 'ampacity'"},
         {"\"count\": 4", "\"count\": 4.5", p1 + "1/check/facts/conductors/0", "should be a whole number"},
         {"\"count\": 4", "\"count\": -4", p1 + "1/check/facts/conductors/0", "should be a whole number"},
         {"\"before\": 2, \"after\": 3", "\"before\": 3, \"after\": 2", p1 + "2/mistakes/0",
          "are not an earlier and a later step"},
         {"\"before\": 2, \"after\": 3", "\"before\": 2, \"after\": 5", p1 + "2/mistakes/0",
          "are not an earlier and a later step"},
         {"\"steps\": [\"Lock out\", \"Prove dead\", \"Open\", \"Look\"],\n          \"mistakes\": [{\"before\": 2, "
          "\"after\": 3, \"mistake\": \"m.early\"}]",
          "\"steps\": [\"Look\"], \"mistakes\": []", p1 + "2", "one step has no order"},
         {"[\"glue\"]", "\"glue\"", p1 + "3/mistakes/0/words", "should be a list but is text"},
         {"\"answer\": \"heat and no box\"", "\"answer\": \"heat and no box\", \"right\": 1", p1 + "3/right",
          "unknown field \"right\"", true}});
}

TEST_CASE("read: a recall question needs ideas to be marked by") {
    const auto from = sample::kDeck.find("\"ideas\": [");
    const auto to = sample::kDeck.find("],\n          \"mistakes\": [{\"words\"");
    const std::string text = sample::kDeck.substr(0, from) + "\"ideas\": [" + sample::kDeck.substr(to);
    const auto faults = faults_of(text);
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].pointer == "/points/1/questions/3");
    CHECK(faults[0].what.find("right answer must contain") != std::string::npos);
}

TEST_CASE("read: every kind of fault in tables, calls and jurisdictions") {
    check_spoils(sample::kTable, {{"\"in3\"", "\"gallons\"", "/columns/volume", "'gallons' is no unit"},
                                  {"{\"size\": \"14\", ", "{", "/rows/0", "the row lacks its key \"size\""},
                                  {"\"keys\": [\"size\"],", "", "", "\"keys\" is missing"},
                                  {"{\"volume\": \"in3\"}", "[]", "/columns", "should be an object but is a list"}});
    check_spoils(sample::kCalls, {{"\"point\": \"box.volume\", ", "", "/scenarios/0/asks/1", "\"point\" is missing"},
                                  {"\"story\": \"{customer} called about a warm spot in the {room}.\",", "",
                                   "/scenarios/0", "\"story\" is missing"},
                                  {"\"Mrs. Hale\"", "null", "/scenarios/0/facts/customer", "should be text"},
                                  {"{\"choices\": [\"hall\", \"den\", \"attic\"]}", "{}", "/scenarios/0/facts/room",
                                   "nothing says what this fact is"}});
    check_spoils(
        sample::kPlaces,
        {{"\"edition\": \"2017\"", "\"edition\": \"2018\"", "/jurisdictions/0/adoptions/0", "this is no edition"},
         {"\"2018-07-01\"", "\"July 2018\"", "/jurisdictions/0/adoptions/0", "this is no date"},
         {"\"name\": \"Alder\",", "", "/jurisdictions/0", "\"name\" is missing"}});
}

TEST_CASE("read: a fault has the line of its value") {
    struct Row {
        std::string from, to, shows;
    };
    const std::vector<Row> rows = {{"\"stakes\": \"fire\"", "\"stakes\": 3", "\"stakes\": 3"},
                                   {"\"unverified\": true", "\"unverified\": 1", "\"unverified\": 1"},
                                   {"\"after\": 3", "\"after\": \"3\"", "\"after\": \"3\""},
                                   {"\"why\": \"Left", "\"wyh\": \"Left", "\"wyh\""}};
    for (const auto& row : rows) {
        const std::string text = sample::spoiled(sample::kDeck, row.from, row.to);
        REQUIRE_FALSE(text.empty());
        const auto faults = faults_of(text);
        REQUIRE_FALSE(faults.empty());
        CHECK_MESSAGE(faults[0].line == line_of(text, row.shows), told(faults));
    }
}

TEST_CASE("read: all faults of a document are told at once") {
    std::string text = sample::spoiled(sample::kDeck, "\"stakes\": \"fire\"", "\"stakes\": \"flood\"");
    text = sample::spoiled(text, "\"article\": \"314.29\"", "\"article\": \"x\"");
    text = sample::spoiled(text, "\"value\": 2.25", "\"value\": null");
    CHECK(faults_of(text).size() == 3);
}

TEST_CASE("read: what is no object, or is broken, is one fault") {
    for (const std::string text : {"[]", "5", "\"deck\"", "{", "", "{\"format\": 3}"}) {
        CAPTURE(text);
        CHECK(faults_of(text).size() == 1);
    }
}

TEST_CASE("read: a deck cut at any byte is a fault, never a crash") {
    for (std::size_t cut = 0; cut + 2 < sample::kDeck.size(); ++cut)
        REQUIRE_MESSAGE(faults_of(sample::kDeck.substr(0, cut)).size() == 1, cut);
}

TEST_CASE("read: property: a deck with pieces taken out is read without a crash, faults in well-formed places") {
    std::size_t faulty = 0;
    for (base::Seed seed = 1; seed <= 1500; ++seed) {
        base::Random random{seed};
        std::string text = sample::kDeck;
        text.erase(random.below(text.size()), 1 + random.below(40));
        const auto faults = faults_of(text);
        for (const auto& fault : faults) CHECK_MESSAGE(fault.line >= 1, seed, " ", base::to_text(fault));
        faulty += base::any_errors(faults) ? 1 : 0;
    }
    CHECK(faulty > 1000);
}
