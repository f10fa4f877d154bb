#include "report/shop/calendar.hpp"

#include <algorithm>
#include <map>
#include <set>

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "base/text.hpp"
#include "practice/shop/year.hpp"

namespace {

using std::chrono::days;
using year::day;

practice::PlannedWeek week(int number, std::chrono::sys_days on, const std::string& title) {
    practice::PlannedWeek one;
    one.number = number;
    one.day = on;
    one.title = title;
    one.points = {{{"p.1"}, "A point, with \"signs\"; and more", "210.8(A)", content::Stakes::shock, false},
                  {{"p.2"}, "Another", "210.8(B)", content::Stakes::fire, true}};
    return one;
}

practice::WeekPlan plan() {
    practice::WeekPlan some;
    some.weeks = {week(1, day(2026, 12, 28), "Article 210: Ground-fault protection"),
                  week(2, day(2027, 1, 4),
                       "Article 250, Erdung \xC3\xBC"
                       "ber alles; 100 \xE2\x84\xA6")};
    practice::PlannedWeek off;
    off.number = 3;
    off.day = day(2027, 1, 11);
    off.off = true;
    some.weeks.push_back(off);
    return some;
}

report::CalendarFor calendar() {
    report::CalendarFor what;
    what.shop = "Example Electric";
    what.name = "Article of the week";
    what.stamp = *base::parse_instant("2026-12-01T07:08:09.250Z");
    return what;
}

/// Lines as they stand; every one has to end in CRLF.
std::vector<std::string> raw_lines(const std::string& text) {
    std::vector<std::string> lines;
    std::size_t at = 0;
    while (at < text.size()) {
        const auto end = text.find("\r\n", at);
        REQUIRE(end != std::string::npos);
        lines.push_back(text.substr(at, end - at));
        at = end + 2;
    }
    return lines;
}

/// RFC 5545 section 3.1: a CRLF followed by one space or tab is taken out.
std::vector<std::string> unfolded(const std::string& text) {
    std::vector<std::string> lines;
    for (const auto& raw : raw_lines(text)) {
        if (!raw.empty() && (raw[0] == ' ' || raw[0] == '\t')) {
            REQUIRE_FALSE(lines.empty());
            lines.back() += raw.substr(1);
        } else {
            lines.push_back(raw);
        }
    }
    return lines;
}

/// RFC 5545 section 3.3.11, read backwards; nothing but the four escapes is allowed.
std::string unescaped(const std::string& value) {
    std::string text;
    for (std::size_t at = 0; at < value.size(); ++at) {
        if (value[at] != '\\') {
            CHECK(value[at] != ';');
            CHECK(value[at] != ',');
            text += value[at];
            continue;
        }
        REQUIRE(++at < value.size());
        CHECK(std::string{"\\;,nN"}.find(value[at]) != std::string::npos);
        text += value[at] == 'n' || value[at] == 'N' ? '\n' : value[at];
    }
    return text;
}

using Properties = std::multimap<std::string, std::string>;

/// Properties of each event, alarms under "VALARM." names.
std::vector<Properties> events(const std::string& text) {
    std::vector<Properties> list;
    std::string within;
    for (const auto& line : unfolded(text)) {
        const auto colon = line.find(':');
        REQUIRE(colon != std::string::npos);
        const auto name = line.substr(0, colon);
        const auto value = line.substr(colon + 1);
        if (line == "BEGIN:VEVENT") list.emplace_back();
        if (line == "BEGIN:VALARM") within = "VALARM.";
        if (line == "END:VALARM") within.clear();
        if (name != "BEGIN" && name != "END" && !list.empty()) list.back().emplace(within + name, value);
    }
    return list;
}

std::string one(const Properties& event, const std::string& name) {
    CAPTURE(name);
    REQUIRE(event.count(name) == 1);  // each may stand only once in an event
    return event.find(name)->second;
}

}  // namespace

TEST_CASE("calendar: a stream as RFC 5545 section 3.4 and 3.6 has it") {
    const auto text = report::calendar_text(plan(), calendar());
    const auto lines = unfolded(text);
    CHECK(lines.front() == "BEGIN:VCALENDAR");
    CHECK(lines.back() == "END:VCALENDAR");
    CHECK(std::count(lines.begin(), lines.end(), "VERSION:2.0") == 1);
    CHECK(std::count(lines.begin(), lines.end(), "PRODID:-//Greentag//Article of the week//EN") == 1);
    std::vector<std::string> open;
    for (const auto& line : lines) {
        if (line.starts_with("BEGIN:")) open.push_back(line.substr(6));
        if (!line.starts_with("END:")) continue;
        REQUIRE_FALSE(open.empty());
        CHECK(open.back() == line.substr(4));
        open.pop_back();
    }
    CHECK(open.empty());
}

