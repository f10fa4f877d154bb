#include "trade/edition.hpp"

#include <doctest/doctest.h>

using trade::Edition;
using trade::EditionRange;

TEST_CASE("edition: the four years are read and written, no other") {
    for (const Edition edition : trade::kEditions) CHECK(trade::parse_edition(trade::to_text(edition)) == edition);
    for (const auto* bad : {"", "2014", "2018", "20", "2020 ", "02020", "2020-2023"})
        CHECK_FALSE(trade::parse_edition(bad).has_value());
}

TEST_CASE("edition: every run is read back, a run that ends before it starts is refused") {
    for (const Edition first : trade::kEditions)
        for (const Edition last : trade::kEditions) {
            const std::string text = trade::to_text(first) + "-" + trade::to_text(last);
            CAPTURE(text);
            const auto range = trade::parse_edition_range(text);
            CHECK(range.has_value() == (first <= last));
            if (range) CHECK(trade::parse_edition_range(trade::to_text(*range)) == range);
        }
}

TEST_CASE("edition: broken runs are refused") {
    for (const auto* bad : {"", "-", "2017-", "-2017", "2017-2018", "2017-2020-2023", "2017 - 2020", "2017..2020"})
        CHECK_FALSE(trade::parse_edition_range(bad).has_value());
}

TEST_CASE("edition: a run holds what lies between its ends, both included") {
    const EditionRange range{Edition::e2020, Edition::e2023};
    CHECK(trade::editions_in(range) == std::vector<Edition>{Edition::e2020, Edition::e2023});
    CHECK_FALSE(range.contains(Edition::e2017));
    CHECK(range.contains(range));
    CHECK(EditionRange{}.contains(range));
    CHECK_FALSE(range.contains(EditionRange{}));
    CHECK(trade::to_text(EditionRange{Edition::e2020, Edition::e2020}) == "2020");
}
