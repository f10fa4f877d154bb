#include "store/other_store.hpp"

#include <doctest/doctest.h>

#include "store/earlier.hpp"
#include "store/parts.hpp"

using namespace stores;
using store::read_other_store;
using store::Store;

namespace {

std::optional<base::Exit> reading(const std::string& path) {
    return failure_of([&] { (void)read_other_store(path); });
}

Log answers_of(const store::LogPart& part) {
    Log log;
    for (const auto& one : part.answers) log.push_back(one.record);
    return log;
}

}  // namespace

TEST_CASE("other store: all of log and crew is read, and not a byte of the file changed") {
    const TempFolder folder;
    const Log kept = make_store(folder.path(), 30);
    const auto bytes = read_bytes(folder.path());
    const auto part = read_other_store(folder.path());
    CHECK(answers_of(part) == kept);
    CHECK(part.crew.size() == 1);
    CHECK(part.details);
    CHECK(read_bytes(folder.path()) == bytes);
    CHECK(std::distance(fs::directory_iterator{folder.path("")}, {}) == 1);
}

TEST_CASE("other store: read while another has it open and writes to it") {
    const TempFolder folder;
    Store store{options(folder.path())};
    const auto who = add(store, "Ada Volt");
    const Log kept = append(store, who, 0, 20);
    CHECK(answers_of(read_other_store(folder.path())) == kept);
    auto lock = side_door(folder.path());
    lock.run("BEGIN IMMEDIATE");
    CHECK(answers_of(read_other_store(folder.path())) == kept);
}

TEST_CASE("other store: one that is locked whole is said to be busy") {
    const TempFolder folder;
    make_store(folder.path(), 3);
    {
        auto lock = side_door(folder.path());
        lock.run("PRAGMA journal_mode = DELETE");
        lock.run("BEGIN EXCLUSIVE");
        CHECK(reading(folder.path()) == base::Exit::busy);
    }
    CHECK_FALSE(reading(folder.path()).has_value());
}

TEST_CASE("other store: answers in the write-ahead log of a machine that lost its power are read and left there") {
    const TempFolder folder;
    Log kept;
    {
        Store store{options(folder.path())};
        kept = append(store, add(store, "Ada Volt"), 0, 20);
        for (const char* tail : {"", "-wal"}) fs::copy(folder.path() + tail, folder.path("stick.db") + tail);
    }
    const auto store_bytes = read_bytes(folder.path("stick.db"));
    const auto log_bytes = read_bytes(folder.path("stick.db-wal"));
    REQUIRE(log_bytes.size() > 4096);
    for (int time = 0; time < 2; ++time) {
        CHECK(answers_of(read_other_store(folder.path("stick.db"))) == kept);
        CHECK(read_bytes(folder.path("stick.db")) == store_bytes);
        CHECK(read_bytes(folder.path("stick.db-wal")) == log_bytes);
    }
}

TEST_CASE("other store: a file that is not there, empty, or no database is told, and none is made") {
    const TempFolder folder;
    CHECK(reading(folder.path("none.db")) == base::Exit::no_input);
    CHECK_FALSE(fs::exists(folder.path("none.db")));
    CHECK(reading(folder.path("")) == base::Exit::no_input);
    for (const std::string& bytes : {std::string{}, std::string{"{\"format\":\"greentag-answer/1\"}\n"},
                                     std::string{"SQLite format 3\0", 16}, std::string(5000, 'x')}) {
        write_bytes(folder.path("odd"), bytes);
        CHECK(reading(folder.path("odd")) == base::Exit::bad_data);
        CHECK(read_bytes(folder.path("odd")) == bytes);
    }
}

TEST_CASE("other store: whoever names an exported log is told how that is read") {
    const TempFolder folder;
    write_bytes(folder.path("log.jsonl"), lines_of({answer(three().front().id)}));
    try {
        (void)read_other_store(folder.path("log.jsonl"));
        FAIL("was read");
    } catch (const base::Failure& failure) {
        CHECK(failure.mend().find("record import") != std::string::npos);
    }
}

TEST_CASE("other store: another program's database and a newer schema are refused and left as they were") {
    for (const int schema : {0, 1, 4, 99}) {
        CAPTURE(schema);
        const TempFolder folder;
        {
            auto db = side_door(folder.path());
            db.run("CREATE TABLE invoice(amount)");
            set_header(db, schema == 99 ? store::sqlite::kApplicationId : 0x0badcafe, schema);
        }
        const auto bytes = read_bytes(folder.path());
        CHECK(reading(folder.path()) == base::Exit::bad_data);
        CHECK(read_bytes(folder.path()) == bytes);
    }
}

TEST_CASE("other store: one that is cut short, or has a page that is spoilt, is refused and left as it was") {
    const FaultyDisk disk{FaultyDisk::Syncs::skipped};
    const TempFolder folder;
    make_store(folder.path(), 400);
    const auto whole = read_bytes(folder.path());
    base::Random random{3};
    for (std::size_t round = 0; round < whole.size() / 4096; ++round) {
        CAPTURE(round);
        std::string cut = whole, spoilt = whole;
        cut.resize(4096 * round + 1 + random.below(4095));
        spoilt.replace(4096 * round, 4096, 4096, '\xa5');
        for (const auto& bytes : {cut, spoilt}) {
            write_bytes(folder.path("odd.db"), bytes);
            CHECK(reading(folder.path("odd.db")) == base::Exit::bad_data);
            CHECK(read_bytes(folder.path("odd.db")) == bytes);
        }
    }
}

TEST_CASE("other store: an answer of nobody in its crew, or a name that is no name, is refused") {
    for (const char* spoil : {"DELETE FROM learner", "UPDATE learner SET name = 'Ada' || char(27) || '[2J'"}) {
        CAPTURE(spoil);
        const TempFolder folder;
        make_store(folder.path(), 3);
        side_door(folder.path()).run(spoil);
        CHECK(reading(folder.path()) == base::Exit::bad_data);
    }
}

TEST_CASE("other store: pages of another size are no hindrance") {
    const TempFolder folder;
    Log kept;
    {
        auto db = side_door(folder.path());
        db.run("PRAGMA page_size = 8192");
        Store store{options(folder.path())};
        kept = append(store, add(store, "Ada Volt"), 0, 9);
    }
    CHECK(answers_of(read_other_store(folder.path())) == kept);
}
