#include "report/meeting/meeting_text.hpp"

#include "base/csv.hpp"
#include "base/text.hpp"
#include "report/source_text.hpp"
#include "report/table.hpp"

namespace report {
namespace {

using Lines = std::vector<std::string>;
using practice::Meeting;
using practice::MeetingReview;

constexpr std::string_view kAid = "Training aid. The adopted code, local amendments and the inspector decide.";

/// " 4. ", so that places up to 99 stand in line.
std::string right_number(std::size_t number) {
    return right_set(std::to_string(number), 2) + ". ";
}

std::string headline(const Meeting& meeting) {
    return (meeting.shop.empty() ? std::string{"Shop"} : meeting.shop) + ", meeting" +
           (meeting.title.empty() ? "" : ": " + meeting.title);
}

void add_planned(Lines& lines, const practice::MeetingAsk& one, std::size_t number, const Page& page) {
    const auto& ask = one.ask;
    const std::string place = right_number(number);
    add_hanging(lines, page, place, ask.title);
    add(lines, page,
        ask.version.article + ", " + std::string{content::to_text(ask.stakes)} + "; " +
            std::string{practice::to_text(one.reason)} + "; " + std::string{content::to_text(ask.question.form)} +
            (ask.version.unverified ? "; not verified for this edition" : ""),
        place.size(), Ink::faint);
}

void add_talk(Lines& lines, const Meeting& meeting, const practice::AskReview& one, Names names, const Page& page) {
    const auto& ask = meeting.asks.at(one.ask).ask;
    const std::string place = right_number(one.ask + 1);
    add_hanging(lines, page, place, ask.title + " (" + std::string{content::to_text(ask.stakes)} + ")", Ink::bold);
    const std::size_t under = place.size();
    const std::string margin(under, ' ');
    add(lines, page, how_it_went(one), under);
    if (!one.sure_and_wrong.empty())
        add_hanging(
            lines, page, margin + "Sure and wrong: ",
            names == Names::shown ? base::join(one.sure_and_wrong, ", ") : std::to_string(one.sure_and_wrong.size()),
            Ink::bad);
    if (one.mistake)
        add_hanging(lines, page, margin + "Mistake (" + std::to_string(one.mistake->count) + "): ", one.mistake->words,
                    Ink::warn);
    add_hanging(lines, page, margin + "Right: ", answer_in_words(ask), Ink::bold);
    add_hanging(lines, page, margin + "Why: ", ask.question.why.empty() ? ask.version.says : ask.question.why);
    const auto [label, source] = source_text(ask);
    add_hanging(lines, page, margin + label + ": ", source);
    if (ask.version.unverified)
        add_hanging(lines, page, margin + "Note: ", "not verified for this edition; check it in your own book",
                    Ink::warn);
    if (!ask.caution.empty()) add_hanging(lines, page, margin + "CAUTION: ", ask.caution, Ink::warn);
    if (names == Names::shown && !one.wrong.empty())
        add_hanging(lines, page, margin + "Wrong: ", base::join(one.wrong, ", "));
}

void add_sheets(Lines& lines, const MeetingReview& review, const Page& page) {
    lines.emplace_back();
    add(lines, page, "Sheets", 0, Ink::bold);
    for (const auto& one : review.sheets)
        add_hanging(lines, page, right_number(static_cast<std::size_t>(one.sheet)),
                    one.name + ": " + std::to_string(one.right) + " right, " +
                        (one.green() ? "green tag" : "red tag, " + counted(one.corrections, "correction")),
                    one.green() ? Ink::good : Ink::bad);
}

}  // namespace

std::string day_and_edition(const Meeting& meeting) {
    return base::date_text(meeting.day) + ", " + trade::to_text(meeting.edition) + " edition";
}

std::string how_it_went(const practice::AskReview& ask) {
    return std::to_string(ask.right) + " of " + std::to_string(ask.answers) + " right" +
           (ask.blank > 0 ? ", " + std::to_string(ask.blank) + " blank" : "");
}

Lines plan_text(const practice::MeetingPlan& plan, const Page& page) {
    Lines lines;
    add(lines, page, headline(plan.meeting), 0, Ink::bold);
    add(lines, page, day_and_edition(plan.meeting) + ", " + counted(plan.meeting.asks.size(), "ask"));
    lines.emplace_back();
    for (std::size_t i = 0; i < plan.meeting.asks.size(); ++i) add_planned(lines, plan.meeting.asks[i], i + 1, page);
    if (!plan.told.empty()) lines.emplace_back();
    for (const auto& one : plan.told) add_hanging(lines, page, "note: ", one.what + "; " + one.mend, Ink::warn);
    lines.emplace_back();
    add(lines, page, kAid, 0, Ink::faint);
    return lines;
}

Lines review_text(const Meeting& meeting, const MeetingReview& review, Names names, const Page& page) {
    Lines lines;
    add(lines, page, headline(meeting), 0, Ink::bold);
    add(lines, page, day_and_edition(meeting) + ", " + counted(review.sheets.size(), "sheet") + " entered");
    if (review.sheets.empty()) {
        add(lines, page, "Nothing has been entered yet.");
        return lines;
    }
    if (names == Names::shown && !review.missing.empty())
        add_hanging(lines, page, "Not entered: ", base::join(review.missing, ", "), Ink::warn);
    lines.emplace_back();
    if (review.green())
        add(lines, page, "GREEN TAG: nothing left to correct", 0, Ink::good);
    else
        add(lines, page, "RED TAG. Talk about, in this order:", 0, Ink::bad);
    for (const auto place : review.talk) {
        lines.emplace_back();
        add_talk(lines, meeting, review.asks.at(place), names, page);
    }
    std::vector<std::string> all_right;
    for (const auto& one : review.asks)
        if (one.answers > 0 && one.wrong.empty()) all_right.push_back(std::to_string(one.ask + 1));
    if (!all_right.empty()) {
        lines.emplace_back();
        add_hanging(lines, page, "All right: ", base::join(all_right, ", "), Ink::good);
    }
    if (names == Names::shown) add_sheets(lines, review, page);
    lines.emplace_back();
    add(lines, page, kAid, 0, Ink::faint);
    return lines;
}

std::string answer_in_words(const content::Ask& ask) {
    if (!practice::has_options(ask.question.form)) return base::to_text(ask.question.answer);
    return base::join(ask.question.right, "; ");
}

std::string entry_form_csv(const Meeting& meeting) {
    std::vector<std::string> cells = {"sheet", "name"};
    for (std::size_t i = 1; i <= meeting.asks.size(); ++i) cells.push_back("q" + std::to_string(i));
    std::string csv = base::csv_line(cells);
    for (const auto& sheet : meeting.sheets) {
        cells.assign(meeting.asks.size() + 2, "");
        cells[0] = std::to_string(sheet.number);
        cells[1] = sheet.name;
        csv += base::csv_line(cells);
    }
    return csv;
}

}  // namespace report
