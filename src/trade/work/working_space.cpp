#include "trade/work/working_space.hpp"

#include <algorithm>
#include <array>

namespace trade {
namespace {

using base::Unit;
using Opposite = WorkingSpaceFacts::Opposite;

constexpr double kLeastWidthIn = 30.0;
constexpr double kLeastHeightFt = 6.5;
constexpr double kInchesPerFoot = 12.0;
constexpr double kRecalledOver = 600.0;  ///< V: the row above is recalled

/// Voltage to ground by the name of the system: the greatest that any of its wires has.
std::optional<double> volts_of(std::string_view system) {
    struct Row {
        std::string_view system;
        double volts;
    };
    constexpr std::array kRows = {Row{"single-phase-120-240", 120.0}, Row{"wye-208-120", 120.0},
                                  Row{"wye-480-277", 277.0},          Row{"corner-grounded-240", 240.0},
                                  Row{"corner-grounded-480", 480.0},  Row{"high-leg-240-120", 208.0},
                                  Row{"ungrounded-240", 240.0},       Row{"ungrounded-480", 480.0}};
    const auto found = std::find_if(kRows.begin(), kRows.end(), [&](const Row& r) { return r.system == system; });
    return found == kRows.end() ? std::nullopt : std::optional{found->volts};
}

int condition_of(Opposite opposite) {
    if (opposite == Opposite::live_parts) return 3;
    return opposite == Opposite::grounded ? 2 : 1;
}

std::optional<double> larger(std::optional<double> one, std::optional<double> other) {
    if (one && other) return std::max(*one, *other);
    return one ? one : other;
}

/// The lowest band that reaches as far; a voltage between two bands belongs to the upper one.
const Tables::Depth* row_for(const Tables& tables, double volts, int condition) {
    const Tables::Depth* found = nullptr;
    for (const auto& row : tables.depths)
        if (row.condition == condition && volts <= row.most_volts && (!found || row.most_volts < found->most_volts))
            found = &row;
    return found;
}

void add_width_and_height(const WorkingSpaceFacts& facts, Finding& finding, Working& working) {
    if (facts.width) {
        const double width = std::max(kLeastWidthIn, *facts.width);
        finding.also.push_back({"width", value_of(width, Unit::in)});
        working.step("as wide as the equipment, at least ", kLeastWidthIn, " in: ", width, " in");
        finding.articles.emplace_back("110.26(A)(2)");
    }
    if (facts.height) {
        const double height = std::max(kLeastHeightFt, *facts.height / kInchesPerFoot);
        finding.also.push_back({"height_ft", value_of(height, Unit::ft)});
        working.step("as high as the equipment, at least ", kLeastHeightFt, " ft: ", height, " ft");
        finding.articles.emplace_back("110.26(A)(3)");
    }
}

std::optional<Opposite> opposite_of(std::string_view word) {
    if (word == "insulated") return Opposite::insulated;
    if (word == "grounded") return Opposite::grounded;
    return word == "live-parts" ? std::optional{Opposite::live_parts} : std::nullopt;
}

Finding run(const Facts& facts, const Setting& setting) {
    return working_space({facts.number("volts_to_ground"), facts.choice("system"),
                          opposite_of(facts.choice("opposite")), facts.number("width"), facts.number("height")},
                         setting);
}

}  // namespace

Finding working_space(const WorkingSpaceFacts& facts, const Setting& setting) {
    Finding finding;
    Working working{finding.steps, setting.explain};
    finding.articles.emplace_back("110.26(A)(1)");
    const auto by_system = volts_of(facts.system);
    const auto volts = larger(facts.volts_to_ground, by_system);
    if (!volts) finding.lacks("volts_to_ground");
    if (!facts.opposite) finding.lacks("opposite");
    if (!finding.unknown.empty()) return finding;
    if (by_system && facts.volts_to_ground && *by_system != *facts.volts_to_ground)
        finding.findings.emplace_back("the system and the voltage to ground do not agree: the larger counts here");

    const int condition = condition_of(*facts.opposite);
    const auto* row = row_for(*setting.tables, *volts, condition);
    if (row == nullptr || row->feet <= 0.0) {
        finding.refuse("beyond our table of depths: it does not reach " + base::number_text(*volts) +
                       " V to ground; see 110.26 in the book");
        return finding;
    }
    if (row->most_volts > kRecalledOver)
        finding.findings.emplace_back("the depth over 600 V is recalled: verify it against the book");
    finding.answer = value_of(row->feet, Unit::ft);
    finding.also.push_back({"depth_in", value_of(row->feet * kInchesPerFoot, Unit::in)});
    finding.also.push_back({"condition", value_of(condition, Unit::count)});
    finding.also.push_back({"volts", value_of(*volts, Unit::volt)});
    working.step(*volts, " V to ground picks the row, what is opposite picks condition ", condition, ": ", row->feet,
                 " ft deep");
    add_width_and_height(facts, finding, working);
    return finding;
}

Calculator working_space_calculator() {
    return {
        "working-space",
        "the clear space in front of equipment that may be worked on live",
        "depth in ft; also depth_in, condition, volts (to ground), width (in, with width), height_ft (with height)",
        {{"volts_to_ground", FactKind::number, "voltage to ground (or name the system)", Unit::volt, 0, 1000},
         {"system", FactKind::choice, "system, in place of the voltage to ground", Unit::count, 0, 0, false,
          "single-phase-120-240|wye-208-120|wye-480-277|corner-grounded-240|corner-grounded-480|high-leg-240-120|"
          "ungrounded-240|ungrounded-480"},
         {"opposite", FactKind::choice,
          "what faces the equipment: nothing live or grounded; grounded (concrete, brick and tile count); live parts",
          Unit::count, 0, 0, false, "insulated|grounded|live-parts"},
         {"width", FactKind::number, "width of the equipment", Unit::in, 1, 1000},
         {"height", FactKind::number, "height of the top of the equipment over the floor", Unit::in, 1, 1000}},
        run};
}

}  // namespace trade
