#include "trade/work/bonding_jumper.hpp"

#include <algorithm>

#include "trade/work/ampacity.hpp"
#include "trade/work/equipment_ground.hpp"
#include "trade/work/grounding_electrode.hpp"

namespace trade {
namespace {

using base::Unit;

constexpr double kPart = 0.125;

bool load_side(const BondingJumperFacts& facts) {
    return facts.kind == "load-side";
}

std::size_t column(Material material) {
    return static_cast<std::size_t>(material);
}

void cite(const BondingJumperFacts& facts, Finding& finding) {
    if (facts.kind == "main" || facts.kind == "system") finding.articles.emplace_back("250.28(D)");
    if (load_side(facts)) {
        finding.articles.emplace_back("250.102(D)");
        finding.articles.emplace_back("250.122");
    } else {
        finding.articles.emplace_back("250.102(C)");
    }
}

void lack_what_is_missing(const BondingJumperFacts& facts, Finding& finding) {
    if (facts.kind.empty()) finding.lacks("kind");
    if (!facts.material) finding.lacks("material");
    if (load_side(facts)) {
        if (!facts.device) finding.lacks("device");
        return;
    }
    if (facts.kind.empty()) return;
    if (!facts.supply) finding.lacks("supply_conductor");
    if (!facts.supply_material) finding.lacks("supply_material");
}

void by_device(const BondingJumperFacts& facts, const Setting& setting, Finding& finding, Working& working) {
    const auto* row = equipment_ground_row(*facts.device, *setting.tables);
    const auto size = row == nullptr ? std::nullopt : row->size[column(*facts.material)];
    if (!size) {
        finding.refuse(beyond_equipment_ground(*facts.device, *setting.tables));
        return;
    }
    finding.answer = value_of(*size);
    finding.also.push_back({"table", value_of(*size)});
    working.step("load side, device of ", *facts.device, " A: like an equipment ground, ", *size, " ",
                 to_text(*facts.material));
}

/// Conductors that are counted together.
double sets_of(const BondingJumperFacts& facts) {
    return facts.per_raceway && facts.kind == "supply-side" ? 1.0 : facts.sets;
}

/// The area that the size follows from, and the metal it is of.
struct Basis {
    double cmil = 0.0;
    Material material = Material::cu;
    const Tables::ElectrodeRow* row = nullptr;

