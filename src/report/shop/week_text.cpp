#include "report/shop/week_text.hpp"

#include "base/text.hpp"
#include "report/shop/week_words.hpp"

namespace report {
namespace {

using Lines = std::vector<std::string>;
using std::chrono::sys_days;

// On a page narrower than this the day stands on a line of its own.
constexpr std::size_t kNarrow = 64;

std::string state_of(const practice::PlannedWeek& week, const practice::PlannedWeek* next, sys_days today) {
    if (&week == next) return week.day == today ? " [today]" : " [next]";
    return week.day < today ? " [passed]" : "";
}

std::string row_text(const practice::PlannedWeek& week) {
    if (week.off) return "no meeting" + (week.holiday.empty() ? "" : ": " + week.holiday);
    return week.title + ". " + counted(week.points.size(), "point") + "; " + why_words(week) + ".";
}

void add_week(Lines& lines, const practice::PlannedWeek& week, const std::string& state, const Page& page) {
    const std::string number = std::to_string(week.number);
    const std::string head =
        std::string(number.size() < 3 ? 3 - number.size() : 0, ' ') + number + "  " + day_words(week.day);
    const Ink ink = state == " [passed]" || week.off ? Ink::faint : state.empty() ? Ink::plain : Ink::bold;
    if (page.width >= kNarrow) {
        add_hanging(lines, page, head + "  ", row_text(week) + state, ink);
        return;
    }
    lines.push_back(inked(page, ink, head + state));
    add(lines, page, row_text(week), 5, ink);
}

void add_left_over(Lines& lines, const practice::WeekPlan& plan, const Page& page) {
    if (plan.left_over.empty()) return;
    lines.emplace_back();
    add(lines, page,
        counted(plan.left_over.size(), "portion") + " found no week: " + std::to_string(plan.in_weeks) + " of " +
            counted(plan.points, "point") +
            " come up at meetings. The rest stays in everybody's own study; a pin brings "
            "an article to a week.",
        0, Ink::warn);
    for (const auto& left : plan.left_over)
        add_hanging(lines, page, "  - ", left.title + ", " + counted(left.points.size(), "point"), Ink::faint);
}

void add_missing(Lines& lines, const practice::WeekPlan& plan, const Page& page) {
    if (plan.without_week.empty()) return;
    std::vector<std::string> articles;
    for (const int article : plan.without_week)
        articles.push_back(article == 0 ? "points without a reference" : std::to_string(article));
    lines.emplace_back();
    add(lines, page, "The weeks do not suffice for every article. Without a week: " + base::join(articles, ", ") + ".",
        0, Ink::bad);
}

}  // namespace

Lines week_plan_text(const practice::WeekPlan& plan, sys_days today, const Page& page) {
    Lines lines;
    lines.push_back(inked(page, Ink::bold, "Articles of the year"));
    const auto* next = plan.next(today);
    if (next != nullptr)
        add(lines, page, "Next meeting " + day_words(next->day) + ": " + next->title + ".");
    else
        add(lines, page, "No meeting of this plan is left.");
    lines.emplace_back();
    for (const auto& week : plan.weeks) add_week(lines, week, state_of(week, next, today), page);
    add_missing(lines, plan, page);
    add_left_over(lines, plan, page);
    return lines;
}

Lines week_text(const practice::PlannedWeek& week, const practice::WeekTalk& talk, const practice::PlannedWeek* next,
                const Page& page) {
    Lines lines;
    add(lines, page, "Week " + std::to_string(week.number) + ", " + day_words(week.day) + ": " + row_text(week), 0,
        Ink::bold);
    if (!week.off) {
        lines.emplace_back();
        for (const auto& point : week.points)
            add_hanging(lines, page, "  - ",
                        point.title + " (" + point.article + "), " + std::string{content::to_text(point.stakes)} +
                            (point.unverified ? ", not confirmed for this edition" : ""));
        lines.emplace_back();
        lines.push_back(inked(page, Ink::bold, "To say, in two minutes"));
        const auto said = practice::talk_lines(talk);
        for (std::size_t n = 1; n < said.size(); ++n) add_hanging(lines, page, "  ", said[n]);
    }
    if (next != nullptr) {
        lines.emplace_back();
        add(lines, page, "After it, " + day_words(next->day) + ": " + next->title + ".");
    }
    return lines;
}

}  // namespace report
