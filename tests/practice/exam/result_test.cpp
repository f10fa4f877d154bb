#include "practice/exam/result.hpp"

#include <set>

#include <doctest/doctest.h>

#include "practice/exam/exams.hpp"

namespace {

using exams::event;
using exams::kStart;
using practice::Did;
using practice::Sitting;

const auto kOver = kStart + std::chrono::hours{1};
const base::Id128 kVan = base::parse_id("018f3c2e7d2a7cc18f00000000000002").value();

/// Answers the first `right` asks of each section right and the rest wrong; "a" is right.
Sitting sat(const std::vector<std::size_t>& counts, const std::vector<std::size_t>& right) {
    auto sitting = exams::sitting(counts);
    std::size_t place = 0;
    for (std::size_t s = 0; s < counts.size(); ++s)
        for (std::size_t n = 0; n < counts[s]; ++n, ++place)
            REQUIRE(
                sitting.apply(event(10 * static_cast<long>(place + 1), Did::answer, place, n < right[s] ? "a" : "b")));
    return sitting;
}

practice::SittingResult result(const Sitting& sitting, const content::Outline& exam) {
    return practice::result_of(sitting, exam, kOver).value();
}

}  // namespace

TEST_CASE("exam result: green from the pass mark on, red one below") {
    const auto exam = exams::outline({6, 4});  // 70 %: 7 of 10
    const auto green = result(sat({6, 4}, {5, 2}), exam);
    CHECK(green.asked == 10);
    CHECK(green.right == 7);
    CHECK(green.needed == 7);
    CHECK(green.green());
    const auto red = result(sat({6, 4}, {4, 2}), exam);
    CHECK(red.right == 6);
    CHECK(!red.green());
    // A section's own tag follows the exam's share: 70 % of 6 is 5 (4.2 rounded up), of 4 is 3 (2.8).
    CHECK(red.sections[0].section == 1);  // 2 of 4 is weaker than 4 of 6
    CHECK(red.sections[0].needed == 3);
    CHECK(!red.sections[0].green());
    CHECK(red.sections[1].needed == 5);
    CHECK(!red.sections[1].green());
    CHECK(!red.sections[1].must_pass);
}

TEST_CASE("exam result: a section that must pass on its own turns the tag red") {
    auto exam = exams::outline({6, 4});
    exam.sections[1].pass = 0.75;
    CHECK(result(sat({6, 4}, {5, 3}), exam).green());
    const auto red = result(sat({6, 4}, {6, 2}), exam);
    CHECK(red.right >= red.needed);
    CHECK(!red.green());
    CHECK(red.sections[0].must_pass);
    CHECK(red.sections[0].needed == 3);
}

TEST_CASE("exam result: a number of right answers is scaled to a shorter exam") {
    auto exam = exams::outline({30, 20});
    exam.pass.right = 38;  // 38 of 50 are 76 %, of 10 therefore 8
    CHECK(result(sat({6, 4}, {5, 3}), exam).green());
    CHECK(!result(sat({6, 4}, {5, 2}), exam).green());
}

TEST_CASE("exam result: nothing before the end, and then what is open counts as wrong") {
    const auto exam = exams::outline({3});
    auto sitting = exams::sitting({3});
    REQUIRE(sitting.apply(event(10, Did::answer, 0, "a")));
    REQUIRE(sitting.apply(event(20, Did::answer, 1, "!")));
    CHECK(!practice::result_of(sitting, exam, kOver - base::Milliseconds{1}));
    CHECK(practice::answer_records(sitting, kVan, kOver - base::Milliseconds{1}).empty());
    const auto late = result(sitting, exam);
    CHECK(late.out_of_time);
    CHECK(late.right == 1);
    CHECK(late.unanswered == 1);
    REQUIRE(late.corrections.size() == 2);
    CHECK(!late.corrections[0].unanswered);
    CHECK(late.corrections[1].unanswered);
    REQUIRE(sitting.apply(event(30, Did::finish)));
    const auto handed_in = practice::result_of(sitting, exam, kStart + std::chrono::seconds{30});
    REQUIRE(handed_in);
    CHECK(!handed_in->out_of_time);
    CHECK(handed_in->right == 1);
}

TEST_CASE("exam result: corrections by section, the weakest first, then what can hurt most; each point once") {
    const auto exam = exams::outline({4, 4});
    practice::SittingFor what;
    what.start = kStart;
    what.limit = std::chrono::hours{1};
    std::vector<content::Ask> posed;
    for (std::size_t place = 0; place < 8; ++place) {
        posed.push_back(exams::ask(place));
        if (place == 3) posed.back().question.point.text = "p.1";  // the same point as ask 1
        if (place == 2) posed.back().stakes = content::Stakes::shock;
        what.paper.items.push_back({place / 4, posed.back().id, posed.back().question.point});
    }
    Sitting sitting{what, posed};
    for (std::size_t place = 0; place < 8; ++place) {
        const bool right = place == 0 || place > 4;
        REQUIRE(sitting.apply(event(static_cast<long>(place), Did::answer, place, right ? "a" : "b")));
    }
    const auto found = result(sitting, exam).corrections;
    REQUIRE(found.size() == 3);
    CHECK(found[0].point.text == "p.2");  // section 1 has 1 of 4, and shock comes first
    CHECK(found[1].point.text == "p.1");
    CHECK(found[1].asks == std::vector<std::size_t>{1, 3});
    CHECK(found[2].point.text == "p.4");
    CHECK(found[2].section == 1);
}

