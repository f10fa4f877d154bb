#include "report/session_text.hpp"

#include <algorithm>
#include <set>

#include <doctest/doctest.h>

#include "base/text.hpp"
#include "content/shipped.hpp"
#include "memory/model.hpp"
#include "practice/asks.hpp"
#include "practice/memory_log.hpp"
#include "report/panel.hpp"
#include "report/point_text.hpp"

namespace {

using practice::Outcome;
using practice::Posed;
using report::Page;
using Lines = std::vector<std::string>;

const base::Instant kStart = base::from_milliseconds(1'767'225'600'000);

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

Lines without_escapes(const Lines& lines) {
    Lines plain;
    for (const auto& line : lines) plain.push_back(without_escapes(line));
    return plain;
}

/// A session over the shipped library with every kind of outcome in it.
struct Studied {
    Studied() {
        what.learner.name = "Ada Marguerite Featherstonehaugh-Okonkwo";
        what.jurisdiction = "alder-county";
        what.pick.horizon = base::after_days(kStart, 90);
        what.plan.budget = std::chrono::minutes{14};
        what.start = kStart;
        practice::Session session{shipped::library(), log, memory::advance, what};
        base::Random random{5};
        base::Instant now = kStart;
        opening = session.standing(now);
        for (auto posed = session.next(now); posed; posed = session.next(now)) {
            asked.push_back(*posed);
            outcomes.push_back(session.answer(reply_to(*posed, random), now).value());
            now += std::chrono::seconds{20};
        }
        summary = session.summary(now);
    }

    static practice::Reply reply_to(const Posed& posed, base::Random& random) {
        practice::Reply reply{content::right_answer(posed.ask), static_cast<memory::Sure>(random.below(3)), 0};
        reply.gave_up = random.below(6) == 0;
        reply.looked_up = random.below(6) == 0;
        if (!posed.ask.options.empty() && random.below(3) == 0) std::ranges::reverse(reply.text);
        if (posed.ask.question.form == content::Form::choose && random.below(2) == 0) reply.text = "a";
        return reply;
    }

    /// Every screen of the session on one kind of paper, one after another.
    [[nodiscard]] Lines screens(const Page& page) const {
        Lines all = report::opening_text(what, opening, page);
        const auto take = [&](const Lines& lines) { all.insert(all.end(), lines.begin(), lines.end()); };
        for (const auto& posed : asked) take(report::ask_text(posed, !posed.ask.call.empty(), page));
        for (const auto& outcome : outcomes) take(report::outcome_text(outcome, page));
        take(report::summary_text(summary, what, page));
        take(report::summary_text({}, what, page));
        return all;
    }

    MemoryLog log;
    practice::SessionFor what;
    practice::Standing opening;
    std::vector<Posed> asked;
    std::vector<Outcome> outcomes;
    practice::Summary summary;
};

const Studied& studied() {
    static const Studied session;
    return session;
}

bool any_line(const Lines& lines, const std::string& part) {
    return std::ranges::any_of(lines, [&](const std::string& l) { return l.find(part) != std::string::npos; });
}

Outcome outcome_of(const content::Ask& ask, const std::string& given) {
    Outcome outcome;
    outcome.posed.ask = ask;
    outcome.reply.text = given;
    outcome.mark = practice::mark(ask, given).value();
    return outcome;
}

}  // namespace

TEST_CASE("screen: property: no line is wider than the page, at any width") {
    for (std::size_t width = 20; width <= 100; ++width)
        for (const auto& line : studied().screens({width, true})) {
            const auto plain = without_escapes(line);
            REQUIRE_MESSAGE(base::display_width(plain) <= width, width, ": ", plain);
        }
}

TEST_CASE("screen: property: points and calls in full fit the page as well") {
    for (const std::size_t width : {20U, 33U, 80U}) {
        for (const auto& entry : shipped::library().index().points)
            for (const auto& line : report::point_text(shipped::library().point(entry), {width, false}))
                REQUIRE_MESSAGE(base::display_width(line) <= width, entry.id.text, " ", line);
        for (const auto& entry : shipped::library().index().scenarios)
            for (const auto& line : report::scenario_text(shipped::library().scenario(entry), {width, false}))
                REQUIRE_MESSAGE(base::display_width(line) <= width, entry.id, " ", line);
    }
}

