#include "store/read_log.hpp"

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include "store/parts.hpp"

using namespace stores;
using nlohmann::json;

namespace {

/// A line as the format's page shows it.
const std::string kShown =
    R"({"format":"greentag-answer/1","id":"019cad34-c780-7000-9d2a-0c6d4e1f2a3b","learner":"019cad34-0000-7000-8a11-223344556677","name":"Ada Volt","point":"box.accessible","question":"box.accessible#a","content":"5a0c1d2e3f405162","seed":42,"edition":2020,"jurisdiction":"","setting":"study","asked_at":"2026-03-02T07:00:10.000Z","took_ms":10000,"mark":1.0,"sure":"sure","given":"c","device":"019cad34-0001-7000-b0c1-d2e3f4051627"})";

base::Faults faults_of(const std::string& text) {
    const auto read = store::read_log(text, "log.jsonl");
    return read ? base::Faults{} : read.error();
}

std::string with(const char* name, const json& value) {
    json line = json::parse(kShown);
    line[name] = value;
    return line.dump();
}

}  // namespace

TEST_CASE("read log: the line that the format's page shows") {
    const auto part = store::read_log(kShown, "log.jsonl").value();
    REQUIRE(part.answers.size() == 1);
    CHECK(part.answers.front().line == 1);
    CHECK(store::to_line(part.answers.front().record, "Ada Volt") == kShown);
    REQUIRE(part.crew.size() == 1);
    CHECK(part.crew.front().name == "Ada Volt");
    CHECK_FALSE(part.details);
    // RFC 9562, section 5.7: the first 48 bits are milliseconds since 1970; 0x019cad340000 is 2026-03-02T06:59:09.056Z.
    CHECK(base::to_milliseconds(part.crew.front().added_at) == 0x019cad340000);
}

TEST_CASE("read log: any log that was written is read back the same, every field") {
    for (base::Seed seed = 1; seed <= 200; ++seed) {
        base::Random random{seed};
        Log log = any_log(random, 12);
        for (auto& record : log) {
            record.given = random.below(2) == 0 ? "\"\\\n\t\xc3\xa9 \xe2\x82\xac" : std::string("a\0b", 3);
            record.setting = static_cast<store::Setting>(random.below(4));
            record.jurisdiction = random.below(2) == 0 ? "" : "far-harbour";
            record.mark = random.below(3) == 0 ? 1.0 / 3.0 : random.unit();
            record.asked_at += base::Milliseconds{static_cast<std::int64_t>(random.below(1000))};
        }
        const auto part = store::read_log(lines_of(log), "log.jsonl").value();
        Log read;
        for (const auto& one : part.answers) read.push_back(one.record);
        CHECK_MESSAGE(read == log, "seed ", seed);
    }
}

TEST_CASE("read log: empty lines, a byte-order mark, CRLF and a missing last line end are passed over") {
    const auto part = store::read_log("\xEF\xBB\xBF" + kShown + "\r\n\r\n  \n" + with("seed", 43), "log.jsonl").value();
    CHECK(part.answers.size() == 2);
    CHECK(part.answers.back().line == 4);
    CHECK(store::read_log("", "log.jsonl").value().answers.empty());
}

TEST_CASE("read log: of several names of one learner the one asked last is taken, in whatever order the lines stand") {
    const auto old = with("name", "Ada Watt");
    auto later = json::parse(kShown);
    later["asked_at"] = "2027-01-01T00:00:00.000Z";
    for (const auto& text : {old + "\n" + later.dump(), later.dump() + "\n" + old})
        CHECK(store::read_log(text, "log.jsonl").value().crew.front().name == "Ada Volt");
}

TEST_CASE("read log: a line without a name brings nobody into the crew") {
    CHECK(store::read_log(with("name", ""), "log.jsonl").value().crew.empty());
}

