#include "report/session_text.hpp"

#include <cmath>
#include <set>

#include "base/text.hpp"
#include "content/look_up.hpp"
#include "report/panel.hpp"
#include "report/source_text.hpp"
#include "trade/article.hpp"

namespace report {
namespace {

using content::Form;
using practice::Outcome;
using Lines = std::vector<std::string>;

constexpr std::string_view kAid = "Training aid. The adopted code, local amendments and the inspector decide.";

std::string rule(const Page& page) {
    return std::string(page.width, '-');
}

/// "new", "asked before": why this comes up, in a word or two.
std::string reason_text(practice::Reason reason) {
    switch (reason) {
        case practice::Reason::urgent:
            return "you were sure and wrong";
        case practice::Reason::changed:
            return "changed with the edition";
        case practice::Reason::fresh:
            return "new";
        case practice::Reason::rotation:
            return "comes round";
        case practice::Reason::correction:
            return "correction";
        case practice::Reason::call:
            return "service call";
        case practice::Reason::look_up:
            return "find it";
    }
    return {};
}

/// What to do, where the question's own words do not say it.
std::string form_line(const content::Ask& ask) {
    const std::string text = base::lower(ask.question.text);
    const auto has = [&](const char* word) { return text.find(word) != std::string::npos; };
    switch (ask.question.form) {
        case Form::choose_all:
            return has("every") || has("all ") || has("all.") ? "" : "Pick every one that applies.";
        case Form::order:
            return has("order") ? "" : "Put the steps in order.";
        default:
            return {};
    }
}

std::string verdict(const Outcome& outcome) {
    if (outcome.reply.gave_up) return "NOT KNOWN";
    if (outcome.mark.mark >= 1.0) return "RIGHT";
    if (outcome.mark.mark <= 0.0) return "WRONG";
    const std::string share = std::to_string(static_cast<int>(std::lround(100 * outcome.mark.mark))) + "%";
    return (outcome.reply.looked_up ? "LOOKED UP, " : "PARTLY RIGHT, ") + share;
}

Ink verdict_ink(const Outcome& outcome) {
    if (outcome.recalled()) return Ink::good;
    return outcome.mark.mark > 0.0 ? Ink::warn : Ink::bad;
}

void add_mistakes(Lines& lines, const Outcome& outcome, const Page& page) {
    std::set<std::string> told;
    for (const auto& id : outcome.mark.mistakes) {
        const auto found = outcome.posed.ask.mistakes.find(id);
        if (found == outcome.posed.ask.mistakes.end() || !told.insert(id).second) continue;
        add_hanging(lines, page, "  Mistake: ", found->second.empty() ? id : found->second, Ink::warn);
    }
}

void add_right(Lines& lines, const Outcome& outcome, const Page& page) {
    const auto& ask = outcome.posed.ask;
    if (outcome.mark.mark >= 1.0 && ask.question.form != Form::recall && ask.question.form != Form::article) return;
    const auto parts = base::split(content::right_in_words(ask), '\n');
    add_hanging(lines, page, "  Right:   ", parts.front(), Ink::bold);
    for (std::size_t i = 1; i < parts.size(); ++i) {
        // "2. step" and "b) option": later lines stand under the words.
        const auto head = parts[i].find(' ') + 1;
        add_hanging(lines, page, "           " + parts[i].substr(0, head), parts[i].substr(head), Ink::bold);
    }
}

void add_why(Lines& lines, const Outcome& outcome, const Page& page) {
    const auto& ask = outcome.posed.ask;
    // What was to be found has just been read.
    const bool told = ask.question.why.empty() && content::looked_up(ask.question.point);
    if (!told) add_hanging(lines, page, "  Why:     ", ask.question.why.empty() ? ask.version.says : ask.question.why);
    const std::string says = ask.question.why.empty() ? "" : ask.version.says;
    const auto [label, source] = source_text(ask);
    const bool trade = label == "Trade";
    if (trade)
        add_hanging(lines, page, "  Trade:   ", (says.empty() ? "" : says + " ") + "(" + source + ")");
    else
        add_hanging(lines, page, "  Code:    ", source + (says.empty() ? "" : ": " + says));
    if (ask.version.unverified)
        add_hanging(lines, page, "  Note:    ", "not verified for this edition; check it in your own book", Ink::warn);
    add_hanging(lines, page, "  Basis:   ", basis_text(ask.question.basis ? *ask.question.basis : ask.version.basis),
                Ink::faint);
    if (!ask.caution.empty()) add_hanging(lines, page, "  CAUTION: ", ask.caution, Ink::warn);
}

void add_calibration(Lines& lines, const practice::Summary& summary, const Page& page) {
    for (const auto& [sure, tally] : summary.sure) {
        std::string line = "when you said '" + std::string{memory::to_text(sure)} +
                           "': " + std::to_string(tally.right) + " of " + std::to_string(tally.answers) + " right";
        if (sure == memory::Sure::sure && tally.right < tally.answers)
            line += "  <- sure and wrong comes back tomorrow";
        add(lines, page, line, 2, sure == memory::Sure::sure && tally.right < tally.answers ? Ink::warn : Ink::plain);
    }
}

void add_corrections(Lines& lines, const practice::Summary& summary, const Page& page) {
    if (summary.corrections.empty()) return;
    lines.emplace_back();
    add(lines, page, "Corrections:", 0, Ink::bold);
    for (const auto* outcome : summary.corrections) {
        const auto& ask = outcome->posed.ask;
        add_hanging(lines, page, "  [ ] ",
                    ask.title + " - " + ask.version.article + " (" + std::string{content::to_text(ask.stakes)} + ")");
    }
}

std::string due_line(const practice::Summary& summary) {
    std::vector<std::string> parts;
    if (summary.due_tomorrow > 0) parts.push_back(std::to_string(summary.due_tomorrow) + " by tomorrow");
    if (summary.due_this_week > 0) parts.push_back(std::to_string(summary.due_this_week) + " within a week");
    if (summary.due_later > 0) parts.push_back(std::to_string(summary.due_later) + " later");
    return "Of the points asked, below target again: " + base::join(parts, ", ") + ".";
}

std::string standing_line(const practice::Standing& standing) {
    return counted(standing.in_scope, "point") + ": " + std::to_string(standing.fresh) + " new, " +
           std::to_string(standing.due) + " due" +
           (standing.changed > 0 ? ", " + std::to_string(standing.changed) + " changed with the edition"
                                 : std::string{}) +
           (standing.urgent > 0 ? ", " + std::to_string(standing.urgent) + " sure and wrong" : std::string{});
}

}  // namespace

std::string limits_text(const practice::SessionPlan& plan) {
    std::vector<std::string> limits;
    if (plan.budget < std::chrono::hours{24})
        limits.push_back(counted(static_cast<std::size_t>(std::max<long>(1, plan.budget.count() / 60)), "minute"));
    if (plan.most_asks > 0)
        limits.push_back(plan.open_book ? counted(plan.most_asks, "look-up")
                                        : counted(plan.most_asks, "ask") + " and corrections");
    return base::join(limits, ", ");
}

Lines opening_text(const practice::SessionFor& what, const practice::Standing& standing, const Page& page) {
    Lines lines;
    add(lines, page, "GREENTAG study: " + what.learner.name, 0, Ink::bold);
    add(lines, page,
        trade::to_text(what.pick.edition) + " edition" + (what.jurisdiction.empty() ? "" : ", " + what.jurisdiction) +
            "; " + limits_text(what.plan));
    add(lines, page, standing_line(standing));
    add(lines, page, kAid, 0, Ink::faint);
    add(lines, page, "Type ? for where to look, ! for 'I do not know', q to leave (all is kept).", 0, Ink::faint);
    return lines;
}

Lines ask_text(const practice::Posed& posed, bool with_story, const Page& page) {
    const auto& ask = posed.ask;
    Lines lines;
    lines.emplace_back();
    const std::string head =
        "-- " + std::to_string(posed.number) + " -- " + ask.topic + " -- " + reason_text(posed.reason) + " ";
    const std::size_t used = base::display_width(head);
    lines.push_back(
        inked(page, Ink::bold,
              used < page.width ? head + std::string(page.width - used, '-') : base::wrap(head, page.width).front()));
    if (with_story) {
        add(lines, page, "SERVICE CALL: " + ask.call, 0, Ink::bold);
        add(lines, page, ask.story);
        lines.emplace_back();
    }
    add(lines, page, ask.question.text);
    if (const auto form = form_line(ask); !form.empty()) add(lines, page, form, 0, Ink::faint);
    for (std::size_t i = 0; i < ask.options.size(); ++i)
        add_hanging(lines, page, "  " + content::letter(i) + ") ", ask.options[i].text);
    return lines;
}

Lines outcome_text(const Outcome& outcome, const Page& page) {
    Lines lines;
    add(lines, page, verdict(outcome), 2, verdict_ink(outcome));
    for (const auto& note : outcome.mark.notes) add_hanging(lines, page, "  - ", note);
    add_mistakes(lines, outcome, page);
    add_right(lines, outcome, page);
    add_why(lines, outcome, page);
    return lines;
}

Lines summary_text(const practice::Summary& summary, const practice::SessionFor& what, const Page& page) {
    Lines lines;
    lines.emplace_back();
    lines.push_back(inked(page, Ink::faint, rule(page)));
    if (summary.outcomes.empty()) {
        add(lines, page, "Nothing was answered this time. " + standing_line(summary.standing) + ".");
        return lines;
    }
    const bool green = summary.green();
    add(lines, page,
        green ? "GREEN TAG: nothing left to correct"
              : "RED TAG: " + counted(summary.corrections.size(), "correction") + " due",
        0, green ? Ink::good : Ink::bad);
    add(lines, page,
        what.learner.name + ": " + counted(summary.outcomes.size(), "answer") + ", marks " +
            base::number_text(summary.marks, 1) + " of " + std::to_string(summary.outcomes.size()) +
            (summary.put_right > 0 ? "; " + std::to_string(summary.put_right) + " put right" : ""));
    add_calibration(lines, summary, page);
    add_corrections(lines, summary, page);
    lines.emplace_back();
    add(lines, page, due_line(summary));
    if (summary.back_tomorrow > 0)
        add(lines, page,
            counted(summary.back_tomorrow, "point") + " you were sure of and wrong: first thing next time.", 0,
            Ink::warn);
    add(lines, page, "Now " + standing_line(summary.standing) + ".");
    lines.emplace_back();
    for (auto& line : panel_directory(summary.topics, page)) lines.push_back(std::move(line));
    add(lines, page,
        "Load: predicted recall now, over the points met. due: some below target. tripped: sure and wrong.", 0,
        Ink::faint);
    return lines;
}

std::string look_hint(const content::Ask& ask) {
    if (content::looked_up(ask.question.point)) return "look in your own book: its contents, or its index";
    const auto article = trade::parse_article(ask.version.article);
    if (!article) return "look in " + ask.version.article;
    if (ask.question.form == Form::article) return "look in Article " + std::to_string(article->article);
    return "look at " + ask.version.article + " in the " + trade::to_text(ask.edition) + " edition";
}

}  // namespace report
