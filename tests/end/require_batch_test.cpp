// Batches of require: the quick way that simple lines take, and the general one.
#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include "end/support.hpp"

using namespace end;

namespace {

/// Every case that the rules are held against, one line each; `before` is put in front of each id, as JSON text.
std::string lines_of_cases(const std::string& before) {
    std::string lines;
    for (const auto& entry : fs::directory_iterator{kProject + "/tests/reference"}) {
        if (!entry.path().filename().string().starts_with("rules_")) continue;
        const auto file = nlohmann::ordered_json::parse(read_file(entry.path()));
        for (const auto& one : file.at("cases")) {
            nlohmann::ordered_json line = {{"edition", one.at("edition")}, {"ask", one.at("asked")}};
            line.update(one.at("facts"));
            lines += "{\"id\":\"" + before + one.at("case").get<std::string>() + "\"," + line.dump().substr(1) + "\n";
        }
    }
    return lines;
}

/// What require answers to lines; the program's own content is the shipped one.
Ended answers(const Place& place, const std::string& lines) {
    write_file(place.desk("lines"), lines);
    return place.run({"require", "--batch", "--facts", place.desk("lines")});
}

}  // namespace

TEST_CASE("require --batch: the quick way and the general way answer alike, to the letter") {
    const Place place{kProject};
    const auto quick = answers(place, lines_of_cases("a"));
    // The quick way leaves escapes to the general one.
    const auto general = answers(place, lines_of_cases("\\u0061"));
    CHECK(quick.exit == 0);
    CHECK(general.exit == 0);
    CHECK(count_of(quick.out, "\n") > 900);
    CHECK(quick.out == general.out);
    CHECK(quick.err.empty());
}

TEST_CASE("require --batch: a library without facts to ask about says so of each line, and does not fall over") {
    const Place place;
    const auto ended = answers(place, "{\"id\": 1, \"location\": \"kitchen\"}\n{\"id\": 2}\n");
    CHECK(ended.exit == 65);
    CHECK(ended.signal == 0);
    CHECK(holds(ended.out, "{\"id\":1,\"error\":{\"line\":1,\"pointer\":\"/location\",\"what\":\"there is no fact"));
    CHECK(holds(ended.out, "{\"id\":2,\"requires\":[]"));
}
