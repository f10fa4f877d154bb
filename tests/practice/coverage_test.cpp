#include "practice/coverage.hpp"

#include <doctest/doctest.h>

namespace {

template <class T, class F>
std::size_t total(const std::vector<T>& rows, F of) {
    std::size_t sum = 0;
    for (const auto& row : rows) sum += of(row);
    return sum;
}

}  // namespace

TEST_CASE("coverage: every point and question stands once under a topic and once under an article") {
    const auto contents = content::load_contents({std::string{PROJECT_FOLDER}}).value();
    const auto coverage = practice::coverage_of(contents);
    std::size_t points = 0;
    std::size_t questions = 0;
    for (const auto& deck : contents.decks) {
        points += deck.points.size();
        for (const auto& point : deck.points) questions += point.questions.size();
    }
    for (const auto& family : contents.families)
        for (const auto& scenario : family.scenarios) questions += scenario.asks.size();
    for (const auto* rows : {&coverage.topics, &coverage.articles}) {
        CHECK(total(*rows, [](const auto& row) { return row.points; }) == points);
        CHECK(total(*rows, [](const auto& row) { return row.questions(); }) == questions);
        for (const auto& row : *rows) {
            std::size_t by_stakes = 0;
            for (const auto count : row.by_stakes) by_stakes += count;
            CHECK(by_stakes == row.points);
            for (std::size_t e = 0; e < 4; ++e) {
                CHECK(row.verified[e] <= row.in_edition[e]);
                CHECK(row.in_edition[e] <= row.points);
            }
        }
    }
}

TEST_CASE("coverage: a section is thin where an exam would have to ask a question twice") {
    practice::SectionCoverage section;
    section.asked = 3;
    section.questions = {2, 3, 4, 0};
    CHECK(section.thin(0));
    CHECK_FALSE(section.thin(1));
    CHECK_FALSE(section.thin(2));
    CHECK(section.thin(3));
}

TEST_CASE("coverage: sections follow the outlines, asked at full length") {
    const auto contents = content::load_contents({std::string{PROJECT_FOLDER}}).value();
    const auto coverage = practice::coverage_of(contents);
    std::size_t sections = 0;
    for (const auto& outline : contents.outlines) sections += outline.sections.size();
    REQUIRE(coverage.sections.size() == sections);
    std::size_t asked = 0;
    for (const auto& section : coverage.sections)
        if (section.outline == "residential-wireman") asked += section.asked;
    CHECK(asked == 50);
}
