#include "trade/gfci_trip.hpp"

#include <doctest/doctest.h>

#include "content/contents.hpp"
#include "reference/json_file.hpp"

TEST_CASE("gfci trip: the published times come out") {
    const auto examples = reference::json_file("gfci_trip.json").at("examples");
    REQUIRE(examples.size() >= 3);
    for (const auto& example : examples) {
        CAPTURE(example.at("id").get<std::string>());
        const auto seconds = trade::gfci_trip_seconds(example.at("ma").get<double>());
        REQUIRE(seconds.has_value());
        CHECK(std::abs(*seconds - example.at("seconds").get<double>()) < 0.0005);
    }
}

TEST_CASE("gfci trip: the shipped table is the formula") {
    const auto contents = content::load_contents(std::vector<std::string>{PROJECT_FOLDER});
    const auto* table = contents.value().table("gfci-trip");
    REQUIRE(table != nullptr);
    int compared = 0;
    for (const auto& row : table->rows) {
        const double milliamps = std::stod(row.keys.at("current_ma"));
        const auto seconds = trade::gfci_trip_seconds(milliamps);
        CAPTURE(milliamps);
        const auto told = row.values.find("seconds");
        CHECK(seconds.has_value() == (told != row.values.end()));
        if (!seconds) continue;
        CHECK(std::abs(*seconds - std::stod(told->second)) < 0.0001);
        ++compared;
    }
    CHECK(compared >= 10);
}

TEST_CASE("gfci trip: nothing under 6 mA, never longer for more current, and never shorter than at 264 mA") {
    CHECK_FALSE(trade::gfci_trip_seconds(5.999).has_value());
    CHECK_FALSE(trade::gfci_trip_seconds(0.0).has_value());
    CHECK_FALSE(trade::gfci_trip_seconds(std::nan("")).has_value());
    double before = trade::gfci_trip_seconds(6.0).value();
    for (double milliamps = 6.5; milliamps < 1000.0; milliamps += 0.5) {
        const double now = trade::gfci_trip_seconds(milliamps).value();
        CHECK(now <= before);
        before = now;
    }
    CHECK(before == trade::gfci_trip_seconds(264.0).value());
}
