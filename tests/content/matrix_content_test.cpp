// Shipped points, held against cases that named sources or memory decide in an edition. Cases of high confidence have
// to agree; where one of less confidence does not, the check says what a look-up showed ("disagrees"), and no such
// remark outlives its disagreement. Cases that no point of ours speaks to are listed with the reason.
#include <algorithm>
#include <set>

#include <doctest/doctest.h>

#include "base/text.hpp"
#include "content/outside_check.hpp"
#include "content/shipped.hpp"
#include "reference/json_file.hpp"
#include "trade/article.hpp"

namespace {

using content::Question;
using nlohmann::json;
using outside::check_source;
using outside::with_confidence;
using trade::ArticleMatch;
using Texts = std::vector<std::string>;

const json& file() {
    static const json file = reference::json_file("matrix_content.json");
    return file;
}

const json& checks() {
    return file().at("checks");
}

trade::Edition edition_of(const json& check) {
    return trade::parse_edition(check.at("edition").get<std::string>()).value();
}

const content::Point& point_of(const json& check) {
    const auto* entry = shipped::library().find({check.at("point").get<std::string>()});
    REQUIRE_MESSAGE(entry != nullptr, check.dump());
    return shipped::library().point(*entry);
}

const content::Version& version_of(const json& check) {
    const auto* version = point_of(check).version(edition_of(check));
    REQUIRE_MESSAGE(version != nullptr, check.dump());
    return *version;
}

/// The question of a check, which has to hold in the edition of the check.
const Question& question_of(const json& check) {
    const auto fitting = content::questions_for(point_of(check), edition_of(check));
    const auto found = std::ranges::find(fitting, check.at("question").get<std::string>(), &Question::id);
    REQUIRE_MESSAGE(found != fitting.end(), check.dump());
    return **found;
}

bool any_says(const Texts& texts, const std::string& part) {
    return std::ranges::any_of(
        texts, [&](const std::string& text) { return base::lower(text).find(base::lower(part)) != std::string::npos; });
}

Texts wrong_texts(const Question& question) {
    Texts texts;
    for (const auto& wrong : question.wrong) texts.push_back(wrong.text);
    return texts;
}

Texts expected(const json& check, const char* kind) {
    return check.at("expect").value(kind, Texts{});
}

std::string article_otherwise(const json& check) {
    if (!check.at("expect").contains("article")) return {};
    const auto wanted = check.at("expect").at("article").get<std::string>();
    const auto& ours = version_of(check).article;
    const auto match = trade::compare(trade::parse_article(ours).value(), trade::parse_article(wanted).value());
    const bool same = match == ArticleMatch::exact || match == ArticleMatch::deeper ||
                      (match == ArticleMatch::shorter && check.value("shorter", false));
    return same ? "" : "article " + ours + " instead of " + wanted + "; ";
}

std::string number_otherwise(const json& check) {
    const auto& expect = check.at("expect");
    std::string told;
    if (expect.contains("number") && question_of(check).answer.value != expect.at("number").get<double>())
        told += "another number; ";
    if (expect.contains("over") && question_of(check).answer.value <= expect.at("over").get<double>())
        told += "a number that is too low; ";
    return told;
}

/// Each part has to stand in one of the texts, and in none of the others.
std::string missing(const Texts& parts, const Texts& texts, const Texts& others) {
    std::string told;
    for (const auto& part : parts) {
        if (!any_says(texts, part)) told += "no '" + part + "'; ";
        if (any_says(others, part)) told += "the opposite of '" + part + "'; ";
    }
    return told;
}

std::string words_otherwise(const json& check) {
    std::string told = missing(expected(check, "says"), {version_of(check).says}, {});
    if (check.at("question").is_null()) return told;
    const auto& question = question_of(check);
    told += missing(expected(check, "right"), question.right, wrong_texts(question));
    return told + missing(expected(check, "wrong"), wrong_texts(question), question.right);
}

/// What ours says otherwise than the case; empty when all agrees.
std::string otherwise(const json& check) {
    return article_otherwise(check) + number_otherwise(check) + words_otherwise(check);
}

}  // namespace

TEST_CASE("matrix content: every check names its source and expects something, and none stands twice") {
    std::set<std::string> seen;
    for (const auto& check : checks()) {
        check_source(check);
        CHECK_MESSAGE(!check.at("expect").empty(), check.dump());
        const auto expected_of = check.at("point").dump() + check.at("question").dump() + check.at("expect").dump();
        CHECK_MESSAGE(seen.insert(check.at("case").dump() + expected_of).second, check.dump());
    }
}

TEST_CASE("matrix content: no case is lost") {
    CHECK(with_confidence(checks(), "high") == 2);
    CHECK(with_confidence(checks(), "medium") == 125);
    const auto& uncovered = file().at("uncovered");
    CHECK(with_confidence(uncovered, "high") == 0);
    CHECK(with_confidence(uncovered, "medium") == 0);
    CHECK(file().at("left_out").size() == 31);
    std::set<std::string> cases;
    for (const auto& check : checks()) cases.insert(check.at("case").get<std::string>());
    CHECK(cases.size() == 113);
    for (const auto& one : uncovered) {
        check_source(one);
        CHECK_MESSAGE(one.at("why").get<std::string>().size() > 10, one.dump());
        CHECK_MESSAGE(cases.insert(one.at("case").get<std::string>()).second, one.dump());
    }
}

TEST_CASE("matrix content: a case of high confidence agrees, another agrees or says why it does not") {
    std::size_t disagreeing = 0;
    for (const auto& check : checks()) {
        const bool explained = check.contains("disagrees");
        CHECK_MESSAGE(!(explained && check.at("confidence") == "high"), check.dump());
        const std::string told = otherwise(check);
        CHECK_MESSAGE(told.empty() != explained, check.dump(), ": ", told);
        disagreeing += explained ? 1 : 0;
    }
    CHECK(disagreeing == 0);
}
