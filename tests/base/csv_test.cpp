#include "base/csv.hpp"

#include <doctest/doctest.h>

#include "base/random.hpp"

namespace {

using Cells = std::vector<std::string>;

std::vector<Cells> cells_of(const std::string& text) {
    std::vector<Cells> all;
    const auto rows = base::parse_csv(text, "t.csv").value();
    for (const auto& row : rows) all.push_back(row.cells);
    return all;
}

}  // namespace

TEST_CASE("csv: commas, quotes and line ends as RFC 4180 has them") {
    CHECK(cells_of("a,b\r\n1,2\r\n") == std::vector<Cells>{{"a", "b"}, {"1", "2"}});
    CHECK(cells_of("\"a,\"\"b\"\"\r\nc\",d") == std::vector<Cells>{{"a,\"b\"\r\nc", "d"}});
    CHECK(cells_of("a,,\n,\n\n\nb") == std::vector<Cells>{{"a", "", ""}, {"", ""}, {"b"}});
    CHECK(cells_of("\xEF\xBB\xBFname\nx") == std::vector<Cells>{{"name"}, {"x"}});
    CHECK(cells_of("").empty());
}

TEST_CASE("csv: lines are counted through quoted line ends") {
    const auto rows = base::parse_csv("\"a\nb\",1\n\nc,2\n", "t.csv").value();
    REQUIRE(rows.size() == 2);
    CHECK(rows[0].line == 1);
    CHECK(rows[1].line == 4);
}

TEST_CASE("csv: broken quotes are told with their line") {
    const auto open = base::parse_csv("a\n\"b", "t.csv");
    REQUIRE_FALSE(open);
    CHECK(open.error().front().line == 2);
    CHECK(open.error().front().file == "t.csv");
    CHECK_FALSE(base::parse_csv("a\"b,c", "t.csv"));
    CHECK_FALSE(base::parse_csv("\"a\"b,c", "t.csv"));
}

TEST_CASE("csv: what a spreadsheet would calculate is made text, numbers stay") {
    CHECK(base::csv_cell("=1+1") == "'=1+1");
    CHECK(base::csv_cell("+cmd") == "'+cmd");
    CHECK(base::csv_cell("@sum(a,b)") == "\"'@sum(a,b)\"");
    CHECK(base::csv_cell("-2.5") == "-2.5");
    CHECK(base::csv_cell("-1e-05") == "-1e-05");
    CHECK(base::csv_cell("-2.5 V") == "'-2.5 V");
    CHECK(base::csv_line({"a", "b\"c", ""}) == "a,\"b\"\"c\",\r\n");
}

TEST_CASE("csv: what is written is read back, whatever it holds") {
    base::Random random{3};
    const std::string letters = "ab,\"\r\n x1";
    for (int round = 0; round < 500; ++round) {
        Cells cells{"first"};
        for (auto n = random.below(5); n > 0; --n) {
            std::string cell;
            for (auto k = random.below(8); k > 0; --k) cell += letters[random.below(letters.size())];
            if (!cell.empty() && cell.front() == '\r') cell.insert(0, "x");
            cells.push_back(cell);
        }
        CHECK(cells_of(base::csv_line(cells) + "next\r\n") == std::vector<Cells>{cells, Cells{"next"}});
    }
}
