#include "report/meeting/meeting_sides.hpp"

#include <string>

#include <doctest/doctest.h>

#include "practice/shop/meetings.hpp"

using practice::Meeting;

TEST_CASE("meeting sides: every ask once, in order, on one side or an even number of them") {
    for (base::Seed seed = 1; seed <= 60; ++seed) {
        CAPTURE(seed);
        const Meeting meeting = meetings::planned(seed, 1);
        const auto sides = report::sides_of(meeting);
        CHECK((sides.size() == 1 || sides.size() % 2 == 0));
        std::size_t next = 0;
        for (const auto& side : sides)
            for (const auto& placed : side) CHECK(placed.ask == next++);
        CHECK(next == meeting.asks.size());
    }
}

TEST_CASE("meeting sides: little takes one side, much takes more, each with something on its front") {
    Meeting meeting = meetings::small(1);
    REQUIRE(report::sides_of(meeting).size() == 1);
    CHECK(report::sides_of(meeting).front().front().two_columns);
    for (auto& one : meeting.asks) one.ask.question.text = std::string(3000, 'x');
    const auto sides = report::sides_of(meeting);
    CHECK(sides.size() == 4);
    CHECK_FALSE(sides.front().empty());
    meeting.asks.resize(3);
    CHECK(report::sides_of(meeting).size() == 4);
    CHECK(report::sides_of(meeting).back().empty());
}

TEST_CASE("meeting sides: long options stand one in a line") {
    Meeting meeting = meetings::small(1);
    meeting.asks[0].ask.options[3].text = "An option that is too long to stand beside another one on this paper";
    CHECK_FALSE(report::sides_of(meeting).front()[0].two_columns);
    CHECK(report::sides_of(meeting).front()[1].two_columns);
}

TEST_CASE("meeting sides: letters are never taken for narrower than a wide type has them") {
    // Advance widths of DejaVu Sans 2.37 in its own units of 2048 an em, as its hmtx table has them.
    const std::pair<char, double> widths[] = {{' ', 651},  {'a', 1255}, {'i', 569}, {'m', 1995}, {'W', 2025},
                                              {'0', 1303}, {'t', 803},  {'r', 842}, {'w', 1675}, {'Q', 1612}};
    for (const auto& [letter, units] : widths) {
        CAPTURE(letter);
        CHECK(report::type_width(std::string(1, letter)) >= 12 * units / 2048);
        CHECK(report::type_width(std::string(1, letter)) < 12 * units / 2048 * 1.35);
    }
}

TEST_CASE("meeting sides: what to do is said where one box is not enough") {
    const Meeting meeting = meetings::small(1);
    CHECK(report::printed_text(meeting.asks[0].ask) == "What now?");
    CHECK(report::printed_text(meeting.asks[1].ask) == "What now? Mark every one that applies.");
    CHECK(report::printed_text(meeting.asks[2].ask) == "What now? Write the number, in cubic inches.");
}
