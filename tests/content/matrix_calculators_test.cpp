// Calculators, held against what named sources say of cases in an edition. Cases of high confidence have to agree;
// where one of less confidence does not, the case says why ("explained"), and no explanation outlives its disagreement.
#include "content/outside_check.hpp"

namespace {

using nlohmann::json;

const json& cases() {
    static const json file = reference::json_file("matrix_calculators.json");
    return file.at("cases");
}

std::string difference(const json& one) {
    return outside::worked_otherwise(one, trade::parse_edition(one.at("edition").get<std::string>()).value());
}

}  // namespace

TEST_CASE("calculator cases: each names its source and expects something, and none stands twice") {
    CHECK(cases().size() >= 89);
    std::set<std::string> seen, calculators;
    for (const auto& one : cases()) {
        CHECK_MESSAGE(one.at("source").get<std::string>().size() >= 6, one.dump());
        const auto basis = one.at("basis").get<std::string>();
        CHECK_MESSAGE((basis == "published" || basis == "practice" || basis == "memory"), one.dump());
        CHECK_MESSAGE((basis != "memory" || one.at("confidence") != "high"), one.dump());
        CHECK_MESSAGE(!one.at("expect").empty(), one.dump());
        CHECK_MESSAGE(seen.insert(one.at("case").get<std::string>() + one.at("facts").dump()).second, one.dump());
        calculators.insert(one.at("calculator").get<std::string>());
    }
    CHECK(calculators.size() >= 6);
}

TEST_CASE("calculator cases: one of high confidence agrees, another agrees or says why it does not") {
    for (const auto& one : cases()) {
        const bool high = one.at("confidence") == "high";
        CHECK_MESSAGE(!(high && one.contains("explained")), one.dump());
        const std::string told = difference(one);
        CHECK_MESSAGE(told.empty() != one.contains("explained"), one.at("case").get<std::string>(), ": ", told);
    }
}
