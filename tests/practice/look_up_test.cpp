#include "practice/look_up.hpp"

#include <doctest/doctest.h>

#include <functional>
#include <map>
#include <regex>
#include <set>

#include "content/look_up.hpp"
#include "content/shipped.hpp"
#include "memory/model.hpp"
#include "practice/mark.hpp"
#include "trade/article.hpp"

namespace {

using practice::LookUp;
using practice::LookUpPicker;

const base::Instant kStart = base::from_milliseconds(1'767'225'600'000);

int article_of(const content::PointEntry& entry) {
    return content::article_to_find(*shipped::library().point(entry).version(trade::Edition::e2023));
}

LookUpPicker picker(base::Seed seed, const std::vector<LookUp>& before = {}, std::vector<std::string> topics = {}) {
    return {shipped::library(), {trade::Edition::e2023, std::move(topics), {}, seed}, before};
}

/// Looks up one after the other, taking as long as `seconds` says for an article; an hour apart.
std::map<int, std::size_t> look_up(LookUpPicker& from, std::size_t times, const std::function<double(int)>& seconds) {
    std::map<int, std::size_t> asked;
    auto now = kStart;
    for (std::size_t n = 0; n < times; ++n, now += std::chrono::hours{1}) {
        const auto* entry = from.next(now);
        REQUIRE(entry != nullptr);
        const int article = article_of(*entry);
        ++asked[article];
        from.answered({entry->id, now, static_cast<std::int64_t>(1000 * seconds(article)), 1.0});
    }
    return asked;
}

}  // namespace

TEST_CASE("look-ups: a look-up is another point than the one it looks for") {
    CHECK(content::look_up_of({"gfci.kitchen"}).text == "gfci.kitchen@book");
    CHECK(content::looked_up({"gfci.kitchen@book"})->text == "gfci.kitchen");
    CHECK_FALSE(content::looked_up({"gfci.kitchen"}));
    for (const auto& entry : shipped::library().index().points) CHECK_FALSE(content::looked_up(entry.id));
}

TEST_CASE("look-ups: practice of the trade, whole articles and what is not verified have no place to find") {
    content::Version version;
    version.basis.kind = trade::Basis::Kind::published;
    version.article = "210.8(A)(6)";
    CHECK(content::article_to_find(version) == 210);
    version.unverified = true;
    CHECK(content::article_to_find(version) == 0);
    version.unverified = false;
    version.article = "Article 210";
    CHECK(content::article_to_find(version) == 0);
    version.article = "210.8(A)(6)";
    version.basis.kind = trade::Basis::Kind::practice;
    CHECK(content::article_to_find(version) == 0);
}

TEST_CASE("look-ups: property: every place can be found in every way it is asked, and the text does not give it away") {
    std::size_t seen = 0;
    for (const auto edition : trade::kEditions)
        for (const auto& entry : shipped::library().index().points) {
            const auto* version = shipped::library().point(entry).version(edition);
            if (version == nullptr || content::article_to_find(*version) == 0) continue;
            for (std::size_t turn = 0; turn < 3; ++turn) {
                const auto ask = content::compose_look_up(shipped::library(), entry, edition, turn, 7);
                CAPTURE(ask.id.text);
                const auto place = *trade::parse_article(version->article);
                CHECK(practice::mark(ask, version->article)->mark == 1.0);
                // A question of the deck may say that the article is enough.
                if (ask.id.text.ends_with("#find"))
                    CHECK(practice::mark(ask, "Article " + std::to_string(place.article))->mark <
                          memory::kRecalledFrom);
                CHECK(practice::mark(ask, "90.1")->mark == (place.article == 90 && place.section == 1 ? 1.0 : 0.0));
                CHECK(content::looked_up(ask.question.point) == entry.id);
                const std::regex section{"(^|[^0-9])" + std::to_string(place.article) + "[.]" +
                                         std::to_string(place.section) + "([^0-9]|$)"};
                CHECK_MESSAGE(!std::regex_search(ask.question.text, section), ask.question.text);
                ++seen;
            }
        }
    CHECK(seen > 3000);
}

TEST_CASE("look-ups: an article that takes longer comes up more, and none is left out") {
    auto even = picker(3);
    auto slow = picker(3);
    const auto evenly = look_up(even, 600, [](int) { return 40.0; });
    const auto slowly = look_up(slow, 600, [](int article) { return article == 250 ? 160.0 : 40.0; });
    CHECK(slowly.at(250) > 2 * evenly.at(250));
    CHECK(evenly.size() == even.articles());
    const auto families = slow.families();
    CHECK(families.front().article == 250);
    CHECK(families.front().seconds == doctest::Approx(160.0).epsilon(0.05));
    CHECK(families.front().asked == slowly.at(250));
}

TEST_CASE("look-ups: one not found counts three minutes at least, however soon it was given up") {
    const auto* entry = picker(1).next(kStart);
    REQUIRE(entry != nullptr);
    std::vector<LookUp> before(50, {entry->id, kStart, 2000, 0.0});
    auto gave_up = picker(1, before);
    CHECK(gave_up.families().front().seconds == doctest::Approx(180.0).epsilon(0.1));
    CHECK(gave_up.families().front().found == 0);
    for (auto& one : before) one.took_ms = 600'000;
    CHECK(picker(1, before).families().front().seconds > 500.0);
}

TEST_CASE("look-ups: few look-ups tell little of an article") {
    const auto* entry = picker(1).next(kStart);
    REQUIRE(entry != nullptr);
    const auto families = picker(1, {{entry->id, kStart, 600'000, 1.0}}).families();
    REQUIRE(families.size() == 1);
    CHECK(families.front().seconds > 60.0);
    CHECK(families.front().seconds < 250.0);
}

TEST_CASE("look-ups: the same by seed; no article twice in a row; none again within four hours or once passed over") {
    std::vector<std::string> first;
    for (int round = 0; round < 2; ++round) {
        auto from = picker(11, {}, {"protection", "grounding"});
        std::vector<std::string> ids;
        std::set<std::string> seen;
        int before = 0;
        auto now = kStart;
        while (const auto* entry = from.next(now)) {
            CHECK(seen.insert(entry->id.text).second);
            const bool skipped = ids.size() % 7 == 3;
            if (skipped)
                from.passed_over(entry->id);
            else
                from.answered({entry->id, now, 30'000, 1.0});
            const int article = article_of(*entry);
            if (seen.size() < 20) CHECK(article != before);
            before = skipped ? before : article;
            ids.push_back(entry->id.text);
            now += std::chrono::seconds{30};
        }
        CHECK(seen.size() == from.places());
        if (round == 0) first = ids;
        CHECK(ids == first);
        CHECK(from.next(now + std::chrono::hours{5}) != nullptr);
    }
}
