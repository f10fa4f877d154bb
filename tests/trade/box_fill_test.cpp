#include "trade/work/box_fill.hpp"

#include <array>

#include <doctest/doctest.h>

#include "base/random.hpp"

namespace {

using base::Random;
using trade::BoxFill;
using trade::Edition;
using trade::Item;
using trade::Size;

constexpr std::array kSizes = {Size::awg18, Size::awg16, Size::awg14, Size::awg12, Size::awg10, Size::awg8, Size::awg6};

const trade::Tables& volumes() {
    static const trade::Tables tables = [] {
        trade::Tables t;
        constexpr std::array kVolumes = {1.5, 1.75, 2.0, 2.25, 2.5, 3.0, 5.0};
        for (std::size_t i = 0; i < kSizes.size(); ++i) t.box_volume[index_of(kSizes[i])] = kVolumes[i];
        t.boxes = {{"square", "4 x 1-1/2", 21.0}, {"square", "4 x 2-1/8", 30.3}, {"device", "3 x 2 x 3-1/2", 18.0}};
        return t;
    }();
    return tables;
}

/// Nothing in it, and everything said.
BoxFill empty_box() {
    BoxFill box;
    box.conductors.emplace();
    box.grounds.emplace();
    box.devices.emplace();
    box.clamps = false;
    return box;
}

trade::Finding finding(const BoxFill& box, Edition edition) {
    return trade::box_fill(box, {edition, &volumes(), true});
}

double fill(const BoxFill& box, Edition edition) {
    const auto found = finding(box, edition);
    REQUIRE(found.answer.has_value());
    return found.answer->number;
}

Size any_size(Random& random) {
    return kSizes[random.below(kSizes.size())];
}

int few(Random& random) {
    return static_cast<int>(random.below(9));
}

BoxFill random_box(Random& random) {
    BoxFill box = empty_box();
    box.conductors->push_back({any_size(random), 1 + few(random)});
    for (auto left = random.below(3); left > 0; --left) box.conductors->push_back({any_size(random), few(random)});
    box.clamps = random.below(2) == 1;
    box.fittings = static_cast<int>(random.below(3));
    for (auto left = random.below(3); left > 0; --left)
        box.devices->push_back({any_size(random), 1, 1 + static_cast<int>(random.below(2))});
    if (random.below(2) == 1) box.grounds = {{any_size(random), few(random)}};
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
        const BoxFill box = random_box(random);
        const Edition edition = any_edition(random);
        const double before = fill(box, edition);
        BoxFill more = box;
        more.conductors->push_back({any_size(random), 1});
        CHECK(fill(more, edition) > before);
        more = box;
        more.devices->push_back({any_size(random), 1});
        CHECK(fill(more, edition) > before);
        more = box;
        ++more.fittings;
        CHECK(fill(more, edition) > before);
        more = box;
        more.grounds->push_back({Size::awg18, 1});
        CHECK(fill(more, edition) >= before);
    }
}

TEST_CASE("box fill: property: the order in which conductors are told does not matter") {
    for (base::Seed seed = 1; seed <= 500; ++seed) {
        Random random{seed};
        BoxFill box = random_box(random);
        const double before = fill(box, Edition::e2023);
        random.shuffle(*box.conductors);
        random.shuffle(*box.devices);
        CHECK_MESSAGE(fill(box, Edition::e2023) == doctest::Approx(before).epsilon(1e-12), "seed ", seed);
    }
}

TEST_CASE("box fill: grounds count as one through 2017, and a quarter for each past four from 2020") {
    for (int grounds = 0; grounds <= 12; ++grounds) {
        CAPTURE(grounds);
        BoxFill box = empty_box();
        box.grounds = {{Size::awg12, grounds}};
        const double once = grounds == 0 ? 0.0 : 2.25;
        CHECK(fill(box, Edition::e2017) == doctest::Approx(once));
        for (const Edition edition : {Edition::e2020, Edition::e2023, Edition::e2026})
            CHECK(fill(box, edition) == doctest::Approx(once + (grounds > 4 ? (grounds - 4) * 2.25 / 4 : 0.0)));
    }
}

TEST_CASE("box fill: a set of isolated grounds counts for itself through 2017, and with the others from 2020") {
    BoxFill box = empty_box();
    box.grounds = {{Size::awg12, 2}};
    box.isolated_grounds = {{Size::awg12, 2}};
    CHECK(fill(box, Edition::e2017) == doctest::Approx(4.5));
    CHECK(fill(box, Edition::e2020) == doctest::Approx(2.25));
    box.isolated_grounds = {{Size::awg10, 3}};
    CHECK(fill(box, Edition::e2020) == doctest::Approx(1.25 * 2.5));
}

