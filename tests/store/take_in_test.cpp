#include <doctest/doctest.h>

#include "store/earlier.hpp"
#include "store/parts.hpp"

using namespace stores;
using store::Store;

namespace {

constexpr base::Seed kSeeds = 60;

using What = store::CrewDifference::What;

/// The part of one learner of three(), with answers of theirs.
store::LogPart some_part(int from, int to) {
    Log log;
    for (int number = from; number < to; ++number) {
        log.push_back(answer(three().front().id, number));
        log.back().id = id_of(static_cast<std::uint8_t>(number + 1));
    }
    return by_lines(log);
}

}  // namespace

TEST_CASE(
    "take in: parts that overlap give the whole log and the states of a plain fold, in whatever order they come") {
    const FaultyDisk disk{FaultyDisk::Syncs::skipped};
    for (base::Seed seed = 1; seed <= kSeeds; ++seed) {
        CAPTURE(seed);
        base::Random random{seed};
        const Log log = any_log(random, 20 + random.below(40));
        auto parts = parts_of(log, random);
        Home one{parts};
        random.shuffle(parts);
        Home two{parts};
        CHECK(log_of(one.store) == in_order(log));
        CHECK(alike(one, two));
        for (const auto& who : three()) CHECK(one.store.states(who.id) == folded(log, who.id));
        CHECK(one.store.verify().problems == std::vector<std::string>{});
    }
}

TEST_CASE("take in: a part that comes again adds nothing and changes no byte of the store") {
    const FaultyDisk disk{FaultyDisk::Syncs::skipped};
    for (base::Seed seed = 1; seed <= kSeeds; ++seed) {
        CAPTURE(seed);
        base::Random random{seed + kSeeds};
        const auto parts = parts_of(any_log(random, 30), random);
        Home home{parts};
        home.store.stand_alone();
        const auto bytes = read_bytes(home.folder.path());
        for (const auto& part : parts) {
            const auto again = home.store.take_in(part).value();
            CHECK(again.fresh == 0);
            CHECK_FALSE(again.anything());
        }
        CHECK(read_bytes(home.folder.path()) == bytes);
    }
}

TEST_CASE("take in: stores merged both ways become alike") {
    const FaultyDisk disk{FaultyDisk::Syncs::skipped};
    for (base::Seed seed = 1; seed <= kSeeds; ++seed) {
        CAPTURE(seed);
        base::Random random{seed + 2 * kSeeds};
        Home one{{by_store(any_log(random, 25))}}, two{{by_store(any_log(random, 25))}};
        const auto first = store::read_other_store(one.folder.path());
        CHECK(one.store.take_in(store::read_other_store(two.folder.path())).value().fresh == 25);
        CHECK(two.store.take_in(first).value().fresh == 25);
        CHECK(alike(one, two));
    }
}

TEST_CASE("take in: answers given at home between two merges stay, and count in the states") {
    const FaultyDisk disk{FaultyDisk::Syncs::skipped};
    Home home{{some_part(0, 9)}};
    const auto who = three().front().id;
    Log log = log_of(home.store);
    for (const auto& record : append(home.store, who, 4, 30)) log.push_back(record);
    home.store.settle();
    const auto late = some_part(5, 20);
    REQUIRE(home.store.take_in(late).value().fresh == 11);
    for (const auto& one : late.answers)
        if (!holds(log, one.record.id)) log.push_back(one.record);
    CHECK(log_of(home.store) == in_order(log));
    CHECK(home.store.states(who) == folded(log, who));
}

TEST_CASE("take in: what it would bring is told beforehand, and nothing is written") {
    Home home{{some_part(0, 5)}};
    home.store.stand_alone();
    const auto bytes = read_bytes(home.folder.path());
    const auto would = home.store.would_take_in(some_part(3, 9)).value();
    CHECK(would.answers == 6);
    CHECK(would.fresh == 4);
    CHECK(would.latest == kMonday + std::chrono::minutes{8});
    CHECK(would.anything());
    CHECK(read_bytes(home.folder.path()) == bytes);
    CHECK(home.store.take_in(some_part(3, 9)).value().fresh == 4);
}

TEST_CASE("take in: a line twice in one file is one answer") {
    const Log log = any_log(*std::make_unique<base::Random>(5), 10);
    Home home{{by_lines(log)}};
    const auto twice = store::read_log(lines_of(log) + lines_of(log), "log.jsonl").value();
    CHECK(home.store.would_take_in(twice).value().answers == 10);
    Home fresh{{twice}};
    CHECK(log_of(fresh.store) == in_order(log));
}

