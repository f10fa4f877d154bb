#include "practice/session.hpp"

#include <algorithm>
#include <functional>
#include <map>
#include <set>

#include <doctest/doctest.h>

#include "content/look_up.hpp"
#include "content/sample.hpp"
#include "content/shipped.hpp"
#include "practice/memory_log.hpp"

namespace {

using base::Instant;
using practice::Outcome;
using practice::Posed;
using practice::Reason;
using practice::Reply;
using practice::Session;
using practice::SessionFor;

const Instant kStart = base::from_milliseconds(1'767'225'600'000);

SessionFor plan_for(base::Seed seed, std::size_t most_asks = 0, int minutes = 60) {
    SessionFor what;
    what.learner.id.bytes[0] = 7;
    what.learner.name = "Ada";
    what.pick.horizon = base::after_days(kStart, 90);
    what.pick.seed = seed;
    what.plan.budget = std::chrono::minutes{minutes};
    what.plan.most_asks = most_asks;
    what.start = kStart;
    what.seed = seed;
    return what;
}

Reply right(const Posed& posed) {
    return {content::right_answer(posed.ask), memory::Sure::fairly, 4000, false, false};
}

/// A learner at work: one ask every twenty seconds until the session ends.
struct Work {
    explicit Work(SessionFor what, const content::Library& library = shipped::library())
        : session{library, log, memory::advance, std::move(what)} {}

    /// `reply` gives the reply to an ask, or nothing to pass it over.
    void run(const std::function<std::optional<Reply>(const Posed&)>& reply) {
        for (; asked.size() < 500; now += std::chrono::seconds{20}) {
            const auto posed = session.next(now);
            if (!posed) return;
            asked.push_back(*posed);
            begun.push_back(now);
            if (const auto given = reply(*posed)) outcomes.push_back(session.answer(*given, now).value());
        }
    }
    void run_giving_up() {
        run([](const Posed&) { return Reply{"", memory::Sure::guess, 0, true, false}; });
    }
    void run_at_random(base::Seed seed) {
        base::Random random{seed};
        run([&](const Posed& posed) -> std::optional<Reply> {
            if (random.below(12) == 0) return std::nullopt;
            Reply reply = right(posed);
            reply.gave_up = random.below(3) == 0;
            reply.looked_up = random.below(6) == 0;
            reply.sure = static_cast<memory::Sure>(random.below(3));
            return reply;
        });
    }

    MemoryLog log;
    Session session;
    Instant now = kStart;
    std::vector<Posed> asked;
    std::vector<Instant> begun;
    std::vector<Outcome> outcomes;
};

std::size_t count(const Work& work, Reason reason) {
    return static_cast<std::size_t>(std::ranges::count(work.asked, reason, &Posed::reason));
}

}  // namespace

TEST_CASE("session: an answer is in the log before its outcome is told, and as told") {
    Work work{plan_for(1, 12)};
    work.run_at_random(1);
    REQUIRE(work.outcomes.size() >= 8);
    REQUIRE(work.log.records.size() == work.outcomes.size());
    for (std::size_t i = 0; i < work.outcomes.size(); ++i) CHECK(work.log.records[i] == work.outcomes[i].record);
}

TEST_CASE("session: a record says who was asked what, when and how") {
    SessionFor what = plan_for(2, 3);
    what.jurisdiction = "alder";
    what.plan.setting = store::Setting::meeting;
    Work work{what};
    const Posed posed = work.session.next(kStart).value();
    const auto outcome =
        work.session.answer({content::right_answer(posed.ask), memory::Sure::sure, -5}, kStart).value();
    const auto& record = outcome.record;
    CHECK(record.learner == what.learner.id);
    CHECK(record.point == posed.ask.question.point);
    CHECK(record.question == posed.ask.id);
    CHECK(record.content == posed.ask.content);
    CHECK(record.seed == posed.ask.seed);
    CHECK(record.edition == 2023);
    CHECK(record.jurisdiction == "alder");
    CHECK(record.setting == store::Setting::meeting);
    CHECK(record.asked_at == kStart);
    CHECK(record.took_ms == 0);
    CHECK(record.mark == 1.0);
    CHECK(record.sure == memory::Sure::sure);
    CHECK(record.given == content::right_answer(posed.ask));
}

