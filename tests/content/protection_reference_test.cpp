#include <algorithm>
#include <set>

#include <doctest/doctest.h>

#include "base/text.hpp"
#include "content/shipped.hpp"
#include "reference/json_file.hpp"
#include "trade/article.hpp"

namespace {

using content::Question;
using nlohmann::json;

const json& checks() {
    static const json file = reference::json_file("protection.json");
    return file.at("checks");
}

trade::Edition edition_of(const json& check) {
    return trade::parse_edition(check.at("edition").get<std::string>()).value();
}

const content::Point& point_of(const json& check) {
    const auto* entry = shipped::library().find({check.at("point").get<std::string>()});
    REQUIRE_MESSAGE(entry != nullptr, check.dump());
    return shipped::library().point(*entry);
}

/// The question of a check, which has to hold in the edition of the check.
const Question& question_of(const json& check) {
    const auto fitting = content::questions_for(point_of(check), edition_of(check));
    const auto found = std::ranges::find(fitting, check.at("question").get<std::string>(), &Question::id);
    REQUIRE_MESSAGE(found != fitting.end(), check.dump());
    return **found;
}

bool any_says(const std::vector<std::string>& texts, const std::string& part) {
    return std::ranges::any_of(
        texts, [&](const std::string& text) { return base::lower(text).find(base::lower(part)) != std::string::npos; });
}

std::vector<std::string> wrong_texts(const Question& question) {
    std::vector<std::string> texts;
    for (const auto& wrong : question.wrong) texts.push_back(wrong.text);
    return texts;
}

/// The checks that expect something of one kind: "article", "number", "says", "right" or "wrong".
std::vector<json> expecting(const std::string& kind) {
    std::vector<json> found;
    std::ranges::copy_if(checks(), std::back_inserter(found),
                         [&](const json& c) { return c.at("expect").contains(kind); });
    return found;
}

}  // namespace

TEST_CASE("protection reference: every check names its source and expects something") {
    CHECK(checks().size() >= 200);
    std::set<std::string> seen;
    for (const auto& check : checks()) {
        CHECK_MESSAGE(check.at("source").get<std::string>().size() > 10, check.dump());
        CHECK_MESSAGE(!check.at("expect").empty(), check.dump());
        CHECK_MESSAGE(seen.insert(check.dump()).second, check.dump());
    }
}

TEST_CASE("protection reference: shipped points cite the section that the sources name for the edition") {
    for (const auto& check : expecting("article")) {
        const auto* version = point_of(check).version(edition_of(check));
        REQUIRE_MESSAGE(version != nullptr, check.dump());
        const auto wanted = trade::parse_article(check.at("expect").at("article").get<std::string>()).value();
        const auto match = trade::compare(trade::parse_article(version->article).value(), wanted);
        const bool same = match == trade::ArticleMatch::exact || match == trade::ArticleMatch::deeper;
        CHECK_MESSAGE(same, "shipped ", version->article, " against ", check.dump());
    }
}

TEST_CASE("protection reference: shipped numbers are those of the sources") {
    const auto numbers = expecting("number");
    CHECK_FALSE(numbers.empty());
    for (const auto& check : numbers)
        CHECK_MESSAGE(question_of(check).answer.value == check.at("expect").at("number").get<double>(), check.dump());
}

TEST_CASE("protection reference: shipped points say what the sources do where no question asks for it") {
    const auto saying = expecting("says");
    CHECK_FALSE(saying.empty());
    for (const auto& check : saying) {
        const auto* version = point_of(check).version(edition_of(check));
        REQUIRE_MESSAGE(version != nullptr, check.dump());
        for (const std::string part : check.at("expect").at("says"))
            CHECK_MESSAGE(any_says({version->says}, part), version->says, check.dump());
    }
}

TEST_CASE("protection reference: what the sources call right is right in the shipped questions, and not wrong too") {
    for (const auto& check : expecting("right"))
        for (const std::string part : check.at("expect").at("right")) {
            const auto& question = question_of(check);
            CHECK_MESSAGE(any_says(question.right, part), base::join(question.right, " + "), check.dump());
            if (part.size() > 8) CHECK_MESSAGE(!any_says(wrong_texts(question), part), check.dump());
        }
}

TEST_CASE("protection reference: what the sources call wrong is wrong in the shipped questions") {
    for (const auto& check : expecting("wrong"))
        for (const std::string part : check.at("expect").at("wrong")) {
            const auto& question = question_of(check);
            CHECK_MESSAGE(any_says(wrong_texts(question), part), check.dump());
            CHECK_MESSAGE(!any_says(question.right, part), check.dump());
        }
}
