#include "trade/loads/range_load.hpp"

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "trade/worked.hpp"

namespace {

using base::Random;
using worked::json;

const trade::Calculator& calculator() {
    static const auto made = trade::range_load_calculator();
    return made;
}

/// 1 to 20 ratings from `least` to `most` kW, in tenths.
std::vector<double> any_ratings(Random& random, double least, double most) {
    std::vector<double> kw(1 + random.below(20));
    for (auto& one : kw)
        one = least + static_cast<double>(random.below(static_cast<std::uint64_t>((most - least) * 10.0) + 1)) / 10.0;
    return kw;
}

double demand(const std::vector<double>& kw) {
    const auto found = trade::range_demand(kw, shipped_tables());
    REQUIRE(found.has_value());
    return *found;
}

double by_c(const std::vector<double>& kw) {
    trade::RangeFacts facts;
    facts.kw = kw;
    facts.column = "c";
    const auto finding = trade::range_load(facts, {trade::Edition::e2023, &shipped_tables(), false});
    REQUIRE(finding.answer.has_value());
    return finding.answer->number;
}

}  // namespace

TEST_CASE("range load: every worked example comes out as its source has it") {
    worked::check_all(calculator(), "worked_range_load.json", 15);
}

TEST_CASE("range load: the ratings are asked for, and on a branch circuit what the appliance is") {
    worked::check_needs(calculator(), {{"kw", {12}}}, {"kw"});
    worked::check_needs(calculator(), {{"kw", {12}}, {"branch", true}, {"built_in", false}}, {"kw", "built_in"});
}

TEST_CASE("range load: half a kilowatt over counts as one step, a little less as none") {
    for (const auto& [kw, steps] : {std::pair{12.49, 0.0}, std::pair{12.5, 1.0}, std::pair{13.49, 1.0},
                                    std::pair{13.5, 2.0}, std::pair{26.49, 14.0}, std::pair{26.5, 15.0}}) {
        CAPTURE(kw);
        CHECK(worked::find(calculator(), {{"kw", {kw}}}).find("over")->number == steps);
    }
}

TEST_CASE("range load: the columns meet where their ratings do") {
    const auto at = [](double kw) { return worked::find(calculator(), {{"kw", {kw, kw}}, {"column", "ab"}}); };
    CHECK(at(3.49).find("percent")->number == doctest::Approx(75));
    CHECK(at(3.5).find("percent")->number == doctest::Approx(65));
    CHECK(at(8.75).find("percent")->number == doctest::Approx(65));
    CHECK_FALSE(at(8.76).answer.has_value());
    // Each column goes by its own count.
    const auto mixed = worked::find(calculator(), {{"kw", {3, 3, 5}}, {"column", "ab"}});
    CHECK(mixed.answer->number == doctest::Approx(6 * 0.75 + 5 * 0.80));
}

TEST_CASE("range load: what the table does not cover has no demand") {
    for (const json& kw : {json{27.1}, json{1.75}, json(std::vector<double>(26, 12.0)), json{1.5, 12}}) {
        CAPTURE(kw.dump());
        const auto finding = worked::find(calculator(), {{"kw", kw}});
        CHECK_FALSE(finding.answer.has_value());
        CHECK(finding.unknown.empty());
        CHECK(finding.findings.size() == 1);
        CHECK_FALSE(trade::range_demand(kw.get<std::vector<double>>(), shipped_tables()).has_value());
    }
    CHECK_FALSE(worked::find(calculator(), {{"kw", {5, 5, 5, 5}}, {"branch", true}}).answer.has_value());
    CHECK_FALSE(
        worked::find(calculator(), {{"kind", "dryer"}, {"kw", std::vector<double>(24, 5.0)}}).answer.has_value());
    const auto why = [](const json& facts) { return worked::find(calculator(), facts).findings.back(); };
    CHECK(why({{"kw", {27.1}}}).starts_with("the demand table ends at 27 kW"));
    CHECK(why({{"kw", {1.75}}}).starts_with("the demand table is for ratings over 1.75 kW"));
    CHECK(why({{"kw", {9, 9}}, {"column", "ab"}}).starts_with("columns A and B"));
    CHECK(why({{"kw", std::vector<double>(26, 12.0)}}).find("which ends at 25: 26 appliances") != std::string::npos);
    CHECK_FALSE(trade::range_demand({12}, trade::Tables{}).has_value());
    CHECK_FALSE(trade::dryer_demand({5}, trade::Tables{}).has_value());
    CHECK(trade::range_demand({}, trade::Tables{}) == 0.0);
    CHECK(trade::dryer_demand({}, trade::Tables{}) == 0.0);
}

TEST_CASE("range load: small ratings beside ones over 12 kW never pull the average down") {
    const auto finding = worked::find(calculator(), {{"kw", {5, 14}}, {"column", "c"}});
    CHECK(finding.find("average")->number == doctest::Approx(14));
    CHECK(finding.answer->number == doctest::Approx(11 * 1.10));
    // A rating between 8.75 and 12 counts as 12.
    CHECK(worked::find(calculator(), {{"kw", {9, 14}}}).find("average")->number == doctest::Approx(13));
}

