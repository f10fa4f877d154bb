#include "report/style.hpp"

#include <doctest/doctest.h>

#include "base/text.hpp"

using report::Ink;
using report::Page;
using Lines = std::vector<std::string>;

TEST_CASE("style: stretches of days in words a person uses") {
    struct Row {
        double days;
        std::string words;
    };
    const std::vector<Row> rows = {{0, "0 minutes"},
                                   {-3, "0 minutes"},
                                   {1.0 / 1440, "1 minute"},
                                   {12.0 / 1440, "12 minutes"},
                                   {1.0 / 24, "1 hour"},
                                   {0.5, "12 hours"},
                                   {1, "1 day"},
                                   {1.6, "2 days"},
                                   {59, "59 days"},
                                   {61, "2 months"},
                                   {365, "12 months"},
                                   {730, "24 months"},
                                   {731, "over 2 years"},
                                   {1e9, "over 2 years"}};
    for (const auto& row : rows) CHECK_MESSAGE(report::stretch(row.days) == row.words, row.days);
}

TEST_CASE("style: stretches next to a border do not outgrow their unit") {
    CHECK(report::stretch(59.7 / 1440) == "1 hour");
    CHECK(report::stretch(23.8 / 24) == "1 day");
    CHECK(report::stretch(59.8) == "2 months");
}

TEST_CASE("style: counts are plural where they are not one") {
    CHECK(report::counted(0, "point") == "0 points");
    CHECK(report::counted(1, "point") == "1 point");
    CHECK(report::counted(2, "point") == "2 points");
}

TEST_CASE("style: ink is left off plain paper, plain ink and empty text") {
    CHECK(report::inked({80, false}, Ink::bad, "x") == "x");
    CHECK(report::inked({80, true}, Ink::plain, "x") == "x");
    CHECK(report::inked({80, true}, Ink::bad, "").empty());
    CHECK(report::inked({80, true}, Ink::good, "x") == "\x1b[1;32mx\x1b[0m");
}

TEST_CASE("style: padding counts columns and never cuts") {
    CHECK(report::padded("ab", 4) == "ab  ");
    CHECK(report::padded("\xE9\x9B\xBB", 4) == "\xE9\x9B\xBB  ");
    CHECK(report::padded("abcdef", 4) == "abcdef");
}

TEST_CASE("style: hanging lines stand under the text") {
    Lines lines;
    report::add_hanging(lines, {20, false}, "  a) ", "one two three four five");
    CHECK(lines == Lines{"  a) one two three", "     four five"});
}

TEST_CASE("style: property: what is added fits the page and loses no word, however long its head") {
    for (std::size_t width = 20; width <= 60; ++width)
        for (std::size_t head = 0; head <= 24; ++head) {
            CAPTURE(width);
            CAPTURE(head);
            Lines lines;
            report::add_hanging(lines, {width, false}, std::string(head, '>'), "short words and someverylongword here");
            std::string all;
            for (const auto& line : lines) {
                CHECK(base::display_width(line) <= width);
                all += line;
            }
            std::erase(all, ' ');
            std::erase(all, '>');
            CHECK(all == "shortwordsandsomeverylongwordhere");
        }
}
