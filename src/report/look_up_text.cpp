#include "report/look_up_text.hpp"

#include <cmath>

#include "base/text.hpp"
#include "report/session_text.hpp"

namespace report {
namespace {

using Lines = std::vector<std::string>;

constexpr std::size_t kMostShown = 8;
constexpr const char* kNothingToFind =
    "There is nothing to find here now: only verified rules of the code have a place in the book, and none comes up "
    "again within four hours.";

void add_not_found(Lines& lines, const practice::Summary& summary, const Page& page) {
    if (summary.corrections.empty()) return;
    lines.emplace_back();
    add(lines, page, "Corrections, to find without the clock:", 0, Ink::bold);
    for (const auto* outcome : summary.corrections)
        add_hanging(lines, page, "  [ ] ", outcome->posed.ask.version.article + "  " + outcome->posed.ask.title);
}

}  // namespace

Lines look_up_opening(const practice::SessionFor& what, const practice::LookUpPicker& look_ups, const Page& page) {
    Lines lines;
    add(lines, page, "GREENTAG open book: " + what.learner.name, 0, Ink::bold);
    add(lines, page,
        trade::to_text(what.pick.edition) + " edition; " + limits_text(what.plan) + "; " +
            counted(look_ups.places(), "place") + " in " + counted(look_ups.articles(), "article"));
    add(lines, page,
        "Have your own book of that edition at hand. The clock runs from the moment a rule is shown until you have "
        "typed where it stands.");
    add(lines, page, "Type ! when you cannot find it, q to leave (all is kept).", 0, Ink::faint);
    return lines;
}

Lines look_up_lines(const std::vector<practice::LookUpFamily>& families, std::size_t most, const Page& page) {
    Lines lines;
    for (std::size_t i = 0; i < families.size() && i < most; ++i) {
        const auto& one = families[i];
        add_hanging(lines, page, "  Article " + std::to_string(one.article) + "  ",
                    "about " + std::to_string(std::lround(one.seconds)) + " s; found " + std::to_string(one.found) +
                        " of " + std::to_string(one.asked));
    }
    return lines;
}

Lines look_up_summary(const practice::Summary& summary, const practice::SessionFor& what, bool posed,
                      const Page& page) {
    Lines lines;
    lines.emplace_back();
    lines.push_back(inked(page, Ink::faint, std::string(page.width, '-')));
    if (summary.outcomes.empty()) {
        add(lines, page, "Nothing was looked up this time.");
        if (!posed) add(lines, page, kNothingToFind);
        return lines;
    }
    const std::size_t missed = summary.corrections.size();
    const bool green = summary.green();
    add(lines, page, green ? "GREEN TAG: everything found" : "RED TAG: " + counted(missed, "place") + " not found", 0,
        green ? Ink::good : Ink::bad);
    add(lines, page,
        what.learner.name + ": " + counted(summary.outcomes.size(), "look-up") + ", marks " +
            base::number_text(summary.marks, 1) + " of " + std::to_string(summary.outcomes.size()));
    add_not_found(lines, summary, page);
    lines.emplace_back();
    add(lines, page, "Your time by article, slowest first; the slow ones come up more:", 0, Ink::bold);
    for (auto& line : look_up_lines(summary.look_ups, kMostShown, page)) lines.push_back(std::move(line));
    add(lines, page, "A place not found counts three minutes, which is what an exam leaves for a question.", 0,
        Ink::faint);
    return lines;
}

}  // namespace report