TEST_CASE("read log: each broken line is told with its number") {
    const auto faults = faults_of(kShown + "\nnot JSON\n" + kShown + "\n[1]\n" + kShown.substr(0, 90));
    REQUIRE(faults.size() == 3);
    CHECK(faults[0].line == 2);
    CHECK(faults[1].line == 4);
    CHECK(faults[2].line == 5);
    CHECK(faults[2].mend.find("cut short") != std::string::npos);
    for (const auto& fault : faults) CHECK(fault.file == "log.jsonl");
}

TEST_CASE("read log: a file cut short anywhere inside a line is told") {
    for (std::size_t at = 1; at < kShown.size(); ++at) CHECK(faults_of(kShown.substr(0, at)).size() == 1);
}

TEST_CASE("read log: each member is needed, once, and no other is let through") {
    const json whole = json::parse(kShown);
    for (const auto& [name, value] : whole.items()) {
        json line = whole;
        line.erase(name);
        const auto faults = faults_of(line.dump());
        REQUIRE_MESSAGE(faults.size() == 1, name);
        CHECK(faults.front().pointer == "/" + name);
    }
    CHECK(faults_of(with("remark", "x")).size() == 1);
    CHECK(faults_of("{\"mark\":0," + kShown.substr(1)).size() == 1);
}

TEST_CASE("read log: members of the wrong kind or out of their range are told, each by name") {
    const std::vector<std::pair<const char*, json>> bad = {{"id", "019cad34"},
                                                           {"learner", 7},
                                                           {"device", "zzzzzzzz-0000-7000-8a11-223344556677"},
                                                           {"name", "a\x1b[2J"},
                                                           {"name", std::string(81, 'a')},
                                                           {"point", ""},
                                                           {"question", "a\nb"},
                                                           {"content", "5A0C1D2E3F405162"},
                                                           {"content", ""},
                                                           {"seed", -1},
                                                           {"seed", 1.5},
                                                           {"seed", 1e30},
                                                           {"seed", "42"},
                                                           {"edition", 20},
                                                           {"edition", "2020"},
                                                           {"jurisdiction", nullptr},
                                                           {"setting", "Study"},
                                                           {"asked_at", "yesterday"},
                                                           {"asked_at", 5},
                                                           {"took_ms", -1},
                                                           {"mark", 1.01},
                                                           {"mark", -0.1},
                                                           {"mark", nullptr},
                                                           {"mark", true},
                                                           {"sure", "certain"},
                                                           {"given", 3},
                                                           {"given", json::array()}};
    for (const auto& [name, value] : bad) {
        const auto faults = faults_of(with(name, value));
        REQUIRE_MESSAGE(faults.size() == 1, name, " ", value.dump());
        CHECK(faults.front().pointer == "/" + std::string{name});
        CHECK(faults.front().line == 1);
    }
}

TEST_CASE("read log: the ends of the ranges are inside") {
    for (const auto& line : {with("seed", ~std::uint64_t{0}), with("seed", 0), with("mark", 0), with("mark", 1),
                             with("took_ms", 0), with("took_ms", INT64_MAX), with("given", "")})
        CHECK(faults_of(line).empty());
}

TEST_CASE("read log: a newer format and an unknown one are told apart, and what else is in the line is not judged") {
    const auto newer = faults_of(with("format", "greentag-answer/2"));
    REQUIRE(newer.size() == 1);
    CHECK(newer.front().mend.find("up to date") != std::string::npos);
    CHECK(faults_of(R"({"format":"tally/1"})").size() == 1);
}

TEST_CASE("read log: bytes that are no UTF-8 are told with their line") {
    CHECK(faults_of(kShown + "\n" + kShown.substr(0, kShown.size() - 2) + "\xff\"}").front().line == 2);
}

TEST_CASE("read log: a file of another kind does not bring a flood of faults") {
    std::string text;
    for (int line = 0; line < 10'000; ++line) text += "a,b,c\n";
    CHECK(faults_of(text).size() == 51);
    CHECK(faults_of(std::string(200'000, '[')).size() == 1);
}

TEST_CASE("read log: whoever names a store is told how that is read") {
    CHECK(faults_of(std::string{"SQLite format 3\0rest", 20}).front().mend.find("merge") != std::string::npos);
}
