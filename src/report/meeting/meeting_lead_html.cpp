#include <algorithm>
#include <utility>
#include <vector>

#include "base/text.hpp"
#include "report/meeting/meeting_html.hpp"
#include "report/meeting/meeting_page.hpp"
#include "report/source_text.hpp"
#include "report/table.hpp"

namespace report {
namespace {

using content::Ask;
using practice::Meeting;
using practice::MeetingReview;

/// "Right: ..." as a paragraph, its name in bold; nothing when there is nothing to say.
std::string told(std::string_view name, std::string_view text) {
    if (text.empty()) return {};
    return "<p>" + element("b", std::string{name} + ":") + " " + html_text(text) + "</p>\n";
}

std::string answers_table(const Meeting& meeting) {
    std::string out =
        "<h2>Right answers by sheet</h2>\n<section class=\"wide\" tabindex=\"0\" aria-label=\"Right answers by sheet\">"
        "<table><thead><tr><th scope=\"col\">Sheet</th><th scope=\"col\">Name</th>";
    for (std::size_t i = 1; i <= meeting.asks.size(); ++i)
        out += element("th", std::to_string(i), "scope=\"col\" class=\"letters\"");
    out += "</tr></thead><tbody>\n";
    for (const auto& sheet : meeting.sheets) {
        out += "<tr>" + element("th", std::to_string(sheet.number), "scope=\"row\"") + element("td", sheet.name);
        for (std::size_t i = 0; i < meeting.asks.size(); ++i)
            out += element("td", practice::right_on(meeting, sheet, i), "class=\"letters\"");
        out += "</tr>\n";
    }
    return out + "</tbody></table></section>\n";
}

std::string explanation(const Ask& ask) {
    std::string out = told("Right", answer_in_words(ask)) + told("Why", ask.question.why) +
                      told("The rule", ask.version.says) + told(source_text(ask).label, source_text(ask).text);
    if (ask.version.unverified) out += told("Note", "not verified for this edition; check it in your own book");
    out += told("Basis", basis_text(ask.question.basis ? *ask.question.basis : ask.version.basis));
    return out + told("CAUTION", ask.caution);
}

std::string wrong_ones(const Ask& ask) {
    std::vector<std::pair<std::string, std::vector<std::string>>> answers;  // by mistake, which is told once
    const auto note = [&](const std::string& answer, const std::string& mistake) {
        const auto same = [&](const auto& one) { return one.first == mistake; };
        const auto found = std::find_if(answers.begin(), answers.end(), same);
        if (found == answers.end())
            answers.push_back({mistake, {answer}});
        else
            found->second.push_back(answer);
    };
    for (const auto& wrong : ask.question.wrong) note(wrong.text, wrong.mistake);
    for (const auto& wrong : ask.question.wrong_numbers)
        note(base::to_text(base::Quantity{wrong.value, ask.question.answer.unit}), wrong.mistake);
    std::string list;
    for (const auto& [mistake, given] : answers) {
        const auto words = ask.mistakes.find(mistake);
        const std::string means = words == ask.mistakes.end() || words->second.empty() ? mistake : words->second;
        list += element("li", base::join(given, "; ") + " - " + means);
    }
    return list.empty() ? "" : "<p><b>Wrong, and what it shows:</b></p><ul class=\"plain\">" + list + "</ul>\n";
}

std::string ask_head(const Ask& ask, std::size_t number) {
    return element("h3",
                   std::to_string(number) + ". " + ask.title + " (" + std::string{content::to_text(ask.stakes)} + ")");
}

std::string talk_html(const Meeting& meeting, const practice::AskReview& one, Names names) {
    const Ask& ask = meeting.asks.at(one.ask).ask;
    std::string out = "<div class=\"ask\">" + ask_head(ask, one.ask + 1) + told("Asked", ask.question.text) +
                      told("Went", how_it_went(one));
    if (!one.sure_and_wrong.empty())
        out += told("Sure and wrong", names == Names::shown ? base::join(one.sure_and_wrong, ", ")
                                                            : std::to_string(one.sure_and_wrong.size()));
    if (one.mistake) out += told("Mistake, made by " + std::to_string(one.mistake->count), one.mistake->words);
    out += explanation(ask);
    if (names == Names::shown) out += told("Wrong", base::join(one.wrong, ", "));
    return out + "</div>\n";
}

std::string asks_table(const Meeting& meeting, const MeetingReview& review) {
    std::string out =
        "<h2>Every ask</h2>\n<section class=\"wide\" tabindex=\"0\" aria-label=\"Every ask\"><table><thead><tr>"
        "<th scope=\"col\">Ask</th><th scope=\"col\">Point</th><th scope=\"col\">Stakes</th><th "
        "scope=\"col\">Right</th>"
        "<th scope=\"col\">Share</th><th scope=\"col\">Commonest mistake</th></tr></thead><tbody>\n";
    for (const auto& one : review.asks) {
        const Ask& ask = meeting.asks.at(one.ask).ask;
        out += "<tr>" + element("th", std::to_string(one.ask + 1), "scope=\"row\"") + element("td", ask.title) +
               element("td", content::to_text(ask.stakes)) + element("td", how_it_went(one)) +
               element("td", one.answers == 0 ? "-" : percent(one.share_right)) +
               element("td", one.mistake ? one.mistake->words : "-") + "</tr>\n";
    }
    return out + "</tbody></table></section>\n";
}

std::string tags_table(const MeetingReview& review) {
    std::string out =
        "<h2>Sheets</h2>\n<section class=\"wide\" tabindex=\"0\" aria-label=\"Sheets\"><table><thead><tr>"
        "<th scope=\"col\">Sheet</th><th scope=\"col\">Name</th><th scope=\"col\">Right</th><th scope=\"col\">Tag</th>"
        "</tr></thead><tbody>\n";
    for (const auto& one : review.sheets)
        out += "<tr>" + element("th", std::to_string(one.sheet), "scope=\"row\"") + element("td", one.name) +
               element("td", std::to_string(one.right)) +
               element("td", one.green() ? "green tag" : "red tag: " + counted(one.corrections, "correction")) +
               "</tr>\n";
    return out + "</tbody></table></section>\n";
}

}  // namespace

std::string key_html(const Meeting& meeting, Paper paper) {
    std::string body = "<main>\n" + lead_head(meeting, "key") +
                       element("p",
                               "For the lead. Enter a sheet as its number and one letter an ask: 12 bacd-a. A dash "
                               "is none, [ac] several boxes, [18] a number, a plus behind it a tick at sure.") +
                       answers_table(meeting) + "<h2>What to say</h2>\n";
    for (std::size_t i = 0; i < meeting.asks.size(); ++i) {
        const Ask& ask = meeting.asks[i].ask;
        body += "<div class=\"ask\">" + ask_head(ask, i + 1) + told("Asked", ask.question.text) + explanation(ask) +
                wrong_ones(ask) + "</div>\n";
    }
    body += element("p", kMeetingAid, "class=\"note\"") + "\n</main>\n";
    return document("Key: " + meeting.title + " " + base::date_text(meeting.day), paper, body);
}

std::string review_html(const Meeting& meeting, const MeetingReview& review, Names names, Paper paper) {
    std::string body = "<main>\n" + lead_head(meeting, "review");
    body += element("p", counted(review.sheets.size(), "sheet") + " entered.");
    if (names == Names::shown) body += told("Not entered", base::join(review.missing, ", "));
    if (review.sheets.empty()) {
        body += element("p", "Nothing has been entered yet.");
    } else {
        body += review.green() ? element("h2", "Green tag: nothing left to correct")
                               : element("h2", "Red tag. Talk about, in this order");
        for (const auto place : review.talk) body += talk_html(meeting, review.asks.at(place), names);
        body += asks_table(meeting, review);
        if (names == Names::shown) body += tags_table(review);
    }
    body += element("p", kMeetingAid, "class=\"note\"") + "\n</main>\n";
    return document("Review: " + meeting.title + " " + base::date_text(meeting.day), paper, body);
}

}  // namespace report
