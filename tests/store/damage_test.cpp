#include <doctest/doctest.h>

#include "store/faulty_disk.hpp"
#include "store/support.hpp"

using namespace stores;
using store::Store;

namespace {

constexpr std::size_t kPage = 4096;

/// What a store says of itself when it is asked; a refusal counts as a problem told.
enum class Says { refused, problems, sound };

Says ask(const std::string& path, Log* log = nullptr) {
    try {
        Store store{options(path)};
        const bool sound = store.verify().problems.empty();
        if (sound && log != nullptr) *log = log_of(store);
        return sound ? Says::sound : Says::problems;
    } catch (const base::Failure& failure) {
        CHECK_MESSAGE(failure.status() == base::Exit::bad_data, std::string{failure.what()});
        return Says::refused;
    }
}

/// A store that nobody closed: pages in the file, newer ones in the write-ahead log beside it.
Log leave_open(const TempFolder& folder, int answers) {
    Store store{options(folder.path("open.db"))};
    const auto who = add(store, "Ada Volt");
    auto kept = append(store, who, 0, answers / 2);
    store.settle();
    side_door(folder.path("open.db")).run("PRAGMA wal_checkpoint(TRUNCATE)");
    const auto rest = append(store, who, answers / 2, answers);
    kept.insert(kept.end(), rest.begin(), rest.end());
    for (const char* tail : {"", "-wal"}) fs::copy(folder.path("open.db") + tail, folder.path() + tail);
    return kept;
}

void lay(const TempFolder& folder, const std::string& file, const std::string& wal) {
    fs::remove(folder.path() + "-shm");
    write_bytes(folder.path(), file);
    write_bytes(folder.path() + "-wal", wal);
}

bool is_beginning_of(const Log& part, const Log& whole) {
    return part.size() <= whole.size() && std::equal(part.begin(), part.end(), whole.begin());
}

/// Every length near the start and around each page's edge, and some in between. From 2 on: SQLite takes a file of one
/// byte for an empty one.
std::vector<std::size_t> cuts(std::size_t size) {
    std::vector<std::size_t> at;
    for (std::size_t length = 2; length < size; ++length)
        if (length < 120 || (length + 1) % kPage < 3 || length % 997 == 0) at.push_back(length);
    return at;
}

}  // namespace

TEST_CASE("damage: a file that is no database is refused and left as it was") {
    const TempFolder folder;
    for (const std::string& text : {std::string{"{}\n"}, std::string(5000, 'x'), std::string(5000, '\0')}) {
        write_bytes(folder.path(), text);
        CHECK(opening(folder.path()) == base::Exit::bad_data);
        CHECK(opening(folder.path(), false) == base::Exit::bad_data);
        CHECK(read_bytes(folder.path()) == text);
    }
}

TEST_CASE("damage: an empty file, as a kill at the first start leaves it, becomes a store") {
    const TempFolder folder;
    write_bytes(folder.path(), "");
    Store store{options(folder.path())};
    CHECK(append(store, add(store, "Ada Volt"), 0, 1).size() == 1);
}

TEST_CASE("damage: a store cut short anywhere is refused, for writing and for reading") {
    const TempFolder folder;
    make_store(folder.path(), 200);
    const std::string whole = read_bytes(folder.path());
    REQUIRE(whole.size() > 8 * kPage);
    for (const auto length : cuts(whole.size())) {
        write_bytes(folder.path(), whole.substr(0, length));
        CHECK_MESSAGE(opening(folder.path()) == base::Exit::bad_data, "length ", length);
        CHECK_MESSAGE(opening(folder.path(), false) == base::Exit::bad_data, "length ", length);
        CHECK(read_bytes(folder.path()).size() == length);
    }
}

TEST_CASE("damage: a write-ahead log cut short anywhere gives a beginning of the log, never more and never a mix") {
    const FaultyDisk disk{FaultyDisk::Syncs::skipped};
    const TempFolder folder;
    const Log all = leave_open(folder, 40);
    const std::string file = read_bytes(folder.path());
    const std::string wal = read_bytes(folder.path() + "-wal");
    std::size_t most = 0;
    for (const auto length : cuts(wal.size())) {
        CAPTURE(length);
        lay(folder, file, wal.substr(0, length));
        Log found;
        CHECK(ask(folder.path(), &found) == Says::sound);
        CHECK(is_beginning_of(found, all));
        CHECK(found.size() >= std::max(most, all.size() / 2));
        most = found.size();
    }
    CHECK(most == all.size() - 1);
}

TEST_CASE("damage: a file cut short beside its write-ahead log loses nothing in silence") {
    const FaultyDisk disk{FaultyDisk::Syncs::skipped};
    const TempFolder folder;
    const Log all = leave_open(folder, 200);
    const std::string file = read_bytes(folder.path());
    const std::string wal = read_bytes(folder.path() + "-wal");
    for (std::size_t length = 0; length < file.size(); length += length < 200 ? 25 : 1009) {
        CAPTURE(length);
        lay(folder, file.substr(0, length), wal);
        Log found;
        if (ask(folder.path(), &found) == Says::sound) CHECK(found == all);
    }
}

TEST_CASE("damage: a page that was overwritten is found, whichever it is") {
    const TempFolder folder;
    make_store(folder.path(), 200);
    const std::string whole = read_bytes(folder.path());
    for (std::size_t page = 0; page < whole.size() / kPage; ++page)
        for (const char byte : {'\0', '\xa5'}) {
            std::string spoilt = whole;
            spoilt.replace(page * kPage + (page == 0 ? 100 : 0), kPage - 100, kPage - 100, byte);
            write_bytes(folder.path(), spoilt);
            CHECK_MESSAGE(ask(folder.path()) != Says::sound, "page ", page, " byte ", int{byte});
        }
}

TEST_CASE("damage: random bytes anywhere never crash the store") {
    const TempFolder folder;
    make_store(folder.path(), 100);
    const std::string whole = read_bytes(folder.path());
    for (base::Seed seed = 1; seed <= 300; ++seed) {
        CAPTURE(seed);
        base::Random random{seed};
        std::string spoilt = whole;
        for (int i = 0; i < 24; ++i) spoilt[random.below(spoilt.size())] = static_cast<char>(random.next());
        write_bytes(folder.path(), spoilt);
        Log found;
        if (ask(folder.path(), &found) == Says::sound) CHECK(found.size() == 100);
    }
}

TEST_CASE("damage: written states that differ from the log are told, and rebuilding mends them") {
    for (const char* spoil :
         {"DELETE FROM recall", "UPDATE recall SET states = X'00'", "UPDATE recall SET learner = randomblob(16)",
          "UPDATE recall SET states = substr(states, 1, length(states) - 3)",
          "UPDATE recall SET states = CAST(substr(states, 1, 20) || X'5a' || substr(states, 22) AS BLOB)",
          "INSERT INTO recall(learner, states) SELECT randomblob(16), states FROM recall"}) {
        CAPTURE(spoil);
        const TempFolder folder;
        make_store(folder.path(), 30);
        side_door(folder.path()).run(spoil);
        Store store{options(folder.path())};
        CHECK(store.verify().problems.size() == 1);
        CHECK(store.rebuild() == 30);
        CHECK(store.verify().problems.empty());
    }
}

TEST_CASE("damage: an answer of nobody in the crew is told") {
    const TempFolder folder;
    make_store(folder.path(), 3);
    side_door(folder.path()).run("DELETE FROM learner");
    CHECK(Store{options(folder.path())}.verify().problems.size() == 1);
}
