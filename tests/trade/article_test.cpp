#include "trade/article.hpp"

#include <vector>

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "base/text.hpp"

namespace {

using trade::Article;
using trade::ArticleMatch;

struct Spelling {
    std::string_view text, means;
};

ArticleMatch compared(std::string_view given, std::string_view wanted) {
    return trade::compare(trade::parse_article(given).value(), trade::parse_article(wanted).value());
}

Article random_article(base::Random& random) {
    Article article{static_cast<int>(90 + random.below(750)), static_cast<int>(random.below(200)), {}};
    if (article.section == 0) return article;
    const auto depth = random.below(4);
    for (std::uint64_t i = 0; i < depth; ++i)
        article.parts.push_back(i % 2 == 0 ? std::string(1, static_cast<char>('A' + random.below(8)))
                                           : std::to_string(1 + random.below(18)));
    return article;
}

}  // namespace

TEST_CASE("article: every customary spelling is read") {
    const std::vector<Spelling> rows = {{"210.8(A)(4)", "210.8(A)(4)"},
                                        {"210-8 a 4", "210.8(a)(4)"},
                                        {"210.8 (A) (4)", "210.8(A)(4)"},
                                        {"210.8A4", "210.8(A)(4)"},
                                        {"210.8[A][4]", "210.8(A)(4)"},
                                        {"210.8-A-4", "210.8(A)(4)"},
                                        {"210 8", "210.8"},
                                        {"art. 210.8", "210.8"},
                                        {"Art 210.8", "210.8"},
                                        {"\xC2\xA7 210.8", "210.8"},
                                        {"\xC2\xA7\xC2\xA7"
                                         "210.8(B)",
                                         "210.8(B)"},
                                        {"NEC 250.122", "250.122"},
                                        {"nec section 250.122(B)", "250.122(B)"},
                                        {"Sec. 250.122", "250.122"},
                                        {"s. 314.29", "314.29"},
                                        {"Code 314.29", "314.29"},
                                        {"Table 310.16", "310.16"},
                                        {"Article 590", "Article 590"},
                                        {"590", "Article 590"},
                                        {"  90.2 ", "90.2"},
                                        {"250.52(A)(3)", "250.52(A)(3)"},
                                        {"310.15(B)(2)(a)", "310.15(B)(2)(a)"},
                                        {"517.30(C)(3)(iv)", "517.30(C)(3)(iv)"}};
    for (const auto& row : rows) {
        CAPTURE(row.text);
        const auto article = trade::parse_article(row.text);
        REQUIRE(article.has_value());
        CHECK(trade::to_text(*article) == row.means);
    }
}

TEST_CASE("article: what is no reference is refused") {
    for (const std::string_view bad : {"", " ", "b", "article", "12", "79.1", "1000", "2108", "210.0", "210(A)",
                                       "210.8!", "210.8 = right", "no 210.8", "A 210.8", "99999999999.8",
                                       "210.8 or 210.52", "210.8(A)(4), 406.4", "Article 210 Part II", "\xFF"}) {
        CAPTURE(bad);
        CHECK_FALSE(trade::parse_article(bad).has_value());
    }
}

TEST_CASE("article: property: what is written is read back") {
    base::Random random{31};
    for (int i = 0; i < 3000; ++i) {
        const Article article = random_article(random);
        CAPTURE(trade::to_text(article));
        CHECK(trade::parse_article(trade::to_text(article)) == article);
        const auto small = trade::parse_article(base::lower(trade::to_text(article)));
        CHECK(trade::compare(small.value(), article) == ArticleMatch::exact);
    }
}

TEST_CASE("article: how a given reference stands to the wanted one") {
    CHECK(compared("210.8(a)(4)", "210.8(A)(4)") == ArticleMatch::exact);
    CHECK(compared("Article 210", "Article 210") == ArticleMatch::exact);
    CHECK(compared("210.8(A)(4)", "210.8(A)") == ArticleMatch::deeper);
    CHECK(compared("210.8", "Article 210") == ArticleMatch::deeper);
    CHECK(compared("210.8(A)", "210.8(A)(4)") == ArticleMatch::shorter);
    CHECK(compared("210.8", "210.8(A)(4)") == ArticleMatch::shorter);
    CHECK(compared("210.8(B)", "210.8(A)(4)") == ArticleMatch::section);
    CHECK(compared("210.8(A)(5)(a)", "210.8(A)(4)") == ArticleMatch::section);
    CHECK(compared("210.12(A)", "210.8(A)") == ArticleMatch::article);
    CHECK(compared("Article 210", "210.8(A)") == ArticleMatch::article);
    CHECK(compared("406.4", "210.8(A)") == ArticleMatch::apart);
}

TEST_CASE("article: property: deeper and shorter are each other's mirror") {
    base::Random random{32};
    for (int i = 0; i < 2000; ++i) {
        Article whole = random_article(random);
        if (whole.parts.empty()) continue;
        Article cut = whole;
        cut.parts.pop_back();
        CAPTURE(trade::to_text(whole));
        CHECK(trade::compare(whole, cut) == ArticleMatch::deeper);
        CHECK(trade::compare(cut, whole) == ArticleMatch::shorter);
    }
}
