#include <doctest/doctest.h>

#include "end/support.hpp"
#include "store/sqlite/db.hpp"

using namespace end;
using store::sqlite::Db;

namespace {

const Words kStudyOne = {"study", "--count", "1", "--no-call", "--seed", "7", "--now", "2026-03-02T07:00Z"};

Db side_door(const Place& place) {
    return Db{place.store(), SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE};
}

/// A deck whose title holds this.
std::string deck_titled(const std::string& title) {
    return "{\"format\": \"greentag-deck/1\",\n \"deck\": \"mine\", \"topic\": \"mine\",\n \"title\": " + title +
           ",\n \"points\": []}\n";
}

/// As an ordinary user, whoever runs the tests.
Ended as_nobody(const Place& place, const std::string& arguments) {
    const std::string drop = "setpriv --reuid=65534 --regid=65534 --clear-groups ";
    return place.shell((geteuid() == 0 ? drop : "") + "$GREENTAG " + arguments);
}

/// Gives a file to the user that as_nobody runs as.
void hand_over(const std::string& path) {
    if (geteuid() == 0) REQUIRE(chown(path.c_str(), 65534, 65534) == 0);
}

}  // namespace

TEST_CASE("exit 64: every failure names what was given") {
    const PlaceWithAda place;
    for (const Words& words : {Words{"study", "--minutes", "241"},
                               {"study", "--seed", "x"},
                               {"find", "a", "--most", "-1"},
                               {"crew", "add", "B", "--exam", "2026-13-01"},
                               {"library", "list", "--edition", "2021"}}) {
        const auto ended = place.run(words);
        CHECK(ended.exit == 64);
        CHECK_MESSAGE(holds(ended.err, words.back()), ended.err);
    }
}

TEST_CASE("exit 65: bytes in a deck that are no UTF-8 are told with file and line") {
    const PlaceWithAda place;
    write_file(place.desk("own/decks/mine.json"), deck_titled("\"caf\xe9\""));
    const auto ended = place.run({"study", "--library", place.desk("own")});
    CHECK(ended.exit == 65);
    CHECK_MESSAGE(holds(ended.err, "mine.json:3"), ended.err);
}

TEST_CASE("exit 65: a broken deck leaves the answers alone") {
    const PlaceWithAda place;
    REQUIRE(place.run(kStudyOne, "ab\n").exit == 0);
    write_file(place.desk("own/decks/mine.json"), deck_titled("}"));
    CHECK(place.run({"study", "--library", place.desk("own")}).exit == 65);
    CHECK(log_of(place.store()).size() == 1);
}

TEST_CASE("exit 65: another program's database is refused by every verb that opens it, and left as it was") {
    const Place place;
    side_door(place).run("CREATE TABLE invoice(amount)");
    const auto before = read_file(place.store());
    for (const Words& words :
         {Words{"crew", "list"}, {"crew", "add", "Ada"}, {"study"}, {"record", "verify"}, {"record", "export"}}) {
        const auto ended = place.run(words);
        CHECK(ended.exit == 65);
        CHECK_MESSAGE(holds(ended.err, "another program's database"), ended.err);
    }
    CHECK(read_file(place.store()) == before);
}

TEST_CASE("exit 65: a store of a newer schema asks for a newer program") {
    const PlaceWithAda place;
    side_door(place).run("PRAGMA user_version = 99");
    const auto ended = place.run({"crew", "list"});
    CHECK(ended.exit == 65);
    CHECK_MESSAGE(holds(ended.err, "schema 99"), ended.err);
}

TEST_CASE("exit 65: a damaged store is refused with the way back") {
    const PlaceWithAda place;
    REQUIRE(place.run(kStudyOne, "ab\n").exit == 0);
    const auto whole = read_file(place.store());
    write_file(place.store(), whole.substr(0, whole.size() / 2));
    const auto ended = place.run({"record", "verify"});
    CHECK(ended.exit == 65);
    CHECK_MESSAGE(holds(ended.err, "record restore"), ended.err);
}

TEST_CASE("exit 1: a store whose written states do not fit its log is told, and rebuilding mends it") {
    const PlaceWithAda place;
    REQUIRE(place.run(kStudyOne, "ab\n").exit == 0);
    side_door(place).run("DELETE FROM recall");
    const auto ended = place.run({"record", "verify"});
    CHECK(ended.exit == 1);
    CHECK_MESSAGE(holds(ended.out, "record rebuild"), ended.out);
    CHECK(place.run({"record", "rebuild"}).exit == 0);
    CHECK(place.run({"record", "verify"}).exit == 0);
}

TEST_CASE("exit 66: a content folder that is not there, whichever verb looks for it") {
    const PlaceWithAda place;
    for (const Words& words : {Words{"study"}, {"library", "check"}, {"find", "drum"}, {"crew", "show", "Ada Volt"}}) {
        Words whole = words;
        whole.insert(whole.end(), {"--library", place.desk("none")});
        const auto ended = place.run(whole);
        CHECK_MESSAGE(ended.exit == 66, words.front());
        CHECK(holds(ended.err, "there is no such content folder"));
    }
}

TEST_CASE("exit 73: a home that cannot be made") {
    const Place place;
    write_file(place.desk("file"), "");
    const auto ended = place.run({"crew", "add", "Ada", "--home", place.desk("file/home")});
    CHECK(ended.exit == 73);
    CHECK_MESSAGE(holds(ended.err, "--home"), ended.err);
}

