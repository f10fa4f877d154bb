#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include "content/check/check.hpp"
#include "content/contents.hpp"
#include "content/write/deck_csv.hpp"

namespace {

using nlohmann::ordered_json;

/// A block of the page, and what its comment says of it.
struct Example {
    std::string comment, text;
};

std::string page() {
    std::ifstream in{std::string{PROJECT_FOLDER} + "/docs/authoring.md"};
    return {std::istreambuf_iterator<char>{in}, {}};
}

std::vector<Example> examples() {
    const std::string text = page();
    const std::string open = "<!-- ";
    const std::string fence = "```json\n";
    std::vector<Example> found;
    for (std::size_t at = text.find(open); at != std::string::npos; at = text.find(open, at)) {
        at += open.size();
        const std::size_t end = text.find(" -->", at);
        const std::size_t begin = text.find(fence, end) + fence.size();
        found.push_back({text.substr(at, end - at), text.substr(begin, text.find("```", begin) - begin)});
    }
    return found;
}

base::Faults found_in(const ordered_json& deck) {
    content::Contents contents;
    content::add_document(contents, deck.dump(), {"example.json", 0, 0, 0});
    return content::check_contents(contents);
}

ordered_json sound_deck() {
    for (const auto& one : examples())
        if (one.comment == "sound") return ordered_json::parse(one.text);
    return {};
}

}  // namespace

TEST_CASE("authoring: the sound example has no finding, the others have the one that is told") {
    const auto deck = sound_deck();
    REQUIRE(deck.is_object());
    for (const auto& fault : found_in(deck)) FAIL_CHECK(base::to_text(fault));
    int bad = 0;
    for (const auto& one : examples()) {
        if (one.comment == "sound") continue;
        CAPTURE(one.comment);
        auto spoiled = deck;
        spoiled["points"][0]["questions"][1] = ordered_json::parse(one.text);
        const auto faults = found_in(spoiled);
        const std::string wanted = one.comment.substr(std::string{"found: "}.size());
        CHECK(std::any_of(faults.begin(), faults.end(), [&](const base::Fault& fault) {
            return fault.what.find(wanted) != std::string::npos && !fault.warning;
        }));
        ++bad;
    }
    CHECK(bad >= 6);
}

TEST_CASE("authoring: the page names every column of the spreadsheet") {
    const std::string text = page();
    for (const auto& column : content::sheet_columns()) {
        const bool numbered = column.back() >= '2' && column.back() <= '6';
        if (numbered) continue;
        CAPTURE(column);
        CHECK(text.find("`" + column + "`") != std::string::npos);
    }
}
