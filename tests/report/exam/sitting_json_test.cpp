#include "report/exam/sitting_json.hpp"

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include "practice/exam/exams.hpp"

namespace {

using exams::event;
using exams::kStart;
using practice::Did;

std::string lines_of(const practice::SittingFor& what, const std::vector<practice::SittingEvent>& events) {
    std::string text = report::to_line(what) + "\n";
    for (const auto& one : events) text += report::to_line(one) + "\n";
    return text;
}

}  // namespace

TEST_CASE("sitting json: an event is one line with the fields it needs") {
    CHECK(report::to_line(event(1, Did::answer, 11, "b")) ==
          R"({"at":"2026-01-01T00:00:01.000Z","did":"answer","ask":12,"given":"b","sure":"fairly"})");
    CHECK(report::to_line(event(2, Did::flag, 0)) == R"({"at":"2026-01-01T00:00:02.000Z","did":"flag","ask":1})");
    CHECK(report::to_line(event(3, Did::finish)) == R"({"at":"2026-01-01T00:00:03.000Z","did":"finish"})");
}

TEST_CASE("sitting json: property: accepted events come back as they were, one line each") {
    std::size_t compared = 0;
    for (base::Seed seed = 1; seed <= 40; ++seed) {
        auto sitting = exams::sitting({5});
        for (const auto& one : exams::restless(5, 50, seed)) {
            if (!sitting.apply(one)) continue;
            auto expected = one;
            if (one.did == Did::finish) expected.ask = 0;
            const std::string line = report::to_line(one);
            REQUIRE(line.find('\n') == std::string::npos);
            CHECK(report::event_from_line(line).value() == expected);
            ++compared;
        }
    }
    CHECK(compared > 300);
}

TEST_CASE("sitting json: typed signs of all kinds survive") {
    for (const char* typed : {"\"quoted\"", "back\\slash", "tab\tand\nfeed", "12 \xc2\xbd in", "", "\x01"}) {
        const auto one = event(1, Did::answer, 0, typed);
        CHECK(report::event_from_line(report::to_line(one)).value() == one);
    }
}

TEST_CASE("sitting json: what was settled before comes back to the last bit") {
    const auto what = exams::sitting({4, 3}).what();
    CHECK(what.paper.items[2].call);
    CHECK(what.paper.items[2].content == "version-2");
    const std::string line = report::to_line(what);
    CHECK(line.find('\n') == std::string::npos);
    CHECK(report::sitting_from_line(line).value() == what);
}

TEST_CASE("sitting json: a torn last line does not count, wherever it was torn") {
    const auto what = exams::sitting({2}).what();
    const std::vector<practice::SittingEvent> events = {event(1, Did::answer, 0, "a"), event(2, Did::flag, 1)};
    const std::string whole = lines_of(what, events);
    const std::size_t head = report::to_line(what).size() + 1;
    for (std::size_t cut = head; cut <= whole.size(); ++cut) {
        const auto kept = report::read_sitting(whole.substr(0, cut), "exam.jsonl");
        REQUIRE_MESSAGE(kept.has_value(), cut);
        const auto complete =
            static_cast<std::size_t>(std::count(whole.begin(), whole.begin() + static_cast<long>(cut), '\n'));
        CHECK(kept->what == what);
        CHECK(kept->torn == (whole[cut - 1] != '\n'));
        CHECK(kept->events == std::vector(events.begin(), events.begin() + static_cast<long>(complete) - 1));
    }
    // Torn in the first line there is no sitting yet.
    CHECK(!report::read_sitting(whole.substr(0, head - 1), "exam.jsonl"));
    CHECK(!report::read_sitting("", "exam.jsonl"));
}

TEST_CASE("sitting json: a kept sitting resumes where it stood") {
    auto live = exams::sitting({4, 3});
    std::vector<practice::SittingEvent> kept;
    for (const auto& one : exams::restless(7, 40, 3))
        if (live.apply(one)) kept.push_back(one);
    const auto read = report::read_sitting(lines_of(live.what(), kept), "exam.jsonl").value();
    practice::Sitting resumed{read.what, [&] {
                                  std::vector<content::Ask> posed;
                                  for (std::size_t n = 0; n < live.size(); ++n) posed.push_back(live.ask(n));
                                  return posed;
                              }()};
    CHECK(resumed.replay(read.events) == 0);
    CHECK(resumed.state() == live.state());
}