TEST_CASE("exit 73: a home in another's folder") {
    const Place place;
    const auto ended = as_nobody(place, "crew add Ada --home " + place.root() + "/mine");
    CHECK(ended.exit == 73);
    CHECK_FALSE(fs::exists(place.root() + "/mine"));
}

TEST_CASE("exit 73: a store that may only be read is read, and writing is refused in words") {
    const PlaceWithAda place;
    hand_over(place.home());
    hand_over(place.store());
    fs::permissions(place.home(), fs::perms{0755});
    fs::permissions(place.store(), fs::perms{0444});
    CHECK(as_nobody(place, "crew list").exit == 0);
    const auto ended = as_nobody(place, "crew add Ben");
    CHECK(ended.exit == 73);
    CHECK_MESSAGE(holds(ended.err, "cannot be written"), ended.err);
    CHECK(holds(as_nobody(place, "crew list").out, "Ada Volt"));
}

TEST_CASE("exit 73: an export into a folder that is not there") {
    const PlaceWithAda place;
    CHECK(place.run({"record", "export", "--to", place.desk("none/log.jsonl")}).exit == 73);
}

TEST_CASE("exit 74: standard output that takes nothing is no success") {
    const PlaceWithAda place;
    REQUIRE(place.run(kStudyOne, "ab\n").exit == 0);
    for (const char* words : {"--version", "--help", "crew list", "library list", "record export"}) {
        const auto ended = place.shell("$GREENTAG " + std::string{words} + " > /dev/full");
        CHECK_MESSAGE(ended.exit == 74, words);
        CHECK(holds(ended.err, "standard output"));
    }
}

TEST_CASE("exit 74: an export that does not find room leaves no file behind") {
    const PlaceWithAda place;
    REQUIRE(place.run({"study", "--no-call", "--seed", "7"}, "ab\n!\n!\n!\n!\n!\n").exit == 0);
    const auto ended =
        place.shell("trap '' XFSZ; ulimit -f 1; $GREENTAG record export --to " + place.desk("log.jsonl"));
    CHECK(ended.exit == 74);
    CHECK(fs::is_empty(place.desk()));
}

TEST_CASE("exit 74: a backup that does not find room leaves no file behind and the store as it was") {
    const PlaceWithAda place;
    fill(place.store(), 300);
    const auto ended = place.shell("trap '' XFSZ; ulimit -f 72; $GREENTAG record backup " + place.desk("copy.db"));
    CHECK(ended.exit == 74);
    CHECK_MESSAGE(holds(ended.err, "nothing was left behind"), ended.err);
    CHECK(fs::is_empty(place.desk()));
    CHECK(place.run({"record", "verify"}).exit == 0);
}

TEST_CASE("exit 74: when the disk fills up while studying, what was acknowledged is kept and the last said not to be") {
    const PlaceWithAda place;
    std::size_t kept_before = 0;
    int full = 0;
    for (int blocks = 66; blocks <= 130; blocks += 4) {
        CAPTURE(blocks);
        const auto ended = place.shell("trap '' XFSZ; ulimit -f " + std::to_string(blocks) +
                                           "; $GREENTAG study --lines --no-call --now 2026-03-02T07:00Z --seed 7",
                                       "{\"gave_up\": true}\n{\"gave_up\": true}\n{\"gave_up\": true}\n");
        const auto kept = log_of(place.store()).size();
        CHECK(kept == kept_before + count_of(ended.out, "\"accepted\":true"));
        kept_before = kept;
        if (ended.exit == 0) continue;
        ++full;
        CHECK(ended.exit == 74);
        CHECK_MESSAGE(holds(ended.err, "was not kept"), ended.err);
    }
    CHECK(full > 0);
    CHECK(place.run({"record", "verify"}).exit == 0);
}

TEST_CASE("exit 75: a store that another process holds is told to be busy, and nothing is lost") {
    const PlaceWithAda place;
    {
        Db lock = side_door(place);
        lock.run("BEGIN EXCLUSIVE");
        const auto ended = place.run({"crew", "add", "Ben Ohm"});
        CHECK(ended.exit == 75);
        CHECK_MESSAGE(holds(ended.err, "another process holds the store"), ended.err);
        CHECK(place.run({"crew", "list"}).exit == 0);
    }
    CHECK(place.run({"crew", "add", "Ben Ohm"}).exit == 0);
}

TEST_CASE("exit 0: a reader that stops reading ends the program without a word") {
    const Place place{kProject};
    const auto ended = place.shell("$GREENTAG library list | head -1");
    CHECK(ended.exit == 0);
    CHECK(count_of(ended.out, "\n") == 1);
    CHECK(ended.err.empty());
}

TEST_CASE("exit 0: failures with --json are one document with the same status in it") {
    const PlaceWithAda place;
    for (const Words& words :
         {Words{"study", "--learner", "Bob"}, {"crew", "show", "Bob"}, {"library", "show", "x.y"}}) {
        Words whole = words;
        whole.emplace_back("--json");
        const auto ended = place.run(whole);
        CHECK(ended.exit == 66);
        CHECK_MESSAGE(holds(ended.out, "\"exit\": 66"), ended.out);
    }
}
