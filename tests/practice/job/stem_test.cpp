#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "base/random.hpp"
#include "practice/job/stem.hpp"

TEST_CASE("stem: forms of a word meet") {
    const std::vector<std::vector<std::string>> families = {
        {"kitchen", "kitchens"},
        {"wire", "wires", "wiring", "wired"},
        {"battery", "batteries"},
        {"box", "boxes"},
        {"light", "lights", "lighting"},
        {"switch", "switches", "switching"},
        {"fuse", "fuses", "fusing"},
        {"plug", "plugs", "plugged"},
        {"replace", "replaces", "replacing", "replaced"},
        {"install", "installing"},
        {"bond", "bonds", "bonding", "bonded"},
        {"tub", "tubs"},
        {"class", "classes"},
        {"range", "ranges"},
        {"trip", "trips", "tripping", "tripped"},
    };
    for (const auto& family : families)
        for (const auto& word : family) CHECK_MESSAGE(practice::stem(word) == practice::stem(family.front()), word);
}

TEST_CASE("stem: words that only look alike stay apart") {
    for (const auto& [a, b] : std::vector<std::pair<std::string, std::string>>{{"string", "strip"},
                                                                               {"shed", "shield"},
                                                                               {"feed", "fed"},
                                                                               {"gas", "gate"},
                                                                               {"bus", "but"},
                                                                               {"ring", "rung"},
                                                                               {"dryer", "dry"},
                                                                               {"bed", "bee"}})
        CHECK_MESSAGE(practice::stem(a) != practice::stem(b), a, " ", b);
    CHECK(practice::stem("string") == "string");
    CHECK(practice::stem("shed") == "shed");
    CHECK(practice::stem("") == "");
}

TEST_CASE("stem: any text gives stems, none of them longer than its word, and a stem is its own stem's like") {
    for (std::uint64_t seed = 1; seed <= 2000; ++seed) {
        base::Random random{seed};
        std::string word;
        for (auto left = 1 + random.below(12); left > 0; --left) word += static_cast<char>('a' + random.below(26));
        const auto stem = practice::stem(word);
        CHECK_MESSAGE(stem.size() <= word.size(), word);
        CHECK_MESSAGE(practice::stem(word + "s").size() <= word.size() + 1, word);
        CHECK_FALSE(stem.empty());
    }
    CHECK(practice::stems_of("Replace the bath-fan in a house") ==
          std::vector<std::string>{"replac", "bath", "fan", "hous"});
    CHECK(practice::stems_of("of the").empty());
}
