#include "report/shop/progress_csv.hpp"

#include <doctest/doctest.h>

#include "base/csv.hpp"
#include "report/shop/made_page.hpp"

namespace {

std::vector<base::CsvRow> rows_of(const std::string& text) {
    return base::parse_csv(text, "made.csv").value();
}

/// Rows with as many cells as the head has.
std::vector<base::CsvRow> even_rows(const std::string& text) {
    const auto rows = rows_of(text);
    REQUIRE_FALSE(rows.empty());
    for (const auto& row : rows) CHECK(row.cells.size() == rows[0].cells.size());
    return rows;
}

std::string cell(const std::vector<base::CsvRow>& rows, std::size_t row, const std::string& head) {
    for (std::size_t n = 0; n < rows[0].cells.size(); ++n)
        if (rows[0].cells[n] == head) return rows.at(row).cells.at(n);
    FAIL("no column " << head);
    return {};
}

store::AnswerRecord record() {
    store::AnswerRecord one;
    one.learner = made::learner(1);
    one.point.text = "p.1001";
    one.question.text = "p.1001#a";
    one.content = "12";
    one.edition = 2023;
    one.jurisdiction = "alder-county";
    one.setting = store::Setting::meeting;
    one.asked_at = *base::parse_instant("2026-03-02T07:00:00Z");
    one.took_ms = 4321;
    one.mark = 0.9;
    one.sure = memory::Sure::sure;
    one.given = "=1+1,\"x\"";
    return one;
}

}  // namespace

TEST_CASE("progress csv: an answer is a row, its free text guarded from running as a formula") {
    const auto index = made::index(4);
    const made::Shop shop{1, 1};
    report::AnswersCsv csv{index, shop.learners};
    csv.add(record());
    const auto rows = even_rows(csv.text());
    REQUIRE(rows.size() == 2);
    CHECK(cell(rows, 1, "asked_at") == "2026-03-02T07:00:00.000Z");
    CHECK(cell(rows, 1, "learner") == "Ada Ferris");
    CHECK(cell(rows, 1, "topic") == "topic 1");
    CHECK(cell(rows, 1, "stakes") == "fire");
    CHECK(cell(rows, 1, "setting") == "meeting");
    CHECK(cell(rows, 1, "right") == "1");
    CHECK(cell(rows, 1, "mark") == "0.9");
    CHECK(cell(rows, 1, "sure") == "sure");
    CHECK(cell(rows, 1, "seconds") == "4.321");
    CHECK(cell(rows, 1, "given") == "'=1+1,\"x\"");
    CHECK(csv.text().ends_with("\r\n"));
}

TEST_CASE("progress csv: answers of others are not written, and those on points that are gone keep their place") {
    const auto index = made::index(4);
    const made::Shop shop{1, 1};
    const std::vector<store::Learner> only{shop.learners[0]};
    report::AnswersCsv csv{index, only};
    auto one = record();
    one.learner = made::learner(2);
    csv.add(one);
    CHECK(rows_of(csv.text()).size() == 1);
    one = record();
    one.point.text = "gone";
    csv.add(one);
    const auto rows = even_rows(csv.text());
    REQUIRE(rows.size() == 2);
    CHECK(cell(rows, 1, "point") == "gone");
    CHECK(cell(rows, 1, "topic").empty());
}

TEST_CASE("progress csv: topics of one learner are theirs alone, those of the crew are everyone's") {
    const made::Shop shop{2};
    const auto own = even_rows(report::topics_csv(shop.page(0)));
    REQUIRE(own.size() == 6);
    for (std::size_t row = 1; row < own.size(); ++row) {
        const auto& topic = shop.page(0).progress.topics.at(row - 1);
        CHECK(cell(own, row, "learner") == "Ada Ferris");
        CHECK(cell(own, row, "topic") == topic.standing.topic);
        CHECK(cell(own, row, "due") == std::to_string(topic.standing.due));
        CHECK(std::stod(cell(own, row, "recall_now")) == doctest::Approx(topic.standing.recall).epsilon(1e-3));
        CHECK(std::stod(cell(own, row, "recall_in_30_days")) ==
              doctest::Approx(topic.forecast[3].recall).epsilon(1e-3));
    }
    const auto all = even_rows(report::topics_csv(shop.crew));
    CHECK(all.size() == 1 + 4 * 5);
    CHECK(cell(all, 20, "learner") == "Dee Newly");
    CHECK(cell(all, 20, "state") == "spare");
    CHECK(cell(all, 20, "recall_now").empty());
}

TEST_CASE("progress csv: the crew, a row each; what is not known is empty and not zero") {
    const made::Shop shop{3};
    const auto rows = even_rows(report::crew_csv(shop.crew));
    REQUIRE(rows.size() == 5);
    CHECK(cell(rows, 1, "exam_in_days") == "9");
    CHECK(cell(rows, 1, "chance_to_pass") == "0.54");
    CHECK(cell(rows, 1, "answers") == std::to_string(shop.crew.members[0].progress.answers));
    CHECK(cell(rows, 2, "exam_in_days").empty());
    CHECK(cell(rows, 2, "chance_to_pass").empty());
    CHECK(cell(rows, 4, "first").empty());
    CHECK(cell(rows, 4, "recall_now").empty());
    CHECK(cell(rows, 4, "days_idle") == "20");
}

TEST_CASE("progress csv: a name that a spreadsheet would run is guarded in every table") {
    const made::Shop shop{4, 20, {"=cmd|'/c calc'!A1", "+1 Bo", "@Cid", "-Dee"}};
    for (const auto& text : {report::crew_csv(shop.crew), report::topics_csv(shop.crew)})
        for (const auto& row : even_rows(text))
            CHECK(std::string{"=+-@"}.find(row.cells.at(0).front()) == std::string::npos);
}
