#include <algorithm>

#include <doctest/doctest.h>

#include "base/text.hpp"
#include "content/check/check.hpp"
#include "content/sample.hpp"

namespace {

using sample::spoiled;

const std::string kFigures = R"json({
  "format": "greentag-figures/1", "title": "Figures of boxes",
  "figures": [
    {"id": "reach", "what": "How near a box has to be", "value": 6, "unit": "ft", "article": "314.29",
     "editions": "2017-2026", "basis": {"kind": "memory"}, "points": ["box.accessible"]},
    {"id": "pair", "what": "Room of two conductors", "value": 4, "unit": "in3", "editions": "2020-2026",
     "basis": {"kind": "memory"}, "points": ["box.volume"]},
    {"id": "room", "what": "Room of one conductor", "value": 2.25, "unit": "in3", "editions": "2020-2026",
     "basis": {"kind": "memory"}, "points": ["box.volume"],
     "check": {"lookup": "box-volume", "row": {"size": 12}, "column": "volume"}}
  ]
})json";

/// What the check of figures finds in the sample with a register, one text.
std::string found(const std::string& deck, const std::string& figures = kFigures) {
    auto contents = sample::contents(deck);
    content::add_document(contents, figures, {"figures.json", 0, 0, 0});
    base::Faults faults = contents.faults;
    content::check_figures(contents, faults);
    std::vector<std::string> lines;
    for (const auto& fault : faults) {
        CHECK(fault.line > 0);
        lines.push_back(fault.what);
    }
    return base::join(lines, "\n");
}

const std::string kSays = "\"A box stays reachable.\"";
const std::string kRight = "No, it stays reachable for good";
const std::string kText = "May a box vanish behind new drywall?";

}  // namespace

TEST_CASE("figures: without a register nothing has to be backed") {
    auto contents = sample::contents(spoiled(sample::kDeck, kSays, "\"A box stays within 9 ft.\""));
    base::Faults faults;
    content::check_figures(contents, faults);
    CHECK(faults.empty());
}

TEST_CASE("figures: a number that a point says stands in the register for its edition") {
    CHECK(found(sample::kDeck).empty());
    CHECK(found(spoiled(sample::kDeck, kSays, "\"A box stays within 6 ft, which is 72 in.\"")).empty());
    CHECK(found(spoiled(sample::kDeck, kSays, "\"A box stays within 7 ft.\"")) ==
          "box.accessible: nothing backs the number 7 ft (2017)");
    const auto narrow = spoiled(kFigures, "\"2017-2026\"", "\"2020-2026\"");
    CHECK(found(spoiled(sample::kDeck, kSays, "\"A box stays within 6 ft.\""), narrow) ==
          "box.accessible: nothing backs the number 6 ft (2017)");
    CHECK(found(spoiled(sample::kDeck, "Standard boxes have a volume by table.", "A box is within 6 ft.")) ==
          "box.volume: nothing backs the number 6 ft (2020)");
}

TEST_CASE("figures: a number in a right option is told, worked out or registered") {
    CHECK(found(spoiled(sample::kDeck, kRight, "No, within 6 ft")).empty());
    CHECK(found(spoiled(sample::kDeck, kRight, "No, within 8 ft")) ==
          "box.accessible#a: nothing backs the number 8 ft (2017)");
    const auto told = spoiled(spoiled(sample::kDeck, kRight, "No, within 8 ft"), kText, "May a box 8 ft up vanish?");
    CHECK(found(told).empty());
    CHECK(found(spoiled(sample::kDeck, "\"right\": \"" + kRight + "\"",
                        "\"right\": \"No, within 8 ft\", \"check\": {\"sum\": \"6 + 2\"}"))
              .empty());
    CHECK(found(spoiled(sample::kDeck, "\"right\": \"" + kRight + "\"",
                        "\"right\": \"No, within 8 ft\", \"check\": {\"sum\": \"5 + 3\"}"))
              .find("the sum uses 5, which the question does not tell") != std::string::npos);
}

