#include <doctest/doctest.h>

#include <algorithm>

#include "end/case_file.hpp"

using namespace end;

namespace {

/// The first words under "Verbs:" in a help page.
std::vector<std::string> listed(const std::string& help) {
    std::vector<std::string> names;
    const auto at = help.find("Verbs:\n");
    if (at == std::string::npos) return names;
    std::istringstream in{help.substr(at + 7)};
    for (std::string line; std::getline(in, line) && !line.empty();)
        if (line.size() > 2 && line[2] != ' ') names.push_back(words_of(line).front());
    return names;
}

/// Every verb that help knows, as it is typed: "study", "crew add".
std::vector<std::string> all_verbs() {
    const Place place;
    std::vector<std::string> verbs;
    for (const auto& first : listed(place.run({"--help"}).out)) {
        const auto below = listed(place.run({first, "--help"}).out);
        if (below.empty()) verbs.push_back(first);
        for (const auto& second : below) verbs.push_back(first + " " + second);
    }
    return verbs;
}

bool runs(const Words& run, const std::string& verb) {
    const Words words = words_of(verb);
    return std::search(run.begin(), run.end(), words.begin(), words.end()) != run.end();
}

}  // namespace

TEST_CASE("coverage: help lists verbs and groups") {
    const auto verbs = all_verbs();
    CHECK(verbs.size() >= 15);
    for (const char* known : {"study", "crew add", "record restore"})
        CHECK(std::count(verbs.begin(), verbs.end(), known) == 1);
}

TEST_CASE("coverage: every verb is run by a case file") {
    const auto cases = all_runs();
    for (const auto& verb : all_verbs())
        CHECK_MESSAGE(std::any_of(cases.begin(), cases.end(), [&](const Words& run) { return runs(run, verb); }), verb);
}

TEST_CASE("coverage: every verb has a heading in the manual") {
    const std::string manual = "\n" + read_file(kProject + "/docs/commands.md");
    for (const auto& verb : all_verbs()) CHECK_MESSAGE(holds(manual, "\n## " + verb + "\n"), verb);
}

TEST_CASE("coverage: the help of every verb succeeds and names its own options") {
    const Place place;
    for (const auto& verb : all_verbs()) {
        Words words = words_of(verb);
        words.emplace_back("--help");
        const auto ended = place.run(words);
        CHECK_MESSAGE(ended.exit == 0, verb);
        CHECK_MESSAGE(holds(ended.out, "Usage: greentag " + verb), verb);
    }
}
