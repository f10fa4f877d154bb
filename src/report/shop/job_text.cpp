#include "report/shop/job_text.hpp"

#include <cmath>

#include "base/text.hpp"

namespace report {
namespace {

using practice::JobBrief;
using practice::JobPoint;
using Lines = std::vector<std::string>;

constexpr double kWeak = 0.5;  // from here on it is worth saying

void add_heading(Lines& lines, const Page& page, const std::string& text, Ink ink = Ink::bold) {
    lines.emplace_back();
    add(lines, page, text, 0, ink);
}

void add_reminder(Lines& lines, const practice::Reminder& reminder, const Page& page) {
    if (!reminder.cautions.empty()) {
        add_heading(lines, page, "Before hands go in", Ink::warn);
        for (const auto& caution : reminder.cautions) add_hanging(lines, page, "  ! ", caution, Ink::warn);
    }
    if (!reminder.rules.empty()) add_heading(lines, page, "What governs");
    for (const auto& rule : reminder.rules) {
        const std::string stakes{content::to_text(rule.stakes)};
        add_hanging(lines, page, "  " + rule.article + "  ", rule.title + " [" + stakes + "]", Ink::bold);
        add(lines, page,
            (rule.practice ? "Practice of the trade: " : "") + rule.says +
                (rule.unverified ? " [not verified for this edition]" : ""),
            4);
    }
    if (!reminder.mistakes.empty()) add_heading(lines, page, "Mistakes to avoid");
    for (const auto& mistake : reminder.mistakes) add_hanging(lines, page, "  - ", mistake);
}

std::string reasons(const JobPoint& found) {
    std::vector<std::string> texts;
    for (const auto& reason : found.reasons) texts.push_back(practice::to_text(reason));
    if (found.weakness >= kWeak) texts.emplace_back("weak or new among those who go");
    return base::join(texts, "; ");
}

void add_what_was_not_found(Lines& lines, const JobBrief& brief, const Page& page) {
    if (brief.points.empty()) add(lines, page, "Nothing in the library bears on these words.");
    if (!brief.unmatched.empty())
        add(lines, page, "No job and no point has: " + base::join(brief.unmatched, ", ") + ".", 0, Ink::faint);
    if (brief.jobs.empty() && !brief.nearest.empty())
        add(lines, page, "Did you mean: " + base::join(brief.nearest, "; ") + "?");
}

}  // namespace

std::string job_heading(const JobBrief& brief) {
    if (brief.jobs.empty()) return brief.asked.empty() ? "The facts stated" : brief.asked;
    std::vector<std::string> titles;
    for (const auto* job : brief.jobs) titles.push_back(job->title);
    return base::join(titles, " + ");
}

Lines job_text(const JobBrief& brief, const Page& page) {
    Lines lines;
    add(lines, page, job_heading(brief) + ", " + trade::to_text(brief.under.edition) + " edition", 0, Ink::bold);
    add_what_was_not_found(lines, brief, page);
    add_reminder(lines, brief.reminder, page);
    if (!brief.points.empty()) {
        lines.emplace_back();
        add(lines, page, "Found: " + counted(brief.points.size() + brief.left_off, "point") + "; --why lists them.", 0,
            Ink::faint);
        add(lines, page, "Training aid: the adopted code, local amendments and the inspector decide.", 0, Ink::faint);
    }
    return lines;
}

Lines job_points_text(const JobBrief& brief, const Page& page) {
    Lines lines;
    add_heading(lines, page, counted(brief.points.size(), "point") + ", the weightiest first");
    std::size_t number = 0;
    for (const auto& found : brief.points) {
        const auto digits = std::to_string(++number);
        add_hanging(lines, page, std::string(digits.size() < 2 ? 2 : 1, ' ') + digits + "  ",
                    found.point->title + " (" + found.point->id.text + ", " + found.version->article + ")");
        add(lines, page, reasons(found), 5, Ink::faint);
    }
    if (brief.left_off > 0) add(lines, page, counted(brief.left_off, "further point") + " left off.", 2, Ink::faint);
    return lines;
}

}  // namespace report
