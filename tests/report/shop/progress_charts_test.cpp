#include "report/shop/progress_charts.hpp"

#include <doctest/doctest.h>

#include "report/chart/reading.hpp"
#include "report/shop/made_page.hpp"

using reading::count;
using reading::has;

TEST_CASE("progress charts: the weeks' bars are drawn to scale, right below wrong") {
    practice::Progress progress;
    for (int n = 0; n < 10; ++n)
        progress.weeks.push_back({*base::parse_instant("2026-01-05") + std::chrono::weeks{n}, 10, 6, 1});
    progress.weeks[3] = {progress.weeks[3].monday, 5, 5, 1};
    progress.weeks[4] = {progress.weeks[4].monday, 0, 0, 0};
    const std::string svg = report::weeks_svg(progress);
    CHECK(reading::well_formed(svg));
    // One box more of each for the key.
    CHECK(count(svg, "class=\"full\"") == 9 + 1);
    CHECK(count(svg, "class=\"open\"") == 8 + 1);
    CHECK(has(svg, "2026-02-02: 0 answers, 0 right"));
    CHECK(has(svg, "week 1 began 2026-01-05"));
    std::vector<double> heights;
    for (auto at = svg.find("<rect"); at != std::string::npos; at = svg.find("<rect", at + 1)) {
        const std::string tag = svg.substr(at, svg.find('>', at) - at);
        if (has(tag, "class=\"full\"")) heights.push_back(reading::value(reading::attribute(tag, "height")));
    }
    REQUIRE(heights.size() == 10);
    CHECK(heights[3] / heights[0] == doctest::Approx(5.0 / 6).epsilon(0.01));
}

TEST_CASE("progress charts: only the last half year of weeks is drawn") {
    practice::Progress progress;
    for (int n = 0; n < 100; ++n)
        progress.weeks.push_back({*base::parse_instant("2024-01-01") + std::chrono::weeks{n}, 1, 1, 1});
    const std::string svg = report::weeks_svg(progress);
    CHECK(count(svg, "class=\"full\"") == 26 + 1);
    CHECK(has(svg, "week 1 began " + base::date_text(progress.weeks[74].monday)));
}

TEST_CASE("progress charts: a topic's line begins where the topic does") {
    practice::TopicProgress topic;
    topic.standing.topic = "gfci & <afci>";
    topic.history = {{made::kNow, 0, 0}, {made::kNow, 0, 0}, {made::kNow, 2, 0.5}, {made::kNow, 3, 1}};
    const std::string svg = report::topic_line_svg(topic, "a b");
    CHECK(reading::well_formed(svg));
    CHECK(has(svg, "id=\"a-b-title\""));
    CHECK(has(svg, "gfci &amp; &lt;afci&gt;"));
    CHECK(has(svg, "From 50 % on 2026-03-04 to 100 % now."));
    const auto at = svg.find("class=\"l0\"");
    const auto from = svg.rfind("d=\"M", at);
    CHECK(reading::value(svg.substr(from + 4, svg.find_first_of(" ,L", from + 4) - from - 4)) ==
          doctest::Approx(6 + 2.0 / 3 * 188).epsilon(0.01));
}

TEST_CASE("progress charts: property: all are well formed, however little there is") {
    for (base::Seed seed = 1; seed <= 10; ++seed) {
        const made::Shop shop{seed, seed};
        for (const auto& member : shop.crew.members) {
            const auto& own = member.progress;
            for (const auto& svg : {report::history_svg(own), report::forecast_svg(own), report::weeks_svg(own),
                                    report::sure_svg(own), report::times_svg(own)}) {
                CHECK_MESSAGE(reading::well_formed(svg), seed);
                CHECK_FALSE(has(svg, "nan"));
                CHECK(has(svg, "Nothing to show yet.") == (own.answers == 0 || (own.met == 0 && has(svg, "recall"))));
            }
        }
    }
}
