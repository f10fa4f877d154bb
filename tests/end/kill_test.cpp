#include <doctest/doctest.h>

#include <set>

#include "base/instant.hpp"
#include "end/dialogue.hpp"

using namespace end;

namespace {

constexpr int kKills = 200;
const base::Instant kStart = base::from_milliseconds(1'772'434'800'000);

/// Answers until it has sent so many, waits a little, kills the program; the ids of all results that were told whole.
class Killed {
public:
    Killed(const Place& place, base::Random& random, int round)
        : dialogue_{place, {"study", "--lines", "--reveal", "--count", "200", "--now", day(round), "--seed", "7"}} {
        auto answers = random.below(12);
        for (auto line = dialogue_.line(); line; line = dialogue_.line()) {
            const auto read = note(*line);
            if (read["type"] == "ask" && answers-- == 0) break;
            if (read["type"] == "ask") dialogue_.say(right_answer(read));
        }
        if (random.below(2) == 0) dialogue_.say(R"({"answer": "a"})");
        usleep(static_cast<useconds_t>(random.below(4000)));
        dialogue_.stop(SIGKILL);
        while (const auto line = dialogue_.line()) note(*line);
    }
    [[nodiscard]] const std::vector<std::string>& acknowledged() const { return acknowledged_; }

private:
    static std::string day(int round) { return base::to_text(base::after_days(kStart, round)); }
    nlohmann::json note(const std::string& line) {
        const auto read = nlohmann::json::parse(line);
        if (read["type"] == "result" && read["accepted"]) acknowledged_.push_back(read["id"]);
        return read;
    }

    Dialogue dialogue_;
    std::vector<std::string> acknowledged_;
};

std::set<std::string> ids_in(const Place& place) {
    std::set<std::string> ids;
    for (const auto& record : log_of(place.store())) ids.insert(base::to_text(record.id));
    return ids;
}

}  // namespace

TEST_CASE("kill: two hundred kills in one home lose no acknowledged answer and leave the store sound") {
    std::signal(SIGPIPE, SIG_IGN);
    const Place place{kProject};
    REQUIRE(place.run({"crew", "add", "Ada Volt", "--edition", "2020"}).exit == 0);
    base::Random random{20260302};
    std::set<std::string> acknowledged;
    for (int round = 0; round < kKills; ++round) {
        CAPTURE(round);
        const Killed killed{place, random, round};
        acknowledged.insert(killed.acknowledged().begin(), killed.acknowledged().end());
        const auto kept = ids_in(place);
        CHECK(std::includes(kept.begin(), kept.end(), acknowledged.begin(), acknowledged.end()));
        CHECK(kept.size() <= acknowledged.size() + static_cast<std::size_t>(round) + 1);
        CHECK(look_into(place.store()).verify().problems == std::vector<std::string>{});
    }
    CHECK(acknowledged.size() > kKills);
    CHECK(place.run({"record", "verify"}).exit == 0);
}

TEST_CASE("kill: a broken-off session ends in order and says what was kept") {
    const Place place{kProject};
    REQUIRE(place.run({"crew", "add", "Ada Volt", "--edition", "2020"}).exit == 0);
    Dialogue dialogue{place, {"study", "--lines", "--reveal", "--seed", "7"}};
    dialogue.say(right_answer(nlohmann::json::parse(dialogue.line().value())));
    CHECK(nlohmann::json::parse(dialogue.line().value())["accepted"] == true);
    REQUIRE(dialogue.line().has_value());
    const int status = dialogue.stop(SIGINT);
    CHECK(WIFEXITED(status));
    CHECK(WEXITSTATUS(status) == 0);
    CHECK(nlohmann::json::parse(dialogue.line().value())["answers"] == 1);
    CHECK(log_of(place.store()).size() == 1);
}
