#include "practice/shop/crew_progress.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "practice/shop/made_record.hpp"

namespace {

using made::kNow;
using memory::Sure;
using practice::CrewProgress;
using practice::MemberFor;
using practice::NeedKind;

MemberFor member(std::uint8_t number, const std::string& name) {
    MemberFor one;
    one.learner.id = made::learner(number);
    one.learner.name = name;
    one.learner.added_at = base::after_days(kNow, -100);
    return one;
}

memory::FitAnswer by(std::uint32_t learner, memory::FitAnswer answer) {
    answer.learner = learner;
    return answer;
}

/// Five learners: the log's numbers are in order of id.
struct Shop {
    content::Index index = made::index(8);  // stakes by number: shock, fire, inspection, paperwork, shock, ...
    practice::CrewLog log = made::log(index, 5);
    std::vector<MemberFor> crew{member(1, "Ed"), member(2, "Ann"), member(3, "Bo"), member(4, "Cid"), member(5, "Di")};

    Shop() {
        for (std::uint32_t n = 0; n < 5; ++n) log.answers.push_back(by(n, made::answer(2, 1, 1)));
    }
    [[nodiscard]] CrewProgress found() const { return practice::crew_progress(index, log, crew, kNow); }
};

std::vector<std::string> told(const CrewProgress& crew) {
    std::vector<std::string> all;
    for (const auto& need : crew.needs)
        all.push_back(crew.members[need.member].learner.name + " " + std::string{to_text(need.kind)} + " " +
                      std::to_string(need.points.empty() ? static_cast<std::size_t>(need.days) : need.points.size()));
    return all;
}

using Words = std::vector<std::string>;

}  // namespace

TEST_CASE("crew progress: a crew that studies and is sure of nothing wrong needs nobody today") {
    const auto found = Shop{}.found();
    CHECK(found.needs.empty());
    REQUIRE(found.members.size() == 5);
    CHECK(std::is_sorted(found.members.begin(), found.members.end(),
                         [](const auto& a, const auto& b) { return a.learner.name < b.learner.name; }));
}

TEST_CASE("crew progress: shock before fire before who has not studied before whose exam is near") {
    Shop shop;
    shop.log.answers = {by(0, made::answer(1, 1, 0, Sure::sure)),                                  // Ed: fire
                        by(1, made::answer(0, 1, 0, Sure::sure)),                                  // Ann: shock
                        by(2, made::answer(0, 1, 0, Sure::sure)),                                  // Bo: two of shock
                        by(2, made::answer(4, 1, 0, Sure::sure)), by(3, made::answer(2, 8.5, 1)),  // Cid: overdue
                        by(4, made::answer(3, 1, 0, Sure::sure))};  // Di: paperwork, which can wait
    shop.crew[4].learner.exam_at = base::after_days(kNow, 12);
    shop.crew[4].pass = 0.4;
    shop.crew.push_back(member(6, "Fay"));  // never answered
    CHECK(told(shop.found()) ==
          Words{"Bo shock 2", "Ann shock 1", "Ed fire 1", "Fay overdue 100", "Cid overdue 8", "Di exam 12"});
}

TEST_CASE("crew progress: wrong without being sure is no need, and right since stays one until it is proved twice") {
    Shop shop;
    shop.log.answers.push_back(by(0, made::answer(0, 1, 0, Sure::fairly)));
    CHECK(shop.found().needs.empty());
    shop.log.answers.push_back(by(1, made::answer(0, 6, 0, Sure::sure)));
    shop.log.answers.push_back(by(1, made::answer(0, 4, 1)));
    CHECK(told(shop.found()) == Words{"Ann shock 1"});
    shop.log.answers.push_back(by(1, made::answer(0, 2, 1)));
    CHECK(shop.found().needs.empty());
}

TEST_CASE("crew progress: an exam is a need when it is near and passing is unlikely or not known") {
    Shop shop;
    const auto needs = [&](double days, std::optional<double> pass) {
        shop.crew[0].learner.exam_at = base::after_days(kNow, days);
        shop.crew[0].pass = pass;
        return told(shop.found());
    };
    CHECK(needs(30, 0.79) == Words{"Ed exam 30"});
    CHECK(needs(30, 0.8).empty());
    CHECK(needs(30, std::nullopt) == Words{"Ed exam 30"});
    CHECK(needs(31, 0.1).empty());
    CHECK(needs(-1, 0.1).empty());
    // An exam kept as a day begins at midnight, half a day ago: it is still today.
    CHECK(needs(-0.5, 0.1) == Words{"Ed exam 0"});
}

TEST_CASE("crew progress: the first day on which somebody is overdue") {
    Shop shop;
    // By the calendar: the hour does not count.
    const auto midnight = std::chrono::floor<std::chrono::days>(kNow);
    shop.log.answers[0].at = base::after_days(midnight, -6);
    CHECK(shop.found().needs.empty());
    shop.log.answers[0].at = base::after_days(midnight, -6.001);
    CHECK(told(shop.found()) == Words{"Ed overdue 7"});
}

TEST_CASE("crew progress: who left is not among them, who leaves later still is") {
    Shop shop;
    shop.crew[0].learner.retired_at = base::after_days(kNow, -1);
    shop.crew[1].learner.retired_at = base::after_days(kNow, 1);
    shop.log.answers.push_back(by(0, made::answer(0, 1, 0, Sure::sure)));
    const auto found = shop.found();
    CHECK(found.members.size() == 4);
    CHECK(found.members[0].learner.name == "Ann");
    CHECK(found.needs.empty());
}

TEST_CASE("crew progress: topics tell who is strong where, the weakest first") {
    Shop shop;
    shop.log.answers = {by(0, made::answer(0, 50, 0)), by(1, made::answer(0, 1, 1)), by(2, made::answer(1, 1, 1))};
    const auto found = shop.found();
    REQUIRE(found.topics.size() == 5);
    CHECK(found.topics[0].topic == "topic 0");
    CHECK(found.topics[0].begun == 2);
    CHECK(found.members[found.topics[0].weakest].learner.name == "Ed");
    CHECK(found.members[found.topics[0].strongest].learner.name == "Ann");
    CHECK(found.topics[1].topic == "topic 1");
    CHECK(found.topics[1].weakest == found.topics[1].strongest);
    CHECK(found.topics[4].begun == 0);
}

TEST_CASE(
    "crew progress: property: needs are sorted, name members, and hold each tripped point of shock or fire once") {
    for (base::Seed seed = 1; seed <= 60; ++seed) {
        base::Random random{seed};
        Shop shop;
        shop.index = made::index(40);
        shop.log = made::log(shop.index, 5);
        shop.log.answers = made::answers(random, 300, 40, 60);
        for (auto& one : shop.log.answers) one.learner = static_cast<std::uint32_t>(random.below(5));
        const auto found = shop.found();
        std::size_t in_needs = 0, tripped = 0;
        for (const auto& need : found.needs) {
            CHECK_MESSAGE(need.member < found.members.size(), seed);
            in_needs += need.points.size();
        }
        for (const auto& one : found.members)
            for (const auto& correction : one.progress.corrections)
                tripped += correction.tripped() && correction.stakes <= content::Stakes::fire ? 1 : 0;
        CHECK_MESSAGE(in_needs == tripped, seed);
        CHECK_MESSAGE(std::is_sorted(found.needs.begin(), found.needs.end(),
                                     [](const auto& a, const auto& b) { return a.kind < b.kind; }),
                      seed);
    }
}
