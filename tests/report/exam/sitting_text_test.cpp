#include "report/exam/sitting_text.hpp"

#include <algorithm>
#include <optional>

#include <doctest/doctest.h>

#include "base/text.hpp"
#include "content/contents.hpp"
#include "content/shipped.hpp"
#include "practice/exam/candidates.hpp"
#include "practice/exam/exams.hpp"

namespace {

using exams::event;
using exams::kStart;
using practice::Did;
using practice::Sitting;
using report::Page;
using Lines = std::vector<std::string>;

std::string without_escapes(const std::string& line) {
    std::string plain;
    for (std::size_t i = 0; i < line.size(); ++i) {
        if (line[i] == '\x1b')
            i = line.find('m', i);
        else
            plain += line[i];
    }
    return plain;
}

bool any_line(const Lines& lines, const std::string& part) {
    return std::ranges::any_of(lines, [&](const std::string& l) { return l.find(part) != std::string::npos; });
}

std::string text_of(const Lines& lines) {
    return base::join(lines, "\n");
}

/// The words alone, however they are broken into lines.
std::string words_of(const Lines& lines) {
    std::string words;
    for (const auto& line : lines) words += (words.empty() ? "" : " ") + std::string{base::trim(without_escapes(line))};
    return words;
}

/// A mock exam over the shipped library, every third ask left open.
struct Sat {
    Sat() {
        const auto outlines = content::load_outlines({PROJECT_FOLDER}).value();
        for (const auto& one : outlines)
            if (one.id == "residential-wireman") exam = one;
        const auto& library = shipped::library();
        const auto parts = practice::parts_of(exam, content::traits_in(library, trade::Edition::e2023));
        practice::SittingFor what;
        auto asked = practice::full_length(exam);
        const auto from = practice::candidates_in(library, parts, {trade::Edition::e2023, true, {}});
        auto made = practice::assemble({&exam, trade::Edition::e2023, asked, 4}, from);
        if (!made) made = practice::assemble({&exam, trade::Edition::e2023, made.error().possible, 4}, from);
        what.paper = made.value();
        what.start = kStart;
        what.limit = practice::time_for(exam, what.paper.items.size());
        sitting.emplace(what, practice::pose(library, what.paper).value());
        for (std::size_t n = 0; n < sitting->size(); ++n) {
            const auto at = 60 * static_cast<long>(n + 1);
            if (n % 3 != 0) {
                auto right = content::right_answer(sitting->ask(n));
                REQUIRE(sitting->apply(event(at, Did::answer, n, n % 3 == 1 ? right : "!")));
            }
            if (n % 4 == 0) REQUIRE(sitting->apply(event(at, Did::flag, n)));
        }
    }

    [[nodiscard]] Lines before_the_end(const Page& page) const {
        const auto now = kStart + std::chrono::minutes{70};
        Lines all = report::exam_opening_text(sitting->what(), exam, page);
        const auto take = [&](const Lines& lines) { all.insert(all.end(), lines.begin(), lines.end()); };
        for (std::size_t n = 0; n < sitting->size(); ++n) take(report::exam_ask_text(*sitting, exam, n, now, page));
        take(report::exam_overview_text(*sitting, exam, now, page));
        return all;
    }

    [[nodiscard]] Lines all(const Page& page) const {
        Lines all = before_the_end(page);
        const auto take = [&](const Lines& lines) { all.insert(all.end(), lines.begin(), lines.end()); };
        const auto found = practice::result_of(*sitting, exam, sitting->ends_at()).value();
        take(report::exam_result_text(*sitting, exam, found, page));
        take(report::exam_corrections_text(*sitting, found, page));
        return all;
    }

    content::Outline exam;
    std::optional<Sitting> sitting;
};

const Sat& sat() {
    static const Sat one;
    return one;
}

/// Twelve asks in two sections, some answered and flagged.
Sitting small() {
    auto sitting = exams::sitting({8, 4});
    REQUIRE(sitting.apply(event(60, Did::answer, 0, "a")));
    REQUIRE(sitting.apply(event(90, Did::answer, 8, "b")));
    REQUIRE(sitting.apply(event(95, Did::flag, 8)));
    REQUIRE(sitting.apply(event(97, Did::flag, 11)));
    return sitting;
}

}  // namespace

TEST_CASE("exam screens: property: no line is wider than the page, at any width") {
    for (std::size_t width = 20; width <= 100; width += 1)
        for (const auto& line : sat().all({width, true})) {
            const auto plain = without_escapes(line);
            REQUIRE_MESSAGE(base::display_width(plain) <= width, width, ": ", plain);
        }
}

