#include "report/session_json.hpp"

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include "practice/asks.hpp"
#include "report/point_text.hpp"

namespace {

practice::Posed posed() {
    practice::Posed posed;
    posed.ask = asks::choosing(content::Form::choose, {{"one", "m.a"}, {"two", ""}});
    posed.number = 3;
    posed.reason = practice::Reason::fresh;
    return posed;
}

practice::Outcome outcome() {
    practice::Outcome outcome;
    outcome.posed = posed();
    outcome.mark = practice::mark(outcome.posed.ask, "a").value();
    outcome.posed.ask.mistakes = {{"m.a", "Thinks so."}};
    outcome.record.given = "a";
    return outcome;
}

}  // namespace

TEST_CASE("study lines: an ask keeps its answer back unless it is to be revealed") {
    const auto closed = report::ask_json(posed(), false);
    CHECK(closed.at("type") == "ask");
    CHECK(closed.at("n") == 3);
    CHECK(closed.at("reason") == "new");
    CHECK(closed.at("options").at(1) == nlohmann::ordered_json{{"letter", "b"}, {"text", "two"}});
    CHECK_FALSE(closed.contains("right"));
    CHECK_FALSE(closed.contains("story"));
    CHECK(report::ask_json(posed(), true).at("right") == "b");
}

TEST_CASE("study lines: an outcome tells the mark, the mistake and the right answer") {
    const auto told = report::outcome_json(outcome());
    CHECK(told.at("mark") == 0.0);
    CHECK(told.at("recalled") == false);
    CHECK(told.at("right") == "b");
    CHECK(told.at("mistakes").at(0).at("says") == "Thinks so.");
    CHECK(told.at("articles").at(0) == "210.8(A)(2)");
    CHECK_FALSE(told.contains("unverified"));
}

TEST_CASE("study lines: a summary is green, red or none") {
    practice::Summary summary;
    const practice::SessionFor what;
    CHECK(report::summary_json(summary, what).at("tag") == "none");
    summary.outcomes.push_back(outcome());
    CHECK(report::summary_json(summary, what).at("tag") == "green");
    summary.corrections.push_back(&summary.outcomes.front());
    const auto red = report::summary_json(summary, what);
    CHECK(red.at("tag") == "red");
    CHECK(red.at("corrections").at(0).at("article") == "210.8(A)(2)");
}

TEST_CASE("study lines: a failure has one shape, with the exit status in it") {
    const auto failure =
        report::failure_json({{"a.json", "/points/0", 4, "what", "mend", false}}, base::Exit::bad_data);
    CHECK(failure.at("ok") == false);
    CHECK(failure.at("exit") == 65);
    CHECK(failure.at("faults").at(0) == nlohmann::ordered_json{{"file", "a.json"},
                                                               {"line", 4},
                                                               {"pointer", "/points/0"},
                                                               {"what", "what"},
                                                               {"mend", "mend"},
                                                               {"warning", false}});
}
