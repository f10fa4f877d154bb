#include "practice/exam_parts.hpp"

#include <doctest/doctest.h>

namespace {

content::OutlineSection section(const std::string& id, int questions, const std::string& topic) {
    content::OutlineSection one;
    one.id = id;
    one.questions = {questions, questions};
    one.topics = {topic};
    return one;
}

content::Outline outline() {
    content::Outline exam;
    exam.questions = {10, 10};
    exam.pass.right = 7;
    exam.sections = {section("a", 6, "boxes"), section("b", 3, "wiring"), section("c", 1, "nothing")};
    return exam;
}

content::PointTraits point(const std::string& id, const std::string& topic, bool unverified = false) {
    content::PointTraits one;
    one.id.text = id;
    one.topic = topic;
    one.unverified = unverified;
    return one;
}

}  // namespace

TEST_CASE("exam parts: points by section, unverified ones counted apart, the rest left out") {
    const auto exam = outline();
    const auto parts = practice::parts_of(
        exam, {point("p.1", "boxes"), point("p.2", "wiring"), point("p.3", "boxes", true), point("p.4", "elsewhere")});
    REQUIRE(parts.size() == 3);
    CHECK(parts[0].section->id == "a");
    CHECK(parts[0].asked == 6);
    CHECK(parts[0].points == std::vector<base::PointId>{{"p.1"}});
    CHECK(parts[0].unverified == 1);
    CHECK(parts[1].points.size() == 1);
    CHECK(parts[2].points.empty());
    const auto of = practice::covered(parts);
    CHECK(of.asked == 9);
    CHECK(of.not_covered == 1);
}

TEST_CASE("exam parts: a number right to pass is asked as a share of what is left") {
    CHECK(practice::pass_share_of(outline(), 10) == doctest::Approx(0.7));
    auto by_share = outline();
    by_share.pass = {0.75, 0};
    CHECK(practice::pass_share_of(by_share, 10) == doctest::Approx(0.8));  // 7.5 right is 8 right
    CHECK(practice::pass_share_of(by_share, 0) == 0);
}
