// Shipped points (rules and tables where these go further down), held against the section that a look-up index gives
// for a keyword in an edition. Rows of high confidence have to agree; where one of less confidence does not, the check
// says what a look-up showed. A version that is not verified and names no more than its article is skipped and counted.
#include <algorithm>
#include <set>

#include <doctest/doctest.h>

#include "content/outside_check.hpp"
#include "content/shipped.hpp"
#include "trade/article.hpp"

namespace {

using nlohmann::json;
using outside::check_source;
using outside::with_confidence;
using trade::ArticleMatch;

const json& file() {
    static const json file = reference::json_file("article_index.json");
    return file;
}

const json& checks() {
    return file().at("checks");
}

trade::Edition edition_of(const json& check) {
    return trade::parse_edition(check.at("edition").get<std::string>()).value();
}

/// What a check needs of the point, rule or table that it names.
struct Ours {
    std::string article, text;
    bool unverified = false;
};

Ours of_point(const json& check) {
    const auto* entry = shipped::library().find({check.at("point").get<std::string>()});
    REQUIRE_MESSAGE(entry != nullptr, check.dump());
    const auto* version = shipped::library().point(*entry).version(edition_of(check));
    REQUIRE_MESSAGE(version != nullptr, check.dump());
    return {version->article, version->says, version->unverified};
}

Ours of_rule(const json& check) {
    const auto& rules = outside::data().rules();
    const auto found = std::ranges::find(rules, check.at("rule").get<std::string>(), &trade::Rule::id);
    REQUIRE_MESSAGE(found != rules.end(), check.dump());
    const auto* version = found->version(edition_of(check));
    REQUIRE_MESSAGE(version != nullptr, check.dump());
    return {version->article, found->title, version->unverified};
}

Ours of_table(const json& check) {
    const auto& tables = outside::data().raw_tables();
    const auto found = std::ranges::find_if(tables, [&](const trade::Table& table) {
        return table.id == check.at("table").get<std::string>() && table.editions.contains(edition_of(check));
    });
    REQUIRE_MESSAGE(found != tables.end(), check.dump());
    return {found->article, found->title, false};
}

Ours ours_of(const json& check) {
    if (check.contains("point")) return of_point(check);
    return check.contains("rule") ? of_rule(check) : of_table(check);
}

ArticleMatch match_of(const json& check, const Ours& ours) {
    const auto wanted = trade::parse_article(check.at("article").get<std::string>());
    const auto given = trade::parse_article(ours.article);
    REQUIRE_MESSAGE((wanted && given), ours.article, " against ", check.dump());
    return trade::compare(*given, *wanted);
}

/// True when ours has not been looked up for the edition and says so by naming no section.
bool open_yet(const json& check, const Ours& ours) {
    return ours.unverified && trade::parse_article(ours.article)->section == 0 &&
           match_of(check, ours) == ArticleMatch::article;
}

bool agrees(const json& check, const Ours& ours) {
    const auto accept = check.value("accept", "");
    if (accept == "named") return ours.text.find(check.at("article").get<std::string>()) != std::string::npos;
    const auto match = match_of(check, ours);
    return match == ArticleMatch::exact || match == ArticleMatch::deeper ||
           (accept == "shorter" && match == ArticleMatch::shorter);
}

}  // namespace

TEST_CASE("article index: no row is lost, and none stands twice") {
    CHECK(with_confidence(checks(), "high") == 200);
    CHECK(with_confidence(checks(), "medium") == 314);
    CHECK(with_confidence(checks(), "low") == 12);
    const auto& uncovered = file().at("uncovered");
    CHECK(with_confidence(uncovered, "high") == 0);
    CHECK(with_confidence(uncovered, "medium") == 12);
    CHECK(with_confidence(uncovered, "low") == 9);
    std::set<std::string> seen;
    for (const auto* list : {&checks(), &uncovered})
        for (const auto& one : *list) {
            check_source(one);
            CHECK_MESSAGE(seen.insert(one.at("keyword").dump() + one.at("edition").dump()).second, one.dump());
        }
    for (const auto& one : uncovered) CHECK_MESSAGE(one.at("why").get<std::string>().size() > 10, one.dump());
}

TEST_CASE("article index: ours is the section of the edition, and what disagrees says why") {
    std::size_t skipped = 0;
    std::size_t disagreeing = 0;
    for (const auto& check : checks()) {
        const Ours ours = ours_of(check);
        const bool explained = check.contains("disagrees");
        CHECK_MESSAGE(!(explained && check.at("confidence") == "high"), check.dump());
        if (open_yet(check, ours)) {
            ++skipped;
            continue;
        }
        CHECK_MESSAGE(agrees(check, ours) != explained, "shipped ", ours.article, " against ", check.dump());
        disagreeing += explained ? 1 : 0;
    }
    CHECK(skipped <= 3);  // fewer as versions of 2026 are looked up
    CHECK(disagreeing == 2);
}

TEST_CASE("article index: a check that accepts a shorter reference still needs it") {
    for (const auto& check : checks())
        if (check.value("accept", "") == "shorter")
            CHECK_MESSAGE(match_of(check, ours_of(check)) != ArticleMatch::exact, check.dump());
}