TEST_CASE("range load: a branch circuit for a range is at least 40 A, for an oven by its current") {
    const auto at = [](double kw, bool built_in) {
        return worked::find(calculator(), {{"kw", {kw}}, {"branch", true}, {"built_in", built_in}, {"volts", 240}})
            .find("branch_rating")
            ->number;
    };
    CHECK(at(8.75, false) == 40);
    CHECK(at(8.7, false) == 30);
    CHECK(at(8.75, true) == 40);
    CHECK(at(6.0, true) == 25);
    CHECK(at(27.0, false) == 60);
}

TEST_CASE("range load: property: column C by an independent count") {
    for (base::Seed seed = 1; seed <= 2000; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        const auto kw = any_ratings(random, 8.8, 27.0);
        double tenths = 0.0;
        for (const double one : kw) tenths += std::max(120.0, std::round(one * 10.0));
        // Whole numbers: tenths of a kW over the count, half a kW counted up.
        const auto count = static_cast<long>(kw.size());
        const long over = std::max(0L, (static_cast<long>(tenths) - 120L * count + 5L * count) / (10L * count));
        const double base = kw.size() <= 5 ? 5.0 + 3.0 * static_cast<double>(count) : 15.0 + static_cast<double>(count);
        CHECK(by_c(kw) == doctest::Approx(base * (1.0 + 0.05 * static_cast<double>(over))).epsilon(1e-9));
    }
}

TEST_CASE("range load: property: one more appliance never asks for less by column C, nor a larger one at all") {
    for (base::Seed seed = 1; seed <= 3000; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        auto kw = any_ratings(random, 1.8, 27.0);
        const double before = demand(kw);
        CHECK(before > 0.0);
        CHECK(before <= by_c(kw));
        auto larger = kw;
        auto& one = larger[random.below(larger.size())];
        // Within its own column: the percents of column B are smaller than those of A.
        const double top = one < 3.5 ? 3.4 : one <= 8.75 ? 8.75 : 27.0;
        one += (top - one) * random.unit();
        CHECK(demand(larger) >= before - 1e-9);
        const double c = by_c(kw);
        kw.push_back(12.0);
        if (*std::max_element(kw.begin(), kw.end()) <= 12.0) CHECK(by_c(kw) > c);
    }
}

TEST_CASE("range load: property: dryers count 5 kVA at least, and the demand is never over the sum") {
    for (base::Seed seed = 1; seed <= 2000; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        const auto kw = any_ratings(random, 1.0, 8.0);
        double all = 0.0;
        for (const double one : kw) all += std::max(5000.0, one * 1000.0);
        const double va = trade::dryer_demand(kw, shipped_tables()).value();
        CHECK(va <= all + 1e-6);
        CHECK(va >= all * 0.35);
        if (kw.size() <= 4) CHECK(va == doctest::Approx(all));
    }
}

TEST_CASE("range load: the editions differ in the article alone") {
    const json facts = {{"kw", {9, 14, 16}}, {"volts", 240}};
    const auto newest = worked::find(calculator(), facts, trade::Edition::e2026);
    CHECK(worked::cites(newest, "Article 120"));
    for (const auto edition : {trade::Edition::e2017, trade::Edition::e2020, trade::Edition::e2023}) {
        const auto finding = worked::find(calculator(), facts, edition);
        CHECK(worked::cites(finding, "220.55"));
        CHECK(finding.answer == newest.answer);
    }
    CHECK(worked::cites(worked::find(calculator(), {{"kind", "dryer"}, {"kw", {5}}}), "220.54"));
}

TEST_CASE("range load: the notes that took part and the 40 A of a range's circuit are cited") {
    using trade::Edition;
    const auto of = [](const json& facts, Edition edition) { return worked::find(calculator(), facts, edition); };
    CHECK(worked::cites(of({{"kw", {16}}}, Edition::e2023), "Table 220.55 Note 1"));
    CHECK(worked::cites(of({{"kw", {9, 14, 16}}}, Edition::e2020), "Table 220.55 Note 2"));
    CHECK(worked::cites(of({{"kw", {4, 4}}}, Edition::e2023), "Table 220.55 Note 3"));
    CHECK(of({{"kw", {12}}}, Edition::e2023).articles == std::vector<std::string>{"220.55"});
    CHECK(of({{"kw", {16}}}, Edition::e2026).articles == std::vector<std::string>{"Article 120"});
    const json range = {{"kw", {12}}, {"branch", true}, {"built_in", false}, {"volts", 240}};
    CHECK(worked::cites(of(range, Edition::e2017), "210.19(A)(3)"));
    CHECK(worked::cites(of(range, Edition::e2020), "210.19(A)(3)"));
    CHECK(worked::cites(of(range, Edition::e2023), "210.19(C)"));
    CHECK(worked::cites(of(range, Edition::e2026), "Article 210"));
    json oven = range;
    oven["built_in"] = true;
    CHECK(worked::cites(of(oven, Edition::e2023), "Table 220.55 Note 4"));
    CHECK_FALSE(worked::cites(of(oven, Edition::e2023), "210.19(C)"));
}

TEST_CASE("range load: silent without a working, and every further value is named in the help") {
    for (const json& facts : {json{{"kw", {4, 4}}, {"volts", 240}}, json{{"kind", "dryer"}, {"kw", {5}}},
                              json{{"kw", {8, 4}}, {"branch", true}, {"volts", 240}}}) {
        worked::check_silent(calculator(), facts);
        worked::check_names(calculator(), worked::find(calculator(), facts));
    }
}
