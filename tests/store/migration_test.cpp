#include <doctest/doctest.h>

#include "store/earlier.hpp"
#include "store/sqlite/schema.hpp"

using namespace stores;
using store::Store;
using store::sqlite::Db;

TEST_CASE("migrations: every earlier schema is brought to the newest with all that was in it") {
    for (int schema = 1; schema < store::sqlite::newest_schema(); ++schema) {
        CAPTURE(schema);
        const TempFolder folder;
        make_schema(folder.path(), schema);
        Store store{options(folder.path())};
        CHECK(log_of(store) == samples());
        CHECK(store.learners().size() == 2);
        CHECK(store.verify().schema == store::sqlite::newest_schema());
    }
}

TEST_CASE("migrations: the states derived after one are those of a fresh fold") {
    for (int schema = 1; schema < store::sqlite::newest_schema(); ++schema) {
        CAPTURE(schema);
        const TempFolder folder;
        make_schema(folder.path(), schema);
        Store store{options(folder.path())};
        for (const auto& one : crew()) CHECK(store.states(one.id) == folded(samples(), one.id));
        CHECK(store.verify().problems.empty());
    }
}

TEST_CASE("migrations: the log is append-only afterwards, whatever schema it came from") {
    for (int schema = 1; schema < store::sqlite::newest_schema(); ++schema) {
        const TempFolder folder;
        make_schema(folder.path(), schema);
        const Store store{options(folder.path())};
        Db db = side_door(folder.path());
        CHECK_THROWS_AS(db.run("DELETE FROM answer"), base::Failure);
        CHECK_THROWS_AS(db.run("UPDATE answer SET mark = 0"), base::Failure);
    }
}

TEST_CASE("migrations: a database without tables becomes a store") {
    const TempFolder folder;
    make_schema(folder.path(), 0);
    Store store{options(folder.path())};
    CHECK(store.verify().schema == store::sqlite::newest_schema());
    CHECK(append(store, add(store, "Ada Volt"), 0, 1).size() == 1);
}

TEST_CASE("migrations: opening for reading leaves an earlier schema alone and says so") {
    const TempFolder folder;
    make_schema(folder.path(), 1);
    const auto before = read_bytes(folder.path());
    CHECK(opening(folder.path(), false) == base::Exit::bad_data);
    CHECK(read_bytes(folder.path()) == before);
}

TEST_CASE("migrations: another program's database is refused and left as it was") {
    for (int schema : {0, 1, 2, 99}) {
        CAPTURE(schema);
        const TempFolder folder;
        {
            Db db = side_door(folder.path());
            db.run("CREATE TABLE invoice(amount)");
            set_header(db, 0x0badcafe, schema);
        }
        const auto before = read_bytes(folder.path());
        CHECK(opening(folder.path()) == base::Exit::bad_data);
        CHECK(read_bytes(folder.path()) == before);
    }
}

TEST_CASE("migrations: a newer schema is refused and left as it was") {
    const TempFolder folder;
    make_store(folder.path(), 3);
    { side_door(folder.path()).run("PRAGMA user_version = 99"); }
    const auto before = read_bytes(folder.path());
    CHECK(opening(folder.path()) == base::Exit::bad_data);
    CHECK(opening(folder.path(), false) == base::Exit::bad_data);
    CHECK(read_bytes(folder.path()) == before);
}
