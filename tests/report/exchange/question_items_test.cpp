#include <doctest/doctest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <stdexcept>
#include <string>

#include <stdlib.h>  // mkdtemp

#include "base/text.hpp"
#include "content/compose.hpp"
#include "content/contents.hpp"
#include "report/exchange/question_items.hpp"
#include "report/exchange/xml_tree.hpp"

namespace {

namespace fs = std::filesystem;
using content::Form;
using report::QuestionItem;
using report::QuestionItems;

const content::Contents& shipped() {
    static const auto contents = content::load_contents(std::vector<std::string>{PROJECT_FOLDER}).value();
    return contents;
}

const QuestionItems& items_of(trade::Edition edition) {
    static std::map<trade::Edition, QuestionItems> made;
    const auto at = made.find(edition);
    if (at != made.end()) return at->second;
    return made.emplace(edition, report::question_items(shipped(), {edition, 7, {}, true})).first->second;
}

struct Origin {
    const content::Point* point = nullptr;
    const content::Question* question = nullptr;
    const content::Mistakes* mistakes = nullptr;
};

/// Ours by its name, found without the code under test.
Origin origin(const std::string& name) {
    static const auto by_name = [] {
        std::map<std::string, Origin> all;
        for (const auto& deck : shipped().decks)
            for (const auto& point : deck.points)
                for (const auto& question : point.questions)
                    all[point.id.text + "#" + question.id] = {&point, &question, &deck.mistakes};
        return all;
    }();
    return by_name.at(name);
}

std::map<std::string, std::string> options_by_id(const xml_tree::Node& root) {
    std::map<std::string, std::string> options;
    for (const auto* choice : root.all("simpleChoice"))
        if (!options.emplace(choice->at("identifier"), choice->text).second)
            throw std::runtime_error{"an identifier stands twice"};
    return options;
}

std::vector<std::string> correct_texts(const xml_tree::Node& root) {
    const auto options = options_by_id(root);
    std::vector<std::string> texts;
    for (const auto* value : root.one("correctResponse").all("value")) texts.push_back(options.at(value->text));
    return texts;
}

std::string feedback_text(const xml_tree::Node& root, const std::string& id) {
    std::string text;
    int found = 0;
    for (const auto* modal : root.all("modalFeedback")) {
        if (modal->at("identifier") != id) continue;
        ++found;
        for (const auto* p : modal->all("p")) text += p->text + "\n";
    }
    if (found != 1) throw std::runtime_error{std::to_string(found) + " feedbacks " + id};
    return text;
}

template <class T>
std::vector<T> sorted(std::vector<T> items) {
    std::sort(items.begin(), items.end());
    return items;
}

void check_choice(const xml_tree::Node& root, const Origin& from) {
    const auto options = options_by_id(root);
    const auto& question = *from.question;
    CHECK(options.size() == question.right.size() + question.wrong.size());
    CHECK(sorted(correct_texts(root)) == sorted(question.right));
    std::multiset<std::string> expected{question.right.begin(), question.right.end()};
    for (const auto& wrong : question.wrong) {
        expected.insert(wrong.text);
        const auto at =
            std::find_if(options.begin(), options.end(), [&](const auto& o) { return o.second == wrong.text; });
        REQUIRE(at != options.end());
        CHECK(feedback_text(root, at->first).find(from.mistakes->at(wrong.mistake)) != std::string::npos);
    }
    std::multiset<std::string> shown;
    for (const auto& [id, text] : options) shown.insert(text);
    CHECK(shown == expected);
    CHECK(root.one("choiceInteraction").at("maxChoices") == (question.form == Form::choose ? "1" : "0"));
    CHECK(root.one("responseDeclaration").at("cardinality") == (question.form == Form::choose ? "single" : "multiple"));
}

void check_item(const QuestionItem& item) {
    CAPTURE(item.question);
    const auto root = xml_tree::read(item.xml);
    const auto from = origin(item.question);
    const auto& question = *from.question;
    CHECK(root.at("identifier") == item.identifier);
    CHECK(root.at("xml:lang") == "en-US");
    CHECK(content::holds_in(question, *from.point, item.edition));
    const auto why = feedback_text(root, "WHY");
    CHECK(why.find(question.why) != std::string::npos);
    CHECK(why.find(from.point->version(item.edition)->says) != std::string::npos);
    switch (question.form) {
        case Form::choose:
        case Form::choose_all:
            check_choice(root, from);
            break;
        case Form::order:
            CHECK(correct_texts(root) == question.right);
            break;
        default:
            CHECK(std::stod(root.one("correctResponse").one("value").text) == doctest::Approx(question.answer.value));
    }
}

/// A folder that goes away.
class Folder {
public:
    Folder() {
        std::string form = (fs::temp_directory_path() / "greentag-items-XXXXXX").string();
        if (mkdtemp(form.data()) == nullptr) throw std::runtime_error{"no temporary folder"};
        path_ = form;
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    ~Folder() {
        std::error_code error;
        fs::remove_all(path_, error);
    }
    [[nodiscard]] fs::path path() const { return path_; }

private:
    fs::path path_;
};

void write(const fs::path& path, const std::string& text) {
    fs::create_directories(path.parent_path());
    std::ofstream{path, std::ios::binary} << text;
}

bool has_xmllint() {
    return std::system("command -v xmllint > /dev/null 2>&1") == 0;
}

/// Whether the grammar takes every file that fits the pattern, below a folder.
bool grammar_takes(const std::string& grammar, const fs::path& folder, const std::string& pattern) {
    const std::string command = "cd '" + folder.string() + "' && xmllint --nonet --noout --relaxng '" + grammar + "' " +
                                pattern + " > lint.txt 2>&1";
    return std::system(command.c_str()) == 0;
}

const std::string kItemGrammar = std::string{PROJECT_FOLDER} + "/tests/reference/qti_item.rng";
const std::string kManifestGrammar = std::string{PROJECT_FOLDER} + "/tests/reference/qti_manifest.rng";

std::string replaced(std::string text, const std::string& what, const std::string& with) {
    const auto at = text.find(what);
    if (at == std::string::npos) throw std::runtime_error{"nothing to break: " + what};
    return text.replace(at, what.size(), with);
}

const QuestionItem& first_of(const QuestionItems& items, const std::string& interaction) {
    return *std::find_if(items.items.begin(), items.items.end(),
                         [&](const QuestionItem& i) { return i.interaction == interaction; });
}

}  // namespace

TEST_CASE("items: every shipped question comes out with its own right answer, options and mistakes") {
    for (const auto edition : trade::kEditions) {
        const auto& items = items_of(edition);
        CHECK(items.items.size() > 500);
        for (const auto& item : items.items) check_item(item);
    }
}

TEST_CASE("items: every question that holds is there or is named among those left out, once") {
    for (const auto edition : trade::kEditions) {
        const auto& items = items_of(edition);
        std::multiset<std::string> told;
        for (const auto& item : items.items) told.insert(item.question);
        for (const auto& left : items.left_out) {
            told.insert(left.question);
            CHECK_FALSE(left.why.empty());
            const auto form = origin(left.question).question->form;
            CHECK_FALSE(form == Form::choose);
            CHECK_FALSE(form == Form::choose_all);
            CHECK_FALSE(form == Form::order);
        }
        std::multiset<std::string> holding;
        for (const auto& deck : shipped().decks)
            for (const auto& point : deck.points)
                for (const auto* question : content::questions_for(point, edition))
                    holding.insert(point.id.text + "#" + question->id);
        CHECK(told == holding);
    }
}

TEST_CASE("items: identifiers are names without colon or period, none of them twice in all editions together") {
    std::set<std::string> seen;
    for (const auto edition : trade::kEditions)
        for (const auto& item : items_of(edition).items) {
            CHECK_MESSAGE(seen.insert(item.identifier).second, item.identifier);
            CHECK(item.identifier.find_first_not_of(
                      "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-") == std::string::npos);
            CHECK(item.href == "items/" + item.identifier + ".xml");
        }
}

TEST_CASE("items: the right option stands in every position, and steps never stand in their right order") {
    std::map<std::string, int> positions;
    for (const auto& item : items_of(trade::Edition::e2023).items) {
        const auto root = xml_tree::read(item.xml);
        if (item.interaction == "orderInteraction") {
            std::vector<std::string> shown;
            for (const auto* choice : root.all("simpleChoice")) shown.push_back(choice->text);
            CHECK_MESSAGE(shown != origin(item.question).question->right, item.question);
        } else if (origin(item.question).question->form == Form::choose) {
            ++positions[root.one("correctResponse").one("value").text];
        }
    }
    const int a = positions["A"], b = positions["B"], c = positions["C"], d = positions["D"];
    const int least = (a + b + c + d) / 6;  // of four even parts, well below what chance leaves of so many
    CHECK(std::min({a, b, c, d}) > least);
}

TEST_CASE("items: the same seed gives the same documents, another seed other orders") {
    const auto& first = items_of(trade::Edition::e2023);
    const auto again = report::question_items(shipped(), {trade::Edition::e2023, 7, {}, true});
    const auto other = report::question_items(shipped(), {trade::Edition::e2023, 8, {}, true});
    REQUIRE(first.items.size() == again.items.size());
    REQUIRE(first.items.size() == other.items.size());
    std::size_t differ = 0;
    for (std::size_t i = 0; i < first.items.size(); ++i) {
        CHECK(first.items[i].xml == again.items[i].xml);
        differ += first.items[i].xml == other.items[i].xml ? 0 : 1;
    }
    CHECK(differ > first.items.size() / 2);
}

TEST_CASE("items: what is not confirmed stays at home unless asked for, and says so then") {
    const auto confirmed = report::question_items(shipped(), {trade::Edition::e2026, 7, {}, false});
    CHECK(confirmed.items.size() < items_of(trade::Edition::e2026).items.size());
    for (const auto& item : confirmed.items) {
        CHECK_FALSE(item.unverified);
        CHECK_FALSE(origin(item.question).point->version(trade::Edition::e2026)->unverified);
    }
    std::size_t marked = 0;
    for (const auto& item : items_of(trade::Edition::e2026).items) {
        const bool says = item.xml.find("Not confirmed for this edition") != std::string::npos;
        CHECK_MESSAGE(says == origin(item.question).point->version(trade::Edition::e2026)->unverified, item.question);
        marked += says ? 1 : 0;
    }
    CHECK(marked > 0);
}

TEST_CASE("items: topics limit what goes out") {
    const auto some = report::question_items(shipped(), {trade::Edition::e2023, 7, {"boxes"}, true});
    CHECK_FALSE(some.items.empty());
    for (const auto& item : some.items) CHECK(item.topic == "boxes");
    CHECK(report::question_items(shipped(), {trade::Edition::e2023, 7, {"no such"}, true}).items.empty());
}

TEST_CASE("items: where someone can be hurt the explanation holds the caution") {
    for (const auto& item : items_of(trade::Edition::e2023).items) {
        const auto& point = *origin(item.question).point;
        const auto caution = point.caution.empty() ? content::usual_caution(point.stakes) : point.caution;
        if (caution.empty()) continue;
        CHECK_MESSAGE(feedback_text(xml_tree::read(item.xml), "WHY").find(caution) != std::string::npos, item.question);
    }
}

TEST_CASE("items: awkward content is escaped") {
    content::Contents contents;
    content::Deck deck;
    deck.mistakes["m"] = "Thinks \x01 <b> & \"that\"";
    content::Point point;
    point.id.text = "a:b.c d";
    point.title = "<Title> & \"co\"";
    content::Version version;
    version.article = "110.3(B)";
    version.says = "]]> & <says>";
    point.versions.push_back(version);
    content::Question question;
    question.id = "x.1";
    question.point = point.id;
    question.text = "1 < 2 & 3?";
    question.right = {"yes & <no>"};
    question.wrong = {{"no \"", "m"}, {"never", "gone"}};
    point.questions = {question, question};  // the same id twice: names stay apart
    deck.points.push_back(point);
    contents.decks.push_back(deck);
    const auto items = report::question_items(contents, {});
    REQUIRE(items.items.size() == 2);
    CHECK(items.items[0].identifier != items.items[1].identifier);
    const auto root = xml_tree::read(items.items[0].xml);
    CHECK(root.at("title") == "<Title> & \"co\" (x.1)");
    CHECK(correct_texts(root) == question.right);
    CHECK(root.one("prompt").text == question.text);
    CHECK_NOTHROW(static_cast<void>(xml_tree::read(report::items_manifest(items))));
    REQUIRE(has_xmllint());
    const Folder folder;
    write(folder.path() / "a.xml", items.items[0].xml);
    CHECK(grammar_takes(kItemGrammar, folder.path(), "a.xml"));
}

TEST_CASE("items: the manifest lists each item with its file, topic, edition and stakes") {
    const auto& items = items_of(trade::Edition::e2020);
    const auto root = xml_tree::read(report::items_manifest(items));
    const auto resources = root.all("resource");
    REQUIRE(resources.size() == items.items.size());
    for (std::size_t i = 0; i < resources.size(); ++i) {
        const auto& item = items.items[i];
        CHECK(resources[i]->at("identifier") == item.identifier);
        CHECK(resources[i]->at("type") == "imsqti_item_xmlv2p1");
        CHECK(resources[i]->one("file").at("href") == item.href);
        CHECK(resources[i]->one("lom:title").one("lom:string").text == item.title);
        std::set<std::string> words;
        for (const auto* word : resources[i]->all("lom:keyword")) words.insert(word->one("lom:string").text);
        CHECK(words.contains("topic: " + origin(item.question).point->topic));
        CHECK(words.contains("edition: 2020"));
        CHECK(words.contains("stakes: " + std::string{content::to_text(origin(item.question).point->stakes)}));
    }
}

TEST_CASE("items: xmllint holds every document against the grammar") {
    REQUIRE(has_xmllint());
    const Folder folder;
    for (const auto edition : trade::kEditions) {
        const auto place = folder.path() / trade::to_text(edition);
        const auto& items = items_of(edition);
        for (const auto& item : items.items) write(place / item.href, item.xml);
        write(place / report::kManifestName, report::items_manifest(items));
        CHECK(grammar_takes(kItemGrammar, place, "items/*.xml"));
        CHECK(grammar_takes(kManifestGrammar, place, report::kManifestName));
    }
}

TEST_CASE("items: the grammar refuses documents that are broken on purpose") {
    REQUIRE(has_xmllint());
    const auto& items = items_of(trade::Edition::e2023);
    const auto& choice = first_of(items, "choiceInteraction").xml;
    const auto& order = first_of(items, "orderInteraction").xml;
    const auto& number = first_of(items, "textEntryInteraction").xml;
    const std::vector<std::string> broken = {
        replaced(choice, "identifier=\"SCORE\"", "identifier=\"POINTS\""),
        replaced(choice, "xml:lang=\"en-US\"", ""),
        replaced(choice, "<prompt>", "<prompt><b/>"),
        replaced(choice, "match_correct", "map_response"),
        replaced(choice, "showHide=\"show\"", "showHide=\"maybe\""),
        replaced(choice, "identifier=\"A\"", "identifier=\"1\""),
        replaced(choice, "imsqti_v2p1\"", "imsqti_v9\""),
        replaced(order, "cardinality=\"ordered\"", "cardinality=\"single\""),
        replaced(order, "orderInteraction", "choiceInteraction"),
        replaced(number, "toleranceMode=\"absolute\"", "toleranceMode=\"some\""),
        replaced(number, "<value>", "<value>about "),
    };
    const Folder folder;
    for (std::size_t i = 0; i < broken.size(); ++i) {
        CAPTURE(i);
        write(folder.path() / "b.xml", broken[i]);
        CHECK_FALSE(grammar_takes(kItemGrammar, folder.path(), "b.xml"));
    }
    for (const auto* whole : {&choice, &order, &number}) {
        write(folder.path() / "b.xml", *whole);
        CHECK(grammar_takes(kItemGrammar, folder.path(), "b.xml"));
    }
}