TEST_CASE("take in: an answer that has the id of another is refused with its line, and nothing is taken in") {
    Home home{{some_part(0, 5)}};
    const Log before = log_of(home.store);
    auto part = some_part(3, 9);
    part.answers.at(1).record.mark = 0.5;
    const auto refused = home.store.take_in(part);
    REQUIRE_FALSE(refused.has_value());
    CHECK(refused.error().size() == 1);
    CHECK(refused.error().front().line == 2);
    CHECK(refused.error().front().file == "log.jsonl");
    CHECK(log_of(home.store) == before);
    CHECK_FALSE(home.store.would_take_in(part).has_value());
}

TEST_CASE("take in: a file that contradicts itself is refused where it does") {
    auto part = some_part(0, 3);
    part.answers.push_back(part.answers.front());
    part.answers.back().record.given = "c";
    part.answers.back().line = 4;
    Home home;
    const auto refused = home.store.take_in(part);
    REQUIRE_FALSE(refused.has_value());
    CHECK(refused.error().front().line == 4);
    CHECK(home.store.learners().empty());
}

TEST_CASE("take in: an answer whose typed bytes an export could not show is the same answer") {
    Home home{{some_part(0, 1)}};
    auto odd = answer(three().front().id, 40);
    odd.given =
        "a\xff"
        "b";
    odd = home.store.append(odd);
    const auto part = by_lines(log_of(home.store));
    CHECK(part.answers.back().record.given != odd.given);
    CHECK_FALSE(home.store.take_in(part).value().anything());
    CHECK(log_of(home.store).back() == odd);
}

TEST_CASE("take in: answers of someone whom nobody knows are refused with all their lines") {
    auto part = some_part(0, 3);
    part.crew.clear();
    Home home;
    const auto refused = home.store.take_in(part);
    REQUIRE_FALSE(refused.has_value());
    CHECK(refused.error().size() == 3);
    CHECK(refused.error().back().line == 3);
    Home with_ada{{some_part(0, 1)}};
    CHECK(with_ada.store.take_in(part).value().fresh == 2);
}

TEST_CASE("take in: someone of the same name and another id is kept apart and told once") {
    Home home;
    const auto ours = add(home.store, "ada volt");
    const auto part = some_part(0, 3);
    const auto taken = home.store.take_in(part).value();
    REQUIRE(taken.told.size() == 1);
    CHECK(taken.told.front().what == What::same_name);
    CHECK(taken.told.front().here == base::to_text(ours));
    CHECK(taken.told.front().there == base::to_text(three().front().id));
    CHECK(home.store.learners().size() == 2);
    CHECK(home.store.states(ours).empty());
    CHECK(home.store.take_in(part).value().told.empty());
}

TEST_CASE("take in: of two days since when a point has changed the later holds, in either order") {
    const FaultyDisk disk{FaultyDisk::Syncs::skipped};
    for (base::Seed seed = 1; seed <= 30; ++seed) {
        CAPTURE(seed);
        base::Random random{seed};
        std::vector<store::LogPart> parts(3, by_store({}));
        for (auto& part : parts)
            for (const auto& who : three())
                for (const char* point : {"a.b", "c.d"})
                    if (random.below(2) == 0)
                        part.relearn.push_back({who.id,
                                                {point},
                                                kMonday + std::chrono::hours{random.below(3)},
                                                random.below(2) == 0 ? "2020-2023" : "2023-2026"});
        Home one{parts};
        std::reverse(parts.begin(), parts.end());
        Home two{parts};
        CHECK(alike(one, two));
        const auto one_more = store::read_other_store(one.folder.path());
        CHECK(one_more.relearn == store::read_other_store(two.folder.path()).relearn);
        CHECK_FALSE(two.store.take_in(one_more).value().anything());
    }
}

TEST_CASE("take in: a store of any earlier schema is taken in and left as it was") {
    for (int schema = 1; schema < store::sqlite::newest_schema(); ++schema) {
        CAPTURE(schema);
        const TempFolder folder;
        make_schema(folder.path(), schema);
        const auto bytes = read_bytes(folder.path());
        Home home{{store::read_other_store(folder.path())}};
        CHECK(log_of(home.store) == samples());
        CHECK(home.store.verify().problems.empty());
        CHECK(read_bytes(folder.path()) == bytes);
        CHECK_FALSE(fs::exists(folder.path() + "-wal"));
    }
}
