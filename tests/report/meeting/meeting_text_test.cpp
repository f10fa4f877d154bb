#include "report/meeting/meeting_text.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "base/csv.hpp"
#include "base/text.hpp"
#include "practice/shop/meetings.hpp"

namespace {

using practice::Meeting;
using report::Names;

std::string joined(const std::vector<std::string>& lines) {
    return base::join(lines, "\n");
}

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

practice::MeetingReview reviewed(const Meeting& meeting, const std::string& text) {
    return practice::review(meeting, practice::enter_lines(meeting, text, {}).entries);
}

}  // namespace

TEST_CASE("meeting text: no line is wider than the page") {
    const auto plan = practice::plan_meeting(shipped::library(), meetings::drawn(5)).value();
    const Meeting meeting = meetings::planned(5, 3);
    std::string text;
    for (const auto& sheet : meeting.sheets) {
        text += std::to_string(sheet.number) + " ";
        for (const auto& one : meeting.asks) text += one.ask.options.empty() ? "[1]" : "a+";
        text += "\n";
    }
    const auto review = reviewed(meeting, text);
    REQUIRE_FALSE(review.talk.empty());
    for (const std::size_t width : {40U, 80U, 120U}) {
        for (const auto& line : report::plan_text(plan, {width, false})) CHECK(base::display_width(line) <= width);
        for (const auto& line : report::review_text(meeting, review, Names::shown, {width, false}))
            CHECK(base::display_width(line) <= width);
    }
}

TEST_CASE("meeting text: the plan tells each ask, why it is there, and what was noted") {
    auto what = meetings::drawn(6);
    what.week.push_back({"no.such"});
    const auto plan = practice::plan_meeting(shipped::library(), what).value();
    const auto text = joined(report::plan_text(plan, {400, false}));
    for (const auto& one : plan.meeting.asks) {
        CHECK(has(text, one.ask.title));
        CHECK(has(text, one.ask.version.article));
        CHECK(has(text, std::string{practice::to_text(one.reason)}));
    }
    CHECK(has(text, "note: no.such: there is no such point"));
    CHECK(has(text, "Hale Electric, meeting: Boxes"));
}

TEST_CASE("meeting text: a review, word by word") {
    Meeting meeting = meetings::small(3);
    meeting.asks.resize(1);
    for (auto& sheet : meeting.sheets) {
        sheet.orders.resize(1);
        sheet.orders[0] = {0, 1, 2, 3};
    }
    const std::vector<std::string> wanted = {
        "Hale Electric, meeting: Four asks",
        "2026-03-02, 2023 edition, 2 sheets entered",
        "Not entered: Cleo",
        "",
        "RED TAG. Talk about, in this order:",
        "",
        " 1. Title 1 (shock)",
        "    1 of 2 right",
        "    Sure and wrong: Ben",
        "    Mistake (1): Takes x for it.",
        "    Right: w",
        "    Why: The rule.",
        "    Code: 210.8(A)(2) (2023 edition)",
        "    Wrong: Ben",
        "",
        "Sheets",
        " 1. Ada: 1 right, green tag",
        " 2. Ben: 0 right, red tag, 1 correction",
        "",
        "Training aid. The adopted code, local amendments and the inspector decide."};
    CHECK(report::review_text(meeting, reviewed(meeting, "1 a\n2 b+"), Names::shown, {80, false}) == wanted);
    const auto wall = joined(report::review_text(meeting, reviewed(meeting, "1 a\n2 b+"), Names::hidden, {80, false}));
    for (const std::string name : {"Ada", "Ben", "Cleo"}) CHECK_FALSE(has(wall, name));
    CHECK(has(wall, "Sure and wrong: 1"));
}

TEST_CASE("meeting text: nothing entered, and all right") {
    const Meeting meeting = meetings::small(1);
    CHECK(has(joined(report::review_text(meeting, practice::review(meeting, {}), Names::shown, {80, false})),
              "Nothing has been entered yet."));
    std::string line = "1 ";
    for (std::size_t ask = 0; ask < 4; ++ask) line += "[" + practice::right_on(meeting, meeting.sheets[0], ask) + "]";
    const auto text = joined(report::review_text(meeting, reviewed(meeting, line), Names::shown, {80, false}));
    CHECK(has(text, "GREEN TAG: nothing left to correct"));
    CHECK(has(text, "All right: 1, 2, 3, 4"));
}

TEST_CASE("meeting text: the form for a spreadsheet can be filled in and entered") {
    Meeting meeting = meetings::small(3);
    meeting.sheets[1].name = "=cmd, Ben";
    const auto form = report::entry_form_csv(meeting);
    CHECK(form.starts_with("sheet,name,q1,q2,q3,q4\r\n1,Ada,,,,\r\n"));
    CHECK(has(form, "\"'=cmd, Ben\""));
    auto rows = base::parse_csv(form, "").value();
    REQUIRE(rows.size() == 4);
    std::string filled;
    for (auto& row : rows) {
        if (row.line > 1) row.cells[2] = "c";
        filled += base::csv_line(row.cells);
    }
    const auto entered = practice::enter_csv(meeting, filled, {});
    CHECK(entered.faults.empty());
    CHECK(entered.entries.size() == 12);
}
