#include "report/exam/sitting_text.hpp"

#include <algorithm>
#include <chrono>

#include "base/text.hpp"
#include "practice/mark.hpp"
#include "report/source_text.hpp"
#include "report/table.hpp"

namespace report {
namespace {

using practice::Sitting;
using practice::SittingResult;
using Lines = std::vector<std::string>;

constexpr std::chrono::minutes kSoon{5};
constexpr std::string_view kNoPromise =
    "A mock exam on our own questions: no promise. Your board's exam differs, and its own bulletin says how.";
constexpr std::string_view kFew = "A section of few questions says little by itself: one slip can turn its tag.";
constexpr std::string_view kAid = "Training aid. The adopted code, local amendments and the inspector decide.";

std::string section_title(const Sitting& sitting, const content::Outline& outline, std::size_t place) {
    return outline.sections.at(sitting.what().paper.items.at(place).section).title;
}

std::string of_text(std::size_t some, std::size_t all) {
    return std::to_string(some) + " of " + std::to_string(all);
}

/// "-- head ------", filled up to the page; on more lines where it is too long for one.
void add_bar(Lines& lines, const Page& page, const std::string& words) {
    for (const auto& line : base::wrap("-- " + words, page.width)) {
        const std::size_t used = base::display_width(line) + 1;
        lines.push_back(
            inked(page, Ink::bold, used < page.width ? line + " " + std::string(page.width - used, '-') : line));
    }
}

std::string pass_text(const content::Outline& outline, std::size_t asked) {
    return std::to_string(content::right_to_pass(outline, static_cast<int>(asked))) + " right pass";
}

std::string state_letters(const practice::AskStanding& ask) {
    const std::string letters = std::string{ask.answered() ? "A" : ""} + (ask.flagged ? "F" : "");
    return letters.empty() ? "-" : letters;
}

/// The cells of one section in rows that fit the page, numbers under numbers.
void add_cells(Lines& lines, const Page& page, const Sitting& sitting, std::size_t from, std::size_t to) {
    const std::size_t digits = std::to_string(sitting.size()).size();
    const std::size_t cell = digits + 5;  // "12 AF" and two spaces, all as wide as the widest
    const std::size_t columns =
        std::clamp<std::size_t>((page.width - std::min<std::size_t>(2, page.width)) / cell, 1, 10);
    std::string row;
    for (std::size_t place = from; place < to; ++place) {
        const auto& ask = sitting.state().asks[place];
        row += padded(right_set(std::to_string(place + 1), digits) + " " + state_letters(ask), cell);
        if ((place - from + 1) % columns != 0 && place + 1 != to) continue;
        row.erase(row.find_last_not_of(' ') + 1);
        lines.push_back("  " + row);
        row.clear();
    }
}

std::string tag_text(bool green) {
    return green ? "green tag" : "red tag";
}

void add_tag(Lines& lines, const SittingResult& result, const Page& page) {
    const bool enough = result.right >= result.needed;
    const std::string score =
        of_text(result.right, result.asked) + " right, " + std::to_string(result.needed) + " needed";
    if (result.green())
        add(lines, page, "GREEN TAG: " + score, 0, Ink::good);
    else
        add(lines, page, "RED TAG: " + score + (enough ? ", but a section that must pass did not" : ""), 0, Ink::bad);
    if (result.unanswered > 0)
        add(lines, page, counted(result.unanswered, "ask") + " without an answer, counted as wrong.", 0, Ink::warn);
    if (result.out_of_time) add(lines, page, "Time was up before it was handed in.");
}

/// A section in one row, later words of a long title above its end.
void add_section_row(Lines& lines, const std::string& title, std::size_t width, const std::string& cells, Ink ink,
                     const Page& page) {
    auto named = base::wrap(title, width - 1);
    if (named.empty()) named.emplace_back();
    named.back() = padded(named.back(), width) + cells;
    for (const auto& line : named) lines.push_back(inked(page, ink, line));
}

void add_sections(Lines& lines, const content::Outline& outline, const SittingResult& result, const Page& page) {
    constexpr std::size_t kRight = 12, kNeeded = 9, kTag = 11;
    constexpr std::size_t kCells = kRight + kNeeded + kTag;
    // Set as one: rows that fit and rows that do not would make a ragged table.
    const bool wide = page.width >= kCells + 28;
    const std::size_t width = wide ? page.width - kCells : page.width;
    const auto cells = [&](const std::string& right, const std::string& needed, const std::string& tag) {
        return right_set(right, kRight) + right_set(needed, kNeeded) + "  " + tag;
    };
    lines.emplace_back();
    add(lines, page, "Sections, the weakest first", 0, Ink::bold);
    if (wide) lines.push_back(inked(page, Ink::faint, padded("", width) + cells("right", "needed", "tag")));
    for (const auto& score : result.sections) {
        const std::string right = of_text(score.right, score.asked);
        const std::string needed = std::to_string(score.needed);
        const std::string title =
            outline.sections[score.section].title + (score.must_pass ? " (must pass on its own)" : "");
        const auto ink = score.green() ? Ink::good : Ink::bad;
        if (wide) {
            add_section_row(lines, title, width, cells(right, needed, tag_text(score.green())), ink, page);
            continue;
        }
        add(lines, page, title, 0, ink);
        add(lines, page, right + " right, " + needed + " needed: " + tag_text(score.green()), 2, ink);
    }
}

void add_corrections(Lines& lines, const Sitting& sitting, const content::Outline& outline, const SittingResult& result,
                     const Page& page) {
    lines.emplace_back();
    if (result.corrections.empty()) {
        add(lines, page, "No corrections.", 0, Ink::bold);
        return;
    }
    add(lines, page, "Corrections: " + counted(result.corrections.size(), "point"), 0, Ink::bold);
    const practice::Correction* before = nullptr;
    for (const auto& one : result.corrections) {
        if (before == nullptr || before->section != one.section) add(lines, page, outline.sections[one.section].title);
        before = &one;
        const auto& ask = sitting.ask(one.asks.front());
        add_hanging(lines, page, "  [ ] ",
                    ask.title + " - " + ask.version.article + " (" + std::string{content::to_text(ask.stakes)} +
                        (one.unanswered ? ", no answer)" : ")"));
    }
}

void add_wrong_ask(Lines& lines, const Sitting& sitting, std::size_t place, const practice::Mark& mark,
                   const Page& page) {
    const auto& ask = sitting.ask(place);
    const auto& standing = sitting.state().asks[place];
    lines.emplace_back();
    add_bar(lines, page, std::to_string(place + 1) + " -- " + ask.title);
    if (!ask.story.empty()) add(lines, page, ask.story);
    add(lines, page, ask.question.text);
    for (std::size_t i = 0; i < ask.options.size(); ++i)
        add_hanging(lines, page, "  " + content::letter(i) + ") ", ask.options[i].text);
    const std::string given = !standing.answered() ? "no answer" : standing.given == "!" ? "not known" : standing.given;
    add_hanging(lines, page, "  Yours:   ", given, Ink::bad);
    for (const auto& note : mark.notes) add_hanging(lines, page, "  - ", note);
    std::string label = "  Right:   ";
    for (const auto& part : base::split(content::right_in_words(ask), '\n')) {
        add_hanging(lines, page, label, part, Ink::bold);
        label.assign(label.size(), ' ');
    }
    add_hanging(lines, page, "  Why:     ", ask.question.why.empty() ? ask.version.says : ask.question.why);
    const auto [source_label, source] = source_text(ask);
    add_hanging(lines, page, padded("  " + source_label + ":", label.size()), source);
    if (!ask.caution.empty()) add_hanging(lines, page, "  CAUTION: ", ask.caution, Ink::warn);
}

}  // namespace

std::string time_text(base::Milliseconds left) {
    const auto seconds = std::max<std::int64_t>(0, left.count() / 1000);
    const auto minutes = seconds / 60;
    if (minutes >= 60) return std::to_string(minutes / 60) + " h " + std::to_string(minutes % 60) + " min";
    if (minutes > 0) return std::to_string(minutes) + " min";
    return std::to_string(seconds) + " s";
}

Lines exam_opening_text(const practice::SittingFor& what, const content::Outline& outline, const Page& page) {
    Lines lines;
    const std::size_t asked = what.paper.items.size();
    add(lines, page, "GREENTAG mock exam: " + outline.title, 0, Ink::bold);
    add(lines, page,
        counted(asked, "question") + ", " + time_text(what.limit) + ", " + std::string{content::to_text(outline.book)} +
            " book, " + trade::to_text(what.paper.edition) + " edition; " + pass_text(outline, asked) + ".");
    add(lines, page,
        "The clock starts now and does not stop, whatever happens. Answer in any order and change what you like; "
        "nothing is told until the end.");
    add(lines, page, kNoPromise, 0, Ink::faint);
    add(lines, page, kAid, 0, Ink::faint);
    return lines;
}

Lines exam_head_text(const Sitting& sitting, base::Instant now, const Page& page) {
    Lines lines;
    const auto counts = sitting.counts();
    const auto left = sitting.time_left(now);
    const bool over = sitting.over(now);
    const std::string time = over ? (sitting.state().finished ? "handed in" : "TIME IS UP")
                                  : (left <= kSoon ? "ONLY " : "") + time_text(left) + " left";
    add(lines, page,
        time + "; answered " + of_text(counts.answered, counts.asks) + "; flagged " + std::to_string(counts.flagged), 0,
        left <= kSoon ? Ink::warn : Ink::bold);
    return lines;
}

Lines exam_ask_text(const Sitting& sitting, const content::Outline& outline, std::size_t place, base::Instant now,
                    const Page& page) {
    const auto& ask = sitting.ask(place);
    const auto& standing = sitting.state().asks.at(place);
    Lines lines;
    add_bar(lines, page,
            of_text(place + 1, sitting.size()) + " -- " + (standing.flagged ? "FLAGGED -- " : "") +
                section_title(sitting, outline, place));
    for (auto& line : exam_head_text(sitting, now, page)) lines.push_back(std::move(line));
    lines.emplace_back();
    if (!ask.call.empty()) {
        add(lines, page, "SERVICE CALL: " + ask.call, 0, Ink::bold);
        add(lines, page, ask.story);
        lines.emplace_back();
    }
    add(lines, page, ask.question.text);
    for (std::size_t i = 0; i < ask.options.size(); ++i)
        add_hanging(lines, page, "  " + content::letter(i) + ") ", ask.options[i].text);
    add_hanging(lines, page, "  Wanted: ", practice::answer_hint(ask), Ink::faint);
    if (standing.answered())
        add_hanging(lines, page,
                    "  Your answer so far: ", standing.given == "!" ? "! (I do not know)" : standing.given);
    return lines;
}

Lines exam_overview_text(const Sitting& sitting, const content::Outline& outline, base::Instant now, const Page& page) {
    Lines lines = exam_head_text(sitting, now, page);
    const auto& items = sitting.what().paper.items;
    for (std::size_t from = 0; from < items.size();) {
        std::size_t to = from;
        while (to < items.size() && items[to].section == items[from].section) ++to;
        add(lines, page, outline.sections.at(items[from].section).title, 0, Ink::bold);
        add_cells(lines, page, sitting, from, to);
        from = to;
    }
    add(lines, page, "- no answer yet, A answered, F flagged, AF answered and flagged", 0, Ink::faint);
    return lines;
}

Lines exam_result_text(const Sitting& sitting, const content::Outline& outline, const SittingResult& result,
                       const Page& page) {
    Lines lines;
    add(lines, page, "GREENTAG mock exam: " + outline.title, 0, Ink::bold);
    add_tag(lines, result, page);
    add_sections(lines, outline, result, page);
    add_corrections(lines, sitting, outline, result, page);
    lines.emplace_back();
    add(lines, page, kFew, 0, Ink::faint);
    add(lines, page, kNoPromise, 0, Ink::faint);
    add(lines, page, kAid, 0, Ink::faint);
    return lines;
}

Lines exam_corrections_text(const Sitting& sitting, const SittingResult& result, const Page& page) {
    Lines lines;
    for (const auto& one : result.corrections)
        for (const auto place : one.asks) add_wrong_ask(lines, sitting, place, result.marks.at(place), page);
    return lines;
}

}  // namespace report
