#include "trade/loads/dwelling_load.hpp"

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "trade/worked.hpp"

namespace {

using base::Random;
using trade::DwellingFacts;
using trade::Edition;
using worked::json;
using Method = DwellingFacts::Method;

const trade::Calculator& calculator() {
    static const auto made = trade::dwelling_load_calculator();
    return made;
}

json house() {
    return {{"method", "standard"}, {"area", 1500}, {"heating_va", 0}, {"cooling_va", 0}};
}

double number(const json& facts, std::string_view name, Edition edition = Edition::e2023) {
    const auto finding = worked::find(calculator(), facts, edition);
    REQUIRE(finding.answer.has_value());
    const auto* value = finding.find(name);
    REQUIRE(value != nullptr);
    return value->number;
}

DwellingFacts any_house(Random& random) {
    DwellingFacts facts;
    facts.method = random.below(2) == 0 ? Method::standard : Method::optional;
    facts.area = 400.0 + static_cast<double>(random.below(6000));
    facts.heating_va = static_cast<double>(random.below(30)) * 1000.0;
    facts.cooling_va = static_cast<double>(random.below(10)) * 1000.0;
    facts.heaters = 1.0 + static_cast<double>(random.below(8));
    facts.volts = 240.0;
    for (auto left = random.below(4); left > 0; --left)
        facts.fastened.push_back(500.0 + static_cast<double>(random.below(2000)));
    for (auto left = random.below(3); left > 0; --left)
        facts.fastened_240.push_back(1500.0 + static_cast<double>(random.below(4000)));
    if (random.below(2) == 1) facts.range_kw.push_back(8.0 + static_cast<double>(random.below(12)));
    if (random.below(2) == 1) facts.dryer_kw.push_back(4.0 + static_cast<double>(random.below(4)));
    return facts;
}

trade::Finding work(const DwellingFacts& facts, Edition edition) {
    auto finding = trade::dwelling_load(facts, {edition, &shipped_tables(), false});
    REQUIRE(finding.answer.has_value());
    return finding;
}

double load(const DwellingFacts& facts, Edition edition) {
    return work(facts, edition).answer->number;
}

}  // namespace

TEST_CASE("dwelling load: every worked example comes out as its source has it") {
    worked::check_all(calculator(), "worked_dwelling.json", 15);
}

TEST_CASE("dwelling load: each fact that is missing is asked for by name") {
    worked::check_needs(calculator(), house(), {"method", "area", "heating_va", "cooling_va"});
    json heated = house();
    heated.update({{"method", "optional"}, {"heating_va", 9000}, {"heaters", 5}});
    worked::check_needs(calculator(), heated, {"heaters"});
    heated["method"] = "standard";
    heated.erase("heaters");
    CHECK(worked::find(calculator(), heated).answer.has_value());
}

TEST_CASE("dwelling load: the demand steps at 3000 and 120,000 VA") {
    json facts = house();
    facts.update({{"small_appliance_circuits", 0}, {"laundry_circuits", 0}, {"area", 1000}});
    CHECK(number(facts, "after_demand") == doctest::Approx(3000));
    facts["area"] = 1001;
    CHECK(number(facts, "after_demand") == doctest::Approx(3000 + 0.35 * 3));
    facts["area"] = 40000;
    CHECK(number(facts, "after_demand") == doctest::Approx(3000 + 0.35 * 117000));
    facts["area"] = 50000;
    CHECK(number(facts, "after_demand") == doctest::Approx(3000 + 0.35 * 117000 + 0.25 * 30000));
}

TEST_CASE("dwelling load: separately controlled heaters from four on, and the larger of heating and cooling") {
    json facts = house();
    facts.update({{"method", "optional"}, {"heating_va", 10000}, {"heaters", 3}});
    CHECK(number(facts, "climate") == doctest::Approx(6500));
    facts["heaters"] = 4;
    CHECK(number(facts, "climate") == doctest::Approx(4000));
    facts["cooling_va"] = 4001;
    CHECK(number(facts, "climate") == doctest::Approx(4001));
    facts["method"] = "standard";
    CHECK(number(facts, "climate") == doctest::Approx(10000));
}

TEST_CASE("dwelling load: the service is a standard rating of 100 A at least") {
    json facts = house();
    facts["volts"] = 240;
    CHECK(number(facts, "service") == 100);
    facts["heating_va"] = 24000;
    CHECK(number(facts, "amps") == doctest::Approx((5100 + 24000) / 240.0));
    CHECK(number(facts, "service") == 125);
}

TEST_CASE("dwelling load: four appliances bring the percent, and on the neutral only those that use it count") {
    json facts = house();
    facts["fastened"] = {1000, 1000, 1000};
    CHECK(number(facts, "appliances") == doctest::Approx(3000));
    facts["fastened_240"] = {4000};
    CHECK(number(facts, "appliances") == doctest::Approx(5250));
    CHECK(number(facts, "neutral") == doctest::Approx(5100 + 3000));
    facts["fastened"] = {1000, 1000, 1000, 1000};
    CHECK(number(facts, "neutral") == doctest::Approx(5100 + 3000));
}

TEST_CASE("dwelling load: a neutral with a motor on it or not is not guessed") {
    json facts = house();
    facts["largest_motor_va"] = 800;
    const auto finding = worked::find(calculator(), facts);
    CHECK(finding.answer->number == doctest::Approx(5300));
    CHECK(finding.find("neutral") == nullptr);
    CHECK(finding.findings.size() == 1);
    facts["motor_on_neutral"] = false;
    CHECK(number(facts, "neutral") == doctest::Approx(5100));
    facts["motor_on_neutral"] = true;
    CHECK(number(facts, "neutral") == doctest::Approx(5300));
}