TEST_CASE("box fill: clamps and fittings go by the largest conductor, a ground among them") {
    BoxFill box = empty_box();
    box.conductors = {{Size::awg14, 2}};
    box.clamps = true;
    CHECK(fill(box, Edition::e2023) == doctest::Approx(6.0));
    box.grounds = {{Size::awg10, 1}};
    box.fittings = 2;
    CHECK(fill(box, Edition::e2023) == doctest::Approx(4.0 + 3 * 2.5 + 2.5));
    box.conductors->push_back({Size::awg6, 0});
    CHECK(fill(box, Edition::e2023) == doctest::Approx(14.0));
}

TEST_CASE("box fill: long loops count twice, conductors that only pass through once") {
    BoxFill box = empty_box();
    box.pass_through = {{Size::awg12, 3}};
    box.loops = {{Size::awg12, 2}};
    CHECK(fill(box, Edition::e2023) == doctest::Approx(3 * 2.25 + 4 * 2.25));
}

TEST_CASE("box fill: an empty box takes nothing") {
    CHECK(fill(empty_box(), Edition::e2023) == 0.0);
}

TEST_CASE("box fill: what was not said is asked for by name, and nothing is guessed") {
    CHECK(finding({}, Edition::e2023).unknown ==
          std::vector<std::string>{"conductors", "grounds", "devices", "clamps"});
    BoxFill box = empty_box();
    box.clamps.reset();
    CHECK(finding(box, Edition::e2023).unknown == std::vector<std::string>{"clamps"});
    CHECK_FALSE(finding(box, Edition::e2023).answer.has_value());
}

TEST_CASE("box fill: a size without a volume is told, once, and there is no answer") {
    BoxFill box = empty_box();
    box.conductors = {{Size::awg12, 4}, {Size::awg4, 3}};
    box.clamps = true;
    box.fittings = 1;
    const auto found = finding(box, Edition::e2023);
    CHECK_FALSE(found.answer.has_value());
    CHECK(found.unknown.empty());
    REQUIRE(found.findings.size() == 1);
    CHECK(found.findings.front().find("a conductor of 4 AWG") != std::string::npos);
}

TEST_CASE("box fill: clamps in a box without conductors ask for the conductors") {
    BoxFill box = empty_box();
    box.clamps = true;
    const auto found = finding(box, Edition::e2023);
    CHECK_FALSE(found.answer.has_value());
    CHECK(found.unknown == std::vector<std::string>{"conductors"});
}

TEST_CASE("box fill: shows its working in the order of the rule, and where the rule stands") {
    BoxFill box = empty_box();
    box.conductors = {{Size::awg12, 4}};
    box.clamps = true;
    box.fittings = 1;
    box.devices = {{Size::awg12, 1}};
    box.grounds = {{Size::awg12, 6}};
    const auto found = finding(box, Edition::e2020);
    CHECK(found.steps == std::vector<std::string>{
                             "conductors: 4 x 2.25 (12 AWG) = 9 in3", "clamps: 1 x 2.25 (12 AWG) = 2.25 in3",
                             "support fittings: 1 x 2.25 (12 AWG) = 2.25 in3", "devices: 2 x 2.25 (12 AWG) = 4.5 in3",
                             "equipment grounds, first four and a quarter each after: 1.5 x 2.25 (12 AWG) = 3.375 in3",
                             "together 21.375 in3"});
    CHECK(found.articles == std::vector<std::string>{"314.16(B)"});
    CHECK(trade::box_fill(box, {Edition::e2020, &volumes(), false}).steps.empty());
}

TEST_CASE("box fill: compares with the volume there is, rings and extensions among it, to the last hundredth") {
    BoxFill box = empty_box();
    box.conductors = {{Size::awg12, 8}};
    box.box = 12.5;
    box.ring = 5.5;
    auto found = finding(box, Edition::e2023);
    CHECK(found.find("fits")->words == "yes");
    CHECK(found.find("spare")->number == doctest::Approx(0.0));
    CHECK(found.findings.empty());
    box.ring = 5.49;
    found = finding(box, Edition::e2023);
    CHECK(found.find("fits")->words == "no");
    CHECK(found.findings.size() == 1);
}

TEST_CASE("box fill: names the least standard box of a family") {
    BoxFill box = empty_box();
    box.conductors = {{Size::awg12, 9}};
    box.family = "square";
    CHECK(finding(box, Edition::e2023).find("least_box")->words == "4 x 1-1/2");
    box.family = "device";
    CHECK(finding(box, Edition::e2023).find("least_box") == nullptr);
    CHECK(finding(box, Edition::e2023).findings.size() == 1);
}
