#include "practice/exam/sitting.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "practice/exam/exams.hpp"
#include "practice/exam/result.hpp"

namespace {

using exams::event;
using exams::kStart;
using practice::Did;
using practice::Refused;
using practice::Sitting;
using practice::SittingEvent;
using std::chrono::minutes;
using std::chrono::seconds;

Refused::Why why(Sitting& sitting, const SittingEvent& one) {
    const auto done = sitting.apply(one);
    REQUIRE(!done);
    CHECK(!done.error().says.empty());
    return done.error().why;
}

}  // namespace

TEST_CASE("sitting: answered in any order, changed, taken back, flagged and unflagged") {
    auto sitting = exams::sitting({3});
    REQUIRE(sitting.apply(event(10, Did::answer, 2, "a")));
    REQUIRE(sitting.apply(event(20, Did::flag, 0)));
    REQUIRE(sitting.apply(event(50, Did::answer, 0, "b")));
    REQUIRE(sitting.apply(event(60, Did::answer, 2, "b")));
    CHECK(sitting.counts().asks == 3);
    CHECK(sitting.counts().answered == 2);
    CHECK(sitting.counts().flagged == 1);
    const auto& asks = sitting.state().asks;
    CHECK(asks[2].given == "b");
    CHECK(asks[2].answered_at == kStart + seconds{60});
    CHECK(asks[2].took_ms == 20'000);  // ten to the first answer, ten to the second
    CHECK(asks[0].took_ms == 30'000);
    REQUIRE(sitting.apply(event(70, Did::unflag, 0)));
    REQUIRE(sitting.apply(event(80, Did::answer, 2)));
    CHECK(!asks[2].answered());
    CHECK(sitting.counts().answered == 1);
    CHECK(sitting.counts().flagged == 0);
}

TEST_CASE("sitting: the content versions that are sat are noted in the paper") {
    const auto sitting = exams::sitting({2});
    CHECK(sitting.what().paper.items[1].content == "version-1");
}

TEST_CASE("sitting: text of the wrong form is refused without a word on right or wrong") {
    auto sitting = exams::sitting({2});
    const auto before = sitting.state();
    for (const char* typed : {"z", "ab", "?!", "a\xff"})
        CHECK(why(sitting, event(5, Did::answer, 0, typed)) == Refused::Why::no_answer);
    CHECK(why(sitting, event(5, Did::answer, 2, "a")) == Refused::Why::no_such_ask);
    CHECK(why(sitting, event(5, Did::flag, 2)) == Refused::Why::no_such_ask);
    CHECK(sitting.state() == before);
    // A right and a wrong answer are taken alike.
    auto other = exams::sitting({2});
    CHECK(sitting.apply(event(9, Did::answer, 1, "a")).has_value());
    CHECK(other.apply(event(9, Did::answer, 1, "b")).has_value());
    CHECK(!practice::result_of(sitting, exams::outline({2}), kStart + minutes{59}));
}

TEST_CASE("sitting: bytes that could not be kept are refused, even where words are free") {
    practice::SittingFor what;
    what.start = kStart;
    what.limit = minutes{60};
    const auto ask = asks::recall({{"heat", {"heat"}}});
    what.paper.items.push_back({0, ask.id, ask.question.point});
    Sitting sitting{what, {ask}};
    CHECK(why(sitting, event(1, Did::answer, 0, "heat \xff")) == Refused::Why::no_answer);
    CHECK(sitting.apply(event(1, Did::answer, 0, "heat \xc2\xb0")).has_value());
}

TEST_CASE("sitting: the clock runs to the limit, whatever happens, and never back") {
    auto sitting = exams::sitting({2});
    CHECK(sitting.time_left(kStart) == minutes{60});
    CHECK(sitting.time_left(kStart + minutes{25}) == minutes{35});
    REQUIRE(sitting.apply(event(30 * 60, Did::answer, 0, "a")));
    // Set back by twenty minutes, the machine's clock gives nothing back.
    CHECK(sitting.time_left(kStart + minutes{10}) == minutes{30});
    CHECK(sitting.clock(kStart + minutes{10}) == kStart + minutes{30});
    REQUIRE(sitting.apply(event(10 * 60, Did::answer, 1, "a")));
    CHECK(sitting.state().asks[1].answered_at == kStart + minutes{30});
    CHECK(sitting.state().asks[1].took_ms == 0);
    CHECK(sitting.time_left(kStart + minutes{60} - base::Milliseconds{1}) == base::Milliseconds{1});
    CHECK(!sitting.over(kStart + minutes{60} - base::Milliseconds{1}));
    CHECK(sitting.over(kStart + minutes{60}));
    CHECK(sitting.time_left(kStart + minutes{600}) == base::Milliseconds{0});
    CHECK(sitting.ends_at() == kStart + minutes{60});
    // Before its start it has all its time and no more.
    CHECK(exams::sitting({1}).time_left(kStart - minutes{5}) == minutes{60});
}

TEST_CASE("sitting: late answers are refused, from the very millisecond on") {
    auto sitting = exams::sitting({2});
    auto last = event(3600, Did::answer, 0, "a");
    CHECK(why(sitting, last) == Refused::Why::time_up);
    last.at -= base::Milliseconds{1};
    CHECK(sitting.apply(last).has_value());
    for (const auto did : {Did::answer, Did::flag, Did::unflag, Did::finish})
        CHECK(why(sitting, event(3600, did, 0, "b")) == Refused::Why::time_up);
    CHECK(sitting.state().asks[0].given == "a");
    CHECK(!sitting.state().finished);
}

TEST_CASE("sitting: handed in, nothing more is taken") {
    auto sitting = exams::sitting({2});
    REQUIRE(sitting.apply(event(100, Did::finish)));
    CHECK(sitting.over(kStart + seconds{100}));
    CHECK(sitting.over(kStart));
    CHECK(sitting.ends_at() == kStart + seconds{100});
    for (const auto did : {Did::answer, Did::flag, Did::unflag, Did::finish})
        CHECK(why(sitting, event(101, did, 0, "b")) == Refused::Why::finished);
    CHECK(sitting.counts().answered == 0);
}

TEST_CASE("sitting: property: wherever it is cut, the kept events give the state that was live") {
    std::size_t taken = 0, refused = 0;
    for (base::Seed seed = 1; seed <= 60; ++seed) {
        const auto events = exams::restless(7, 60, seed);
        auto live = exams::sitting({4, 3});
        std::vector<SittingEvent> kept;
        for (const auto& one : events) {
            const auto before = live.state();
            if (live.apply(one)) {
                kept.push_back(one);
                ++taken;
            } else {
                CHECK(live.state() == before);
                ++refused;
            }
            auto resumed = exams::sitting({4, 3});
            REQUIRE(resumed.replay(kept) == 0);
            REQUIRE_MESSAGE(resumed.state() == live.state(), "seed ", seed, " after ", kept.size());
            REQUIRE(resumed.time_left(one.at) == live.time_left(one.at));
        }
        // Stamped by the sitting's clock or by the machine's: the same. And what was refused once is refused again.
        auto all = exams::sitting({4, 3});
        CHECK(all.replay(events) == events.size() - kept.size());
        CHECK(all.state() == live.state());
        auto stamped = exams::sitting({4, 3});
        for (auto one : kept) {
            one.at = stamped.clock(one.at);
            CHECK(stamped.apply(one).has_value());
        }
        CHECK(stamped.state() == live.state());
    }
    CHECK(taken > 500);
    CHECK(refused > 500);
}

TEST_CASE("sitting: property: the order in which asks are answered does not matter") {
    const auto exam = exams::outline({5, 4});
    for (base::Seed seed = 1; seed <= 100; ++seed) {
        base::Random random{seed};
        std::vector<SittingEvent> events;
        for (std::size_t place = 0; place < 9; ++place) {
            static const std::vector<std::string> kGiven = {"a", "b", "!"};
            if (random.below(5) > 0)
                events.push_back(event(0, Did::answer, place, kGiven[static_cast<std::size_t>(random.below(3))]));
            if (random.below(4) == 0) events.push_back(event(0, Did::flag, place));
        }
        const auto sat = [&] {
            auto sitting = exams::sitting({5, 4});
            long at = 0;
            for (auto one : events) {
                one.at = kStart + seconds{at += 30};
                REQUIRE(sitting.apply(one));
            }
            return sitting;
        };
        const auto first = sat();
        random.shuffle(events);
        const auto second = sat();
        for (std::size_t place = 0; place < 9; ++place) {
            CHECK(first.state().asks[place].given == second.state().asks[place].given);
            CHECK(first.state().asks[place].flagged == second.state().asks[place].flagged);
        }
        const auto a = practice::result_of(first, exam, kStart + minutes{60}).value();
        const auto b = practice::result_of(second, exam, kStart + minutes{60}).value();
        CHECK(a.right == b.right);
        CHECK(a.green() == b.green());
        REQUIRE(a.corrections.size() == b.corrections.size());
        for (std::size_t n = 0; n < a.corrections.size(); ++n) CHECK(a.corrections[n].point == b.corrections[n].point);
    }
}

TEST_CASE("sitting: what is done has a name that reads back") {
    for (const auto did : {Did::answer, Did::flag, Did::unflag, Did::finish})
        CHECK(practice::parse_did(practice::to_text(did)) == did);
    CHECK(!practice::parse_did("peek"));
}
