#include "trade/work/equipment_ground.hpp"

#include <algorithm>

#include "trade/work/ampacity.hpp"

namespace trade {
namespace {

using base::Unit;

constexpr double kSlack = 1e-9;
/// What an area may fall short by: the areas of the table are rounded to four figures.
constexpr double kTie = 0.005;

bool grown(const EquipmentGroundFacts& facts, Edition edition) {
    if (!facts.from || !facts.to || *facts.to <= *facts.from) return false;
    return edition < Edition::e2020 || !facts.derating;
}

void lack_what_is_missing(const EquipmentGroundFacts& facts, Finding& finding) {
    if (!facts.device) finding.lacks("device");
    if (!facts.material) finding.lacks("material");
    if (facts.to && !facts.from) finding.lacks("from");
    if (facts.from && !facts.to) finding.lacks("to");
}

void doubt(const EquipmentGroundFacts& facts, Edition edition, Finding& finding) {
    if (facts.from && facts.to && *facts.to < *facts.from)
        finding.findings.emplace_back("the circuit conductors are smaller than what would do");
    if (facts.circuit && facts.to && *facts.circuit != *facts.to)
        finding.findings.emplace_back("circuit and to name different conductors; to was used");
    if (facts.derating && facts.from && facts.to && *facts.to > *facts.from && edition < Edition::e2020)
        finding.findings.emplace_back(
            "readings of the 2017 edition differ on growth for correction or adjustment alone: here it counts, which "
            "asks for more; ask the inspector");
    if (facts.raceways > 1.0 && facts.to.value_or(facts.circuit.value_or(Size::awg1_0)) < Size::awg1_0)
        finding.findings.emplace_back("conductors under 1/0 AWG may not be run in parallel");
}

/// Never larger than the circuit conductors of a single raceway; in parallel raceways that sets no limit here.
std::optional<Size> limit_of(const EquipmentGroundFacts& facts) {
    if (facts.raceways > 1.0) return std::nullopt;
    return facts.to ? facts.to : facts.circuit;
}

/// The size after growth in proportion; the largest there is where nothing comes to that area but a limit holds anyway.
std::optional<Size> grow(const EquipmentGroundFacts& facts, Size base, const Tables& tables, Finding& finding,
                         Working& working) {
    const auto from = tables.cmil(*facts.from);
    const auto to = tables.cmil(*facts.to);
    const auto cmil = tables.cmil(base);
    if (!from || !to || !cmil) {
        finding.refuse("beyond our table of areas: it lacks one of these conductors");
        return std::nullopt;
    }
    const double ratio = *to / *from;
    const double needs = *cmil * ratio;
    finding.also.push_back({"ratio", value_of(ratio, Unit::count)});
    finding.also.push_back({"table_cmil", value_of(*cmil, Unit::cmil)});
    finding.also.push_back({"required_cmil", value_of(needs, Unit::cmil)});
    working.step("circuit conductors grew from ", *from, " to ", *to, " cmil: x ", ratio);
    working.step(*cmil, " cmil x ", ratio, " = ", needs, " cmil");
    const auto size = least_size(needs, kTie, tables);
    if (size) {
        working.step("least size of that area, to within 0.5 %: ", *size);
        return size;
    }
    if (limit_of(facts)) return size_at(kSizes - 1);
    finding.refuse("beyond our table of areas: no size has " + base::number_text(needs) + " cmil");
    return std::nullopt;
}

Size cap(const EquipmentGroundFacts& facts, Size size, Finding& finding, Working& working) {
    const auto limit = limit_of(facts);
    const bool capped = limit && *limit < size;
    finding.also.push_back({"capped", value_of(capped ? "yes" : "no")});
    if (!capped) return size;
    working.step("no larger than the circuit conductors: ", *limit);
    return *limit;
}

Finding run(const Facts& facts, const Setting& setting) {
    EquipmentGroundFacts asked;
    asked.device = facts.number("device");
    asked.material = material_in(facts, "material");
    asked.from = facts.size("from");
    asked.to = facts.size("to");
    asked.derating = facts.flag("derating").value_or(false);
    asked.circuit = facts.size("circuit_conductor");
    asked.raceways = facts.number("raceways").value_or(1.0);
    return equipment_ground(asked, setting);
}

}  // namespace

const Tables::GroundRow* equipment_ground_row(double device, const Tables& tables) {
    const auto row = std::find_if(tables.equipment_ground.begin(), tables.equipment_ground.end(),
                                  [&](const Tables::GroundRow& one) { return one.device * (1.0 + kSlack) >= device; });
    return row == tables.equipment_ground.end() ? nullptr : &*row;
}

std::string beyond_equipment_ground(double device, const Tables& tables) {
    const std::string end = tables.equipment_ground.empty()
                                ? ""
                                : ", which ends at " + base::number_text(tables.equipment_ground.back().device) + " A";
    return "beyond our table of equipment grounds" + end + ": a " + base::number_text(device) +
           " A device; see 250.122 in the book";
}

std::optional<Size> least_size(double cmil, double slack, const Tables& tables) {
    for (std::size_t i = index_of(Size::awg14); i < kSizes; ++i)
        if (tables.cmil(size_at(i)).value_or(0.0) * (1.0 + slack + kSlack) >= cmil) return size_at(i);
    return std::nullopt;
}

Finding equipment_ground(const EquipmentGroundFacts& facts, const Setting& setting) {
    Finding finding;
    finding.articles.emplace_back("250.122(A)");
    if (facts.from && facts.to) finding.articles.emplace_back("250.122(B)");
    if (facts.raceways > 1.0) finding.articles.emplace_back("250.122(F)");
    lack_what_is_missing(facts, finding);
    if (!finding.unknown.empty()) return finding;
    const auto* row = equipment_ground_row(*facts.device, *setting.tables);
    const auto base = row == nullptr ? std::nullopt : row->size[static_cast<std::size_t>(*facts.material)];
    if (!base) {
        finding.refuse(beyond_equipment_ground(*facts.device, *setting.tables));
        return finding;
    }
    Working working{finding.steps, setting.explain};
    doubt(facts, setting.edition, finding);
    finding.also.push_back({"table", value_of(*base)});
    working.step("device of ", *facts.device, " A, row of ", row->device, " A: ", *base, " ", to_text(*facts.material));
    std::optional<Size> size = base;
    if (grown(facts, setting.edition)) size = grow(facts, *base, *setting.tables, finding, working);
    if (!size) return finding;
    finding.answer = value_of(cap(facts, *size, finding, working));
    finding.also.push_back({"raceways", value_of(facts.raceways, Unit::count)});
    if (facts.raceways > 1.0) working.step("that size in full in each of ", facts.raceways, " raceways");
    return finding;
}

Calculator equipment_ground_calculator() {
    return {"equipment-ground",
            "the least wire-type equipment ground of a circuit",
            "a size; also table, ratio and table_cmil and required_cmil (with from and to), capped, raceways",
            {{"device", FactKind::number, "rating or setting of the overcurrent device", Unit::amp, 1, 6000},
             {"material", FactKind::choice, "material of the equipment ground", Unit::count, 0, 0, false, "cu|al"},
             {"from", FactKind::size, "circuit conductors that would do (left out with to: nothing grew)"},
             {"to", FactKind::size, "circuit conductors as installed, larger than would do"},
             {"derating", FactKind::flag, "did they grow for correction or adjustment alone? (left out: no)"},
             {"circuit_conductor", FactKind::size,
              "circuit conductors where nothing grew, of the same material: never larger (left out: no such limit)"},
             {"raceways", FactKind::number, "parallel raceways or cables (left out: 1)", Unit::count, 1, 20, true}},
            run};
}

}  // namespace trade
