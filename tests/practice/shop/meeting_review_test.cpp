#include "practice/shop/meeting_review.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "practice/shop/meetings.hpp"

namespace {

using practice::Meeting;
using Names = std::vector<std::string>;

/// A line for a sheet from options named by their place in authored order, one text an ask.
std::string line(const Meeting& meeting, int number, const std::vector<std::vector<std::size_t>>& options,
                 const std::string& figure, const std::string& first_mark = "") {
    const auto& sheet = *practice::find_sheet(meeting, number);
    std::string text = std::to_string(number) + " ";
    for (std::size_t ask = 0; ask < options.size(); ++ask) {
        text += ask == 2 ? "[" + figure + "]" : "[" + practice::letters_of(sheet, ask, options[ask]) + "]";
        if (ask == 0) text += first_mark;
    }
    return text + "\n";
}

practice::MeetingReview reviewed(const Meeting& meeting, const std::string& text) {
    const auto entered = practice::enter_lines(meeting, text, {"", {}});
    REQUIRE(entered.faults.empty());
    return practice::review(meeting, entered.entries);
}

}  // namespace

TEST_CASE("meeting review: shares, mistakes, names and order, worked by hand") {
    // Stakes weights 1.5, 1.3, 1.0, 0.8. Ask 1: Ada right, Ben x and sure, Cleo y, Dov x: 1 of 4; (3 + 1) / 4 * 1.5.
    // Ask 2: Ada all, Ben one of two, Cleo r and s (one mistake twice), Dov blank: 1 of 4; 3 / 4 * 1.3.
    // Ask 3: all right. Ask 4: Dov wrong: 3 of 4; 1 / 4 * 0.8.
    const Meeting meeting = meetings::small(5);
    const auto review = reviewed(meeting, line(meeting, 1, {{0}, {0, 1}, {}, {0}}, "18") +
                                              line(meeting, 2, {{1}, {0}, {}, {0}}, "18.2 in3", "+") +
                                              line(meeting, 3, {{2}, {2, 3}, {}, {0}}, "18") +
                                              line(meeting, 4, {{1}, {}, {}, {2}}, "17.5"));
    REQUIRE(review.asks.size() == 4);
    CHECK(review.talk == std::vector<std::size_t>{0, 1, 3});
    CHECK(review.asks[0].share_right == 0.25);
    CHECK(review.asks[0].urgency == doctest::Approx(1.5).epsilon(1e-12));
    CHECK(review.asks[0].wrong == Names{"Ben", "Cleo", "Dov"});
    CHECK(review.asks[0].sure_and_wrong == Names{"Ben"});
    REQUIRE(review.asks[0].mistake);
    CHECK(review.asks[0].mistake->id == "m.x");
    CHECK(review.asks[0].mistake->words == "Takes x for it.");
    CHECK(review.asks[0].mistake->count == 2);
    CHECK(review.asks[1].right == 1);
    CHECK(review.asks[1].blank == 1);
    CHECK(review.asks[1].urgency == doctest::Approx(0.975).epsilon(1e-12));
    CHECK(review.asks[1].mistake->count == 1);
    CHECK(review.asks[2].right == 4);
    CHECK_FALSE(review.asks[2].mistake);
    CHECK(review.asks[3].share_right == 0.75);
    CHECK(review.asks[3].mistake->words == "m.y");  // a mistake without a line
    CHECK(review.missing == Names{"Eve"});
    REQUIRE(review.sheets.size() == 4);
    CHECK(review.sheets[0].green());
    CHECK(review.sheets[1].right == 2);
    CHECK(review.sheets[1].corrections == 2);
    CHECK_FALSE(review.green());
}

TEST_CASE("meeting review: stakes decide between asks that went equally badly") {
    const Meeting meeting = meetings::small(1);
    const auto review = reviewed(meeting, line(meeting, 1, {{1}, {2}, {}, {1}}, "99"));
    CHECK(review.talk == std::vector<std::size_t>{0, 1, 2, 3});
    Meeting turned = meeting;
    for (std::size_t i = 0; i < 4; ++i) turned.asks[i].ask.stakes = static_cast<content::Stakes>(3 - i);
    CHECK(reviewed(turned, line(turned, 1, {{1}, {2}, {}, {1}}, "99")).talk == std::vector<std::size_t>{3, 2, 1, 0});
}

TEST_CASE("meeting review: all right is a green tag, nothing entered is none") {
    const Meeting meeting = meetings::small(2);
    CHECK(reviewed(meeting, line(meeting, 2, {{0}, {0, 1}, {}, {0}}, "18")).green());
    const auto none = practice::review(meeting, {});
    CHECK_FALSE(none.green());
    CHECK(none.talk.empty());
    CHECK(none.missing == Names{"Ada", "Ben"});
    CHECK(none.asks.at(0).share_right == 0.0);
}

TEST_CASE("meeting review: an answer that comes twice counts once, and order does not matter") {
    const Meeting meeting = meetings::planned(5, 20);
    base::Random random{9};
    std::string text;
    for (const auto& sheet : meeting.sheets) {
        text += std::to_string(sheet.number) + " ";
        for (const auto& one : meeting.asks) text += one.ask.options.empty() ? "[3]" : content::letter(random.below(3));
        text += "\n";
    }
    auto entries = practice::enter_lines(meeting, text, {"", {}}).entries;
    REQUIRE(entries.size() == 20 * meeting.asks.size());
    const auto once = practice::review(meeting, entries);
    auto twice = entries;
    twice.insert(twice.end(), entries.begin(), entries.end());
    random.shuffle(twice);
    const auto again = practice::review(meeting, twice);
    CHECK(again.talk == once.talk);
    for (std::size_t i = 0; i < once.asks.size(); ++i) {
        CHECK(again.asks[i].right == once.asks[i].right);
        CHECK(again.asks[i].wrong == once.asks[i].wrong);
        CHECK(once.asks[i].answers == 20);
        CHECK(once.asks[i].right + once.asks[i].wrong.size() == 20);
    }
}
