#include "trade/work/burial_depth.hpp"

#include <algorithm>
#include <array>

namespace trade {
namespace {

using base::Unit;
using Method = BurialFacts::Method;

constexpr double kLowVolts = 30.0;
constexpr double kBranchVolts = 120.0;
constexpr double kBranchAmps = 20.0;

/// One condition of a column: the fact it hangs on, and whether it holds, as far as that was said.
struct Condition {
    std::string_view fact;
    std::optional<bool> holds;
};

/// A column of the table; it counts when all its conditions hold.
struct Column {
    std::string_view name;
    double inches = 0.0;
    std::array<Condition, 4> conditions{};  ///< those without a fact are none

    [[nodiscard]] bool fails() const {
        return std::any_of(conditions.begin(), conditions.end(), [](const auto& c) { return !c.holds.value_or(true); });
    }
    [[nodiscard]] bool holds() const {
        return std::all_of(conditions.begin(), conditions.end(),
                           [](const auto& c) { return c.fact.empty() || c.holds.value_or(false); });
    }
};

Column by_method(Method method, const Tables::Cover& row) {
    if (method == Method::rmc_imc) return {"rigid or intermediate metal conduit", row.rmc_imc};
    if (method == Method::pvc) return {"nonmetallic raceway", row.nonmetallic_raceway};
    return {"cable buried directly", row.direct_burial};
}

std::optional<bool> at_most(std::optional<double> value, double most) {
    return value ? std::optional{*value <= most} : std::nullopt;
}

Column gfci_branch(const BurialFacts& facts, const Tables::Cover& row) {
    const bool raceway = *facts.method != Method::direct_burial;
    return {"branch circuit of a dwelling, 120 V and 20 A or less, with GFCI",
            raceway ? row.gfci_branch_in_raceway.value_or(row.gfci_branch) : row.gfci_branch,
            {Condition{"dwelling", facts.dwelling}, Condition{"volts", at_most(facts.volts, kBranchVolts)},
             Condition{"amps", at_most(facts.amps, kBranchAmps)}, Condition{"gfci", facts.gfci}}};
}

Column landscape(const BurialFacts& facts, const Tables::Cover& row) {
    const bool raceway = *facts.method != Method::direct_burial;
    return {"irrigation or landscape lighting of 30 V or less",
            raceway ? row.low_voltage_in_raceway.value_or(row.low_voltage) : row.low_voltage,
            {Condition{"volts", at_most(facts.volts, kLowVolts)}, Condition{"landscape", facts.landscape}}};
}

/// The least cover of the columns that hold. Where one that may hold would give less still, its facts are asked for.
Column choose(const BurialFacts& facts, const Tables::Cover& row, Finding& finding) {
    const std::array columns = {gfci_branch(facts, row), landscape(facts, row)};
    Column least = by_method(*facts.method, row);
    for (const auto& column : columns)
        if (column.holds() && column.inches < least.inches) least = column;
    for (const auto& column : columns) {
        if (column.inches >= least.inches || column.fails()) continue;
        for (const auto& condition : column.conditions)
            if (!condition.fact.empty() && !condition.holds) finding.lacks(condition.fact);
    }
    return least;
}

std::optional<Method> method_of(std::string_view word) {
    if (word == "direct-burial") return Method::direct_burial;
    if (word == "rmc-imc") return Method::rmc_imc;
    return word == "pvc" ? std::optional{Method::pvc} : std::nullopt;
}

Finding run(const Facts& facts, const Setting& setting) {
    return burial_depth(
        {method_of(facts.choice("method")), facts.choice("place"), facts.flag("dwelling"), facts.number("volts"),
         facts.number("amps"), facts.flag("gfci"), facts.flag("landscape"), facts.number("diameter")},
        setting);
}

}  // namespace

Finding burial_depth(const BurialFacts& facts, const Setting& setting) {
    Finding finding;
    Working working{finding.steps, setting.explain};
    finding.articles.emplace_back("300.5(A)");
    if (!facts.method) finding.lacks("method");
    if (facts.place.empty()) finding.lacks("place");
    if (!finding.unknown.empty()) return finding;
    const auto& covers = setting.tables->covers;
    const auto row =
        std::find_if(covers.begin(), covers.end(), [&](const Tables::Cover& c) { return c.place == facts.place; });
    if (row == covers.end()) {
        finding.refuse("beyond our table of cover: it has no such place; see 300.5 in the book");
        return finding;
    }
    const Column column = choose(facts, *row, finding);
    if (!finding.unknown.empty()) return finding;
    const double plain = by_method(*facts.method, *row).inches;
    finding.answer = value_of(column.inches, Unit::in);
    finding.also.push_back({"column", value_of(column.name)});
    finding.also.push_back({"plain", value_of(plain, Unit::in)});
    working.step("column: ", column.name);
    working.step("place: ", facts.place, ": ", column.inches, " in of cover, measured to the top");
    if (facts.diameter) {
        const double trench = column.inches + *facts.diameter;
        finding.also.push_back({"trench", value_of(trench, Unit::in)});
        working.step("trench: ", column.inches, " + ", *facts.diameter, " = ", trench, " in");
    }
    if (*facts.method == Method::direct_burial && facts.place == "under-building")
        finding.findings.emplace_back("under a building only in a raceway, or as a cable listed for it");
    return finding;
}

Calculator burial_depth_calculator() {
    return {"burial-depth",
            "least cover over a buried cable or raceway",
            "cover in in; also column, plain (in, of the wiring method alone), trench (in, with diameter)",
            {{"method", FactKind::choice,
              "what is buried: cable without raceway, rigid or intermediate metal conduit, nonmetallic raceway",
              Unit::count, 0, 0, false, "direct-burial|rmc-imc|pvc"},
             {"place", FactKind::choice, "where it runs", Unit::count, 0, 0, false,
              "general|under-2in-concrete|under-building|under-4in-slab|street-or-parking|dwelling-driveway|runway|"
              "rock-2in-concrete"},
             {"dwelling", FactKind::flag, "is it a branch circuit of a dwelling?"},
             {"volts", FactKind::number, "nominal voltage of the circuit", Unit::volt, 1, 1000},
             {"amps", FactKind::number, "rating of the overcurrent device", Unit::amp, 1, 6000},
             {"gfci", FactKind::flag, "is it protected by a GFCI where it starts?"},
             {"landscape", FactKind::flag, "does it control irrigation or landscape lighting?"},
             {"diameter", FactKind::number, "outside diameter of raceway or cable", Unit::in, 0, 12}},
            run};
}

}  // namespace trade
