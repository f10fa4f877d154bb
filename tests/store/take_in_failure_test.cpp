#include <doctest/doctest.h>

#include <sys/wait.h>
#include <csignal>

#include "store/parts.hpp"

using namespace stores;
using store::Store;

namespace {

constexpr int kMany = 1'000'000;

/// A home with answers, and a part that brings a hundred more and a learner.
struct Laptop {
    Laptop() {
        base::Random random{11};
        whole = any_log(random, 160);
        const std::vector first(whole.begin(), whole.begin() + 60);
        kept = in_order(first);
        {
            Store store{options(folder.path())};
            enlist(folder.path(), three());
            store.append_all(first);
            store.rebuild();
        }
        part = by_lines(whole);
        part.crew.push_back(learner_called("Dora Watt"));
        part.crew.back().id = id_of(99);
    }
    /// Whether the store holds all or nothing of the part; it has to be sound in both cases.
    [[nodiscard]] bool all() const {
        Store store{options(folder.path())};
        CHECK(store.verify().problems == std::vector<std::string>{});
        const Log log = log_of(store);
        const bool taken = log.size() > kept.size();
        CHECK(log == (taken ? in_order(whole) : kept));
        CHECK(store.learners().size() == (taken ? 4U : 3U));
        return taken;
    }
    TempFolder folder;
    Log whole, kept;
    store::LogPart part;
};

}  // namespace

TEST_CASE("take in: wherever the disk fails, all of the part is there or nothing of it") {
    for (const int code : {SQLITE_FULL, SQLITE_IOERR_WRITE, SQLITE_IOERR_FSYNC}) {
        const FaultyDisk disk{FaultyDisk::Syncs::skipped};
        int failures = 0;
        for (int step = 1;; ++step) {
            CAPTURE(step);
            const Laptop laptop;
            Store store{options(laptop.folder.path())};
            FaultyDisk::fail_at(step, code);
            const auto failed = failure_of([&] { (void)store.take_in(laptop.part); });
            FaultyDisk::mend();
            const bool all = laptop.all();
            if (!failed) {
                CHECK(all);
                break;
            }
            ++failures;
            CHECK(*failed == base::Exit::io_error);
            CHECK(store.take_in(laptop.part).has_value());
            CHECK(laptop.all());
        }
        CHECK(failures > 3);
    }
}

TEST_CASE("take in: killed at any moment, all of the part is there or nothing of it") {
    // What a killed process wrote stays with the system: no sync is needed to find it again.
    const FaultyDisk disk{FaultyDisk::Syncs::skipped};
    for (int round = 0; round < 40; ++round) {
        CAPTURE(round);
        const Laptop laptop;
        int ready[2];
        REQUIRE(pipe(ready) == 0);
        const pid_t child = fork();
        if (child == 0) {
            Store store{options(laptop.folder.path())};
            if (write(ready[1], "r", 1) != 1) _exit(1);
            (void)store.take_in(laptop.part);
            _exit(0);
        }
        char told = 0;
        REQUIRE(read(ready[0], &told, 1) == 1);
        usleep(static_cast<useconds_t>(round * 250));
        kill(child, SIGKILL);
        int status = 0;
        waitpid(child, &status, 0);
        for (const int end : ready) close(end);
        (void)laptop.all();
        Store store{options(laptop.folder.path())};
        CHECK(store.take_in(laptop.part).has_value());
        CHECK(laptop.all());
    }
}

TEST_CASE("take in: a store that another process holds is said to be busy, and nothing is taken in") {
    const Laptop laptop;
    Store store{options(laptop.folder.path())};
    {
        auto lock = side_door(laptop.folder.path());
        lock.run("BEGIN IMMEDIATE");
        CHECK(failure_of([&] { (void)store.take_in(laptop.part); }) == base::Exit::busy);
        CHECK(store.would_take_in(laptop.part).value().fresh == 100);
    }
    CHECK_FALSE(laptop.all());
    CHECK(store.take_in(laptop.part).value().fresh == 100);
    CHECK(laptop.all());
}
