#include "trade/switching/outcome.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <string>
#include <vector>

#include "trade/switching/symptom.hpp"

namespace {

using namespace trade::switching;

const Arrangement& pair() {
    return *find_arrangement("three-way-feed-at-s1-light-after-s2");
}

Fault fault(const char* id) {
    return find_fault(pair(), id).value();
}

Table table(const char* id) {
    return solve(pair(), fault(id));
}

std::string told(const char* arrangement, const char* id, Observe observe = Observe::devices) {
    const auto* found = find_arrangement(arrangement);
    std::string all;
    for (const auto& one : symptom(solve(*found, find_fault(*found, id).value()), observe))
        all += (all.empty() ? "" : " ") + one;
    return all;
}

}  // namespace

TEST_CASE("switching outcome: an interchanged common and an open traveler have one lamp table") {
    const Table interchanged = table("common-interchanged.s1-traveler-1");
    const Table open = table("traveler-open.traveler-2");
    CHECK(same_outcome(interchanged, open, Observe::loads));
    CHECK(same_outcome(interchanged, open, Observe::devices));
    CHECK_FALSE(same_outcome(interchanged, open, Observe::readings, {"traveler 2 in S1 box"}));
    CHECK(same_outcome(interchanged, open, Observe::readings, {"feed hot in S1 box"}));
    const auto point = telling_point(interchanged, open);
    REQUIRE(point.has_value());
    CHECK_FALSE(same_outcome(interchanged, open, Observe::readings, {*point}));
}

TEST_CASE("switching outcome: devices tell apart what lamps do not") {
    const Table cut = table("switch-leg-open.switch-leg");
    const Table grounded = table("switch-leg-grounded.switch-leg");
    CHECK(same_outcome(cut, grounded, Observe::loads));
    CHECK_FALSE(same_outcome(cut, grounded, Observe::devices));
}

TEST_CASE("switching outcome: each of the devices counts") {
    const Table sound = table("sound");
    for (const auto device : {&Row::breaker, &Row::gfci, &Row::afci}) {
        Table changed = sound;
        changed.rows[2].*device = Trip::trips;
        CHECK(same_outcome(sound, changed, Observe::loads));
        CHECK_FALSE(same_outcome(sound, changed, Observe::devices));
        CHECK_FALSE(same_outcome(sound, changed, Observe::readings));
    }
}

TEST_CASE("switching outcome: handles are matched, not the numbers of positions") {
    // A single-pole at S2 on traveler 1 lights with S1 up and S2 on: the same handles as with traveler 2 open.
    CHECK(same_outcome(table("single-pole-fitted.s2"), table("traveler-open.traveler-2"), Observe::loads));
    CHECK_FALSE(same_outcome(table("single-pole-fitted.s2"), table("traveler-open.traveler-1"), Observe::loads));
}

TEST_CASE("switching outcome: tables of different size are never the same") {
    const Table other = solve(*find_arrangement("single-pole-feed-at-switch"));
    CHECK_FALSE(same_outcome(table("sound"), other, Observe::loads));
    CHECK_FALSE(same_outcome(other, table("sound"), Observe::loads));
}

TEST_CASE("switching outcome: offered faults differ from the fault and from each other, and none is missing") {
    for (const auto& arrangement : arrangements()) {
        CAPTURE(arrangement.id);
        const auto all = faults_for(arrangement);
        std::map<std::string, Table> tables;
        for (const auto& one : all) tables.emplace(one.id, solve(arrangement, one));
        for (const Observe observe : {Observe::loads, Observe::devices})
            for (const auto& one : all) {
                CAPTURE(one.id);
                auto offered = distinguishable(arrangement, one, all, observe);
                offered.push_back(one);
                for (const auto& other : all) {
                    const auto alike = std::count_if(offered.begin(), offered.end(), [&](const Fault& kept) {
                        return same_outcome(tables.at(kept.id), tables.at(other.id), observe);
                    });
                    CHECK(alike == 1);
                }
            }
    }
}

