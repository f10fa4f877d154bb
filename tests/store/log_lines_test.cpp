#include "store/log_lines.hpp"

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include "store/support.hpp"

using nlohmann::json;

TEST_CASE("log lines: one answer is one line of JSON with every field of the record") {
    const auto record = stores::answer(stores::id_of(7), 3);
    const std::string line = store::to_line(record, "Ada Volt");
    CHECK(line.find('\n') == std::string::npos);
    const auto read = json::parse(line);
    CHECK(read["format"] == "greentag-answer/1");
    CHECK(read["learner"] == base::to_text(record.learner));
    CHECK(read["name"] == "Ada Volt");
    CHECK(read["seed"].get<base::Seed>() == record.seed);
    CHECK(read["asked_at"] == "2026-03-02T07:03:00.000Z");
    CHECK(read.size() == 17);
}

TEST_CASE("log lines: line feeds and bytes that are no UTF-8 stay inside one line of valid JSON") {
    auto record = stores::answer(stores::id_of(7));
    record.given = "a\nb\xff";
    const std::string line = store::to_line(record, "Ada Volt");
    CHECK(line.find('\n') == std::string::npos);
    CHECK(json::parse(line)["given"] == "a\nb\xef\xbf\xbd");
}

TEST_CASE("log lines: every setting has a name that reads back") {
    for (const auto setting :
         {store::Setting::study, store::Setting::meeting, store::Setting::exam, store::Setting::brief})
        CHECK(store::parse_setting(store::to_text(setting)) == setting);
    CHECK_FALSE(store::parse_setting("Study").has_value());
}