TEST_CASE("calendar: an all-day event for each week with an article") {
    const auto list = events(report::calendar_text(plan(), calendar()));
    REQUIRE(list.size() == 2);
    CHECK(one(list[0], "DTSTART;VALUE=DATE") == "20261228");
    CHECK(one(list[0], "DTEND;VALUE=DATE") == "20261229");
    CHECK(one(list[0], "DTSTAMP") == "20261201T070809Z");
    CHECK(one(list[0], "SEQUENCE") == "0");
    CHECK(unescaped(one(list[0], "SUMMARY")) == "Article 210: Ground-fault protection");
    CHECK(unescaped(one(list[1], "SUMMARY")) == plan().weeks[1].title);
    CHECK(unescaped(one(list[0], "DESCRIPTION")) ==
          "Why this week: its turn in the year.\n- A point, with \"signs\"; and more (210.8(A))\n"
          "- Another (210.8(B)) [not confirmed]");
    CHECK(list[0].count("VALARM.TRIGGER") == 0);
}

TEST_CASE("calendar: notes follow the points of their day") {
    auto what = calendar();
    what.notes[day(2027, 1, 4)] = {"Say this.", "And that."};
    const auto list = events(report::calendar_text(plan(), what));
    CHECK(unescaped(one(list[1], "DESCRIPTION")).ends_with("[not confirmed]\nSay this.\nAnd that."));
    CHECK_FALSE(unescaped(one(list[0], "DESCRIPTION")).ends_with("And that."));
}

TEST_CASE("calendar: the UID stays with the week and the shop, whatever else changes") {
    auto changed = plan();
    changed.weeks[0].title = "Something else";
    changed.weeks[0].day += days{2};  // meets on Wednesday now
    changed.weeks[0].number = 9;
    auto later = calendar();
    later.revision = 3;
    later.stamp += std::chrono::hours{1000};
    const auto before = events(report::calendar_text(plan(), calendar()));
    const auto after = events(report::calendar_text(changed, later));
    CHECK(one(before[0], "UID") == one(after[0], "UID"));
    CHECK(one(before[0], "UID") != one(before[1], "UID"));
    CHECK(one(after[0], "SEQUENCE") == "3");
    later.shop = "Another shop";
    CHECK(one(events(report::calendar_text(changed, later))[0], "UID") != one(before[0], "UID"));
}

TEST_CASE("calendar: an alarm as RFC 5545 section 3.6.6, its time as section 3.3.6") {
    const std::vector<std::pair<int, std::string>> cases = {{420, "PT7H"},   {-540, "-PT9H"},       {0, "PT0M"},
                                                            {-1440, "-P1D"}, {-1890, "-P1DT7H30M"}, {15, "PT15M"},
                                                            {1441, "P1DT1M"}};
    for (const auto& [minutes, text] : cases) {
        auto what = calendar();
        what.alarm = std::chrono::minutes{minutes};
        const auto event = events(report::calendar_text(plan(), what))[0];
        CHECK(one(event, "VALARM.TRIGGER") == text);
        CHECK(one(event, "VALARM.ACTION") == "DISPLAY");
        CHECK(unescaped(one(event, "VALARM.DESCRIPTION")) == "Article 210: Ground-fault protection");
    }
}

TEST_CASE("calendar: a year without meetings is no stream") {
    auto none = plan();
    for (auto& one_week : none.weeks) one_week.off = true;
    CHECK(report::calendar_text(none, calendar()).empty());
}

TEST_CASE("calendar: folding at 75 octets") {
    CHECK(report::folded(std::string(75, 'a')) == std::string(75, 'a') + "\r\n");
    CHECK(report::folded(std::string(76, 'a')) == std::string(75, 'a') + "\r\n a\r\n");
    CHECK(report::folded(std::string(75 + 74, 'a')) == std::string(75, 'a') + "\r\n " + std::string(74, 'a') + "\r\n");
    // Two octets that would stand on both sides of the 75th.
    CHECK(report::folded(std::string(74, 'a') + "\xC3\xBC") == std::string(74, 'a') + "\r\n \xC3\xBC\r\n");
    CHECK(report::folded("") == "\r\n");
}

TEST_CASE("calendar: escapes of section 3.3.11, and what no text may hold") {
    CHECK(report::escaped_text("a;b,c\\d\ne:\"f\"") == "a\\;b\\,c\\\\d\\ne:\"f\"");
    CHECK(report::escaped_text("a\r\nb\tc\x01\x7F") == "a\\nb\tc");
    CHECK(report::escaped_text("a\xFF"
                               "b\xC3") ==
          "a\xEF\xBF\xBD"
          "b\xEF\xBF\xBD");
}

TEST_CASE("calendar: any text comes back whole through folding and escaping, in lines of at most 75 octets of UTF-8") {
    const std::vector<std::string> signs = {
        "a", "Z", " ", ";", ",", "\\", "\n", ":", "n", "\xC3\xBC", "\xE2\x84\xA6", "\xF0\x9F\x94\x8C"};
    for (base::Seed seed = 1; seed <= 500; ++seed) {
        CAPTURE(seed);
        base::Random random{seed};
        auto some = plan();
        std::string title;
        for (auto left = random.below(300); left > 0; --left) title += signs[random.below(signs.size())];
        some.weeks[0].title = title;
        const auto text = report::calendar_text(some, calendar());
        for (const auto& line : raw_lines(text)) {
            CHECK(line.size() <= 75);
            CHECK_FALSE(base::first_bad_utf8(line));
            CHECK(line.find_first_of("\r\n") == std::string::npos);
        }
        CHECK(unescaped(one(events(text)[0], "SUMMARY")) == title);
    }
}
