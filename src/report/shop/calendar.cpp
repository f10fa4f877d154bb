#include "report/shop/calendar.hpp"

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>

#include "base/random.hpp"
#include "base/text.hpp"
#include "report/shop/week_words.hpp"
#include "report/style.hpp"

namespace report {
namespace {

using std::chrono::days;
using std::chrono::sys_days;

constexpr std::size_t kMostOctets = 75;
constexpr std::string_view kReplacement = "\xEF\xBF\xBD";

std::string date(sys_days day) {
    std::string text = base::date_text(base::Instant{day});
    std::erase(text, '-');
    return text;
}

/// "20260302T070000Z": no fraction of a second.
std::string date_time(base::Instant when) {
    std::string text = base::to_text(when);
    text = text.substr(0, text.find('.')) + "Z";
    std::erase_if(text, [](char c) { return c == '-' || c == ':'; });
    return text;
}

std::string uid(const practice::PlannedWeek& week, const CalendarFor& what) {
    std::array<char, 20> hash{};
    std::snprintf(hash.data(), hash.size(), "%016llx", static_cast<unsigned long long>(base::stable_hash(what.shop)));
    return "week-" + date(practice::monday_of(week.day)) + "-" + hash.data() + "@greentag";
}

/// A DURATION of days, hours and minutes: "-PT9H", "P1DT7H30M".
std::string duration(std::chrono::minutes of) {
    const auto count = std::abs(of.count());
    const auto whole_days = count / 1440;
    const auto hours = count % 1440 / 60;
    const auto minutes = count % 60;
    std::string text = of.count() < 0 ? "-P" : "P";
    if (whole_days > 0) text += std::to_string(whole_days) + "D";
    if (hours > 0 || minutes > 0 || whole_days == 0) text += "T";
    if (hours > 0) text += std::to_string(hours) + "H";
    // Nothing at all would be no duration: zero is written as minutes.
    if (minutes > 0 || count == 0) text += std::to_string(minutes) + "M";
    return text;
}

std::string description(const practice::PlannedWeek& week, const CalendarFor& what) {
    std::string text = "Why this week: " + why_words(week) + ".";
    for (const auto& point : week.points)
        text += "\n- " + point.title + " (" + point.article + ")" + (point.unverified ? " [not confirmed]" : "");
    if (const auto notes = what.notes.find(week.day); notes != what.notes.end())
        for (const auto& line : notes->second) text += "\n" + line;
    return text;
}

void add_alarm(std::string& text, const practice::PlannedWeek& week, std::chrono::minutes alarm) {
    text += "BEGIN:VALARM\r\nACTION:DISPLAY\r\n";
    text += folded("DESCRIPTION:" + escaped_text(week.title));
    text += folded("TRIGGER:" + duration(alarm));
    text += "END:VALARM\r\n";
}

void add_event(std::string& text, const practice::PlannedWeek& week, const CalendarFor& what) {
    text += "BEGIN:VEVENT\r\n";
    text += folded("UID:" + uid(week, what));
    text += folded("DTSTAMP:" + date_time(what.stamp));
    text += folded("DTSTART;VALUE=DATE:" + date(week.day));
    // The end is not part of the event: an event of one day ends on the next.
    text += folded("DTEND;VALUE=DATE:" + date(week.day + days{1}));
    text += folded("SEQUENCE:" + std::to_string(what.revision));
    text += folded("SUMMARY:" + escaped_text(week.title));
    text += folded("DESCRIPTION:" + escaped_text(description(week, what)));
    text += "TRANSP:TRANSPARENT\r\n";
    if (what.alarm) add_alarm(text, week, *what.alarm);
    text += "END:VEVENT\r\n";
}

/// Octets of the character that begins here; 0 when the bytes are not well-formed UTF-8.
std::size_t character(std::string_view text) {
    for (std::size_t size = 1; size <= 4 && size <= text.size(); ++size)
        if (!base::first_bad_utf8(text.substr(0, size))) return size;
    return 0;
}

}  // namespace

std::string folded(std::string_view line) {
    std::string text;
    std::size_t used = 0;
    while (!line.empty()) {
        const std::size_t size = std::max<std::size_t>(1, character(line));
        if (used + size > kMostOctets) {
            text += "\r\n ";
            used = 1;
        }
        text += line.substr(0, size);
        line.remove_prefix(size);
        used += size;
    }
    return text + "\r\n";
}

std::string escaped_text(std::string_view text) {
    std::string out;
    while (!text.empty()) {
        const std::size_t size = character(text);
        const char c = text.front();
        const auto code = static_cast<unsigned char>(c);
        if (size == 0)
            out += kReplacement;
        else if (c == '\n')
            out += "\\n";
        else if (c == '\\' || c == ';' || c == ',')
            out += {'\\', c};
        else if ((code >= 0x20U && code != 0x7FU) || c == '\t')
            out += text.substr(0, size);
        text.remove_prefix(std::max<std::size_t>(1, size));
    }
    return out;
}

std::string calendar_text(const practice::WeekPlan& plan, const CalendarFor& what) {
    if (std::all_of(plan.weeks.begin(), plan.weeks.end(), [](const auto& week) { return week.off; })) return "";
    std::string text = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Greentag//Article of the week//EN\r\n";
    text += "CALSCALE:GREGORIAN\r\n";
    if (!what.name.empty()) {
        text += folded("NAME:" + escaped_text(what.name));
        // Older software knows the name of a calendar only under this one.
        text += folded("X-WR-CALNAME:" + escaped_text(what.name));
    }
    for (const auto& week : plan.weeks)
        if (!week.off) add_event(text, week, what);
    return text + "END:VCALENDAR\r\n";
}

}  // namespace report