TEST_CASE("sitting json: everything wrong is told with its line") {
    const std::string head = report::to_line(exams::sitting({1}).what());
    const auto faults = report::read_sitting(
        head + "\n\nnonsense\n{\"at\":\"soon\",\"did\":\"peek\"}\n" + report::to_line(event(1, Did::flag, 0)) +
            "\n{\"at\":\"" + base::to_text(kStart) + "\",\"did\":\"answer\",\"ask\":0,\"given\":\"a\"}\n",
        "exam.jsonl");
    REQUIRE(!faults);
    std::vector<int> lines;
    for (const auto& fault : faults.error()) {
        lines.push_back(fault.line);
        CHECK(fault.file == "exam.jsonl");
        CHECK(!fault.mend.empty());
    }
    CHECK(lines == std::vector<int>{3, 4, 4, 6});
}

TEST_CASE("sitting json: spoiled heads and events are refused") {
    const std::string head = report::to_line(exams::sitting({1}).what());
    const auto spoiled = [](std::string text, const std::string& from, const std::string& to) {
        const auto at = text.find(from);
        REQUIRE(at != std::string::npos);
        return text.replace(at, from.size(), to);
    };
    REQUIRE(report::sitting_from_line(head));
    const std::vector<std::pair<std::string, std::string>> kHeads = {{"sitting/1", "sitting/2"},
                                                                     {"018f3c2e", "xyzf3c2e"},
                                                                     {"\"seed\":\"1", "\"seed\":\"-1"},
                                                                     {"\"limit_ms\":3600000", "\"limit_ms\":0"},
                                                                     {"\"2023\"", "\"1923\""},
                                                                     {"\"chance\":0.1", "\"chance\":1.1"},
                                                                     {"\"section\":1", "\"section\":1.5"},
                                                                     {"\"start\":\"2026", "\"start\":\"26"},
                                                                     {"\"items\"", "\"things\""}};
    for (const auto& [from, to] : kHeads) CHECK_MESSAGE(!report::sitting_from_line(spoiled(head, from, to)), to);
    const std::string answer = report::to_line(event(1, Did::answer, 0, "b"));
    REQUIRE(report::event_from_line(answer));
    const std::vector<std::pair<std::string, std::string>> kEvents = {{"fairly", "quite"},
                                                                      {"\"given\":\"b\"", "\"given\":2"},
                                                                      {"\"ask\":1", "\"ask\":-1"},
                                                                      {"\"ask\":1,", ""},
                                                                      {"\"ask\":1", "\"ask\":1e300"}};
    for (const auto& [from, to] : kEvents) CHECK_MESSAGE(!report::event_from_line(spoiled(answer, from, to)), to);
}

TEST_CASE("sitting json: the result as a document") {
    const auto exam = exams::outline({1, 2});
    auto sitting = exams::sitting({1, 2});
    REQUIRE(sitting.apply(event(1, Did::answer, 0, "a")));
    REQUIRE(sitting.apply(event(2, Did::answer, 1, "b")));
    REQUIRE(sitting.apply(event(3, Did::finish)));
    const auto found = practice::result_of(sitting, exam, kStart + std::chrono::seconds{3}).value();
    const auto json = report::result_json(sitting, exam, found);
    CHECK(json["tag"] == "red");
    CHECK(json["right"] == 1);
    CHECK(json["asked"] == 3);
    CHECK(json["unanswered"] == 1);
    CHECK(json["end"] == "2026-01-01T00:00:03.000Z");
    CHECK(json["sections"][0]["section"] == "s2");
    CHECK(json["sections"][1]["tag"] == "green");
    REQUIRE(json["corrections"].size() == 2);
    CHECK(json["corrections"][0]["point"] == "p.1");
    CHECK(json["corrections"][1]["asks"] == nlohmann::ordered_json::array({3}));
    CHECK(json["corrections"][1]["unanswered"] == true);
}
