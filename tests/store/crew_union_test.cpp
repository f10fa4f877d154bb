#include "store/crew_union.hpp"

#include <doctest/doctest.h>

#include "store/support.hpp"

using namespace stores;
using store::unite;
using What = store::CrewDifference::What;

namespace {

store::Learner ada() {
    auto one = learner_called("Ada Volt");
    one.id = id_of(1);
    return one;
}

store::Learner any_learner(base::Random& random) {
    auto one = ada();
    one.id = id_of(static_cast<std::uint8_t>(1 + random.below(3)));
    one.name = random.below(2) == 0 ? "Ada Volt" : "Ben Ohm";
    if (random.below(2) == 0) one.edition.reset();
    if (random.below(2) == 0) one.jurisdiction = "far-harbour";
    if (random.below(2) == 0) one.exam_at = base::after_days(kMonday, static_cast<double>(random.below(3)));
    if (random.below(2) == 0) one.retired_at = base::after_days(kMonday, static_cast<double>(random.below(3)));
    return one;
}

std::vector<store::Learner> any_crew(base::Random& random) {
    std::vector<store::Learner> crew;
    for (auto left = random.below(4); left > 0; --left) {
        const auto one = any_learner(random);
        if (std::none_of(crew.begin(), crew.end(), [&](const auto& l) { return l.id == one.id; })) crew.push_back(one);
    }
    return crew;
}

std::vector<store::Learner> joined(std::vector<store::Learner> crew, const store::CrewUnion& all) {
    for (auto& one : crew)
        for (const auto& changed : all.changed)
            if (changed.id == one.id) one = changed;
    crew.insert(crew.end(), all.added.begin(), all.added.end());
    return crew;
}

}  // namespace

TEST_CASE("crew union: a crew joined with itself changes nothing and tells nothing") {
    for (base::Seed seed = 1; seed <= 300; ++seed) {
        base::Random random{seed};
        const auto crew = any_crew(random);
        const auto all = unite(crew, crew, true);
        CHECK_MESSAGE((all.added.empty() && all.changed.empty() && all.told.empty()), "seed ", seed);
    }
}

TEST_CASE("crew union: everyone of both is in it once, under the same id, and joining again changes nothing") {
    for (base::Seed seed = 1; seed <= 300; ++seed) {
        CAPTURE(seed);
        base::Random random{seed};
        const auto ours = any_crew(random), theirs = any_crew(random);
        const bool details = random.below(2) == 0;
        const auto whole = joined(ours, unite(ours, theirs, details));
        for (const auto* crew : {&ours, &theirs})
            for (const auto& one : *crew)
                CHECK(std::count_if(whole.begin(), whole.end(), [&](const auto& l) { return l.id == one.id; }) == 1);
        const auto again = unite(whole, theirs, details);
        CHECK((again.added.empty() && again.changed.empty()));
    }
}

TEST_CASE("crew union: what is said here is never changed but for a later day of leaving") {
    for (base::Seed seed = 1; seed <= 300; ++seed) {
        CAPTURE(seed);
        base::Random random{seed};
        const auto ours = any_crew(random), theirs = any_crew(random);
        const auto whole = joined(ours, unite(ours, theirs, true));
        for (std::size_t at = 0; at < ours.size(); ++at) {
            const auto &before = ours[at], &after = whole[at];
            CHECK(after.name == before.name);
            if (before.edition) CHECK(after.edition == before.edition);
            if (!before.jurisdiction.empty()) CHECK(after.jurisdiction == before.jurisdiction);
            if (before.exam_at) CHECK(after.exam_at == before.exam_at);
            CHECK(after.retired_at.has_value() == before.retired_at.has_value());
            if (before.retired_at) CHECK(*after.retired_at >= *before.retired_at);
        }
    }
}

TEST_CASE("crew union: each difference is told once, in words") {
    auto here = ada(), there = ada();
    there.name = "Ada Watt";
    there.edition = 2023;
    there.jurisdiction = "far-harbour";
    there.exam_at = kMonday;
    there.retired_at = kMonday;
    const auto told = unite({here}, {there}, true).told;
    REQUIRE(told.size() == 5);
    CHECK(told[0] == store::CrewDifference{What::name, here.id, "Ada Volt", "Ada Volt", "Ada Watt", false});
    CHECK(told[1] == store::CrewDifference{What::edition, here.id, "Ada Volt", "2020", "2023", false});
    CHECK(told[2] == store::CrewDifference{What::jurisdiction, here.id, "Ada Volt", "none", "far-harbour", false});
    CHECK(told[3] == store::CrewDifference{What::exam, here.id, "Ada Volt", "none", "2026-03-02", false});
    CHECK(told[4] == store::CrewDifference{What::left, here.id, "Ada Volt", "none", "2026-03-02", false});
    CHECK(unite({here}, {there}, false).told.size() == 1);
}

TEST_CASE("crew union: where nothing is said here, edition, jurisdiction and exam are taken from there") {
    auto here = ada(), there = ada();
    here.edition.reset();
    there.exam_at = kMonday;
    const auto all = unite({here}, {there}, true);
    REQUIRE(all.changed.size() == 1);
    CHECK(all.changed.front() == there);
    REQUIRE(all.told.size() == 2);
    CHECK((all.told[0].taken && all.told[1].taken));
    CHECK(unite({here}, {there}, false).changed.empty());
}

TEST_CASE("crew union: of two days of leaving the later holds on both machines") {
    auto here = ada(), there = ada();
    here.retired_at = kMonday;
    there.retired_at = base::after_days(kMonday, 3);
    const auto forth = unite({here}, {there}, true), back = unite({there}, {here}, true);
    REQUIRE(forth.changed.size() == 1);
    CHECK(forth.changed.front().retired_at == there.retired_at);
    CHECK(forth.told.front().taken);
    CHECK((back.changed.empty() && back.told.empty()));
}

TEST_CASE("crew union: the same name under another id is two learners, told with both ids") {
    auto there = ada();
    there.id = id_of(2);
    there.name = "ADA VOLT";
    const auto all = unite({ada()}, {there}, true);
    CHECK(all.added == std::vector{there});
    REQUIRE(all.told.size() == 1);
    CHECK(all.told[0] == store::CrewDifference{What::same_name, there.id, "Ada Volt", base::to_text(id_of(1)),
                                               base::to_text(id_of(2)), false});
}
