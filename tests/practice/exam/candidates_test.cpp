#include "practice/exam/candidates.hpp"

#include <algorithm>
#include <limits>
#include <set>

#include <doctest/doctest.h>

#include "content/sample.hpp"
#include "content/shipped.hpp"
#include "practice/exam/paper.hpp"
#include "practice/mark.hpp"

namespace {

using practice::Candidate;
using trade::Edition;

std::set<std::string> ids_of(const std::vector<Candidate>& candidates) {
    std::set<std::string> ids;
    for (const auto& one : candidates) ids.insert(one.id.text);
    return ids;
}

content::Outline all_in_one(int questions) {
    content::Outline exam;
    exam.id = "all";
    exam.minutes = 30;
    exam.questions = {questions, questions};
    exam.pass.share = 0.7;
    content::OutlineSection section;
    section.id = section.title = "boxes";
    section.questions = exam.questions;
    section.topics = {"boxes"};
    exam.sections = {section};
    return exam;
}

std::vector<Candidate> of_sample(const content::Library& library, Edition edition, bool calls) {
    const auto exam = all_in_one(3);
    const auto parts = practice::parts_of(exam, content::traits_in(library, edition));
    return practice::candidates_in(library, parts, {edition, calls, {}}).front();
}

}  // namespace

TEST_CASE("candidates: verified points of the edition, each question where it holds, calls if wished") {
    const sample::Folder folder{"exam-candidates"};
    folder.write_sample();
    const auto library = content::open_library({folder.path()}, "").value();
    const std::set<std::string> plain = {"box.accessible#a", "box.accessible#b", "box.accessible#c", "box.volume#a",
                                         "box.volume#b",     "box.volume#c",     "box.volume#d"};
    CHECK(ids_of(of_sample(library, Edition::e2023, false)) == plain);
    auto with_calls = plain;
    with_calls.insert({"call.attic#a", "call.attic#b", "call.attic#c"});
    CHECK(ids_of(of_sample(library, Edition::e2023, true)) == with_calls);
    // 2017: box.volume has a gap, and the call begins with 2020.
    CHECK(ids_of(of_sample(library, Edition::e2017, true)) ==
          std::set<std::string>{"box.accessible#a", "box.accessible#b", "box.accessible#c"});
    // 2026: box.accessible is not verified there.
    CHECK(ids_of(of_sample(library, Edition::e2026, true)) ==
          std::set<std::string>{"box.volume#a", "box.volume#b", "box.volume#c", "box.volume#d"});
}

TEST_CASE("candidates: a chance that is given counts, another is assumed by form and stakes") {
    const auto contents = sample::contents();
    const auto& point = contents.decks.front().points.front();
    const double none = std::numeric_limits<double>::quiet_NaN();
    const auto found = practice::candidates_of(
        point, Edition::e2023,
        {{{"box.accessible#a"}, 0.31}, {{"box.accessible#b"}, 1.5}, {{"box.accessible#c"}, none}});
    REQUIRE(found.size() == 3);
    CHECK(practice::candidates_of(point, Edition::e2026, {}).empty());  // not verified there
    CHECK(found[0].chance == 0.31);
    CHECK(found[1].chance == practice::usual_chance(content::Form::choose_all, content::Stakes::fire));
    CHECK(found[2].chance == practice::usual_chance(content::Form::article, content::Stakes::fire));
    for (const auto form : {content::Form::choose, content::Form::choose_all, content::Form::number,
                            content::Form::article, content::Form::order, content::Form::recall})
        for (const auto stakes :
             {content::Stakes::shock, content::Stakes::fire, content::Stakes::inspection, content::Stakes::paperwork}) {
            CHECK(practice::usual_chance(form, stakes) > 0.3);
            CHECK(practice::usual_chance(form, stakes) < 0.9);
        }
}

