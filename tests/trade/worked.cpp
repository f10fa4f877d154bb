#include "trade/worked.hpp"

namespace worked {

Facts facts_of(const Calculator& calculator, const json& object) {
    base::Faults faults;
    const auto located = base::parse_located(object.dump(), "facts").value();
    Facts facts = trade::read_facts(calculator.facts, {located, "facts", "", faults}, {});
    for (const auto& fault : faults) FAIL_CHECK(fault.what);
    return facts;
}

Finding find(const Calculator& calculator, const json& facts, Edition edition) {
    return calculator.run(facts_of(calculator, facts), {edition, &shipped_tables(), true});
}

std::vector<Edition> editions_of(const json& example) {
    return trade::editions_in(trade::parse_edition_range(example.at("editions").get<std::string>()).value());
}

void check_value(const trade::Value& value, const json& wanted, double within) {
    if (wanted.is_number()) {
        CHECK(value.is_number());
        CHECK(std::abs(value.number - wanted.get<double>()) <= within);
    } else {
        CHECK(value.words == wanted.get<std::string>());
    }
}

void check_example(const Calculator& calculator, const json& example, Edition edition) {
    const Finding finding = find(calculator, example.at("facts"), edition);
    const double within = example.value("within", 1e-6);
    for (const auto& fact : finding.unknown) FAIL_CHECK("unknown: ", fact);
    REQUIRE(finding.answer.has_value());
    if (example.contains("answer")) check_value(*finding.answer, example.at("answer"), within);
    const json also = example.value("also", json::object());
    for (const auto& [name, wanted] : also.items()) {
        CAPTURE(name);
        const auto* value = finding.find(name);
        REQUIRE(value != nullptr);
        check_value(*value, wanted, within);
    }
    const json slips = example.value("not", json::array());
    for (const auto& slip : slips) CHECK(finding.answer->words != slip.get<std::string>());
    if (example.contains("findings")) CHECK(finding.findings.size() == example.at("findings").get<std::size_t>());
    CHECK_FALSE(finding.steps.empty());
    CHECK_FALSE(finding.articles.empty());
}

void check_all(const Calculator& calculator, const std::string& file, std::size_t least) {
    const json examples = reference::json_file(file).at("examples");
    REQUIRE(examples.size() >= least);
    for (const auto& example : examples) {
        CAPTURE(example.at("id").get<std::string>());
        const auto basis = example.at("basis").get<std::string>();
        CHECK((basis == "published" || basis == "practice" || basis == "memory"));
        CHECK_FALSE(example.at("source").get<std::string>().empty());
        for (const auto edition : editions_of(example)) {
            CAPTURE(trade::to_text(edition));
            check_example(calculator, example, edition);
        }
    }
}

void check_needs(const Calculator& calculator, const json& facts, const std::vector<std::string>& needed) {
    REQUIRE(find(calculator, facts).answer.has_value());
    for (const auto& name : needed) {
        CAPTURE(name);
        json fewer = facts;
        REQUIRE(fewer.erase(name) == 1);
        const Finding finding = find(calculator, fewer);
        CHECK_FALSE(finding.answer.has_value());
        CHECK(finding.unknown == std::vector<std::string>{name});
    }
}

void check_silent(const Calculator& calculator, const json& facts) {
    const auto finding = calculator.run(facts_of(calculator, facts), {Edition::e2023, &shipped_tables(), false});
    CHECK(finding.answer == find(calculator, facts).answer);
    CHECK(finding.steps.empty());
}

void check_names(const Calculator& calculator, const Finding& finding) {
    for (const auto& also : finding.also) {
        CAPTURE(also.name);
        CHECK(calculator.answers.find(also.name) != std::string_view::npos);
    }
}

bool cites(const Finding& finding, std::string_view article) {
    return std::find(finding.articles.begin(), finding.articles.end(), article) != finding.articles.end();
}

}  // namespace worked