TEST_CASE("session: what the log could not keep is not acknowledged, and can be answered again") {
    Work work{plan_for(3)};
    const Posed posed = work.session.next(kStart).value();
    work.log.failing = true;
    CHECK_THROWS_AS((void)work.session.answer(right(posed), kStart), base::Failure);
    CHECK(work.session.summary(kStart).outcomes.empty());
    CHECK(work.session.standing(kStart).fresh == work.session.standing(kStart).in_scope);
    work.log.failing = false;
    CHECK(work.session.answer(right(posed), kStart).has_value());
    CHECK(work.log.records.size() == 1);
}

TEST_CASE("session: text that is no answer keeps nothing and leaves the ask open") {
    Work work{plan_for(4)};
    const Posed posed = work.session.next(kStart).value();
    const auto refused = work.session.answer({" ", memory::Sure::fairly, 0}, kStart);
    REQUIRE_FALSE(refused.has_value());
    CHECK_FALSE(refused.error().empty());
    CHECK(work.log.records.empty());
    CHECK(work.session.answer(right(posed), kStart)->posed.ask.id == posed.ask.id);
}

TEST_CASE("session: not knowing is kept as a guess worth nothing, looking up as half") {
    Work work{plan_for(5)};
    (void)work.session.next(kStart);
    const auto gave_up = work.session.answer({"b", memory::Sure::sure, 0, true}, kStart).value();
    CHECK(gave_up.record.mark == 0.0);
    CHECK(gave_up.record.given == "!");
    CHECK(gave_up.record.sure == memory::Sure::guess);
    const Posed posed = work.session.next(kStart).value();
    Reply reply = right(posed);
    reply.looked_up = true;
    const auto helped = work.session.answer(reply, kStart).value();
    CHECK(helped.record.mark == 0.5);
    CHECK_FALSE(helped.recalled());
}

TEST_CASE("session: every point that was failed comes again once before the end, whatever the limit") {
    for (const auto& plan : {plan_for(6, 5), plan_for(7, 0, 3), plan_for(8, 0, 12)}) {
        Work work{plan};
        work.run_giving_up();
        std::map<std::string, std::size_t> corrections;
        std::set<std::string> failed;
        for (const auto& posed : work.asked) {
            const std::string& id = posed.ask.question.point.text;
            if (posed.reason == Reason::correction)
                ++corrections[id];
            else
                failed.insert(id);
        }
        REQUIRE(failed.size() >= 5);
        for (const auto& id : failed) CHECK_MESSAGE(corrections[id] == 1, id);
    }
}

TEST_CASE("session: corrections beyond a count of asks are bounded") {
    Work work{plan_for(9, 30)};
    work.run_giving_up();
    CHECK(work.asked.size() <= 35);
    CHECK(work.asked.size() >= 30);
}

TEST_CASE("session: property: nothing but corrections and the rest of a call begins when the time is up") {
    for (base::Seed seed = 1; seed <= 20; ++seed) {
        Work work{plan_for(seed, 0, 3 + static_cast<int>(seed % 9))};
        work.run_at_random(seed);
        for (std::size_t i = 0; i < work.asked.size(); ++i) {
            const auto reason = work.asked[i].reason;
            if (reason == Reason::correction || reason == Reason::call) continue;
            const auto used = work.begun[i] - kStart + std::chrono::seconds{25};
            CHECK_MESSAGE(used <= work.session.what().plan.budget, "seed ", seed);
        }
    }
}

TEST_CASE("session: a count of asks is kept when all are answered right") {
    for (const std::size_t most : {1U, 4U, 9U}) {
        Work work{plan_for(11, most)};
        work.run(right);
        CHECK(work.asked.size() == most);
    }
    Work none{plan_for(11, 0, 0)};
    none.run(right);
    CHECK(none.asked.empty());
}

