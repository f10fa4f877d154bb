#include "cli/memory/item_matrix.hpp"

#include <doctest/doctest.h>

namespace {

std::vector<std::string> faults_of(const std::string& text) {
    const auto log = cli::read_item_matrix(text, "m.csv");
    std::vector<std::string> whats;
    if (!log)
        for (const auto& fault : log.error()) whats.push_back(std::to_string(fault.line) + ": " + fault.what);
    return whats;
}

}  // namespace

TEST_CASE("item matrix: questions by column, learners by row, counts and names passed over") {
    const auto log =
        cli::read_item_matrix("id,first,count,second\r\nx,1,2,0\r\ny,,1,NA\r\nz,0,0,1\r\n", "m.csv").value();
    REQUIRE(log.items.size() == 2);
    CHECK(log.items[0].id.text == "first");
    CHECK(log.items[1].id.text == "second");
    CHECK(log.keys.size() == 2);
    CHECK(log.learners == 3);  // two alike, one who answered nothing, none of the last
    REQUIRE(log.answers.size() == 4);
    CHECK(log.answers[0].right());
    CHECK_FALSE(log.answers[1].right());
    CHECK(log.answers[2].learner == 1);
    CHECK(log.answers[3].item == 1);
}

TEST_CASE("item matrix: every cell that makes no sense is told") {
    CHECK(faults_of("a,b\n1,2\nx,0\n1\n") == std::vector<std::string>{"2: '2' under b is no answer",
                                                                      "3: 'x' under a is no answer",
                                                                      "4: has 1 cells, the first line 2"});
    CHECK(faults_of("a,count\n1,many\n").front() == "2: 'many' is no count");
    CHECK(faults_of("a,b\n").front() == "1: there is no row of answers");
    CHECK(faults_of("").front() == "1: there is no row of answers");
    CHECK(faults_of("a\n\"1\n").front() == "2: a quote is never closed");
}
