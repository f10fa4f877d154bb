#include "content/write/deck_csv.hpp"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>

#include <doctest/doctest.h>

#include "base/text.hpp"
#include "content/check/check.hpp"
#include "content/contents.hpp"
#include "content/sample.hpp"
#include "content/write/sheet_cells.hpp"
#include "content/write/tidy_deck.hpp"

namespace {

using nlohmann::ordered_json;

std::string text_of(const std::filesystem::path& path) {
    std::ifstream in{path, std::ios::binary};
    return {std::istreambuf_iterator<char>{in}, {}};
}

/// Whatever the order of members, without lists that say nothing.
nlohmann::json plain(const ordered_json& deck) {
    auto all = nlohmann::json::parse(deck.dump());
    for (auto& point : all["points"]) {
        for (const char* key : {"needs", "gaps"})
            if (point.contains(key) && point[key].empty()) point.erase(key);
        for (auto& question : point["questions"])
            if (question.contains("mistakes") && question["mistakes"].empty()) question.erase("mistakes");
    }
    return all;
}

ordered_json there_and_back(const ordered_json& deck) {
    const auto decks = content::decks_of_sheet(content::sheet_head() + content::sheet_of(deck), "sheet.csv", "none");
    REQUIRE_MESSAGE(decks.has_value(), (decks ? "" : base::to_text(decks.error().front())));
    REQUIRE(decks->size() == 1);
    return decks->front().document;
}

/// The faults of a sheet, one text.
std::string faults_of(const std::string& sheet) {
    const auto decks = content::decks_of_sheet(sheet, "sheet.csv", "own");
    std::vector<std::string> lines;
    if (!decks)
        for (const auto& fault : decks.error()) lines.push_back(base::to_text(fault));
    return base::join(lines, "\n");
}

bool tells(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("sheet: every shipped deck goes to a spreadsheet and comes back with nothing lost") {
    int decks = 0;
    for (const auto& entry : std::filesystem::directory_iterator{std::string{PROJECT_FOLDER} + "/decks"}) {
        if (entry.path().extension() != ".json") continue;
        const auto deck = ordered_json::parse(text_of(entry.path()));
        if (deck.at("format") != "greentag-deck/1") continue;
        CAPTURE(entry.path().string());
        const bool same = plain(there_and_back(deck)) == plain(deck);
        CHECK(same);
        ++decks;
    }
    CHECK(decks >= 10);
}

TEST_CASE("sheet: the template is a deck without a finding") {
    const std::string path = std::string{PROJECT_FOLDER} + "/decks/templates/points.csv";
    const auto decks = content::decks_of_sheet(text_of(path), path, "own");
    REQUIRE(decks.has_value());
    content::Contents contents;
    for (const auto& deck : *decks)
        content::add_document(contents, content::tidy_deck(deck.document), {deck.name + ".json", 0, 0, 0});
    for (const auto& fault : content::check_contents(contents)) FAIL_CHECK(base::to_text(fault));
    std::set<content::Form> forms;
    for (const auto& point : contents.decks.front().points)
        for (const auto& question : point.questions) forms.insert(question.form);
    CHECK(forms.size() == 6);
}

TEST_CASE("sheet: columns in any order, cells left out, ids and decks filled in") {
    const std::string sheet =
        "text,form,right,wrong 1,mistake 1,point,title,stakes,editions,article,says,basis\r\n"
        "Which one?,choose,This,That,\"Thinks that; it is this.\",a.b,T,fire,2017-2026,110.2,Says it.,practice\r\n"
        ",,,,,,,,,,,\r\n"
        "And now?,choose,Here,There,thinks-that-it-is,,,,,,,\r\n";
    const auto decks = content::decks_of_sheet(sheet, "sheet.csv", "own");
    REQUIRE(decks.has_value());
    const auto& deck = decks->front();
    CHECK(deck.name == "own");
    CHECK(deck.document.at("mistakes").at("thinks-that-it-is") == "Thinks that; it is this.");
    const auto& questions = deck.document.at("points").at(0).at("questions");
    REQUIRE(questions.size() == 2);
    CHECK(questions.at(0).at("id") == "a");
    CHECK(questions.at(1).at("id") == "b");
    CHECK(deck.lines.at("/points/0") == 2);
    CHECK(deck.lines.at("/points/0/questions/1") == 4);
}

TEST_CASE("sheet: what cannot be taken apart is told with its line") {
    CHECK(tells(faults_of("point,form\nx.y,\n,\"broken"), "sheet.csv:3"));
    CHECK(tells(faults_of("pont,form\nx.y,choose\n"), "sheet.csv:1: there is no column 'pont'; did you mean 'point'?"));
    CHECK(tells(faults_of("point,form\n,choose\n"), "sheet.csv:2: the row belongs to no point"));
    CHECK(tells(faults_of("point,form\na.b,choose\nc.d,choose\na.b,choose\n"),
                "sheet.csv:4: the rows of point 'a.b' do not stand together"));
    CHECK(tells(faults_of("point,form,right\na.b,number,many\n"), "the right answer 'many' is no number"));
    CHECK(tells(faults_of("point,form,right,wrong 1\na.b,number,3,few\n"), "the wrong answer 'few' is no number"));
    CHECK(tells(faults_of("point,form,right,wrong 1\na.b,order,x | y | z,1 then 2\n"), "write it like 1 before 3"));
    CHECK(
        tells(faults_of("point,form,right,ideas\na.b,recall,x,only words\n"), "the idea 'only words' names no words"));
    CHECK(tells(faults_of("point,form,check\na.b,number,{broken\n"), "neither a sum nor written as in a deck"));
    CHECK(tells(faults_of("point\na.b,stray\n"), "the cell 'stray' stands under no column"));
    CHECK(tells(faults_of("point;form;text\na.b;choose;x\n"), "parted by semicolons or tabs"));
    CHECK(tells(faults_of("\"point\"\t\"form\"\na.b\tchoose\n"), "parted by semicolons or tabs"));
    CHECK(tells(faults_of("deck,point,form\n../up,a.b,choose\n"), "'../up' is no name for a deck"));
    CHECK(
        tells(faults_of("point,situation,form\na.b,perhaps,choose\n"), "\"situation\" takes yes or no, not 'perhaps'"));
    CHECK(tells(faults_of("point,text\na.b,Which?\n"), "sheet.csv:2: the question has no form"));
    CHECK(tells(faults_of("point,form,Form\na.b,choose,choose\n"), "the column 'form' stands twice"));
    CHECK(tells(faults_of("point,form,right,unit\na.b,number,72 in,ft\n"), "the column \"unit\" says ft"));
    CHECK(tells(faults_of("point,form,right\na.b,article,210.8\n"), "no \"right\" of its own"));
    CHECK(tells(faults_of("point,form,wrong 1,mistake 1,mistake 2\na.b,choose,x,m-m: Thinks so.,n-n\n"),
                "\"mistake 2\" stands without \"wrong 2\""));
    CHECK(tells(
        faults_of("point,form,wrong 1,mistake 1\na.b,choose,x,m-m: Thinks so.\na.b,choose,y,m-m: Thinks other.\n"),
        "the mistake 'm-m' has another sentence further up"));
    CHECK(tells(faults_of(""), "the file is empty"));
    CHECK(tells(faults_of("point,form\n"), "there is nothing below the line of columns"));
}

TEST_CASE("sheet: a text that looks like a formula is guarded and comes back plain") {
    auto deck = ordered_json::parse(sample::kDeck);
    deck["points"][0]["title"] = "=1+1";
    deck["points"][0]["questions"][0]["right"] = "-never, it \"stays\"\nreachable";
    const std::string sheet = content::sheet_of(deck);
    CHECK(tells(sheet, "'=1+1"));
    CHECK(there_and_back(deck)["points"][0]["title"] == "=1+1");
    CHECK(there_and_back(deck)["points"][0]["questions"][0]["right"] == "-never, it \"stays\"\nreachable");
}

TEST_CASE("sheet: cells for mistakes, ids and lists") {
    CHECK(content::mistake_of("adds-twice").line.empty());
    CHECK(content::mistake_of("adds-twice: Adds it twice; once will do.").line == "Adds it twice; once will do.");
    CHECK(content::mistake_of("Adds it twice; once will do.").id == "adds-it-twice-once");
    CHECK(content::id_of("Four-way, at the END") == "four-way-at-the-end");
    CHECK(content::id_of("240 V first") == "v-first");
    CHECK(content::id_of("...").empty());
    CHECK(content::parts_of(" a |b|| c ") == std::vector<std::string>{"a", "b", "c"});
    CHECK(content::unguarded("'=x") == "=x");
    CHECK(content::unguarded("'tis") == "'tis");
}

TEST_CASE("tidy deck: says the same, a line for each version and question") {
    const auto deck = ordered_json::parse(sample::kDeck);
    const std::string text = content::tidy_deck(deck);
    CHECK(ordered_json::parse(text) == deck);
    CHECK(content::tidy_deck(ordered_json::parse(text)) == text);
    CHECK(tells(text, "\n        {\"id\": \"b\", \"form\": \"choose-all\", "));
    CHECK(content::one_line(content::plain_number(3.0)) == "3");
    CHECK(content::one_line(content::plain_number(0.25)) == "0.25");
}