TEST_CASE("session: a longer session holds one call, asked in full and in one go") {
    for (base::Seed seed = 1; seed <= 20; ++seed) {
        CAPTURE(seed);
        Work work{plan_for(seed, 0, 20)};
        work.run(right);
        const auto first = std::ranges::find(work.asked, Reason::call, &Posed::reason);
        REQUIRE(first != work.asked.end());
        const auto index = std::ranges::find_if(shipped::library().index().scenarios, [&](const auto& s) {
            return first->ask.id.text.starts_with(s.id + "#");
        });
        const auto whole = content::compose_scenario(shipped::library(), *index, trade::Edition::e2023,
                                                     base::derive_seed(seed, "call"));
        REQUIRE(count(work, Reason::call) == whole.size());
        for (std::size_t i = 0; i < whole.size(); ++i)
            CHECK((first + static_cast<std::ptrdiff_t>(i))->ask.id == whole[i].id);
    }
}

TEST_CASE("session: no call comes in a short session or against the plan") {
    Work short_one{plan_for(1, 9)};
    short_one.run(right);
    CHECK(count(short_one, Reason::call) == 0);
    SessionFor without = plan_for(1, 0, 20);
    without.plan.calls = false;
    Work work{without};
    work.run(right);
    CHECK(count(work, Reason::call) == 0);
}

TEST_CASE("session: a call that has begun is finished although the time runs out") {
    Work work{plan_for(12, 0, 10)};
    for (int i = 0; i < 400; ++i) {
        const auto posed = work.session.next(work.now);
        if (!posed) break;
        work.asked.push_back(*posed);
        (void)work.session.answer(right(*posed), work.now);
        work.now += std::chrono::seconds{posed->reason == Reason::call ? 600 : 20};
    }
    CHECK(count(work, Reason::call) >= 3);
    CHECK(work.asked.back().reason == Reason::call);
}

TEST_CASE("session: property: an ask that was passed over does not come back") {
    for (base::Seed seed = 1; seed <= 20; ++seed) {
        Work work{plan_for(seed, 0, 30)};
        std::set<std::string> passed;
        base::Random random{seed};
        work.run([&](const Posed& posed) -> std::optional<Reply> {
            CHECK_MESSAGE(!passed.contains(posed.ask.question.point.text), "seed ", seed);
            if (random.below(4) != 0) return right(posed);
            if (posed.reason != Reason::call) passed.insert(posed.ask.question.point.text);
            return std::nullopt;
        });
        CHECK_FALSE(passed.empty());
    }
}

TEST_CASE("session: property: asks are numbered as they come, and no point comes twice but as a correction") {
    for (base::Seed seed = 1; seed <= 20; ++seed) {
        Work work{plan_for(seed, 0, 30)};
        work.run_at_random(seed);
        std::set<std::string> met;
        for (std::size_t i = 0; i < work.asked.size(); ++i) {
            CHECK(work.asked[i].number == i + 1);
            if (work.asked[i].reason == Reason::correction || work.asked[i].reason == Reason::call) continue;
            CHECK_MESSAGE(met.insert(work.asked[i].ask.question.point.text).second, "seed ", seed);
        }
    }
}

TEST_CASE("session: property: the same seed and replies give the same session") {
    for (base::Seed seed = 1; seed <= 10; ++seed) {
        Work one{plan_for(seed, 0, 15)};
        Work two{plan_for(seed, 0, 15)};
        one.run_at_random(seed);
        two.run_at_random(seed);
        REQUIRE(one.asked.size() == two.asked.size());
        for (std::size_t i = 0; i < one.asked.size(); ++i)
            CHECK(content::right_answer(one.asked[i].ask) == content::right_answer(two.asked[i].ask));
    }
}

