// What sources tell of a change of edition, held against what differs in the shipped points, rules and tables between
// the edition before and this one. Changes of high confidence have to show; where one of less confidence does not, the
// check says what a look-up showed. Changes that nothing of ours shows are listed with the reason.
#include <algorithm>
#include <map>
#include <set>

#include <doctest/doctest.h>

#include "content/differences.hpp"
#include "content/outside_check.hpp"
#include "trade/article.hpp"

namespace {

using content::Difference;
using content::Differs;
using nlohmann::json;
using outside::check_source;
using outside::with_confidence;
using trade::ArticleMatch;
using trade::Edition;
using Differences = std::vector<Difference>;
using Texts = std::vector<std::string>;

const json& file() {
    static const json file = reference::json_file("edition_changes.json");
    return file;
}

const json& checks() {
    return file().at("checks");
}

const content::Contents& contents() {
    static const auto contents = content::load_contents(Texts{PROJECT_FOLDER}).value();
    return contents;
}

/// What differs between the edition before and this one.
const Differences& differences_to(Edition edition) {
    static std::map<Edition, Differences> kept;
    const auto [entry, fresh] = kept.try_emplace(edition);
    if (fresh) {
        const auto before = std::prev(std::ranges::find(trade::kEditions, edition));
        entry->second = content::differences(contents(), outside::data(), {*before, "", ""}, {edition, "", ""});
    }
    return entry->second;
}

std::pair<Differs, std::string> named_in(const json& check) {
    if (check.contains("point")) return {Differs::point, check.at("point").get<std::string>()};
    if (check.contains("rule")) return {Differs::rule, check.at("rule").get<std::string>()};
    return {Differs::table, check.at("table").get<std::string>()};
}

const Difference* difference_of(const json& check) {
    const auto edition = trade::parse_edition(check.at("edition").get<std::string>());
    const auto& all = differences_to(edition.value());
    const auto [kind, id] = named_in(check);
    const auto found = std::ranges::find_if(all, [&](const Difference& d) { return d.kind == kind && d.id == id; });
    return found == all.end() ? nullptr : &*found;
}

bool stands_at(const std::string& ours, const std::string& wanted) {
    const auto given = trade::parse_article(ours);
    if (!given) return false;
    const auto match = trade::compare(*given, trade::parse_article(wanted).value());
    return match == ArticleMatch::exact || match == ArticleMatch::deeper;
}

std::string article_otherwise(const json& expect, const char* side, const std::string& ours) {
    if (!expect.contains(side)) return {};
    const auto wanted = expect.at(side).get<std::string>();
    return stands_at(ours, wanted) ? "" : std::string{side} + " " + ours + " instead of " + wanted + "; ";
}

bool all_in(const Texts& words, const std::string& text) {
    return std::ranges::all_of(
        words, [&](const std::string& part) { return base::lower(text).find(base::lower(part)) != std::string::npos; });
}

std::string words_otherwise(const json& expect, const Difference& ours) {
    if (!expect.contains("says")) return {};
    const Texts words = expect.at("says");
    if (ours.kind != Differs::point)
        return all_in(words, base::join(ours.says, " ")) ? "" : "the change list does not say it; ";
    if (!all_in(words, ours.after)) return "does not say it: " + ours.after + "; ";
    return all_in(words, ours.before) ? "said it before; " : "";
}

/// What differs otherwise than the change tells; empty when all agrees.
std::string otherwise(const json& check) {
    const auto* ours = difference_of(check);
    if (ours == nullptr) return "nothing differs; ";
    const auto& expect = check.at("expect");
    std::string told;
    if (expect.contains("is") && expect.at("is") != content::to_text(ours->change))
        told += "it is " + std::string{content::to_text(ours->change)} + "; ";
    return told + article_otherwise(expect, "from", ours->article_before) +
           article_otherwise(expect, "to", ours->article_after) + words_otherwise(expect, *ours);
}

std::ptrdiff_t of_edition(const json& list, const std::string& edition) {
    return std::ranges::count_if(list, [&](const json& one) { return one.at("edition") == edition; });
}

}  // namespace

TEST_CASE("edition changes: every check names its source and expects something, and none stands twice") {
    std::set<std::string> seen;
    for (const auto& check : checks()) {
        check_source(check);
        CHECK_MESSAGE(!check.at("expect").empty(), check.dump());
        CHECK_MESSAGE(seen.insert(check.dump()).second, check.dump());
    }
}

TEST_CASE("edition changes: no row is lost") {
    CHECK(with_confidence(checks(), "high") == 131);
    CHECK(with_confidence(checks(), "medium") == 29);
    CHECK(with_confidence(checks(), "low") == 1);
    const auto& uncovered = file().at("uncovered");
    CHECK(with_confidence(uncovered, "high") == 2);
    CHECK(with_confidence(uncovered, "medium") == 1);
    CHECK(of_edition(file().at("skipped"), "2014") == 12);
    CHECK(of_edition(file().at("skipped"), "2017") == 24);
    std::set<std::string> changes;
    for (const auto& check : checks()) changes.insert(check.at("change").get<std::string>());
    CHECK(changes.size() == 72);
    for (const auto& one : uncovered) {
        check_source(one);
        CHECK_MESSAGE(one.at("why").get<std::string>().size() > 10, one.dump());
        CHECK_MESSAGE(changes.insert(one.at("change").get<std::string>()).second, one.dump());
    }
}

TEST_CASE("edition changes: one of high confidence shows, another shows or says why it does not") {
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
