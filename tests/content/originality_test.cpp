#include "content/originality.hpp"

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "base/text.hpp"
#include "content/contents.hpp"

namespace {

using content::Passage;
using content::SharedRun;

// Invented: no book says this.
const std::string kBook =
    "991.1 Barrels.\nEvery barrel that stands in a yard for longer than nine days shall be turned once around its own\n"
    "axis by the keeper, who writes the day on the lid in white chalk.\n"
    "991.2 Lamps.\nNo lamp shall hang lower than the shoulder of the tallest per-\nson who passes below it at night.\n";

std::vector<SharedRun> runs(const std::string& text, const std::vector<content::StockPhrase>& stock = {},
                            std::size_t least = 8) {
    return content::shared_runs({{"a passage", text, {}}}, kBook, stock, least);
}

}  // namespace

TEST_CASE("originality: a run of eight words is found, one of seven is not") {
    CHECK(runs("We know: stands in a yard for longer than nine, or so.").size() == 1);
    CHECK(runs("We know: stands in a yard for longer than, say, ten.").empty());
    const auto found = runs("We know: stands in a yard for longer than nine, or so.");
    CHECK(found[0].words == 8);
    CHECK(found[0].shared == "stands in a yard for longer than nine");
    CHECK(found[0].line == 2);
    CHECK_FALSE(found[0].changed);
}

TEST_CASE("originality: case, punctuation and line breaks hide nothing") {
    CHECK(runs("STANDS, in a (yard) for\n\n   longer -- than nine days; SHALL be turned").size() == 1);
    CHECK(runs("lower than the shoulder of the tallest person who passes").size() == 1);  // broken by a hyphen there
    CHECK(runs("around its own axis by the keeper, who writes the day")[0].words == 11);  // over a line break there
}

TEST_CASE("originality: one word changed, left out or put in hides nothing either") {
    for (const std::string text : {"every barrel that stands in a garden for longer than nine days",
                                   "every barrel that stands in yard for longer than nine days",
                                   "every barrel that stands in a wide yard for longer than nine days"}) {
        const auto found = runs(text);
        REQUIRE(found.size() == 1);
        CHECK(found[0].changed);
        CHECK(found[0].words >= 11);
    }
    // Two changes within few words are another sentence.
    CHECK(runs("every cask that stands in a garden for less than nine days").empty());
}

TEST_CASE("originality: our own words about the same thing are no finding") {
    CHECK(runs("Barrels left over nine days get one full turn, and the date goes on the lid in chalk.").empty());
    CHECK(runs("").empty());
    CHECK(content::shared_runs({}, kBook, {}).empty());
    CHECK(content::shared_runs({{"p", "stands in a yard for longer than nine days", {}}}, "", {}).empty());
}

TEST_CASE("originality: a stock phrase counts for nothing and ends a run") {
    const std::string text = "stands in a yard for longer than nine days shall be turned once";
    CHECK(runs(text)[0].words == 13);
    CHECK(runs(text, {{"For longer than", "a usual way to begin", {}}}).empty());
    CHECK(runs(text, {{"stands in a", "how things stand", {}}})[0].words == 10);
}

TEST_CASE("originality: each stretch of a passage is told once, with its longest run") {
    const auto found =
        runs("that stands in a yard for longer than nine days and then: who writes the day on the lid in white chalk");
    REQUIRE(found.size() == 2);
    CHECK(found[0].words == 10);
    CHECK(found[1].words == 10);
    CHECK(found[1].line == 3);
}

TEST_CASE("originality: property: every run planted in random words is found") {
    base::Random random{8};
    const auto word = [&] { return "w" + std::to_string(random.below(5000)); };
    for (int round = 0; round < 200; ++round) {
        std::vector<std::string> book;
        for (int n = 0; n < 300; ++n) book.push_back(word());
        const std::size_t length = 8 + random.below(20);
        const std::size_t from = random.below(book.size() - length);
        std::vector<std::string> passage;
        for (auto n = random.below(15); n > 0; --n) passage.push_back("own" + std::to_string(n));
        passage.insert(passage.end(), book.begin() + static_cast<std::ptrdiff_t>(from),
                       book.begin() + static_cast<std::ptrdiff_t>(from + length));
        passage.emplace_back("end");
        const auto found = content::shared_runs({{"p", base::join(passage, " "), {}}}, base::join(book, " "), {});
        REQUIRE(found.size() == 1);
        CHECK(found[0].words == length);
    }
}

TEST_CASE("originality: phrases are read, each with its reason") {
    content::Contents contents;
    content::add_document(
        contents,
        R"({"format": "greentag-phrases/1", "phrases": [{"text": "the north gate", "reason": "a name"},
                              {"text": "gate", "reason": "a name"}, {"text": "the south gate"}]})",
        {});
    CHECK(contents.stock.size() == 3);
    CHECK(contents.stock[0].reason == "a name");
    REQUIRE(contents.faults.size() == 2);
    CHECK(contents.faults[0].what == "one word is no phrase");
}
