// Protection rules as shipped, held against what named sources say of cases in an edition. Cases of high confidence
// have to agree; where one of medium confidence does not, the case says why ("explained"), and no explanation outlives
// its disagreement.
#include <algorithm>
#include <filesystem>
#include <set>

#include <doctest/doctest.h>

#include "base/text.hpp"
#include "content/outside_check.hpp"
#include "content/trade_data.hpp"
#include "reference/json_file.hpp"

namespace {

using nlohmann::json;
using Names = std::vector<std::string>;

using outside::data;

/// Every rules_*.json beside the other reference values, so that none is left out.
Names files() {
    Names names;
    for (const auto& entry : std::filesystem::directory_iterator(std::string{PROJECT_FOLDER} + "/tests/reference"))
        if (const auto name = entry.path().filename().string(); name.starts_with("rules_")) names.push_back(name);
    std::sort(names.begin(), names.end());
    return names;
}

std::vector<json> all_cases() {
    std::vector<json> cases;
    for (const auto& file : files()) {
        const json held = reference::json_file(file);
        for (const auto& one : held.at("cases")) cases.push_back(one);
    }
    return cases;
}

struct Judged {
    trade::Ruling ruling;
    std::set<std::string> requires_, permits, forbids, exempt, articles;
    std::map<std::string, double> counts;
};

std::set<std::string> names(trade::ResultSet set) {
    const auto list = trade::names_of(set, data().vocabulary());
    return {list.begin(), list.end()};
}

Judged judge(const json& one) {
    Judged judged;
    judged.ruling = outside::ruled(one, trade::parse_edition(one.at("edition").get<std::string>()).value());
    judged.requires_ = names(judged.ruling.requires_);
    judged.permits = names(judged.ruling.permits);
    judged.forbids = names(judged.ruling.forbids);
    judged.exempt = names(judged.ruling.exempt);
    for (const auto& fired : judged.ruling.fired) {
        judged.articles.insert(fired.version->article);
        if (fired.count) judged.counts[fired.rule->result] = std::max(judged.counts[fired.rule->result], *fired.count);
    }
    for (const auto& out : judged.ruling.excepted) {
        judged.articles.insert(out.version->article);
        judged.articles.insert(out.exception->article);
    }
    return judged;
}

std::set<std::string> wanted(const json& expect, const char* key) {
    std::set<std::string> names;
    for (const auto& name : expect.at(key)) names.insert(name.get<std::string>());
    return names;
}

/// What differs from what is expected; empty when all agrees.
std::string difference(const json& one) {
    const Judged judged = judge(one);
    const json& expect = one.at("expect");
    std::string told;
    const auto compare = [&](const char* key, const std::set<std::string>& got) {
        if (expect.contains(key) && got != wanted(expect, key))
            told += std::string{key} + ": " + base::join({got.begin(), got.end()}, "+") + " instead of " +
                    expect.at(key).dump() + "; ";
    };
    compare("requires", judged.requires_);
    compare("permits", judged.permits);
    compare("forbids", judged.forbids);
    compare("exempt", judged.exempt);
    if (expect.contains("articles"))
        for (const auto& article : wanted(expect, "articles"))
            if (!judged.articles.contains(article))
                told += "no " + article + " among " +
                        base::join({judged.articles.begin(), judged.articles.end()}, ", ") + "; ";
    if (expect.contains("counts"))
        for (const auto& [name, count] : expect.at("counts").items()) {
            const auto got = judged.counts.find(name);
            if (got == judged.counts.end() ? count != 0.0 : got->second != count.get<double>())
                told += name + " counted otherwise; ";
        }
    for (const auto fact : judged.ruling.unknown) told += "asks for " + data().vocabulary().facts()[fact].name + "; ";
    for (const auto& clash : judged.ruling.findings) told += clash + "; ";
    return told;
}

}  // namespace

TEST_CASE("rules reference: every case names its source, and none stands twice") {
    const auto cases = all_cases();
    CHECK(cases.size() >= 900);
    std::set<std::string> seen;
    for (const auto& one : cases) {
        CHECK_MESSAGE(one.at("source").get<std::string>().size() >= 6, one.dump());
        CHECK_MESSAGE(!one.at("expect").empty(), one.dump());
        CHECK_MESSAGE(seen.insert(one.at("case").get<std::string>() + one.at("facts").dump()).second, one.dump());
    }
}

TEST_CASE("rules reference: cases of high confidence come out as their sources have them") {
    std::size_t high = 0;
    for (const auto& one : all_cases()) {
        if (one.at("confidence") != "high") continue;
        ++high;
        const std::string told = difference(one);
        CHECK_MESSAGE(told.empty(), one.at("case").get<std::string>(), ": ", told);
    }
    CHECK(high >= 240);
}

TEST_CASE("rules reference: a case of less confidence agrees or says why it does not") {
    for (const auto& one : all_cases()) {
        if (one.at("confidence") == "high") {
            CHECK_MESSAGE(!one.contains("explained"), one.dump());
            continue;
        }
        const std::string told = difference(one);
        CHECK_MESSAGE(told.empty() != one.contains("explained"), one.at("case").get<std::string>(), ": ", told);
    }
}