TEST_CASE("screen: colour adds escapes and nothing else") {
    for (const std::size_t width : {20U, 63U, 64U, 80U, 100U}) {
        const Lines coloured = studied().screens({width, true});
        CHECK(without_escapes(coloured) == studied().screens({width, false}));
        CHECK(any_line(coloured, "\x1b["));
    }
}

TEST_CASE("screen: no line is closed in another colour than it opened") {
    for (const auto& line : studied().screens({80, true})) {
        const auto opened = std::ranges::count(line, '\x1b');
        CHECK_MESSAGE(opened % 2 == 0, line);
        if (opened > 0) CHECK(line.rfind("\x1b[0m") == line.rfind('\x1b'));
    }
}

TEST_CASE("screen: an ask shows its words and options and not its answer") {
    for (const auto& posed : studied().asked) {
        const std::string shown = base::join(report::ask_text(posed, false, {100, false}), " ");
        for (std::size_t i = 0; i < posed.ask.options.size(); ++i)
            CHECK(shown.find("  " + content::letter(i) + ") " + posed.ask.options[i].text.substr(0, 20)) !=
                  std::string::npos);
        if (posed.ask.question.form == content::Form::article)
            CHECK_MESSAGE(shown.find(posed.ask.version.article) == std::string::npos, shown);
    }
}

TEST_CASE("screen: the story of a call is shown when asked for only") {
    const auto call = std::ranges::find(studied().asked, practice::Reason::call, &Posed::reason);
    REQUIRE(call != studied().asked.end());
    CHECK(any_line(report::ask_text(*call, true, {80, false}), "SERVICE CALL: "));
    CHECK_FALSE(any_line(report::ask_text(*call, false, {80, false}), "SERVICE CALL: "));
}

TEST_CASE("screen: an outcome says how it went in words") {
    const auto ask = asks::choosing(content::Form::choose_all, {{"one", ""}, {"two", "m.b"}, {"three", ""}});
    const Page page{80, false};
    CHECK(report::outcome_text(outcome_of(ask, "ac"), page).at(0) == "  RIGHT");
    CHECK(report::outcome_text(outcome_of(ask, "b"), page).at(0) == "  WRONG");
    CHECK(report::outcome_text(outcome_of(ask, "a"), page).at(0) == "  PARTLY RIGHT, 50%");
    Outcome gave_up = outcome_of(ask, "b");
    gave_up.reply.gave_up = true;
    CHECK(report::outcome_text(gave_up, page).at(0) == "  NOT KNOWN");
}

TEST_CASE("screen: an outcome names the mistake, the right answer, the rule and the caution") {
    auto ask = asks::choosing(content::Form::choose, {{"one", "m.a"}, {"two", ""}, {"three", "m.a"}});
    ask.caution = "Dead first.";
    ask.version.unverified = true;
    Outcome outcome = outcome_of(ask, "a");
    outcome.posed.ask.mistakes = {{"m.a", "Thinks so."}};
    CHECK(report::outcome_text(outcome, {80, false}) ==
          Lines{"  WRONG", "  Mistake: Thinks so.", "  Right:   b) two", "  Why:     The rule.",
                "  Code:    210.8(A)(2) (2023 edition)",
                "  Note:    not verified for this edition; check it in your own book",
                "  Basis:   from memory; verify against the adopted edition", "  CAUTION: Dead first."});
}

TEST_CASE("screen: a summary is green only when nothing is left to correct") {
    const Page page{80, false};
    CHECK(any_line(report::summary_text(studied().summary, studied().what, page), "Corrections:"));
    practice::Summary green;
    green.outcomes.push_back(outcome_of(asks::number(1, base::Unit::ft), "1"));
    green.marks = 1;
    const Lines lines = report::summary_text(green, studied().what, page);
    CHECK(any_line(lines, "GREEN TAG"));
    CHECK_FALSE(any_line(lines, "Corrections:"));
    CHECK(any_line(report::summary_text({}, studied().what, page), "Nothing was answered"));
}

TEST_CASE("screen: where to look leads to the rule without giving it away") {
    const auto ask = asks::choosing(content::Form::choose, {{"one", ""}, {"two", "m"}});
    CHECK(report::look_hint(ask) == "look at 210.8(A)(2) in the 2023 edition");
    CHECK(report::look_hint(asks::article("210.8(A)(2)")) == "look in Article 210");
    for (const auto& shown : shipped::all_asks(1))
        if (shown.question.form == content::Form::article && shown.version.article.find('.') != std::string::npos)
            CHECK(report::look_hint(shown).find(shown.version.article) == std::string::npos);
}
