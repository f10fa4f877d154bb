#include <doctest/doctest.h>

#include "end/dialogue.hpp"

using namespace end;

namespace {

/// A place with a backup of three answers on the desk and one more answer since.
class PlaceWithBackup : public PlaceWithAda {
public:
    PlaceWithBackup() {
        study("ab\n!\n!\n");
        if (run({"record", "backup", desk("copy.db")}).exit != 0) throw std::runtime_error{"no backup"};
        study("!\n");
    }
    void study(const std::string& typed) const { (void)run({"study", "--no-call", "--seed", "7"}, typed); }
    [[nodiscard]] std::vector<std::string> files() const {
        std::vector<std::string> names;
        for (const auto& entry : fs::directory_iterator{home()}) names.push_back(entry.path().filename().string());
        std::sort(names.begin(), names.end());
        return names;
    }
    [[nodiscard]] std::string aside() const {
        for (const auto& name : files())
            if (holds(name, ".before-") && !holds(name, "-wal") && !holds(name, "-shm")) return home() + "/" + name;
        return {};
    }
};

}  // namespace

TEST_CASE("record: restoring brings back the log of the backup and keeps the other aside, both whole") {
    const PlaceWithBackup place;
    const auto before = log_of(place.store());
    const auto backed_up = log_of(place.desk("copy.db"));
    REQUIRE(before.size() == backed_up.size() + 1);
    CHECK(place.run({"record", "restore", place.desk("copy.db")}).exit == 0);
    CHECK(log_of(place.store()) == backed_up);
    CHECK(log_of(place.aside()) == before);
}

TEST_CASE("record: what was restored can be studied on and taken back") {
    const PlaceWithBackup place;
    REQUIRE(place.run({"record", "restore", place.desk("copy.db")}).exit == 0);
    place.study("!\n");
    CHECK(place.run({"record", "verify"}).exit == 0);
    CHECK(place.run({"record", "restore", place.aside()}).exit == 0);
    CHECK(log_of(place.store()).size() == 4);
}

TEST_CASE("record: a damaged backup is refused and everything left where it was") {
    const PlaceWithBackup place;
    const auto whole = read_file(place.desk("copy.db"));
    const auto files = place.files();
    const auto log = log_of(place.store());
    std::string spoilt = whole;
    spoilt.replace(whole.size() / 2, 4096, 4096, '\xa5');
    for (const auto& bytes : {whole.substr(0, whole.size() / 2), spoilt, std::string{"not a store"}}) {
        write_file(place.desk("copy.db"), bytes);
        CHECK(place.run({"record", "restore", place.desk("copy.db")}).exit == 65);
        CHECK(log_of(place.store()) == log);
        CHECK(place.files() == files);
        CHECK(read_file(place.desk("copy.db")) == bytes);
    }
}

TEST_CASE("record: restoring an empty file does not put an empty store in the place of a full one") {
    const PlaceWithBackup place;
    write_file(place.desk("copy.db"), "");
    CHECK(place.run({"record", "restore", place.desk("copy.db")}).exit == 65);
    CHECK(log_of(place.store()).size() == 4);
}

TEST_CASE("record: a backup that may only be read can be restored and is left as it was") {
    const PlaceWithBackup place;
    fs::permissions(place.desk("copy.db"), fs::perms{0444});
    const auto bytes = read_file(place.desk("copy.db"));
    CHECK(place.run({"record", "restore", place.desk("copy.db")}).exit == 0);
    CHECK(read_file(place.desk("copy.db")) == bytes);
    CHECK_FALSE(fs::exists(place.desk("copy.db-wal")));
}

TEST_CASE("record: a store without a good end is restored from a backup all the same") {
    const PlaceWithBackup place;
    write_file(place.store(), "damaged");
    CHECK(place.run({"record", "verify"}).exit == 65);
    CHECK(place.run({"record", "restore", place.desk("copy.db")}).exit == 0);
    CHECK(place.run({"record", "verify"}).exit == 0);
    CHECK(read_file(place.aside()) == "damaged");
}

TEST_CASE("record: restoring while somebody studies is refused, so that no answer goes into a store set aside") {
    const PlaceWithBackup place;
    Dialogue dialogue{place, {"study", "--lines", "--no-call", "--now", "2027-01-01"}};
    REQUIRE(dialogue.line().has_value());
    CHECK(place.run({"record", "restore", place.desk("copy.db")}).exit == 75);
    dialogue.say(R"({"gave_up": true})");
    CHECK(holds(dialogue.line().value(), "\"accepted\":true"));
    dialogue.stop(SIGKILL);
    CHECK(log_of(place.store()).size() == 5);
}

TEST_CASE("record: a backup made while somebody studies holds what was acknowledged") {
    const PlaceWithAda place;
    Dialogue dialogue{place, {"study", "--lines", "--no-call"}};
    REQUIRE(dialogue.line().has_value());
    dialogue.say(R"({"gave_up": true})");
    REQUIRE(holds(dialogue.line().value(), "\"accepted\":true"));
    CHECK(place.run({"record", "backup", place.desk("copy.db")}).exit == 0);
    CHECK(log_of(place.desk("copy.db")).size() == 1);
}

TEST_CASE("record: the export holds one line for each answer, in the order asked") {
    const PlaceWithBackup place;
    const auto told = place.run({"record", "export"}).out;
    REQUIRE(place.run({"record", "export", "--to", place.desk("log.jsonl")}).exit == 0);
    CHECK(read_file(place.desk("log.jsonl")) == told);
    std::istringstream in{told};
    const auto log = log_of(place.store());
    for (std::size_t at = 0; at < log.size(); ++at) {
        std::string line;
        REQUIRE(std::getline(in, line));
        CHECK(nlohmann::json::parse(line)["id"] == base::to_text(log[at].id));
    }
}

TEST_CASE("record: an export that cannot take its place leaves nothing behind") {
    const PlaceWithBackup place;
    fs::create_directories(place.desk("taken"));
    const auto before = std::distance(fs::directory_iterator{place.desk()}, {});
    const auto ended = place.run({"record", "export", "--to", place.desk("taken")});
    CHECK(ended.exit == 73);
    CHECK(holds(ended.err, place.desk("taken")));
    CHECK(std::distance(fs::directory_iterator{place.desk()}, {}) == before);
}
