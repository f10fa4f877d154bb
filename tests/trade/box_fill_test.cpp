#include "trade/box_fill.hpp"

#include <doctest/doctest.h>

#include "base/random.hpp"

namespace {

using base::Random;
using trade::BoxContents;
using trade::Edition;

const std::vector<std::pair<std::string, std::string>> kVolumes = {
    {"18", "1.5"}, {"16", "1.75"}, {"14", "2.0"}, {"12", "2.25"}, {"10", "2.5"}, {"8", "3.0"}, {"6", "5.0"}};

const trade::Table& volumes() {
    static const trade::Table table = [] {
        trade::Table t;
        t.id = "box-volume";
        t.keys = {"size"};
        t.columns = {{"volume", base::Unit::in3}};
        for (const auto& [size, volume] : kVolumes) t.rows.push_back({{{"size", size}}, {{"volume", volume}}, {}});
        return t;
    }();
    return table;
}

double fill(const BoxContents& box, Edition edition) {
    const auto finding = trade::box_fill(box, edition, volumes());
    REQUIRE(finding.answer.has_value());
    return finding.answer->value;
}

std::string any_size(Random& random) {
    return kVolumes[random.below(kVolumes.size())].first;
}

int few(Random& random) {
    return static_cast<int>(random.below(9));
}

BoxContents random_box(Random& random) {
    BoxContents box;
    box.conductors.push_back({any_size(random), 1 + few(random)});
    for (auto left = random.below(3); left > 0; --left) box.conductors.push_back({any_size(random), few(random)});
    box.clamps = random.below(2) == 1;
    box.fittings = static_cast<int>(random.below(3));
    for (auto left = random.below(3); left > 0; --left)
        box.devices.push_back({any_size(random), 1 + static_cast<int>(random.below(2)), 1});
    if (random.below(2) == 1) box.grounds = BoxContents::Conductors{any_size(random), few(random)};
    return box;
}

Edition any_edition(Random& random) {
    return trade::kEditions[random.below(trade::kEditions.size())];
}

}  // namespace

TEST_CASE("box fill: property: never shrinks when anything is added") {
    for (base::Seed seed = 1; seed <= 2000; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        const BoxContents box = random_box(random);
        const Edition edition = any_edition(random);
        const double before = fill(box, edition);
        BoxContents more = box;
        more.conductors.push_back({any_size(random), 1});
        CHECK(fill(more, edition) > before);
        more = box;
        more.devices.push_back({any_size(random), 1, 1});
        CHECK(fill(more, edition) > before);
        more = box;
        ++more.fittings;
        CHECK(fill(more, edition) > before);
        more = box;
        if (!more.grounds) more.grounds = BoxContents::Conductors{"18", 0};
        ++more.grounds->count;
        CHECK(fill(more, edition) >= before);
    }
}

TEST_CASE("box fill: property: the order in which conductors are told does not matter") {
    for (base::Seed seed = 1; seed <= 500; ++seed) {
        Random random{seed};
        BoxContents box = random_box(random);
        const double before = fill(box, Edition::e2023);
        random.shuffle(box.conductors);
        random.shuffle(box.devices);
        CHECK_MESSAGE(fill(box, Edition::e2023) == doctest::Approx(before).epsilon(1e-12), "seed ", seed);
    }
}

TEST_CASE("box fill: grounds count as one through 2017, and a quarter for each past four from 2020") {
    for (int grounds = 0; grounds <= 12; ++grounds) {
        CAPTURE(grounds);
        BoxContents box;
        box.grounds = BoxContents::Conductors{"12", grounds};
        const double once = grounds == 0 ? 0.0 : 2.25;
        CHECK(fill(box, Edition::e2017) == doctest::Approx(once));
        for (const Edition edition : {Edition::e2020, Edition::e2023, Edition::e2026})
            CHECK(fill(box, edition) == doctest::Approx(once + (grounds > 4 ? (grounds - 4) * 2.25 / 4 : 0.0)));
    }
}

TEST_CASE("box fill: clamps and fittings go by the largest conductor, a ground among them") {
    BoxContents box;
    box.conductors = {{"14", 2}};
    box.clamps = true;
    CHECK(fill(box, Edition::e2023) == doctest::Approx(6.0));
    box.grounds = BoxContents::Conductors{"10", 1};
    box.fittings = 2;
    CHECK(fill(box, Edition::e2023) == doctest::Approx(4.0 + 3 * 2.5 + 2.5));
    box.conductors.push_back({"6", 0});
    CHECK(fill(box, Edition::e2023) == doctest::Approx(14.0));
}

TEST_CASE("box fill: an empty box takes nothing") {
    CHECK(fill({}, Edition::e2023) == 0.0);
}

TEST_CASE("box fill: a size without a volume is listed as unknown, once, and there is no answer") {
    BoxContents box;
    box.conductors = {{"12", 4}, {"4", 3}};
    box.clamps = true;
    box.fittings = 1;
    const auto finding = trade::box_fill(box, Edition::e2023, volumes());
    CHECK_FALSE(finding.answer.has_value());
    CHECK(finding.unknown == std::vector<std::string>{"volume of a conductor of size '4'"});
}

TEST_CASE("box fill: clamps in a box without conductors ask for the conductors") {
    BoxContents box;
    box.clamps = true;
    const auto finding = trade::box_fill(box, Edition::e2023, volumes());
    CHECK_FALSE(finding.answer.has_value());
    CHECK(finding.unknown == std::vector<std::string>{"conductors"});
}

TEST_CASE("box fill: shows its working in the order of the rule, and where the rule stands") {
    BoxContents box{{{"12", 4}}, true, 1, {{"12", 1, 1}}, BoxContents::Conductors{"12", 6}};
    const auto finding = trade::box_fill(box, Edition::e2020, volumes());
    CHECK(finding.steps == std::vector<std::string>{
                               "conductors: 4 x 2.25 (12 AWG) = 9 in3", "clamps: 1 x 2.25 (12 AWG) = 2.25 in3",
                               "support fittings: 1 x 2.25 (12 AWG) = 2.25 in3", "devices: 2 x 2.25 (12 AWG) = 4.5 in3",
                               "equipment grounds: 1.5 x 2.25 (12 AWG) = 3.375 in3"});
    CHECK(finding.articles == std::vector<std::string>{"314.16(B)"});
}