TEST_CASE("switching outcome: the same table twice is offered once, the fault itself never") {
    const std::vector<Fault> others = {fault("traveler-open.traveler-2"), fault("traveler-open.traveler-1"),
                                       fault("common-interchanged.s1-traveler-2"), fault("feed-open.feed-hot"),
                                       fault("switch-leg-open.switch-leg")};
    const auto offered = distinguishable(pair(), fault("common-interchanged.s1-traveler-1"), others, Observe::loads);
    REQUIRE(offered.size() == 2);
    CHECK(offered[0].id == "traveler-open.traveler-1");
    CHECK(offered[1].id == "feed-open.feed-hot");
}

TEST_CASE("switching symptom: plain words for what the user sees") {
    const char* three_way = "three-way-feed-at-s1-light-after-s2";
    CHECK(told("single-pole-feed-at-switch", "sound") == "With S on the light is on; with S off it is off.");
    CHECK(told(three_way, "sound") == "Each handle changes the light every time; with all of them up it is on.");
    CHECK(told(three_way, "travelers-crossed.s2") ==
          "Each handle changes the light every time; with all of them up it is off.");
    CHECK(told(three_way, "traveler-open.traveler-1") ==
          "With S1 down and S2 down the light is on; in the other combinations it is off.");
    CHECK(told(three_way, "switch-leg-open.switch-leg") == "Whatever the switches do, the light is off.");
    CHECK(
        told(three_way, "traveler-grounded.traveler-1") ==
        "With S1 down and S2 down the light is on; in the other combinations it is off. The breaker trips with S1 up.");
    CHECK(
        told(three_way, "switch-leg-grounded.switch-leg") ==
        "Whatever the switches do, the light is off. The breaker trips with S1 up and S2 up, or S1 down and S2 down.");
    CHECK(told("single-pole-feed-at-switch", "switch-across") ==
          "With S off the light is on; with S on it is off. The breaker trips with S on.");
    CHECK(told("single-pole-feed-at-switch", "switch-across", Observe::loads) ==
          "With S off the light is on; with S on it is off.");
    CHECK(told("two-lights-two-switches", "sound") ==
          "With S1 on light 1 is on; with S1 off it is off. With S2 on light 2 is on; with S2 off it is off.");
    CHECK(told("multiwire-shared-neutral", "shared-neutral-open.shared-neutral") ==
          "With the heater switch on and the work lamp switch on the heater gets too little voltage; in the other "
          "combinations it is off. With the heater switch on and the work lamp switch on the work lamp gets too much "
          "voltage; in the other combinations it is off.");
    CHECK(told("two-lights-in-parallel", "lights-in-series") ==
          "With S on light 1 is dim; with S off it is off. With S on light 2 is dim; with S off it is off.");
    CHECK(told("two-lights-two-switches", "neutral-loose.neutral-to-light-1") ==
          "With S1 on light 1 flickers; with S1 off it is off. With S2 on light 2 flickers; with S2 off it is off. "
          "An AFCI may trip with all but S1 off and S2 off.");
    CHECK(told("single-pole-feed-at-switch", "foreign-neutral.light") ==
          "With S on the light is on; with S off it is off. A GFCI at the source trips with S on.");
}

TEST_CASE("switching symptom: a combination in words") {
    CHECK(combination_text(pair().circuit, 0) == "S1 up, S2 up");
    CHECK(combination_text(pair().circuit, 1) == "S1 up, S2 down");
    CHECK(combination_text(pair().circuit, 2) == "S1 down, S2 up");
}

TEST_CASE("switching outcome: keys are equal exactly where the outcomes are") {
    for (const auto& arrangement : arrangements()) {
        const auto faults = faults_for(arrangement);
        std::vector<Table> tables;
        for (const auto& one : faults) tables.push_back(solve(arrangement, one));
        for (const auto observe : {Observe::loads, Observe::devices})
            for (std::size_t a = 0; a < tables.size(); ++a)
                for (std::size_t b = a + 1; b < tables.size(); ++b)
                    CHECK_MESSAGE((outcome_key(tables[a], observe) == outcome_key(tables[b], observe)) ==
                                      same_outcome(tables[a], tables[b], observe),
                                  arrangement.id, ": ", faults[a].id, " and ", faults[b].id);
    }
}
