#include <doctest/doctest.h>

#include "end/dialogue.hpp"
#include "store/sqlite/db.hpp"

using namespace end;

namespace {

/// A home with Ada's answers, and a van's laptop with others of hers.
class PlaceWithVan : public PlaceWithAda {
public:
    PlaceWithVan() {
        fill(store(), 3);
        fs::create_directories(desk("van"));
        must({"record", "merge", store(), "--home", desk("van")});
        fill(van(), 200);
        must({"record", "export", "--to", desk("van.jsonl"), "--home", desk("van")});
    }
    void must(const Words& words) const {
        const auto ended = run(words);
        if (ended.exit != 0) throw std::runtime_error{ended.err};
    }
    [[nodiscard]] std::string van() const { return desk("van/greentag.db"); }
    [[nodiscard]] std::string before() const {
        for (const auto& entry : fs::directory_iterator{home()})
            if (holds(entry.path().string(), ".before-")) return entry.path().string();
        return {};
    }
};

}  // namespace

TEST_CASE("record merge: what a merge brought can be left behind again by going back to the store before") {
    const PlaceWithVan place;
    const auto log = log_of(place.store());
    place.must({"record", "merge", place.van()});
    CHECK(log_of(place.store()).size() == 203);
    CHECK(log_of(place.before()) == log);
    place.must({"record", "restore", place.before()});
    CHECK(log_of(place.store()) == log);
}

TEST_CASE("record merge: both ways make one log of two, and nothing is kept aside when nothing is new") {
    const PlaceWithVan place;
    place.must({"record", "merge", place.van(), "--now", "2026-03-05"});
    place.must({"record", "merge", place.store(), "--home", place.desk("van")});
    CHECK(log_of(place.store()) == log_of(place.van()));
    fs::remove(place.before());
    place.must({"record", "merge", place.van()});
    CHECK(place.before().empty());
}

TEST_CASE("record merge: a disk that fills up half way is told, and the store is as it was") {
    const PlaceWithVan place;
    const auto log = log_of(place.store());
    int full = 0, taken = 0;
    for (int blocks = 20; blocks <= 700 && taken == 0; blocks += 40) {
        CAPTURE(blocks);
        const auto ended = place.shell("trap '' XFSZ; ulimit -f " + std::to_string(blocks) +
                                       "; $GREENTAG record merge " + place.van());
        if (ended.exit == 0) {
            ++taken;
            continue;
        }
        ++full;
        CHECK(ended.exit == 74);
        CHECK(log_of(place.store()) == log);
        CHECK(place.before().empty());
    }
    CHECK(full > 0);
    CHECK(taken == 1);
    CHECK(place.run({"record", "verify"}).exit == 0);
}

TEST_CASE("record merge: while another process writes the store is told to be busy, and nothing is left behind") {
    const PlaceWithVan place;
    const auto log = log_of(place.store());
    {
        store::sqlite::Db lock{place.store(), SQLITE_OPEN_READWRITE};
        lock.run("BEGIN IMMEDIATE");
        CHECK(place.run({"record", "merge", place.van()}).exit == 75);
    }
    CHECK(place.before().empty());
    CHECK(log_of(place.store()) == log);
}

TEST_CASE("record merge: while somebody studies, both keep their answers") {
    const PlaceWithVan place;
    Dialogue dialogue{place, {"study", "--lines", "--no-call", "--now", "2027-01-01"}};
    REQUIRE(dialogue.line().has_value());
    place.must({"record", "merge", place.van()});
    dialogue.say(R"({"gave_up": true})");
    CHECK(holds(dialogue.line().value(), "\"accepted\":true"));
    dialogue.stop(SIGKILL);
    CHECK(log_of(place.store()).size() == 204);
    CHECK(place.run({"record", "verify"}).exit == 0);
}

TEST_CASE("record import: a file that is refused makes no store") {
    const Place place;
    write_file(place.desk("bad.jsonl"), "{}\n");
    CHECK(place.run({"record", "import", place.desk("bad.jsonl")}).exit == 65);
    CHECK_FALSE(fs::exists(place.store()));
}

TEST_CASE("record import: nothing is written for a look, not even a store") {
    const PlaceWithVan place;
    const Place empty;
    CHECK(holds(empty.run({"record", "merge", place.van(), "--dry-run"}).out, "203 new"));
    CHECK_FALSE(fs::exists(empty.store()));
    const auto bytes = read_file(place.store());
    CHECK(place.run({"record", "merge", place.van(), "--dry-run"}).exit == 0);
    CHECK(read_file(place.store()) == bytes);
}
