#include "practice/shop/week_points.hpp"

#include <algorithm>
#include <set>

#include <doctest/doctest.h>

#include "practice/shop/year.hpp"

namespace {

using practice::Portion;

const content::Contents& shipped() {
    static const auto contents = content::load_contents(std::vector<std::string>{PROJECT_FOLDER}).value();
    return contents;
}

std::vector<std::string> titles(const std::vector<Portion>& portions) {
    std::vector<std::string> list;
    for (const auto& portion : portions) list.push_back(portion.title);
    return list;
}

std::vector<std::size_t> sizes(const std::vector<Portion>& portions) {
    std::vector<std::size_t> list;
    for (const auto& portion : portions) list.push_back(portion.points.size());
    return list;
}

void check_portions(const std::vector<Portion>& portions, const std::vector<practice::WeekPoint>& points) {
    std::set<std::string> met;
    std::set<std::string> names;
    for (const auto& portion : portions) {
        CAPTURE(portion.title);
        CHECK(portion.points.size() <= practice::kMostInWeek);
        CHECK(portion.points.size() >= std::min(points.size(), practice::kFewestInWeek));
        CHECK(names.insert(portion.title).second);
        CHECK(std::is_sorted(portion.articles.begin(), portion.articles.end()));
        for (const auto& point : portion.points) {
            CHECK(met.insert(point.id.text).second);
            CHECK(std::count(portion.articles.begin(), portion.articles.end(), point.reference.article) == 1);
        }
    }
    CHECK(met.size() == points.size());
}

}  // namespace

TEST_CASE("week points: small neighbours share a week, a large article falls into its sections") {
    std::vector<practice::WeekPoint> points;
    year::add_article(points, 338, 3);
    year::add_article(points, 340, 2);
    year::add_article(points, 344, 4);
    year::add_article(points, 250, 20, "grounding");
    const auto portions = practice::portions_of(points);
    CHECK(titles(portions) == std::vector<std::string>{"250.1 to 250.3: All on grounding",
                                                       "250.4 to 250.5: All on grounding",
                                                       "Articles 338 to 344: All on boxes"});
    CHECK(sizes(portions) == std::vector<std::size_t>{12, 8, 9});
    CHECK(portions[2].articles == std::vector<int>{338, 340, 344});
}

TEST_CASE("week points: a section of more points than a week takes is cut into runs in the order of the book") {
    std::vector<practice::WeekPoint> points;
    for (int n = 1; n <= 20; ++n)
        points.push_back(year::point("210.8(A)(" + std::to_string(n) + ")", "p." + std::to_string(n), "protection"));
    const auto portions = practice::portions_of(points);
    CHECK(titles(portions) == std::vector<std::string>{"210.8(A)(1) to 210.8(A)(10): All on protection",
                                                       "210.8(A)(11) to 210.8(A)(20): All on protection"});
}

TEST_CASE("week points: what cites an article as a whole is parted by topic, and namesakes are numbered") {
    std::vector<practice::WeekPoint> points;
    for (int n = 0; n < 20; ++n) points.push_back(year::point("Article 110", "a." + std::to_string(n), "work-safety"));
    for (int n = 0; n < 10; ++n) points.push_back(year::point("Article 110", "b." + std::to_string(n), "controls"));
    CHECK(titles(practice::portions_of(points)) == std::vector<std::string>{"Article 110: All on controls",
                                                                            "Article 110: All on work-safety",
                                                                            "Article 110: All on work-safety, part 2"});
}

TEST_CASE("week points: few points left between full weeks are joined with a neighbour") {
    std::vector<practice::WeekPoint> points;
    year::add_article(points, 210, 12);
    year::add_article(points, 215, 3);
    year::add_article(points, 220, 12);
    const auto list = sizes(practice::portions_of(points));
    CHECK(std::all_of(list.begin(), list.end(), [](std::size_t n) { return n >= 4 && n <= 12; }));
}

TEST_CASE("week points: points without a reference, very few points, none") {
    CHECK(practice::portions_of({}).empty());
    const auto one = practice::portions_of({year::point("nothing", "p.1")});
    CHECK(titles(one) == std::vector<std::string>{"Other points: All on boxes"});
    CHECK(one[0].articles == std::vector<int>{0});
}

TEST_CASE("week points: every point stands in one portion of 4 to 12, whatever the content and its order") {
    for (base::Seed seed = 1; seed <= 300; ++seed) {
        CAPTURE(seed);
        base::Random random{seed};
        auto points = year::random_points(random, 1 + random.below(60));
        const auto portions = practice::portions_of(points);
        check_portions(portions, points);
        random.shuffle(points);
        CHECK(titles(practice::portions_of(points)) == titles(portions));
    }
}

TEST_CASE("week points: the shipped content, by edition and outline") {
    for (const auto edition : trade::kEditions) {
        const auto all = practice::week_points(shipped(), edition);
        CHECK(all.size() == content::traits_in(shipped(), edition).size());
        check_portions(practice::portions_of(all), all);
        for (const auto& outline : shipped().outlines) {
            CAPTURE(outline.id);
            const auto points = practice::week_points(shipped(), edition, &outline);
            const auto map = content::map_points(outline, content::traits_in(shipped(), edition));
            CHECK(points.size() == all.size() - map.outside.size());
            check_portions(practice::portions_of(points), points);
        }
    }
}

TEST_CASE("week points: an outline weighs the points of a section by what the exam asks of it") {
    content::Contents contents;
    content::Deck deck;
    deck.name = deck.topic = "boxes";
    for (const std::string topic : {"boxes", "wiring", "wiring", "elsewhere"}) {
        content::Point point;
        point.id.text = "p." + std::to_string(deck.points.size());
        point.topic = topic;
        content::Version version;
        version.article = "314.16";
        version.unverified = deck.points.size() == 2;
        point.versions = {version};
        deck.points.push_back(point);
    }
    contents.decks = {deck};
    content::Outline outline;
    outline.questions = {9, 9};
    for (const std::string topic : {"boxes", "wiring"}) {
        content::OutlineSection section;
        section.topics = {topic};
        section.questions = topic == "boxes" ? content::QuestionCount{6, 6} : content::QuestionCount{3, 3};
        outline.sections.push_back(section);
    }
    const auto points = practice::week_points(contents, trade::Edition::e2023, &outline);
    REQUIRE(points.size() == 3);  // the unverified one is taught as well
    // 9 questions over 3 points are 3 each: 6 on one point are twice that, 3 on two are half of it.
    CHECK(points[0].outline == doctest::Approx(2.0));
    CHECK(points[1].outline == doctest::Approx(0.5));
    CHECK(points[2].unverified);
    CHECK(practice::week_points(contents, trade::Edition::e2023).size() == 4);
}