TEST_CASE("session: property: the counts of the summary add up") {
    for (base::Seed seed = 1; seed <= 30; ++seed) {
        CAPTURE(seed);
        Work work{plan_for(seed, 0, 15)};
        work.run_at_random(seed);
        const auto summary = work.session.summary(work.now);
        double marks = 0;
        std::set<std::string> points;
        std::map<std::string, bool> last;
        for (const auto& outcome : summary.outcomes) {
            marks += outcome.mark.mark;
            points.insert(outcome.record.point.text);
            last[outcome.record.point.text] = outcome.recalled();
        }
        CHECK(summary.outcomes.size() == work.outcomes.size());
        CHECK(summary.marks == doctest::Approx(marks));
        CHECK(summary.due_tomorrow + summary.due_this_week + summary.due_later == points.size());
        CHECK(summary.corrections.size() ==
              static_cast<std::size_t>(std::ranges::count_if(last, [](const auto& p) { return !p.second; })));
        CHECK(summary.green() == summary.corrections.empty());
    }
}

TEST_CASE("session: property: the tallies by sureness and the topics add up") {
    for (base::Seed seed = 31; seed <= 50; ++seed) {
        CAPTURE(seed);
        Work work{plan_for(seed, 0, 15)};
        work.run_at_random(seed);
        const auto summary = work.session.summary(work.now);
        std::size_t answers = 0;
        std::size_t right_ones = 0;
        for (const auto& [sure, tally] : summary.sure) {
            answers += tally.answers;
            right_ones += tally.right;
        }
        CHECK(answers == work.outcomes.size());
        CHECK(right_ones == static_cast<std::size_t>(std::ranges::count_if(work.outcomes, &Outcome::recalled)));
        std::size_t in_topics = 0;
        for (const auto& topic : summary.topics) {
            in_topics += topic.points;
            CHECK(topic.met <= topic.points);
            CHECK(topic.due <= topic.met);
        }
        CHECK(in_topics == summary.standing.in_scope);
    }
}

TEST_CASE("session: what was wrong and then right is put right, what stays wrong is a correction") {
    Work work{plan_for(13, 1)};
    const Posed first = work.session.next(kStart).value();
    (void)work.session.answer({"", memory::Sure::guess, 0, true}, kStart);
    CHECK(work.session.summary(kStart).corrections.size() == 1);
    CHECK_FALSE(work.session.summary(kStart).green());
    const Posed again = work.session.next(kStart).value();
    CHECK(again.reason == Reason::correction);
    CHECK(again.ask.question.point == first.ask.question.point);
    (void)work.session.answer(right(again), kStart);
    const auto summary = work.session.summary(kStart);
    CHECK(summary.put_right == 1);
    CHECK(summary.green());
}

TEST_CASE("session: nothing answered is not green") {
    const Work work{plan_for(14)};
    const auto summary = work.session.summary(kStart);
    CHECK_FALSE(summary.green());
    CHECK(summary.standing.fresh == summary.standing.in_scope);
}

TEST_CASE("session: sure and wrong is told to come back tomorrow") {
    Work work{plan_for(15, 1)};
    for (auto posed = work.session.next(kStart); posed; posed = work.session.next(kStart)) {
        if (posed->ask.question.form == content::Form::choose) {
            const auto wrong = std::ranges::find(posed->ask.options, false, &content::Option::right);
            const auto letter = content::letter(static_cast<std::size_t>(wrong - posed->ask.options.begin()));
            const auto outcome = work.session.answer({letter, memory::Sure::sure, 0}, kStart).value();
            CHECK(outcome.mark.mistakes.size() == 1);
            CHECK_FALSE(outcome.posed.ask.mistakes.at(wrong->mistake).empty());
            CHECK(work.session.summary(kStart).back_tomorrow == 1);
            return;
        }
    }
    FAIL("no choose question came up");
}

TEST_CASE("session: a point that comes again is asked in other words until all are used") {
    const sample::Folder folder{"session-round"};
    folder.write_sample();
    const auto library = content::open_library({folder.path()}, "").value();
    MemoryLog log;
    for (int day = 0; day < 12; ++day) {
        SessionFor what = plan_for(16);
        what.start = base::after_days(kStart, day);
        Session session{library, log, memory::advance, what};
        while (const auto posed = session.next(what.start)) (void)session.answer(right(*posed), what.start);
    }
    std::vector<std::string> asked;
    for (const auto& record : log.records)
        if (record.point.text == "box.volume") asked.push_back(record.question.text);
    REQUIRE(asked.size() == 12);
    for (std::size_t i = 0; i + 4 <= asked.size(); ++i)
        CHECK(std::set<std::string>(asked.begin() + static_cast<std::ptrdiff_t>(i),
                                    asked.begin() + static_cast<std::ptrdiff_t>(i) + 4)
                  .size() == 4);
}

