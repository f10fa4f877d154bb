#include <doctest/doctest.h>

#include "store/support.hpp"

using namespace stores;
using store::Store;

TEST_CASE("backup: a copy made while the store is open holds all of it, in one file") {
    const TempFolder folder;
    Store store{options(folder.path())};
    const Log kept = append(store, add(store, "Ada Volt"), 0, 60);
    store.backup_to(folder.path("copy.db"));
    append(store, kept.front().learner, 60, 61);
    CHECK_FALSE(fs::exists(folder.path("copy.db-wal")));
    CHECK_FALSE(fs::exists(folder.path("copy.db.part")));
    Store copy{options(folder.path("copy.db"))};
    CHECK(log_of(copy) == kept);
    CHECK(copy.learners() == store.learners());
    CHECK(copy.verify().problems.empty());
}

TEST_CASE("backup: a copy works on as a store of its own") {
    const TempFolder folder;
    make_store(folder.path(), 5);
    Store{options(folder.path(), false)}.backup_to(folder.path("copy.db"));
    Store copy{options(folder.path("copy.db"))};
    append(copy, copy.learners().front().id, 5, 9);
    CHECK(copy.answer_count() == 9);
    CHECK(Store{options(folder.path())}.answer_count() == 5);
}

TEST_CASE("backup: a file that is there is not written over") {
    const TempFolder folder;
    make_store(folder.path(), 5);
    write_bytes(folder.path("copy.db"), "someone's");
    Store store{options(folder.path())};
    CHECK(failure_of([&] { store.backup_to(folder.path("copy.db")); }) == base::Exit::cannot_write);
    CHECK(read_bytes(folder.path("copy.db")) == "someone's");
}

TEST_CASE("backup: a folder that is not there is told, and the store goes on") {
    const TempFolder folder;
    Store store{options(folder.path())};
    const auto who = add(store, "Ada Volt");
    CHECK(failure_of([&] { store.backup_to(folder.path("none/copy.db")); }) == base::Exit::cannot_write);
    CHECK(append(store, who, 0, 1).size() == 1);
}

TEST_CASE("backup: what an earlier broken-off copy left behind is no hindrance") {
    const TempFolder folder;
    const Log kept = make_store(folder.path(), 5);
    write_bytes(folder.path("copy.db.part"), "half a copy");
    Store{options(folder.path())}.backup_to(folder.path("copy.db"));
    Store copy{options(folder.path("copy.db"))};
    CHECK(log_of(copy) == kept);
}

TEST_CASE("backup: a store that stands alone is one file with everything in it, and can be gone on with") {
    const TempFolder folder;
    Store store{options(folder.path())};
    Log kept = append(store, add(store, "Ada Volt"), 0, 9);
    store.stand_alone();
    CHECK_FALSE(fs::exists(folder.path() + "-wal"));
    fs::copy(folder.path(), folder.path("moved.db"));
    CHECK(log_at(folder.path("moved.db")) == kept);
    kept.push_back(store.append(answer(kept.front().learner, 9)));
    CHECK(log_of(store) == kept);
}

TEST_CASE("backup: a store that another has open does not stand alone") {
    const TempFolder folder;
    Store store{options(folder.path())};
    const Store other{options(folder.path())};
    CHECK(failure_of([&] { store.stand_alone(); }) == base::Exit::busy);
}
