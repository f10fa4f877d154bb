#include "practice/shop/week_talk.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "base/text.hpp"
#include "content/compose.hpp"
#include "practice/shop/year.hpp"

namespace {

using content::Stakes;

content::Point point(const std::string& id, Stakes stakes, std::size_t words) {
    content::Point one;
    one.id.text = id;
    one.title = id;
    one.topic = "boxes";
    one.stakes = stakes;
    content::Version version;
    version.article = "314.16";
    version.says = id;
    for (std::size_t n = 1; n < words; ++n) version.says += " word";
    one.versions = {version};
    return one;
}

void add_wrong(content::Point& one, const std::string& mistake) {
    content::Question question;
    question.id = std::to_string(one.questions.size());
    question.point = one.id;
    question.wrong = {{"wrong", mistake}};
    one.questions.push_back(question);
}

content::Contents contents_of(std::vector<content::Point> points) {
    content::Contents contents;
    content::Deck deck;
    deck.name = "boxes";
    deck.title = "Boxes";
    deck.mistakes = {{"m.a", "Thinks a."}, {"m.b", "Thinks b."}, {"m.c", "Thinks c."}};
    deck.points = std::move(points);
    contents.decks = {deck};
    return contents;
}

practice::PlannedWeek week_of(const content::Contents& contents) {
    practice::PlannedWeek week;
    week.title = "Article 314: Boxes";
    for (const auto& one : contents.decks[0].points)
        week.points.push_back({one.id, one.title, "314.16", one.stakes, false});
    return week;
}

practice::WeekTalk talk_of(const content::Contents& contents, const practice::MistakeCounts& made = {}) {
    return practice::week_talk(week_of(contents), contents, trade::Edition::e2023, made);
}

std::vector<std::string> said(const practice::WeekTalk& talk) {
    std::vector<std::string> ids;
    for (const auto& one : talk.points) ids.push_back(one.point.text);
    return ids;
}

}  // namespace

TEST_CASE("week talk: five things at most, those of most stakes first") {
    const auto contents =
        contents_of({point("p.1", Stakes::paperwork, 20), point("p.2", Stakes::inspection, 20),
                     point("p.3", Stakes::shock, 20), point("p.4", Stakes::fire, 20), point("p.5", Stakes::shock, 20),
                     point("p.6", Stakes::inspection, 20), point("p.7", Stakes::paperwork, 20)});
    const auto talk = talk_of(contents);
    CHECK(talk.title == "Article 314: Boxes");
    CHECK(said(talk) == std::vector<std::string>{"p.3", "p.5", "p.4", "p.2", "p.6"});
}

TEST_CASE("week talk: what does not fit into two minutes is passed over, but three things are always said") {
    const auto contents = contents_of({point("p.1", Stakes::shock, 150), point("p.2", Stakes::shock, 150),
                                       point("p.3", Stakes::fire, 30), point("p.4", Stakes::inspection, 30)});
    CHECK(said(talk_of(contents)) == std::vector<std::string>{"p.1", "p.3", "p.4"});
    const auto heavy = contents_of({point("p.1", Stakes::shock, 400), point("p.2", Stakes::fire, 300),
                                    point("p.3", Stakes::fire, 301), point("p.4", Stakes::fire, 302)});
    CHECK(said(talk_of(heavy)) == std::vector<std::string>{"p.2", "p.3", "p.4"});
    CHECK(said(talk_of(contents_of({point("p.1", Stakes::shock, 10)}))) == std::vector<std::string>{"p.1"});
}

TEST_CASE("week talk: the commonest mistake is the crew's, else the one most wrong answers lead to") {
    auto first = point("p.1", Stakes::inspection, 5);
    add_wrong(first, "m.a");
    add_wrong(first, "m.a");
    add_wrong(first, "not in the deck");
    auto second = point("p.2", Stakes::shock, 5);
    add_wrong(second, "m.b");
    auto gone = point("p.3", Stakes::shock, 5);
    add_wrong(gone, "m.c");
    gone.questions[0].editions = trade::EditionRange{trade::Edition::e2017, trade::Edition::e2017};
    const auto contents = contents_of({first, second, gone});
    CHECK(talk_of(contents).mistake == "Thinks a.");
    CHECK(talk_of(contents, {{{"boxes", "m.b"}, 1}, {{"wiring", "m.a"}, 9}, {{"boxes", "m.c"}, 9}}).mistake ==
          "Thinks b.");
    first.questions.pop_back();
    first.questions.pop_back();
    CHECK(talk_of(contents_of({first, second})).mistake == "Thinks b.");  // equal: graver stakes
    CHECK(talk_of(contents_of({point("p.1", Stakes::shock, 5)})).mistake.empty());
}

TEST_CASE("week talk: the caution is the usual one of the highest stakes, with a point's own before it") {
    const auto usual = content::usual_caution(Stakes::shock);
    auto wet = point("p.1", Stakes::inspection, 5);
    CHECK(talk_of(contents_of({wet})).caution.empty());
    CHECK(talk_of(contents_of({wet, point("p.2", Stakes::fire, 5)})).caution == usual);
    wet.caution = "Stay out of the water.";
    CHECK(talk_of(contents_of({wet})).caution == "Stay out of the water.");
    CHECK(talk_of(contents_of({wet, point("p.2", Stakes::shock, 5)})).caution ==
          "Stay out of the water. And always: " + usual);
}

TEST_CASE("week talk: points the content has lost are passed over, unconfirmed ones say so") {
    auto contents = contents_of({point("p.1", Stakes::shock, 5), point("p.2", Stakes::shock, 5)});
    auto week = week_of(contents);
    contents.decks[0].points.pop_back();
    contents.decks[0].points[0].versions[0].unverified = true;
    const auto talk = practice::week_talk(week, contents, trade::Edition::e2023);
    CHECK(said(talk) == std::vector<std::string>{"p.1"});
    CHECK(talk.points[0].unverified);
    CHECK(practice::talk_lines(talk)[1] ==
          "1. p.1 word word word word (314.16) [not confirmed for this edition: look it up before you say it]");
    contents.decks[0].points.clear();
    CHECK(practice::talk_lines(practice::week_talk(week, contents, trade::Edition::e2023)) ==
          std::vector<std::string>{"Article 314: Boxes"});
}

TEST_CASE("week talk: the shipped content gives every portion a talk of about two minutes") {
    const auto contents = content::load_contents(std::vector<std::string>{PROJECT_FOLDER}).value();
    const auto portions = practice::portions_of(practice::week_points(contents, trade::Edition::e2023));
    auto what = year::plan_for();
    what.weeks = 150;
    const auto plan = practice::plan_weeks(portions, what);
    REQUIRE(plan);
    CHECK(plan->left_over.empty());
    for (const auto& week : plan->weeks) {
        CAPTURE(week.title);
        const auto talk = practice::week_talk(week, contents, trade::Edition::e2023);
        CHECK(talk.points.size() >= 3);
        CHECK(talk.points.size() <= 5);
        CHECK_FALSE(talk.mistake.empty());
        CHECK(talk.words <= practice::kTalkWords + 40);
        const bool hurts = std::any_of(week.points.begin(), week.points.end(), [](const auto& one) {
            return one.stakes == Stakes::shock || one.stakes == Stakes::fire;
        });
        if (hurts) CHECK(talk.caution.find("lock out") != std::string::npos);
        for (const auto& line : practice::talk_lines(talk)) CHECK(line.find('\n') == std::string::npos);
    }
}
