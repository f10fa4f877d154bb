// Calculators and protection rules, held in every edition against federal regulations where these state the same rule.
// What the file leaves out, and why, stands at its head.
#include "content/outside_check.hpp"

namespace {

using nlohmann::json;

const json& checks() {
    static const json file = reference::json_file("federal.json");
    return file.at("checks");
}

std::vector<trade::Edition> editions_of(const json& check) {
    return trade::editions_in(trade::parse_edition_range(check.at("editions").get<std::string>()).value());
}

std::string difference(const json& check, trade::Edition edition) {
    return check.contains("calculator") ? outside::worked_otherwise(check, edition)
                                        : outside::ruled_otherwise(check, edition);
}

}  // namespace

TEST_CASE("federal rules: every check names the regulation and in what it was read, and none stands twice") {
    CHECK(checks().size() >= 54);
    std::set<std::string> seen;
    std::size_t calculated = 0;
    for (const auto& check : checks()) {
        CHECK_MESSAGE(check.at("source").get<std::string>().find(" CFR ") != std::string::npos, check.dump());
        CHECK_MESSAGE(check.at("seen").get<std::string>().size() > 10, check.dump());
        CHECK_MESSAGE(check.at("basis") == "published", check.dump());
        CHECK_MESSAGE(!check.at("expect").empty(), check.dump());
        CHECK_MESSAGE(seen.insert(check.at("id").get<std::string>()).second, check.dump());
        if (check.contains("calculator")) ++calculated;
    }
    CHECK(calculated >= 20);
    CHECK(checks().size() - calculated >= 25);
}

TEST_CASE("federal rules: calculators and rules say the same in every edition that a check holds for") {
    std::size_t judged = 0;
    for (const auto& check : checks())
        for (const auto edition : editions_of(check)) {
            ++judged;
            const std::string told = difference(check, edition);
            CHECK_MESSAGE(told.empty(), check.at("id").get<std::string>(), " ", trade::to_text(edition), ": ", told);
        }
    CHECK(judged >= 200);
}
