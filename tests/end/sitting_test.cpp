#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "end/support.hpp"

using namespace end;

namespace {

/// The one file of that ending among the exams of a home.
std::string exam_file(const Place& place, const std::string& ending) {
    std::string found;
    for (const auto& entry : fs::directory_iterator{place.home() + "/exams"}) {
        const std::string name = entry.path().filename().string();
        if (!name.ends_with(ending)) continue;
        CHECK(found.empty());
        found = entry.path().string();
    }
    return found;
}

Words sit(const std::string& minute) {
    return {"exam", "sit", "shop-basics", "--now", "2026-03-02T07:" + minute + "Z", "--seed", "7"};
}

}  // namespace

TEST_CASE("exam sit: a line cut short by a crash does not count, and the exam goes on from the lines before it") {
    const Place place{kProject};
    REQUIRE(place.run({"crew", "add", "Ada Volt", "--edition", "2023"}).exit == 0);
    REQUIRE(place.run(sit("00"), "!\n!\n/flag\n").exit == 0);
    const std::string path = exam_file(place, ".jsonl");
    const std::string whole = read_file(path);
    CHECK(std::count(whole.begin(), whole.end(), '\n') == 4);
    write_file(path, whole + R"({"at":"2026-03-02T07:01:00.000Z","did":"ans)");
    const auto again = place.run(sit("02"), "!\n");
    CHECK(again.exit == 0);
    CHECK(again.out.find("answered 2 of ") != std::string::npos);
    CHECK(again.out.find("answered 3 of ") != std::string::npos);
    const std::string longer = read_file(path);
    CHECK(longer.rfind(whole, 0) == 0);
    CHECK(std::count(longer.begin(), longer.end(), '\n') == 5);
    CHECK(log_of(place.store()).empty());
}

TEST_CASE("exam sit: a crash between the log and the result adds no answer twice") {
    const Place place{kProject};
    REQUIRE(place.run({"crew", "add", "Ada Volt", "--edition", "2023"}).exit == 0);
    REQUIRE(place.run(sit("00"), "!\n!\n!\n/hand-in\nyes\n").exit == 0);
    const auto first = log_of(place.store());
    CHECK(first.size() == 3);
    const std::string result = exam_file(place, ".result.json");
    const std::string said = read_file(result);
    CHECK(nlohmann::json::parse(said)["right"] == 0);
    fs::remove(result);
    REQUIRE(place.run(sit("05")).exit == 0);
    CHECK(read_file(result) == said);
    CHECK(log_of(place.store()).size() == first.size());
    CHECK(place.run({"record", "verify"}).exit == 0);
}