TEST_CASE("session: a point without a question for the edition does not end it") {
    const sample::Folder folder{"session-gap"};
    std::string deck =
        sample::spoiled(sample::kDeck, "\"form\": \"choose\",", "\"form\": \"choose\", \"editions\": \"2017\",");
    deck = sample::spoiled(deck, "\"form\": \"choose-all\",", "\"form\": \"choose-all\", \"editions\": \"2017\",");
    deck = sample::spoiled(deck, "\"editions\": \"2017-2023\",\n          \"enough\"",
                           "\"editions\": \"2017\", \"enough\"");
    folder.write("decks/boxes.json", sample::spoiled(deck, "\"needs\": [\"box.accessible\"],", ""));
    folder.write("decks/volume.json", sample::kTable);
    const auto library = content::open_library({folder.path()}, "").value();
    for (base::Seed seed = 1; seed <= 6; ++seed) {
        Work work{plan_for(seed), library};
        work.run(right);
        REQUIRE(work.asked.size() == 1);
        CHECK(work.asked[0].ask.question.point.text == "box.volume");
    }
}

TEST_CASE("session: the edition is the learner's own, else the jurisdiction's on the day, else 2023") {
    const auto places = sample::contents().jurisdictions;
    const auto on = [](const char* day) { return base::parse_instant(day).value(); };
    store::Learner learner;
    CHECK(practice::edition_for(learner, places, on("2019-01-01")) == trade::Edition::e2023);
    learner.jurisdiction = "nowhere";
    CHECK(practice::edition_for(learner, places, on("2019-01-01")) == trade::Edition::e2023);
    learner.jurisdiction = "alder";
    CHECK(practice::edition_for(learner, places, on("2010-01-01")) == trade::Edition::e2023);
    CHECK(practice::edition_for(learner, places, on("2019-01-01")) == trade::Edition::e2017);
    CHECK(practice::edition_for(learner, places, on("2024-01-01")) == trade::Edition::e2020);
    learner.edition = 2026;
    CHECK(practice::edition_for(learner, places, on("2019-01-01")) == trade::Edition::e2026);
    learner.edition = 1999;
    CHECK(practice::edition_for(learner, places, on("2019-01-01")) == trade::Edition::e2017);
}

TEST_CASE("session: with an open book places are looked up; the recall of their points stays as it was") {
    auto what = plan_for(5, 12);
    what.plan.open_book = true;
    Work work{what};
    work.run([](const Posed& posed) {
        Reply reply = right(posed);
        reply.looked_up = true;
        reply.gave_up = posed.number % 4 == 0;
        return std::optional{reply};
    });
    REQUIRE(work.outcomes.size() == 12);
    for (const auto& outcome : work.outcomes) {
        CHECK(outcome.posed.reason == Reason::look_up);
        CHECK(outcome.posed.ask.call.empty());
        CHECK(outcome.mark.mark == (outcome.reply.gave_up ? 0.0 : 1.0));
        const auto point = content::looked_up(outcome.record.point);
        REQUIRE(point);
        CHECK(work.log.states({}).count(*point) == 0);
        CHECK(practice::look_up_in(outcome.record)->took_ms == outcome.reply.took_ms);
        REQUIRE_FALSE(outcome.mark.notes.empty());
        CHECK(outcome.mark.notes.back().find("takes you about") != std::string::npos);
    }
    const auto summary = work.session.summary(work.now);
    CHECK(summary.corrections.size() == 3);
    CHECK_FALSE(summary.look_ups.empty());
    CHECK(summary.standing.fresh == summary.standing.in_scope);
}