TEST_CASE("figures: a number in an explanation is told, on the card, usual, or worked out step by step") {
    const std::string why = "\"why\": \"Joints fail, and then somebody has to reach them.\"";
    const auto with_why = [&](const std::string& text, const std::string& worked = "") {
        return found(spoiled(spoiled(sample::kDeck, kText, "May a box 8 ft up vanish behind 3 new boards?"), why,
                             "\"why\": \"" + text + "\"" + worked));
    };
    CHECK(with_why("It is 8 ft up and within 6 ft, at 120 V.").empty());
    CHECK(with_why("It is 9 ft up.") == "box.accessible#a: nothing backs the number 9 ft in its explanation");
    CHECK(with_why("That is 24 ft.", ", \"worked\": [\"8 * 3\"]").empty());
    CHECK(
        with_why("That is 26.7 ft of 80 ft.", ", \"worked\": [\"8 * 100 / 70\", \"80 / 3\"]").find("the sum uses 70") !=
        std::string::npos);
    CHECK(with_why("That is 800 ft, 266.7 ft each.", ", \"worked\": [\"8 * 100\", \"800 / 3\"]").empty());
    CHECK(with_why("That is 266 ft each.", ", \"worked\": [\"8 * 100\", \"800 / 3\"]").find("266 ft") !=
          std::string::npos);
    CHECK(with_why("That is 2-1/2 ft.", ", \"worked\": [\"8 / 3\"]").find("2-1/2 ft") != std::string::npos);
    CHECK(with_why("It holds 2.25 in3.",
                   ", \"worked\": [{\"lookup\": \"box-volume\", \"row\": {\"size\": 12}, \"column\": \"volume\"}]")
              .empty());
    CHECK(with_why("It holds 2 ft.", ", \"worked\": [\"8 / 0\"]").find("cannot be worked out") != std::string::npos);
}

TEST_CASE("figures: a number to recall without a check of its own is a figure") {
    const std::string check =
        ",\n          \"check\": {\"lookup\": \"box-volume\", \"row\": {\"size\": 12}, \"column\": \"volume\"}";
    const std::string practice = ", \"basis\": {\"kind\": \"practice\"}";
    CHECK(found(spoiled(sample::kDeck, check, practice)).empty());
    CHECK(found(spoiled(spoiled(sample::kDeck, check, practice), "\"value\": 2.25,", "\"value\": 2.5,")) ==
          "box.volume#a: nothing backs the number 2.5 in3 (2020)");
}

TEST_CASE("figures: the register itself is held against tables, points and its ids") {
    CHECK(found(sample::kDeck, spoiled(kFigures, "\"value\": 2.25", "\"value\": 2.5"))
              .find("the figure 'room' is 2.5 in3, but under 2020 it works out to 2.25") != std::string::npos);
    CHECK(found(sample::kDeck, spoiled(kFigures, "\"id\": \"room\"", "\"id\": \"reach\""))
              .find("the figure 'reach' stands twice") != std::string::npos);
    CHECK(found(sample::kDeck, spoiled(kFigures, "[\"box.accessible\"]", "[\"box.gone\"]"))
              .find("there is no point 'box.gone'") != std::string::npos);
    CHECK(found(sample::kDeck, spoiled(kFigures, "\"value\": 6", "\"value\": \"six\"")).find("'six' is no number") !=
          std::string::npos);
    CHECK(found(sample::kDeck,
                spoiled(kFigures, "\"value\": 6, \"unit\": \"ft\"", "\"value\": \"4/0\", \"unit\": \"AWG\""))
              .empty());
    CHECK(found(sample::kDeck, spoiled(kFigures, "\"unit\": \"ft\"", "\"unit\": \"cubits\""))
              .find("there is no unit 'cubits'") != std::string::npos);
}
