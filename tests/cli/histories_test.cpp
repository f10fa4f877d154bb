#include "cli/memory/histories.hpp"

#include <doctest/doctest.h>

#include "base/random.hpp"

namespace {

using cli::Histories;

const base::Instant kStart{};

Histories read(const std::vector<std::string>& lines) {
    Histories histories;
    for (const auto& line : lines) histories.add(line);
    histories.settle();
    return histories;
}

std::string fault_of(const std::string& line) {
    const auto histories = read({line});
    REQUIRE(histories.lines().size() == 1);
    if (histories.lines()[0].faults.empty()) return {};
    const auto& fault = histories.lines()[0].faults.front();
    return fault.pointer + ": " + fault.what;
}

}  // namespace

TEST_CASE("histories: order, repeats and the future") {
    const auto histories = read({R"({"learner":"a","point":"p","answers":[{"at":4,"mark":1},{"at":0,"mark":0}]})", "",
                                 R"({"learner":"a","point":"p","answers":[{"at":0,"mark":1},{"at":9,"mark":1}]})"});
    CHECK(histories.lines().size() == 2);
    CHECK(histories.repeated() == 1);
    const auto at = [&](double days) { return histories.state(0, 0, base::after_days(kStart, days)); };
    CHECK(at(-1).answers() == 0);
    CHECK(at(0).failed == 1);  // the first given of the two at that moment
    CHECK(at(0).recalled == 0);
    CHECK(at(4).recalled == 1);
    CHECK(at(8.99).recalled == 1);
    CHECK(at(9).recalled == 2);
    CHECK(at(9).last == base::after_days(kStart, 9));
}

TEST_CASE("histories: the order of lines and answers changes nothing") {
    base::Random random{5};
    for (int round = 0; round < 50; ++round) {
        std::vector<std::string> lines;
        for (int n = 0; n < 12; ++n)
            lines.push_back(R"({"learner":")" + std::to_string(random.below(2)) + R"(","point":"p","answers":[{"at":)" +
                            std::to_string(n) + R"(,"mark":)" + std::to_string(random.below(2)) + "}]}");
        const auto before = read(lines);
        random.shuffle(lines);
        const auto after = read(lines);
        for (std::uint32_t l = 0; l < before.learners(); ++l)
            for (std::uint32_t k = 0; k < after.learners(); ++k)
                if (before.name_of_learner(l) == after.name_of_learner(k))
                    CHECK(before.state(l, 0, base::after_days(kStart, 20)) ==
                          after.state(k, 0, base::after_days(kStart, 20)));
    }
}

TEST_CASE("histories: who and what are told apart by name, number or line") {
    const auto histories = read({R"({"answers":[{"at":0,"mark":1}]})", R"({"answers":[{"at":0,"mark":1}]})",
                                 R"({"learner":7,"point":8,"family":"f"})", R"({"learner":7,"point":9,"family":"g"})"});
    CHECK(histories.learners() == 3);
    CHECK(histories.family_of_point() == std::vector<std::uint32_t>{0, 0, 1, 2});
    CHECK(histories.name_of_learner(2) == "7");
    CHECK(histories.name_of_point(3) == "9");
    CHECK(histories.repeated() == 0);
}

TEST_CASE("histories: moments are instants or days") {
    const auto histories = read({R"({"id":"x","times":["2026-03-02T07:00Z",1.5]})"});
    REQUIRE(histories.lines()[0].faults.empty());
    CHECK(base::to_text(histories.lines()[0].times[0]) == "2026-03-02T07:00:00.000Z");
    CHECK(histories.lines()[0].times[1] == base::after_days(kStart, 1.5));
    CHECK(histories.lines()[0].times_as_given == std::vector<std::string>{"\"2026-03-02T07:00Z\"", "1.5"});
    CHECK(histories.lines()[0].id == "\"x\"");
}

TEST_CASE("histories: a line that makes no sense says where, and is left out") {
    CHECK(fault_of("[1]") == ": a line holds one JSON object");
    CHECK(fault_of("{\"answers\":[{\"at\":0}]}").find("/answers/0") == 0);
    CHECK(fault_of(R"({"answers":[{"at":"soon","mark":1}]})") == "/answers/0/at: this is no moment");
    CHECK(fault_of(R"({"answers":[{"at":1e9,"mark":1}]})").find("/answers/0/at") == 0);
    CHECK(fault_of(R"({"answers":[{"at":0,"mark":1.5}]})") == "/answers/0/mark: a mark lies between 0 and 1");
    CHECK(fault_of(R"({"answers":[{"at":0,"mark":1,"sure":"very"}]})").find("/answers/0/sure") == 0);
    CHECK(fault_of(R"({"answers":[{"at":0,"mark":1,"form":"essay"}]})").find("/answers/0/form") == 0);
    CHECK(fault_of(R"({"answers":[{"at":0,"mark":1,"took_ms":-5}]})").find("/answers/0/took_ms") == 0);
    CHECK(fault_of(R"({"answers":[],"times":[0],"note":"kept"})").empty());
    const auto histories = read({R"({"learner":"a","point":"p","answers":[{"at":0,"mark":2}]})", "{broken",
                                 R"({"learner":"a","point":"p","answers":[{"at":1,"mark":1}]})"});
    CHECK(histories.answers().size() == 1);
    CHECK(histories.lines()[1].faults.front().line == 2);
}