    [[nodiscard]] bool beyond() const { return row != nullptr && row->largest[column(material)] == 0.0; }
};

Basis basis_for(double cmil, Material material, const Tables& tables) {
    return {cmil, material, electrode_row(cmil, material, tables)};
}

/// An eighth of an area beyond the table.
void by_part(const Basis& basis, const Setting& setting, Finding& finding, Working& working) {
    const double needs = basis.cmil * kPart;
    finding.also.push_back({"required_cmil", value_of(needs, Unit::cmil)});
    working.step("beyond the table: 12.5 % of ", basis.cmil, " = ", needs, " cmil");
    const auto size = least_size(needs, 0.0, *setting.tables);
    if (!size) {
        finding.refuse("beyond our table of areas: no size has " + base::number_text(needs) + " cmil");
        return;
    }
    finding.answer = value_of(*size);
    working.step("least size of that area: ", *size);
}

void by_table(const BondingJumperFacts& facts, Size table, Finding& finding, Working& working) {
    // A jumper of the same metal need not be larger than the conductor whose fault current it carries.
    const bool capped = *facts.material == *facts.supply_material && sets_of(facts) <= 1.0 && *facts.supply < table;
    finding.also.push_back({"table", value_of(table)});
    finding.also.push_back({"capped", value_of(capped ? "yes" : "no")});
    finding.answer = value_of(capped ? *facts.supply : table);
    working.step("by the table: ", table, " ", to_text(*facts.material));
    if (capped) working.step("no larger than the supply conductors: ", *facts.supply);
}

/// Beyond the table an eighth is of the jumper's own metal: supply conductors of another are put in its terms.
std::optional<Basis> supply_basis(const BondingJumperFacts& facts, const Setting& setting, Finding& finding,
                                  Working& working) {
    const auto& tables = *setting.tables;
    const auto area = supply_area(*facts.supply, sets_of(facts), tables);
    if (!area) {
        finding.refuse("beyond our table of areas: it lacks " + to_text(*facts.supply));
        return std::nullopt;
    }
    finding.also.push_back({"area", value_of(*area, Unit::cmil)});
    working.step("supply conductors: ", sets_of(facts), " x ", *facts.supply, " = ", *area, " cmil ",
                 to_text(*facts.supply_material));
    const Basis basis = basis_for(*area, *facts.supply_material, tables);
    if (!basis.beyond() || *facts.material == *facts.supply_material) return basis;
    const auto same = facts.equivalent ? supply_area(*facts.equivalent, sets_of(facts), tables) : std::nullopt;
    if (!same) {
        finding.lacks("equivalent");
        return std::nullopt;
    }
    working.step("in ", to_text(*facts.material), " of the same ampacity: ", *same, " cmil");
    return basis_for(*same, *facts.material, tables);
}

void by_supply(const BondingJumperFacts& facts, const Setting& setting, Finding& finding, Working& working) {
    const auto basis = supply_basis(facts, setting, finding, working);
    if (!basis) return;
    const auto table = basis->row == nullptr ? std::nullopt : basis->row->size[column(*facts.material)];
    if (!table) {
        finding.refuse("beyond our table: no row for supply conductors of " + to_text(*facts.supply) +
                       "; see 250.102(C) in the book");
        return;
    }
    if (facts.sets > 1.0 && *facts.supply < Size::awg1_0)
        finding.findings.emplace_back("conductors under 1/0 AWG may not be run in parallel");
    if (basis->beyond())
        by_part(*basis, setting, finding, working);
    else
        by_table(facts, *table, finding, working);
}

Finding run(const Facts& facts, const Setting& setting) {
    BondingJumperFacts asked;
    asked.kind = facts.choice("kind");
    asked.supply = facts.size("supply_conductor");
    asked.sets = facts.number("sets").value_or(1.0);
    asked.per_raceway = facts.flag("per_raceway").value_or(false);
    asked.supply_material = material_in(facts, "supply_material");
    asked.material = material_in(facts, "material");
    asked.equivalent = facts.size("equivalent");
    asked.device = facts.number("device");
    return bonding_jumper(asked, setting);
}

}  // namespace

Finding bonding_jumper(const BondingJumperFacts& facts, const Setting& setting) {
    Finding finding;
    cite(facts, finding);
    lack_what_is_missing(facts, finding);
    if (!finding.unknown.empty()) return finding;
    Working working{finding.steps, setting.explain};
    if (load_side(facts))
        by_device(facts, setting, finding, working);
    else
        by_supply(facts, setting, finding, working);
    return finding;
}

Calculator bonding_jumper_calculator() {
    return {
        "bonding-jumper",
        "the least main, system, supply-side or load-side bonding jumper",
        "a size; also area, table, capped, and beyond the table required_cmil",
        {{"kind", FactKind::choice, "which jumper", Unit::count, 0, 0, false, "main|system|supply-side|load-side"},
         {"supply_conductor", FactKind::size, "largest ungrounded supply conductor, one of a parallel set"},
         {"sets", FactKind::number, "parallel sets (left out: 1)", Unit::count, 1, 20, true},
         {"per_raceway", FactKind::flag,
          "supply-side: a jumper with each raceway, by the conductors in it (left out: no)"},
         {"supply_material", FactKind::choice, "material of the supply conductors", Unit::count, 0, 0, false, "cu|al"},
         {"material", FactKind::choice, "material of the jumper", Unit::count, 0, 0, false, "cu|al"},
         {"equivalent", FactKind::size, "supply conductor of the jumper's material with the same ampacity"},
         {"device", FactKind::number, "load-side: overcurrent device ahead of it", Unit::amp, 1, 6000}},
        run};
}

}  // namespace trade
