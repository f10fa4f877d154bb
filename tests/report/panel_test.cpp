#include "report/panel.hpp"

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "base/text.hpp"

namespace {

using practice::TopicStanding;
using Lines = std::vector<std::string>;

const std::vector<TopicStanding> kTopics = {{"boxes", 28, 12, 0, 0, 0.934},
                                            {"gfci", 31, 9, 4, 0, 0.71},
                                            {"grounding and bonding", 27, 3, 1, 1, 0.5},
                                            {"switching", 20, 0, 0, 0, 0.0},
                                            {"wiring", 25, 1, 0, 0, 1.0}};

}  // namespace

TEST_CASE("panel: reads like the directory inside a door, odd numbers left and even right") {
    const Lines expected = {"+--------------------------------------+--------------------------------------+",
                            "|  1 boxes                93% closed   |  2 gfci                 71% due      |",
                            "|  3 grounding and        50% tripped  |  4 switching              - spare    |",
                            "|  5 wiring              100% closed   |                                      |",
                            "+--------------------------------------+--------------------------------------+"};
    CHECK(report::panel_directory(kTopics, {80, false}) == expected);
}

TEST_CASE("panel: on narrow paper the two columns stand one below the other") {
    CHECK(report::panel_directory(kTopics, {34, false}) ==
          Lines{"+--------------------------------+", "|  1 boxes          93% closed   |",
                "|  2 gfci           71% due      |", "|  3 grounding and  50% tripped  |",
                "|  4 switching        - spare    |", "|  5 wiring        100% closed   |",
                "+--------------------------------+"});
}

TEST_CASE("panel: a circuit is told in one word, the worst first") {
    CHECK(report::circuit_state({"t", 5, 0, 0, 0, 0}) == "spare");
    CHECK(report::circuit_state({"t", 5, 5, 0, 0, 1}) == "closed");
    CHECK(report::circuit_state({"t", 5, 5, 2, 0, 1}) == "due");
    CHECK(report::circuit_state({"t", 5, 5, 2, 1, 1}) == "tripped");
}

TEST_CASE("panel: property: every line of the frame has the same width, and all fit the page") {
    for (std::size_t width = 20; width <= 120; ++width) {
        base::Random random{width};
        std::vector<TopicStanding> topics(random.below(14));
        for (auto& topic : topics)
            topic = {std::string(1 + random.below(50), 'x'),
                     9,
                     random.below(9),
                     random.below(2),
                     random.below(2),
                     random.unit()};
        const auto lines = report::panel_directory(topics, {width, false});
        for (const auto& line : lines) {
            CHECK_MESSAGE(base::display_width(line) <= width, width);
            if (width >= 30) CHECK_MESSAGE(base::display_width(line) == base::display_width(lines[0]), width);
        }
    }
}

TEST_CASE("panel: names outside ASCII are cut between characters") {
    const std::vector<TopicStanding> topics = {
        {"caf\xC3\xA9 caf\xC3\xA9 caf\xC3\xA9 caf\xC3\xA9 caf\xC3\xA9", 1, 1, 0, 0, 1}};
    for (std::size_t width = 20; width <= 80; ++width)
        for (const auto& line : report::panel_directory(topics, {width, false}))
            CHECK_MESSAGE(!base::first_bad_utf8(line).has_value(), width);
}

TEST_CASE("panel: on the narrowest paper the frame is left out") {
    const Lines lines = report::panel_directory(kTopics, {22, false});
    CHECK(lines == Lines{" 1 boxes: 93% closed", " 2 gfci: 71% due", " 3 grounding and", "   bonding: 50%",
                         "   tripped", " 4 switching: - spare", " 5 wiring: 100% closed"});
}

TEST_CASE("panel: without topics there is an empty door") {
    CHECK(report::panel_directory({}, {30, false}).size() == 2);
}
