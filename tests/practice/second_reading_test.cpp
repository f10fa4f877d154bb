#include "practice/second_reading.hpp"

#include <algorithm>
#include <set>

#include <doctest/doctest.h>

#include "content/check/check.hpp"
#include "content/sample.hpp"
#include "content/shipped.hpp"

namespace {

using content::ReadingBook;
using content::ToRead;
using practice::PosedReading;

const content::Contents& shipped_contents() {
    static const auto contents = content::load_contents({std::string{PROJECT_FOLDER}}).value();
    return contents;
}

const std::vector<PosedReading>& posed() {
    static const auto all = practice::pose_for_reading(content::to_read(shipped_contents()), shipped::library());
    return all;
}

/// The sample as it is, or with one text in place of another.
content::Contents sample_with(const std::string& from, const std::string& to) {
    return sample::contents(from.empty() ? sample::kDeck : sample::spoiled(sample::kDeck, from, to));
}

const ToRead& one_of(const std::vector<ToRead>& all, const std::string& id) {
    return *std::find_if(all.begin(), all.end(), [&](const ToRead& one) { return one.id == id; });
}

std::string content_of(const content::Contents& contents, const std::string& id) {
    return one_of(content::to_read(contents), id).content;
}

}  // namespace

TEST_CASE("second reading: every question is read, and our own answer to it counts as agreement") {
    const auto all = content::to_read(shipped_contents());
    CHECK(posed().size() == all.size());
    std::set<std::string> questions;
    for (const auto& one : posed()) {
        questions.insert(one.what.id);
        CAPTURE(one.what.id);
        CHECK(practice::judge(one, content::right_answer(one.ask), "").agrees);
    }
    std::size_t there = 0;
    for (const auto& deck : shipped_contents().decks)
        for (const auto& point : deck.points) there += point.questions.size();
    for (const auto& family : shipped_contents().families)
        for (const auto& scenario : family.scenarios) there += scenario.asks.size();
    CHECK(questions.size() == there);
}

TEST_CASE("second reading: a wrong letter differs, and so does what is no answer") {
    int wrong = 0;
    for (const auto& one : posed()) {
        if (one.ask.question.form != content::Form::choose) continue;
        for (std::size_t i = 0; i < one.ask.options.size(); ++i)
            if (!one.ask.options[i].right) {
                CHECK_FALSE(practice::judge(one, content::letter(i), "").agrees);
                ++wrong;
            }
    }
    CHECK(wrong > 1000);
    const auto verdict = practice::judge(posed().front(), "", "unsure");
    CHECK_FALSE(verdict.agrees);
    CHECK(verdict.note.find("unsure") != std::string::npos);
}

TEST_CASE("second reading: a look-up is read once for each reference it has, other questions once") {
    for (const auto& one : posed())
        for (const auto edition : one.what.editions) {
            CAPTURE(one.what.id);
            if (one.ask.question.form == content::Form::article)
                CHECK(one.what.point->version(edition)->article == one.what.point->version(one.what.edition)->article);
            CHECK(content::holds_in(*one.what.question, *one.what.point, edition));
        }
}

TEST_CASE("second reading: what a reader sees makes the content, an explanation does not") {
    const auto plain = sample_with("", "");
    const std::string id = "box.accessible#a";
    CHECK(content_of(sample_with("Joints fail, and then", "Splices fail, and then"), id) == content_of(plain, id));
    CHECK(content_of(sample_with("May a box vanish", "Must a box vanish"), id) != content_of(plain, id));
    CHECK(content_of(sample_with("Yes, once it has been inspected", "Yes, once a year"), id) != content_of(plain, id));
    CHECK(content_of(sample_with("\"value\": 2.25,", "\"value\": 2.5,"), "box.volume#a") !=
          content_of(plain, "box.volume#a"));
    CHECK(content_of(sample_with("\"314.29\",\n          \"says\"", "\"314.28\",\n          \"says\""),
                     "box.accessible#c") != content_of(plain, "box.accessible#c"));
}

TEST_CASE("second reading: that a first answer differed is kept, whatever comes of it") {
    const PosedReading& one = posed().front();
    std::vector<content::Reading> readings;
    practice::record(readings, {practice::judge(one, "", "")}, "Ada");
    REQUIRE(readings.size() == 1);
    CHECK_FALSE(readings[0].agreed_first);
    CHECK(readings[0].content != one.what.content);
    practice::record(readings, {practice::judge(one, content::right_answer(one.ask), "")}, "Ben");
    REQUIRE(readings.size() == 1);
    CHECK_FALSE(readings[0].agreed_first);
    CHECK(readings[0].content == one.what.content);
    CHECK(readings[0].reader == "Ben");
}

TEST_CASE("second reading: a difference can be settled in favour of our answer, with a reason") {
    const PosedReading& one = posed().front();
    std::vector<content::Reading> readings;
    practice::record(readings, {practice::judge(one, "", "")}, "Ada");
    REQUIRE(practice::uphold(readings, one.what, "a published table"));
    CHECK(readings[0].content == one.what.content);
    CHECK(readings[0].settled == "a published table");
    CHECK_FALSE(practice::uphold(readings, posed().back().what, "nobody has read it"));
}

TEST_CASE("second reading: the check tells what nobody has read, and what has changed since") {
    auto contents = sample_with("", "");
    content::add_document(contents,
                          R"({"format": "greentag-readings/1", "reader": "Ada", "readings": [
        {"question": "box.accessible#a", "edition": "2023", "content": ")" +
                              content_of(contents, "box.accessible#a") + R"("},
        {"question": "box.accessible#b", "edition": "2023", "content": "0000"},
        {"question": "box.gone#a", "edition": "2023", "content": "0000"}]})",
                          {"readings.json", 0, 0, 0});
    base::Faults faults;
    content::check_readings(contents, faults);
    std::vector<std::string> told;
    for (const auto& fault : faults) {
        CHECK(fault.warning);
        told.push_back(fault.what);
    }
    const auto tells = [&](const std::string& what) { return std::find(told.begin(), told.end(), what) != told.end(); };
    CHECK_FALSE(tells("box.accessible#a: nobody has answered it as a second reader for 2023"));
    CHECK(tells("box.accessible#b: it has changed since a second reader answered it for 2023"));
    CHECK(tells("box.accessible#c: nobody has answered it as a second reader for 2023"));
    CHECK(tells("a reading of 'box.gone#a', which is no question any more"));
}

TEST_CASE("second reading: without readings nothing is told") {
    base::Faults faults;
    content::check_readings(sample_with("", ""), faults);
    CHECK(faults.empty());
}