TEST_CASE("dwelling load: the years up to 2023 agree but for small appliances, and 2026 is marked as doubtful") {
    json facts = house();
    facts.update({{"range_kw", {12}}, {"dryer_kw", {5}}, {"fastened", {600, 700, 800, 900}}, {"volts", 240}});
    const auto oldest = worked::find(calculator(), facts, Edition::e2017);
    CHECK(oldest.findings.empty());
    for (const auto edition : {Edition::e2020, Edition::e2023})
        CHECK(worked::find(calculator(), facts, edition).answer == oldest.answer);
    const auto newest = worked::find(calculator(), facts, Edition::e2026);
    CHECK(newest.findings.size() == 1);
    CHECK(newest.answer->number == doctest::Approx(oldest.answer->number - 0.35 * 1500));
    CHECK(newest.find("circuits_15") == nullptr);
    CHECK(oldest.find("circuits_15") != nullptr);
    CHECK(worked::cites(newest, "Article 120"));
    CHECK(worked::cites(oldest, "220.42"));
    CHECK(worked::cites(worked::find(calculator(), facts, Edition::e2023), "220.45"));
    facts["method"] = "optional";
    CHECK(worked::cites(worked::find(calculator(), facts, Edition::e2020), "220.82"));
}

TEST_CASE("dwelling load: too few circuits are told") {
    json facts = house();
    facts["small_appliance_circuits"] = 1;
    CHECK(worked::find(calculator(), facts).findings.size() == 1);
    facts["laundry_circuits"] = 0;
    CHECK(worked::find(calculator(), facts).findings.size() == 2);
}

TEST_CASE("dwelling load: a demand or a rule that the tables lack leaves no answer") {
    json facts = house();
    facts["range_kw"] = {28};
    const auto finding = worked::find(calculator(), facts);
    CHECK_FALSE(finding.answer.has_value());
    CHECK(finding.unknown.empty());
    CHECK(finding.findings == std::vector<std::string>{"the demand table ends at 27 kW: 28 kW"});
    const trade::Tables none;
    const auto empty = calculator().run(worked::facts_of(calculator(), house()), {Edition::e2023, &none, true});
    CHECK_FALSE(empty.answer.has_value());
    CHECK(empty.blocked());
    CHECK_FALSE(empty.findings.empty());
}

TEST_CASE("dwelling load: the sections of the parts that took part are cited, by edition") {
    using Articles = std::vector<std::string>;
    const auto of = [](const json& facts, Edition edition) {
        return worked::find(calculator(), facts, edition).articles;
    };
    CHECK(of(house(), Edition::e2017) == Articles{"220.42", "220.12", "220.52", "220.61"});
    CHECK(of(house(), Edition::e2020) == Articles{"220.42", "220.14(J)", "220.52", "220.61"});
    json full = house();
    full.update({{"fastened", {900}}, {"range_kw", {12}}, {"dryer_kw", {5}}, {"heating_va", 9000}});
    full.update({{"cooling_va", 4000}, {"largest_motor_va", 800}, {"motor_on_neutral", true}, {"volts", 240}});
    CHECK(of(full, Edition::e2023) == Articles{"220.45", "220.41", "220.52", "220.53", "220.54", "220.55", "220.60",
                                               "430.24", "220.61", "230.79(C)"});
    CHECK(of(full, Edition::e2026) == Articles{"Article 120"});
    full["method"] = "optional";
    full["heaters"] = 1;
    CHECK(of(full, Edition::e2023) == Articles{"220.82", "230.79(C)"});
}

TEST_CASE("dwelling load: property: more of anything never asks for less") {
    for (base::Seed seed = 1; seed <= 2000; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        const DwellingFacts facts = any_house(random);
        const Edition edition = trade::kEditions[random.below(trade::kEditions.size())];
        const auto before = work(facts, edition);
        const double va = before.answer->number;
        CHECK(before.find("service")->number >= std::max(100.0, before.find("amps")->number - 0.5));
        DwellingFacts more = facts;
        *more.area += 1.0 + static_cast<double>(random.below(1000));
        CHECK(load(more, edition) > va);
        more = facts;
        *more.heating_va += 1000.0;
        CHECK(load(more, edition) >= va);
        more = facts;
        *more.cooling_va += 1000.0;
        CHECK(load(more, edition) >= va);
        more = facts;
        more.small_appliance_circuits += 1;
        CHECK(load(more, edition) > va);
        more = facts;
        more.dryer_kw.push_back(5.0);
        CHECK(load(more, edition) > va);
        more = facts;
        if (!more.fastened.empty()) {
            more.fastened.front() += 100.0;
            CHECK(load(more, edition) > va);
        }
        if (const auto* neutral = before.find("neutral")) CHECK(neutral->number <= va + 1e-6);
    }
}

TEST_CASE("dwelling load: property: appliances count between three quarters and all of their nameplates") {
    for (base::Seed seed = 1; seed <= 1000; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        DwellingFacts facts = any_house(random);
        facts.method = Method::standard;
        double all = 0.0;
        for (const auto* list : {&facts.fastened, &facts.fastened_240})
            for (const double one : *list) all += one;
        const double counted = work(facts, Edition::e2023).find("appliances")->number;
        CHECK(counted <= all + 1e-6);
        CHECK(counted >= 0.75 * all - 1e-6);
    }
}

TEST_CASE("dwelling load: silent without a working, and every further value is named in the help") {
    json facts = house();
    facts.update({{"range_kw", {12}}, {"volts", 240}, {"fastened", {900}}, {"heating_va", 5000}, {"heaters", 1}});
    for (const auto* method : {"standard", "optional"}) {
        facts["method"] = method;
        worked::check_silent(calculator(), facts);
        worked::check_names(calculator(), worked::find(calculator(), facts));
    }
}
