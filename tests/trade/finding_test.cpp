#include "trade/finding.hpp"

#include <doctest/doctest.h>

#include "trade/working.hpp"

TEST_CASE("finding: a refusal is a finding, once, and blocks as a fact that is missing does") {
    trade::Finding finding;
    CHECK_FALSE(finding.blocked());
    finding.refuse("beyond the table");
    finding.refuse("beyond the table");
    CHECK(finding.blocked());
    CHECK(finding.findings == std::vector<std::string>{"beyond the table"});
    CHECK(finding.unknown.empty());
    trade::Finding other;
    other.lacks("size");
    CHECK(other.blocked());
}

TEST_CASE("finding: values are told with their unit, and a plain number or word without one") {
    CHECK(to_text(trade::value_of(20.25, base::Unit::in3)) == "20.25 in3");
    CHECK(to_text(trade::value_of(4.0, base::Unit::count)) == "4");
    CHECK(to_text(trade::value_of(3.25, base::Unit::percent)) == "3.25%");
    CHECK(to_text(trade::value_of(trade::Size::awg3_0)) == "3/0 AWG");
    CHECK(to_text(trade::value_of(trade::Size::k500)) == "500 kcmil");
    CHECK(to_text(trade::value_of("yes")) == "yes");
    CHECK(to_text(trade::value_of("1-1/4", base::Unit::in)) == "1-1/4 in");
}

TEST_CASE("finding: a number is one by having no words, 0 among them") {
    CHECK(trade::value_of(0.0, base::Unit::amp).is_number());
    CHECK_FALSE(trade::value_of("0").is_number());
    CHECK_FALSE(trade::value_of(trade::Size::awg12).is_number());
}

TEST_CASE("finding: further values are found by name, and a fact that is missing is noted once") {
    trade::Finding finding;
    finding.also = {{"spare", trade::value_of(1.5, base::Unit::in3)}, {"fits", trade::value_of("yes")}};
    REQUIRE(finding.find("fits") != nullptr);
    CHECK(finding.find("fits")->words == "yes");
    CHECK(finding.find("spare")->number == 1.5);
    CHECK(finding.find("fit") == nullptr);
    finding.lacks("clamps");
    finding.lacks("grounds");
    finding.lacks("clamps");
    CHECK(finding.unknown == std::vector<std::string>{"clamps", "grounds"});
}

TEST_CASE("working: steps are put together from words, numbers and sizes, or not made at all") {
    std::vector<std::string> steps;
    trade::Working{steps, true}.step("conductors: ", 4, " x ", 2.25, " (", trade::Size::awg12, ") = ", 9.0);
    CHECK(steps == std::vector<std::string>{"conductors: 4 x 2.25 (12 AWG) = 9"});
    trade::Working{steps, false}.step("more");
    CHECK(steps.size() == 1);
}