TEST_CASE("exam result: partly right is a correction from below nine tenths") {
    practice::SittingFor what;
    what.start = kStart;
    what.limit = std::chrono::hours{1};
    const auto ask = asks::choosing(asks::Form::choose_all, {{"this", ""}, {"that", ""}, {"no", "m"}});
    what.paper.items.push_back({0, ask.id, ask.question.point});
    Sitting half{what, {ask}};
    REQUIRE(half.apply(event(1, Did::answer, 0, "a")));
    const auto found = result(half, exams::outline({1}));
    CHECK(found.marks[0].mark == doctest::Approx(0.5));
    CHECK(found.right == 0);
    CHECK(found.corrections.size() == 1);
}

TEST_CASE("exam records: one an answer, all as the log wants it") {
    auto sitting = exams::sitting({3});
    auto given = event(40, Did::answer, 2, "b");
    given.sure = memory::Sure::sure;
    REQUIRE(sitting.apply(event(15, Did::answer, 0, "a")));
    REQUIRE(sitting.apply(given));
    REQUIRE(sitting.apply(event(50, Did::finish)));
    const auto records = practice::answer_records(sitting, kVan, kStart + std::chrono::seconds{50});
    REQUIRE(records.size() == 2);  // ask 1 was left open
    const auto& wrong = records[1];
    CHECK(wrong.learner == sitting.what().learner);
    CHECK(wrong.point.text == "p.2");
    CHECK(wrong.question.text == "p.2#a");
    CHECK(wrong.content == "version-2");
    CHECK(wrong.seed == sitting.what().paper.items[2].seed);
    CHECK(wrong.edition == 2023);
    CHECK(wrong.jurisdiction == "alder");
    CHECK(wrong.setting == store::Setting::exam);
    CHECK(wrong.asked_at == kStart + std::chrono::seconds{40});
    CHECK(wrong.took_ms == 25'000);
    CHECK(wrong.mark == 0.0);
    CHECK(wrong.sure == memory::Sure::sure);
    CHECK(wrong.given == "b");
    CHECK(wrong.device == kVan);
    CHECK(records[0].mark == 1.0);
}

TEST_CASE("exam records: not known is kept as such, as a guess") {
    auto sitting = exams::sitting({1});
    auto given = event(5, Did::answer, 0, "!");
    given.sure = memory::Sure::sure;
    REQUIRE(sitting.apply(given));
    const auto records = practice::answer_records(sitting, kVan, kOver);
    REQUIRE(records.size() == 1);
    CHECK(records[0].given == "!");
    CHECK(records[0].mark == 0.0);
    CHECK(records[0].sure == memory::Sure::guess);
}

TEST_CASE("exam records: property: made again, later, from kept events, they are the same to the last field") {
    for (base::Seed seed = 1; seed <= 50; ++seed) {
        auto sitting = exams::sitting({4, 3});
        sitting.replay(exams::restless(7, 50, seed));
        auto again = exams::sitting({4, 3});
        again.replay(exams::restless(7, 50, seed));
        const auto records = practice::answer_records(sitting, kVan, kOver);
        CHECK(practice::answer_records(again, kVan, kOver + std::chrono::hours{99}) == records);
        CHECK(records.size() == sitting.counts().answered);
    }
}

TEST_CASE("exam records: ids are unlike within and across sittings, and have the layout of a version 7 UUID") {
    std::set<base::Id128> met;
    base::IdMaker make{5};
    constexpr std::size_t kSittings = 50, kAsks = 200;
    for (std::size_t s = 0; s < kSittings; ++s) {
        const auto sitting = make.make(kStart);
        for (std::size_t place = 0; place < kAsks; ++place) {
            const auto id = practice::answer_id(sitting, place);
            CHECK(id == practice::answer_id(sitting, place));
            // RFC 9562 section 5.7: version in the high half of byte 6, variant 10 in the top bits of byte 8.
            CHECK((id.bytes[6] >> 4U) == 7);
            CHECK((id.bytes[8] >> 6U) == 2);
            CHECK(std::equal(id.bytes.begin(), id.bytes.begin() + 6, sitting.bytes.begin()));
            met.insert(id);
        }
        met.insert(sitting);
    }
    CHECK(met.size() == kSittings * (kAsks + 1));
}
