#include "report/table.hpp"

#include <doctest/doctest.h>

TEST_CASE("table: a row on one line where it fits, name and cells apart where it does not") {
    std::vector<std::string> lines;
    report::Page page;
    page.width = 20;
    report::add_row(lines, page, "name", 8, "   12   34");
    report::add_row(lines, page, "a longer name than that", 16, "   12   34");
    report::add_row(lines, page, "", 16, "   12   34");
    CHECK(lines ==
          std::vector<std::string>{"name       12   34", "a longer name than", "that", "  12   34", "12   34"});
    CHECK(report::right_set("7", 3) == "  7");
    CHECK(report::right_set("1234", 3) == "1234");
}
