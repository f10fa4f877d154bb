#include <doctest/doctest.h>

#include "store/earlier.hpp"
#include "store/faulty_disk.hpp"
#include "store/support.hpp"

using namespace stores;
using store::Store;

namespace {

constexpr int kMany = 1'000'000;

/// The writes, cuts and syncs that `act` needs on a sound disk.
int steps_of(const std::function<void()>& act) {
    FaultyDisk::fail_at(kMany, SQLITE_FULL);
    act();
    const int steps = FaultyDisk::left_of(kMany);
    FaultyDisk::mend();
    return steps;
}

/// A store with some answers that are settled and some that are not.
struct Shop {
    Shop() {
        Store store{options(folder.path())};
        who = add(store, "Ada Volt");
        kept = append(store, who, 0, 20);
        store.settle();
        for (const auto& record : append(store, who, 20, 30)) kept.push_back(record);
    }
    [[nodiscard]] Log log() const {
        Store store{options(folder.path())};
        CHECK(store.verify().problems.empty());
        return log_of(store);
    }
    TempFolder folder;
    base::Id128 who;
    Log kept;
};

void fails_everywhere(const Shop& shop, int code, const std::function<void(Store&)>& act) {
    Store counting{options(shop.folder.path())};
    const int steps = steps_of([&] { act(counting); });
    REQUIRE(steps > 0);
    for (int step = 1; step <= steps; ++step) {
        CAPTURE(step);
        Store store{options(shop.folder.path())};
        FaultyDisk::fail_at(step, code);
        const auto failed = failure_of([&] { act(store); });
        FaultyDisk::mend();
        if (failed) CHECK(*failed == base::Exit::io_error);
        CHECK(shop.log() == shop.kept);
    }
}

}  // namespace

TEST_CASE("full disk: wherever the write of an answer fails, what was acknowledged is there and nothing else is") {
    for (const int code : {SQLITE_FULL, SQLITE_IOERR_WRITE, SQLITE_IOERR_FSYNC}) {
        const FaultyDisk disk{FaultyDisk::Syncs::skipped};
        Shop shop;
        for (int step = 1; step <= 6; ++step) {
            CAPTURE(step);
            Store store{options(shop.folder.path())};
            FaultyDisk::fail_at(step, code);
            const auto failed = failure_of([&] { shop.kept.push_back(store.append(answer(shop.who, 30 + step))); });
            FaultyDisk::mend();
            if (failed) CHECK(*failed == base::Exit::io_error);
            CHECK(shop.log() == shop.kept);
        }
    }
}

TEST_CASE("full disk: an append fails when its first write does, and the next one is kept once there is room") {
    const FaultyDisk disk{FaultyDisk::Syncs::skipped};
    const Shop shop;
    Store store{options(shop.folder.path())};
    FaultyDisk::fail_at(1, SQLITE_FULL);
    CHECK(failure_of([&] { store.append(answer(shop.who, 31)); }) == base::Exit::io_error);
    FaultyDisk::mend();
    const auto later = store.append(answer(shop.who, 32));
    CHECK(log_of(store).back() == later);
    CHECK(store.answer_count() == 31);
}

TEST_CASE("full disk: the message says that the last change was not kept") {
    for (const int code : {SQLITE_FULL, SQLITE_IOERR_WRITE, SQLITE_IOERR_FSYNC}) {
        const FaultyDisk disk{FaultyDisk::Syncs::skipped};
        const Shop shop;
        Store store{options(shop.folder.path())};
        FaultyDisk::fail_at(1, code);
        CHECK_THROWS_WITH_AS(store.append(answer(shop.who, 31)), doctest::Contains("the last change was not kept"),
                             base::Failure);
        FaultyDisk::mend();
    }
}

TEST_CASE("full disk: settling that fails anywhere loses nothing") {
    for (const int code : {SQLITE_FULL, SQLITE_IOERR_FSYNC}) {
        const FaultyDisk disk{FaultyDisk::Syncs::skipped};
        const Shop shop;
        fails_everywhere(shop, code, [](Store& store) { store.settle(); });
    }
}

TEST_CASE("full disk: rebuilding that fails anywhere loses nothing") {
    const FaultyDisk disk{FaultyDisk::Syncs::skipped};
    const Shop shop;
    fails_everywhere(shop, SQLITE_FULL, [](Store& store) { store.rebuild(); });
}

TEST_CASE("full disk: a log that cannot be added whole is not added at all") {
    const FaultyDisk disk{FaultyDisk::Syncs::skipped};
    const Shop shop;
    Store store{options(shop.folder.path())};
    Log log;
    for (std::uint8_t number = 0; number < 200; ++number) {
        log.push_back(answer(shop.who, number));
        log.back().id = id_of(number);
    }
    FaultyDisk::fail_at(2, SQLITE_FULL);
    CHECK(failure_of([&] { store.append_all(log); }) == base::Exit::io_error);
    FaultyDisk::mend();
    CHECK(shop.log() == shop.kept);
}

TEST_CASE("full disk: a store that could not be begun is no store, and can be begun later") {
    for (int step = 1; step <= 40; ++step) {
        CAPTURE(step);
        const FaultyDisk disk{FaultyDisk::Syncs::skipped};
        const TempFolder folder;
        FaultyDisk::fail_at(step, SQLITE_FULL);
        const auto failed = opening(folder.path());
        FaultyDisk::mend();
        if (failed) CHECK(*failed == base::Exit::io_error);
        CHECK_FALSE(opening(folder.path()).has_value());
        CHECK(Store{options(folder.path())}.verify().problems.empty());
    }
}

TEST_CASE("full disk: a migration that fails anywhere leaves the earlier store, which can be migrated later") {
    for (int step = 1; step <= 30; ++step) {
        CAPTURE(step);
        const FaultyDisk disk{FaultyDisk::Syncs::skipped};
        const TempFolder folder;
        make_schema(folder.path(), 1);
        FaultyDisk::fail_at(step, SQLITE_FULL);
        const auto failed = opening(folder.path());
        FaultyDisk::mend();
        if (failed) CHECK(*failed == base::Exit::io_error);
        Store store{options(folder.path())};
        CHECK(store.answer_count() == 40);
        CHECK(store.verify().problems.empty());
    }
}

TEST_CASE("full disk: a backup that fails anywhere leaves no file behind") {
    const FaultyDisk disk{FaultyDisk::Syncs::skipped};
    const Shop shop;
    Store store{options(shop.folder.path())};
    for (int step = 1; step <= 12; ++step) {
        CAPTURE(step);
        const TempFolder place;
        FaultyDisk::fail_at(step, SQLITE_FULL);
        const auto failed = failure_of([&] { store.backup_to(place.path("copy.db")); });
        FaultyDisk::mend();
        const auto files = std::distance(fs::directory_iterator{place.path("")}, fs::directory_iterator{});
        CHECK(files == (failed ? 0 : 1));
        if (!failed) CHECK(log_at(place.path("copy.db")) == shop.kept);
    }
}