TEST_CASE("exam screens: colour adds escapes and nothing else") {
    for (const std::size_t width : {40U, 80U}) {
        const Lines coloured = sat().all({width, true});
        Lines plain;
        for (const auto& line : coloured) plain.push_back(without_escapes(line));
        CHECK(plain == sat().all({width, false}));
        CHECK(any_line(coloured, "\x1b["));
    }
}

TEST_CASE("exam screens: time left is rounded down") {
    using std::chrono::milliseconds;
    CHECK(report::time_text(milliseconds{3 * 3'600'000}) == "3 h 0 min");
    CHECK(report::time_text(milliseconds{2 * 3'600'000 - 1}) == "1 h 59 min");
    CHECK(report::time_text(milliseconds{3'599'999}) == "59 min");
    CHECK(report::time_text(milliseconds{60'000}) == "1 min");
    CHECK(report::time_text(milliseconds{59'999}) == "59 s");
    CHECK(report::time_text(milliseconds{999}) == "0 s");
    CHECK(report::time_text(milliseconds{-5}) == "0 s");
}

TEST_CASE("exam screens: head, ask and overview as they stand at 40 columns") {
    const auto sitting = small();
    const auto exam = exams::outline({8, 4});
    const auto now = kStart + std::chrono::minutes{20};
    CHECK(text_of(report::exam_ask_text(sitting, exam, 8, now, {40, false})) ==
          "-- 9 of 12 -- FLAGGED -- Section 2 -----\n"
          "40 min left; answered 2 of 12; flagged 2\n"
          "\n"
          "What now?\n"
          "  a) this\n"
          "  b) that\n"
          "  Wanted: one letter, a-b\n"
          "  Your answer so far: b");
    CHECK(text_of(report::exam_overview_text(sitting, exam, now, {40, false})) ==
          "40 min left; answered 2 of 12; flagged 2\n"
          "Section 1\n"
          "   1 A    2 -    3 -    4 -    5 -\n"
          "   6 -    7 -    8 -\n"
          "Section 2\n"
          "   9 AF  10 -   11 -   12 F\n"
          "- no answer yet, A answered, F flagged,\n"
          "AF answered and flagged");
}

TEST_CASE("exam screens: a long head goes on to the next line, and the flag is never lost") {
    auto exam = exams::outline({8, 4});
    exam.sections[1].title = "Working out loads and voltage drop";
    const auto lines = report::exam_ask_text(small(), exam, 8, kStart, {40, false});
    CHECK(lines[0] == "-- 9 of 12 -- FLAGGED -- Working out ---");
    CHECK(lines[1] == "loads and voltage drop -----------------");
}

TEST_CASE("exam screens: the last minutes and the end are told in words") {
    auto sitting = small();
    const auto head = [&](base::Milliseconds gone) {
        return text_of(report::exam_head_text(sitting, kStart + gone, {80, false}));
    };
    CHECK(head(std::chrono::minutes{54}) == "6 min left; answered 2 of 12; flagged 2");
    CHECK(head(std::chrono::minutes{55}) == "ONLY 5 min left; answered 2 of 12; flagged 2");
    CHECK(head(std::chrono::minutes{60}) == "TIME IS UP; answered 2 of 12; flagged 2");
    REQUIRE(sitting.apply(event(100, Did::finish)));
    CHECK(head(std::chrono::minutes{2}) == "handed in; answered 2 of 12; flagged 2");
}

TEST_CASE("exam screens: before the end nothing hangs on whether answers are right") {
    // Two sittings that differ only in which answers are right look the same.
    const auto exam = exams::outline({4});
    const auto screens = [&](std::size_t right_option) {
        practice::SittingFor what;
        what.start = kStart;
        what.limit = std::chrono::hours{1};
        std::vector<content::Ask> posed;
        for (std::size_t n = 0; n < 4; ++n) {
            posed.push_back(exams::ask(n));
            posed.back().options[0].right = right_option == 0;
            posed.back().options[1].right = right_option == 1;
            posed.back().options[right_option].mistake.clear();
            what.paper.items.push_back({0, posed.back().id, posed.back().question.point});
        }
        Sitting sitting{what, posed};
        for (std::size_t n = 0; n < 3; ++n) REQUIRE(sitting.apply(event(1, Did::answer, n, n == 2 ? "b" : "a")));
        Lines all;
        for (std::size_t n = 0; n < 4; ++n)
            for (auto& line : report::exam_ask_text(sitting, exam, n, kStart, {80, true})) all.push_back(line);
        for (auto& line : report::exam_overview_text(sitting, exam, kStart, {80, true})) all.push_back(line);
        return all;
    };
    CHECK(screens(0) == screens(1));
    // And none of the shipped explanations is there to be seen.
    const std::string shown = words_of(sat().before_the_end({80, false}));
    for (std::size_t n = 0; n < sat().sitting->size(); ++n) {
        const auto& why = sat().sitting->ask(n).question.why;
        if (why.size() > 40) CHECK(shown.find(why) == std::string::npos);
    }
}

TEST_CASE("exam screens: the result at 80 columns") {
    auto exam = exams::outline({2, 3});
    exam.sections[1].title = "Grounding and bonding of services and of separately derived systems";
    exam.sections[1].pass = 0.6;
    auto sitting = exams::sitting({2, 3});
    REQUIRE(sitting.apply(event(1, Did::answer, 0, "a")));
    REQUIRE(sitting.apply(event(2, Did::answer, 1, "a")));
    REQUIRE(sitting.apply(event(3, Did::answer, 2, "b")));
    REQUIRE(sitting.apply(event(4, Did::finish)));
    const auto found = practice::result_of(sitting, exam, sitting.ends_at()).value();
    CHECK(text_of(report::exam_result_text(sitting, exam, found, {80, false})) ==
          "GREENTAG mock exam: The board's exam\n"
          "RED TAG: 2 of 5 right, 4 needed\n"
          "2 asks without an answer, counted as wrong.\n"
          "\n"
          "Sections, the weakest first\n"
          "                                                       right   needed  tag\n"
          "Grounding and bonding of services and of\n"
          "separately derived systems (must pass on its\n"
          "own)                                                  0 of 3        2  red tag\n"
          "Section 1                                             2 of 2        2  green tag\n"
          "\n"
          "Corrections: 3 points\n"
          "Grounding and bonding of services and of separately derived systems\n"
          "  [ ] Point 2 - 210.8(A)(2) (inspection)\n"
          "  [ ] Point 3 - 210.8(A)(2) (inspection, no answer)\n"
          "  [ ] Point 4 - 210.8(A)(2) (inspection, no answer)\n"
          "\n"
          "A section of few questions says little by itself: one slip can turn its tag.\n"
          "A mock exam on our own questions: no promise. Your board's exam differs, and its\n"
          "own bulletin says how.\n"
          "Training aid. The adopted code, local amendments and the inspector decide.");
    const auto narrow = report::exam_result_text(sitting, exam, found, {40, false});
    CHECK(any_line(narrow, "  0 of 3 right, 2 needed: red tag"));
    CHECK(any_line(narrow, "  2 of 2 right, 2 needed: green tag"));
    CHECK(words_of(narrow).find("no promise") != std::string::npos);
}

TEST_CASE("exam screens: green, and red for one section alone") {
    auto exam = exams::outline({8, 2});
    auto sitting = exams::sitting({8, 2});
    for (std::size_t n = 0; n < 8; ++n) REQUIRE(sitting.apply(event(1, Did::answer, n, "a")));
    const auto shown = [&] {
        const auto found = practice::result_of(sitting, exam, sitting.ends_at()).value();
        return report::exam_result_text(sitting, exam, found, {80, false});
    };
    CHECK(any_line(shown(), "GREEN TAG: 8 of 10 right, 7 needed"));
    CHECK(any_line(shown(), "Time was up before it was handed in."));
    exam.sections[1].pass = 0.5;
    CHECK(any_line(shown(), "RED TAG: 8 of 10 right, 7 needed, but a section that must pass did not"));
    for (std::size_t n = 8; n < 10; ++n) REQUIRE(sitting.apply(event(2, Did::answer, n, "a")));
    CHECK(any_line(shown(), "No corrections."));
}

TEST_CASE("exam screens: corrections tell the right answer once it is over") {
    const auto found = practice::result_of(*sat().sitting, sat().exam, sat().sitting->ends_at()).value();
    REQUIRE(!found.corrections.empty());
    const auto lines = report::exam_corrections_text(*sat().sitting, found, {80, false});
    for (const auto& one : found.corrections)
        for (const auto place : one.asks) CHECK(any_line(lines, "-- " + std::to_string(place + 1) + " -- "));
    std::size_t right = 0;
    for (const auto& line : lines) right += line.starts_with("  Right:   ") ? 1U : 0U;
    CHECK(right == found.asked - found.right);
}
