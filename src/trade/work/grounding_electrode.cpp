#include "trade/work/grounding_electrode.hpp"

#include <algorithm>

#include "trade/work/ampacity.hpp"

namespace trade {
namespace {

using base::Unit;

constexpr double kSlack = 1e-9;
constexpr Size kLeastRing = Size::awg2;

bool is_ring(const GroundingElectrodeFacts& facts) {
    return facts.electrode == "ring";
}

void lack_what_is_missing(const GroundingElectrodeFacts& facts, Finding& finding) {
    if (!facts.service) finding.lacks("service_conductor");
    if (!facts.service_material) finding.lacks("service_material");
    if (!facts.material) finding.lacks("material");
    if (facts.electrode.empty()) finding.lacks("electrode");
}

/// What the conductor need not be larger than; nothing where the electrode sets no limit in this material.
std::optional<Size> limit_of(const GroundingElectrodeFacts& facts, const Tables& tables) {
    if (is_ring(facts))
        return *facts.material == Material::cu ? std::optional{facts.ring.value_or(kLeastRing)} : std::nullopt;
    for (const auto& row : tables.electrode_limits)
        if (row.electrode == facts.electrode) return row.size[static_cast<std::size_t>(*facts.material)];
    return std::nullopt;
}

void cite(const GroundingElectrodeFacts& facts, Finding& finding) {
    finding.articles.emplace_back("250.66");
    if (facts.electrode == "rod-pipe-plate") finding.articles.emplace_back("250.66(A)");
    if (facts.electrode == "concrete-encased") finding.articles.emplace_back("250.66(B)");
    if (is_ring(facts)) finding.articles.emplace_back("250.66(C)");
}

void doubt(const GroundingElectrodeFacts& facts, Finding& finding) {
    const bool earth = is_ring(facts) || facts.electrode == "concrete-encased";
    if (earth && *facts.material == Material::al)
        finding.findings.emplace_back("aluminum may not meet earth or concrete, and has no lesser size here");
    if (is_ring(facts) && facts.ring && *facts.ring < kLeastRing)
        finding.findings.emplace_back("a ground ring is of 2 AWG or larger");
    if (facts.sets > 1.0 && *facts.service < Size::awg1_0)
        finding.findings.emplace_back("conductors under 1/0 AWG may not be run in parallel");
}

Finding run(const Facts& facts, const Setting& setting) {
    GroundingElectrodeFacts asked;
    asked.service = facts.size("service_conductor");
    asked.sets = facts.number("sets").value_or(1.0);
    asked.service_material = material_in(facts, "service_material");
    asked.material = material_in(facts, "material");
    asked.electrode = facts.choice("electrode");
    asked.ring = facts.size("ring");
    return grounding_electrode(asked, setting);
}

}  // namespace

const Tables::ElectrodeRow* electrode_row(double cmil, Material supply, const Tables& tables) {
    const auto column = static_cast<std::size_t>(supply);
    const auto& rows = tables.grounding_electrode;
    const auto row = std::find_if(rows.begin(), rows.end(), [&](const Tables::ElectrodeRow& one) {
        return one.largest[column] == 0.0 || one.largest[column] * (1.0 + kSlack) >= cmil;
    });
    return row == rows.end() ? nullptr : &*row;
}

std::optional<double> supply_area(Size size, double sets, const Tables& tables) {
    const auto cmil = tables.cmil(size);
    return cmil ? std::optional{*cmil * sets} : std::nullopt;
}

Finding grounding_electrode(const GroundingElectrodeFacts& facts, const Setting& setting) {
    Finding finding;
    cite(facts, finding);
    lack_what_is_missing(facts, finding);
    if (!finding.unknown.empty()) return finding;
    const auto area = supply_area(*facts.service, facts.sets, *setting.tables);
    const auto* row = area ? electrode_row(*area, *facts.service_material, *setting.tables) : nullptr;
    const auto table = row == nullptr ? std::nullopt : row->size[static_cast<std::size_t>(*facts.material)];
    if (!table) {
        finding.refuse("beyond our table: no row for service conductors of " + to_text(*facts.service) +
                       "; see 250.66 in the book");
        return finding;
    }
    Working working{finding.steps, setting.explain};
    doubt(facts, finding);
    finding.also.push_back({"area", value_of(*area, Unit::cmil)});
    finding.also.push_back({"table", value_of(*table)});
    working.step("service conductors: ", facts.sets, " x ", *facts.service, " = ", *area, " cmil ",
                 to_text(*facts.service_material));
    working.step("by the table: ", *table, " ", to_text(*facts.material));
    const auto limit = limit_of(facts, *setting.tables);
    const bool capped = limit && *limit < *table;
    if (limit) {
        finding.also.push_back({"limit", value_of(*limit)});
        working.step("to that electrode alone no more than ", *limit);
    }
    finding.also.push_back({"capped", value_of(capped ? "yes" : "no")});
    finding.answer = value_of(capped ? *limit : *table);
    return finding;
}

Calculator grounding_electrode_calculator() {
    return {"grounding-electrode",
            "the least grounding electrode conductor of a service",
            "a size; also area, table, limit (where the electrode sets one), capped",
            {{"service_conductor", FactKind::size, "largest ungrounded service conductor, one of a parallel set"},
             {"sets", FactKind::number, "parallel sets (left out: 1)", Unit::count, 1, 20, true},
             {"service_material", FactKind::choice, "material of the service conductors", Unit::count, 0, 0, false,
              "cu|al"},
             {"material", FactKind::choice, "material of the grounding electrode conductor", Unit::count, 0, 0, false,
              "cu|al"},
             {"electrode", FactKind::choice,
              "what it runs to, and to nothing else; table: water pipe, structural metal, or several kinds",
              Unit::count, 0, 0, false, "table|rod-pipe-plate|concrete-encased|ring"},
             {"ring", FactKind::size, "conductor of the ground ring (left out: 2 AWG, the least)"}},
            run};
}

}  // namespace trade