TEST_CASE("candidates: what has nothing to be marked by is not asked") {
    content::Version version;
    version.article = "314.29";
    content::Question question;
    const auto markable = [&](content::Form form) {
        question.form = form;
        return practice::can_be_marked(question, version);
    };
    CHECK(markable(content::Form::number));
    CHECK(markable(content::Form::article));
    for (const auto form :
         {content::Form::choose, content::Form::choose_all, content::Form::order, content::Form::recall})
        CHECK(!markable(form));
    question.right = {"one"};
    CHECK(!markable(content::Form::choose));
    CHECK(markable(content::Form::choose_all));
    CHECK(!markable(content::Form::order));
    question.right.emplace_back("two");
    CHECK(markable(content::Form::order));
    CHECK(!markable(content::Form::choose));
    question.right.pop_back();
    question.wrong.push_back({"other", "m"});
    CHECK(markable(content::Form::choose));
    question.ideas.push_back({"heat", {"heat"}});
    CHECK(markable(content::Form::recall));
    version.article = "the book";
    CHECK(!markable(content::Form::article));
}

TEST_CASE("candidates: a paper is posed again to the letter, and a change of content is told") {
    const sample::Folder folder{"exam-pose"};
    folder.write_sample();
    const auto library = content::open_library({folder.path()}, "").value();
    const auto exam = all_in_one(10);
    auto paper =
        practice::assemble({&exam, Edition::e2023, {10}, 3}, {of_sample(library, Edition::e2023, true)}).value();
    const auto asks = practice::pose(library, paper).value();
    REQUIRE(asks.size() == 10);
    std::set<std::string> stories;
    for (std::size_t n = 0; n < asks.size(); ++n) {
        CHECK(asks[n].id == paper.items[n].question);
        CHECK(asks[n].question.point == paper.items[n].point);
        CHECK(asks[n].call.empty() != paper.items[n].call);
        if (paper.items[n].call) stories.insert(asks[n].story);
        paper.items[n].content = asks[n].content;
    }
    CHECK(stories.size() == 1);
    const auto again = practice::pose(library, paper).value();
    for (std::size_t n = 0; n < asks.size(); ++n) {
        CHECK(again[n].question.text == asks[n].question.text);
        REQUIRE(again[n].options.size() == asks[n].options.size());
        for (std::size_t i = 0; i < asks[n].options.size(); ++i)
            CHECK(again[n].options[i].text == asks[n].options[i].text);
    }
    paper.items[4].content = "0123456789abcdef";
    paper.items[7].question.text += "-gone";
    const auto faults = practice::pose(library, paper);
    REQUIRE(!faults);
    REQUIRE(faults.error().size() == 2);
    CHECK(faults.error()[0].what ==
          "question " + paper.items[4].question.text + " has been changed since the exam was begun");
    CHECK(faults.error()[1].what == "question " + paper.items[7].question.text + " is not in the library any more");
}

TEST_CASE(
    "candidates: property: every paper from the shipped library can be posed and its right answers marked right") {
    const auto& library = shipped::library();
    const auto outlines = content::load_outlines({PROJECT_FOLDER}).value();
    REQUIRE(!outlines.empty());
    for (const auto& exam : outlines)
        for (const auto edition : trade::kEditions) {
            const auto parts = practice::parts_of(exam, content::traits_in(library, edition));
            const auto from = practice::candidates_in(library, parts, {edition, true, {}});
            auto made = practice::assemble({&exam, edition, practice::full_length(exam), 5}, from);
            CAPTURE(exam.id);
            CAPTURE(trade::to_text(edition));
            if (!made) made = practice::assemble({&exam, edition, made.error().possible, 5}, from);
            REQUIRE(made);
            const auto asks = practice::pose(library, *made);
            REQUIRE(asks);
            for (const auto& ask : *asks) {
                CHECK(!ask.version.unverified);
                CHECK(practice::mark(ask, content::right_answer(ask)).has_value());
            }
        }
}
