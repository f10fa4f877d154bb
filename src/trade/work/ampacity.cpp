#include "trade/work/ampacity.hpp"

#include <algorithm>

namespace trade {
namespace {

using base::Unit;

constexpr double kSlack = 1e-9;
/// A raceway nearer to the roof than this many inches gets hotter than the air by kRoofAdds.
constexpr double kClearOfRoof = 0.875;
constexpr double kClearOfRoofFrom2023 = 0.75;
constexpr double kRoofAdds = 33.0;
constexpr Size kLeastParallel = Size::awg1_0;
constexpr Size kLargestNm = Size::awg2;

bool near_roof(const Conditions& conditions) {
    return conditions.above_roof && *conditions.above_roof < conditions.clear_of_roof - kSlack;
}

std::optional<Rating> insulation_of(const Conditions& conditions) {
    if (!conditions.insulation && conditions.nm) return Rating::c90;
    return conditions.insulation;
}

/// Terminations can only lower what is over the 60 C column.
bool terminals_matter(const Conditions& conditions) {
    return !conditions.nm && conditions.insulation != Rating::c60;
}

std::optional<Rating> rating_in(const Facts& facts, std::string_view name) {
    const std::string_view word = facts.choice(name);
    if (word == "60") return Rating::c60;
    if (word == "75") return Rating::c75;
    if (word == "90") return Rating::c90;
    return std::nullopt;
}

void lack_what_is_missing(const Conditions& conditions, std::string_view insulation_fact, Finding& finding) {
    if (!conditions.material) finding.lacks("material");
    if (!insulation_of(conditions)) finding.lacks(insulation_fact);
    if (!conditions.terminals && terminals_matter(conditions)) finding.lacks("terminals");
    if (!conditions.ambient) finding.lacks("ambient");
    if (!conditions.ccc) finding.lacks("ccc");
}

}  // namespace

std::optional<Factors> factors_for(const Conditions& conditions, std::string_view insulation_fact, const Tables& tables,
                                   Finding& finding) {
    lack_what_is_missing(conditions, insulation_fact, finding);
    if (finding.blocked()) return std::nullopt;
    Factors factors;
    factors.insulation = *insulation_of(conditions);
    factors.lowest = terminals_matter(conditions) ? std::min(factors.insulation, *conditions.terminals) : Rating::c60;
    factors.ambient_c = *conditions.ambient + (near_roof(conditions) ? kRoofAdds : 0.0);
    const auto ambient = tables.ambient_factor(factors.insulation, factors.ambient_c);
    const auto percent = tables.adjustment_percent(*conditions.ccc);
    if (!ambient)
        finding.refuse(std::to_string(degrees(factors.insulation)) + " C insulation has no ampacity at " +
                       base::number_text(factors.ambient_c) + " C: the table of correction ends before it");
    if (!percent)
        finding.refuse("beyond our table of adjustment: " + base::number_text(*conditions.ccc) + " conductors");
    if (!ambient || !percent) return std::nullopt;
    factors.ambient = *ambient;
    factors.percent = *percent;
    return factors;
}

std::optional<Ampacity> ampacity_of(const Conditions& conditions, const Factors& factors, Size size,
                                    const Tables& tables) {
    const auto table = tables.ampacity_of(*conditions.material, factors.insulation, size);
    const auto limit = tables.ampacity_of(*conditions.material, factors.lowest, size);
    if (!table || !limit) return std::nullopt;
    Ampacity ampacity;
    ampacity.table = *table;
    ampacity.adjusted = *table * conditions.sets * factors.product();
    ampacity.limit = *limit * conditions.sets;
    ampacity.usable = std::min(ampacity.adjusted, ampacity.limit);
    return ampacity;
}

void explain(const Conditions& conditions, const Factors& factors, Size size, const Ampacity& ampacity,
             Working& working) {
    working.step(size, " ", to_text(*conditions.material), ", ", degrees(factors.insulation),
                 " C column: ", ampacity.table, " A");
    if (near_roof(conditions))
        working.step("close to the roof: ", *conditions.ambient, " C + ", kRoofAdds, " C = ", factors.ambient_c, " C");
    working.step("ambient ", factors.ambient_c, " C: factor ", factors.ambient);
    working.step(*conditions.ccc, " current-carrying: ", factors.percent, " %");
    if (conditions.sets > 1.0)
        working.step(conditions.sets, " sets x ", ampacity.table, " A x ", factors.ambient, " x ", factors.percent,
                     " % = ", ampacity.adjusted, " A");
    else
        working.step(ampacity.table, " A x ", factors.ambient, " x ", factors.percent, " % = ", ampacity.adjusted,
                     " A");
    working.step(conditions.nm ? "nonmetallic sheath, not above the " : "terminations, not above the ",
                 degrees(factors.lowest), " C column: ", ampacity.limit, " A");
    working.step("ampacity: ", ampacity.usable, " A");
}

void cite_ampacity(const Conditions& conditions, Edition edition, Finding& finding) {
    const bool old = edition < Edition::e2020;
    auto& articles = finding.articles;
    articles.emplace_back("110.14(C)");
    articles.emplace_back(old ? "310.15(B)(16)" : "310.16");
    articles.emplace_back(old ? "310.15(B)(2)(a)" : "310.15(B)(1)");
    articles.emplace_back(old ? "310.15(B)(3)(a)" : "310.15(C)(1)");
    if (conditions.above_roof) articles.emplace_back(old ? "310.15(B)(3)(c)" : "310.15(B)(2)");
    if (conditions.sets > 1.0) articles.emplace_back(old ? "310.10(H)" : "310.10(G)");
    if (conditions.nm) articles.emplace_back("334.80");
}

std::optional<Ampacity> rate(const Conditions& conditions, const Factors& factors, Size size, const Tables& tables,
                             Finding& finding) {
    if (conditions.sets > 1.0 && size < kLeastParallel) {
        finding.refuse(
            "conductors under 1/0 AWG may not be run in parallel, except in special cases: no ampacity is given for "
            "them together");
        return std::nullopt;
    }
    auto ampacity = ampacity_of(conditions, factors, size, tables);
    if (!ampacity)
        finding.refuse("beyond our ampacity table: it has no value for " + to_text(size) + " " +
                       std::string{to_text(*conditions.material)});
    return ampacity;
}

void doubt(const Conditions& conditions, std::optional<Size> size, Finding& finding) {
    auto& findings = finding.findings;
    if (!conditions.nm) return;
    if (conditions.insulation && *conditions.insulation != Rating::c90)
        findings.emplace_back("NM-B has 90 C conductors; a lower rating is that of older cable");
    if (conditions.above_roof) findings.emplace_back("nonmetallic-sheathed cable may not be used outdoors on a roof");
    if (size && *size > kLargestNm) findings.emplace_back("nonmetallic-sheathed cable is made up to 2 AWG");
}

void add_values(const Factors& factors, const Ampacity& ampacity, Finding& finding) {
    auto& also = finding.also;
    also.push_back({"table", value_of(ampacity.table, Unit::amp)});
    also.push_back({"ambient_used", value_of(factors.ambient_c, Unit::celsius)});
    also.push_back({"ambient_factor", value_of(factors.ambient, Unit::count)});
    also.push_back({"adjustment", value_of(factors.percent, Unit::percent)});
    also.push_back({"factor", value_of(factors.product(), Unit::count)});
    also.push_back({"adjusted", value_of(ampacity.adjusted, Unit::amp)});
    also.push_back({"terminal_limit", value_of(ampacity.limit, Unit::amp)});
}

std::vector<FactSpec> condition_facts(std::string_view insulation_fact) {
    return {
        {"material", FactKind::choice, "conductor material", Unit::count, 0, 0, false, "cu|al"},
        {insulation_fact, FactKind::choice, "temperature rating of the insulation in C (nm left out: 90)", Unit::count,
         0, 0, false, "60|75|90"},
        {"terminals", FactKind::choice, "lowest temperature rating among the terminations in C", Unit::count, 0, 0,
         false, "60|75|90"},
        {"ambient", FactKind::number, "temperature around the wires, without what a roof adds", Unit::celsius, -50,
         100},
        {"ccc", FactKind::number, "current-carrying conductors in the same raceway, cable or bundle", Unit::count, 1,
         1000, true},
        {"cable", FactKind::choice, "nm: nonmetallic-sheathed (left out: a wiring method without a limit of its own)",
         Unit::count, 0, 0, false, "none|nm"},
        {"above_roof", FactKind::number,
         "height of the raceway or cable above a sunny roof (left out: not there; nor for XHHW-2)", Unit::in, 0, 1200},
        {"sets", FactKind::number, "parallel sets (left out: 1)", Unit::count, 1, 20, true}};
}

Conditions conditions_in(const Facts& facts, std::string_view insulation_fact, Edition edition) {
    Conditions conditions;
    conditions.material = material_in(facts, "material");
    conditions.insulation = rating_in(facts, insulation_fact);
    conditions.terminals = rating_in(facts, "terminals");
    conditions.ambient = facts.number("ambient");
    conditions.ccc = facts.number("ccc");
    conditions.above_roof = facts.number("above_roof");
    conditions.clear_of_roof = edition < Edition::e2023 ? kClearOfRoof : kClearOfRoofFrom2023;
    conditions.nm = facts.choice("cable") == "nm";
    conditions.sets = facts.number("sets").value_or(1.0);
    return conditions;
}

std::optional<Material> material_in(const Facts& facts, std::string_view name) {
    return parse_material(facts.choice(name));
}

}  // namespace trade
