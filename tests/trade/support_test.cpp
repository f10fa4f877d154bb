#include "trade/work/support.hpp"

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "trade/article.hpp"
#include "trade/worked.hpp"

namespace {

using base::Random;
using trade::SupportFacts;
using worked::json;

const trade::Calculator& calculator() {
    static const auto made = trade::support_calculator();
    return made;
}

std::vector<std::string> methods() {
    const auto& specs = calculator().facts;
    const auto spec = std::find_if(specs.begin(), specs.end(), [](const auto& s) { return s.name == "method"; });
    REQUIRE(spec != specs.end());
    return base::split(spec->choices, '|');
}

/// Every fact said but for length and distance.
json any_box(const std::string& method) {
    return {{"method", method}, {"box", "clamped"}, {"trade_size", 1}, {"use", "service"}};
}

/// The least count by trying: with n supports the first and last at most `near` ft from their box, the others evenly.
int counted(double length, double near, double spacing) {
    for (int n = 1;; ++n) {
        const double reach = 2.0 * near + spacing * (n - 1);
        if (reach >= length - 1e-9) return n;
    }
}

}  // namespace

TEST_CASE("support: every worked example comes out as its source has it") {
    worked::check_all(calculator(), "worked_support.json", 8);
}

TEST_CASE("support: each fact that is missing is asked for by name") {
    worked::check_needs(calculator(), {{"method", "nm"}, {"box", "clamped"}, {"length", 20}}, {"method", "box"});
    worked::check_needs(calculator(), {{"method", "pvc"}, {"trade_size", 1}}, {"method", "trade_size"});
    // The spacing alone does not hang on the box.
    const auto finding = worked::find(calculator(), {{"method", "uf"}});
    CHECK(finding.answer->number == 4.5);
    CHECK(finding.find("from_box") == nullptr);
}

TEST_CASE("support: every wiring method of the help has a spacing and a section of its own") {
    std::vector<std::string> articles;
    for (const auto& method : methods()) {
        CAPTURE(method);
        const auto finding = worked::find(calculator(), any_box(method));
        REQUIRE(finding.answer.has_value());
        CHECK(finding.answer->number > 0.0);
        CHECK(finding.find("from_box") != nullptr);
        REQUIRE(finding.articles.size() == 1);
        CHECK(trade::parse_article(finding.articles.front()).has_value());
        articles.push_back(finding.articles.front());
    }
    std::sort(articles.begin(), articles.end());
    CHECK(std::adjacent_find(articles.begin(), articles.end()) == articles.end());
}

TEST_CASE("support: PVC by trade size, and none beyond the table") {
    const auto spacing = [](double size) {
        return worked::find(calculator(), {{"method", "pvc"}, {"trade_size", size}});
    };
    CHECK(spacing(0.5).answer->number == 3);
    CHECK(spacing(1).answer->number == 3);
    CHECK(spacing(1.25).answer->number == 5);
    CHECK(spacing(3).answer->number == 6);
    CHECK_FALSE(spacing(3.5).answer.has_value());
    CHECK(spacing(3.5).unknown.empty());
    REQUIRE(spacing(3.5).findings.size() == 1);
    CHECK(spacing(3.5).findings.front().find("ends at PVC of 3 in: 3.5 in; see 352.30") != std::string::npos);
}

TEST_CASE("support: SE cable is a service's, or goes by the rules of nonmetallic cable inside") {
    worked::check_needs(calculator(), {{"method", "se"}, {"use", "service"}}, {"use"});
    const auto service = worked::find(calculator(), {{"method", "se"}, {"use", "service"}});
    CHECK(service.answer->number == 2.5);
    CHECK(service.articles == std::vector<std::string>{"230.51"});
    const auto interior = worked::find(calculator(), {{"method", "se"}, {"use", "interior"}, {"length", 20}});
    CHECK(interior.answer->number == 4.5);
    CHECK(interior.find("from_box")->number == 12);
    CHECK(interior.articles == std::vector<std::string>{"338.10(B)(4)", "334.30"});
}

TEST_CASE("support: only a nonmetallic cable heeds a box without clamps") {
    for (const auto& method : methods()) {
        CAPTURE(method);
        json facts = any_box(method);
        const double clamped = worked::find(calculator(), facts).find("from_box")->number;
        facts["box"] = "single-gang-nonmetallic";
        const auto finding = worked::find(calculator(), facts);
        const bool nonmetallic = method == "nm" || method == "uf";
        CHECK(finding.find("from_box")->number == (nonmetallic ? 8.0 : clamped));
        CHECK(worked::cites(finding, "314.17") == nonmetallic);
    }
}

TEST_CASE("support: property: the count is the least that holds, and grows with the run") {
    const auto all = methods();
    for (base::Seed seed = 1; seed <= 2000; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        const std::string& method = all[random.below(all.size())];
        SupportFacts facts;
        facts.method = method;
        facts.trade_size = 1.0;
        facts.se_use = static_cast<SupportFacts::SeUse>(random.below(2));
        facts.box = static_cast<SupportFacts::Box>(random.below(2));
        facts.length = 0.5 + static_cast<double>(random.below(200)) / 2.0;
        const trade::Setting setting{trade::Edition::e2023, &shipped_tables(), false};
        const auto finding = trade::support(facts, setting);
        REQUIRE(finding.answer.has_value());
        const double near = finding.find("from_box")->number / 12.0;
        const double supports = finding.find("supports")->number;
        CHECK(supports == counted(*facts.length, near, finding.answer->number));
        *facts.length += random.unit() * 20.0;
        CHECK(trade::support(facts, setting).find("supports")->number >= supports);
    }
}

TEST_CASE("support: silent without a working, and every further value is named in the help") {
    const json facts = {{"method", "nm"}, {"box", "clamped"}, {"length", 20}, {"distance", 10}};
    worked::check_silent(calculator(), facts);
    worked::check_names(calculator(), worked::find(calculator(), facts));
    const trade::Tables none;
    const auto empty = calculator().run(worked::facts_of(calculator(), facts), {trade::Edition::e2023, &none, true});
    CHECK_FALSE(empty.answer.has_value());
}
