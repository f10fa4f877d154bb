#include "trade/work/support.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace trade {
namespace {

using base::Unit;
using Box = SupportFacts::Box;

constexpr double kSlack = 1e-9;
constexpr double kInchesPerFoot = 12.0;
constexpr std::string_view kWithoutClamps = "nm-single-gang-without-clamps";

/// A wiring method, its row of the table, and the section on securing it.
struct Method {
    std::string_view name, row, article;
};

constexpr std::array kMethods = {Method{"nm", "nm", "334.30"},           Method{"uf", "nm", "340.10"},
                                 Method{"ac", "ac", "320.30"},           Method{"mc", "mc", "330.30"},
                                 Method{"se", "se", "230.51"},           Method{"emt", "emt-imc-rmc", "358.30"},
                                 Method{"imc", "emt-imc-rmc", "342.30"}, Method{"rmc", "emt-imc-rmc", "344.30"},
                                 Method{"ent", "ent", "362.30"},         Method{"fmc", "fmc", "348.30"},
                                 Method{"lfmc", "fmc", "350.30"},        Method{"pvc", "", "352.30"}};

/// PVC conduit has a row for every few trade sizes; empty beyond the largest.
std::string_view pvc_row(double trade_size) {
    if (trade_size <= 1.0) return "pvc-to-1";
    if (trade_size <= 2.0) return "pvc-to-2";
    return trade_size <= 3.0 ? "pvc-to-3" : "";
}

const Tables::Support* find(const Tables& tables, std::string_view row) {
    const auto found = std::find_if(tables.supports.begin(), tables.supports.end(),
                                    [&](const Tables::Support& s) { return s.method == row; });
    return found == tables.supports.end() ? nullptr : &*found;
}

bool nonmetallic_cable(const Method& method) {
    return method.row == "nm";
}

/// Least count for a run between two boxes: one within reach of either box, and none farther apart than the spacing.
double supports_for(double length_ft, double from_box_in, double spacing_ft) {
    const double between = length_ft - 2.0 * from_box_in / kInchesPerFoot;
    return between <= kSlack ? 1.0 : 1.0 + std::ceil(between / spacing_ft - kSlack);
}

/// The distance to the first support, in; nothing where it hangs on a box that was not told.
std::optional<double> from_box_of(const SupportFacts& facts, const Method& method, const Tables::Support& row,
                                  const Tables& tables) {
    if (!nonmetallic_cable(method) || facts.box == Box::clamped)
        return row.from_box_in > 0.0 ? std::optional{row.from_box_in} : std::nullopt;
    if (!facts.box) return std::nullopt;
    const auto* near = find(tables, kWithoutClamps);
    return near != nullptr && near->from_box_in > 0.0 ? std::optional{near->from_box_in} : std::nullopt;
}

void add_first_support(const SupportFacts& facts, double from_box, double spacing, Finding& finding, Working& working) {
    finding.also.push_back({"from_box", value_of(from_box, Unit::in)});
    working.step("first support within ", from_box, " in of the box");
    if (facts.length) {
        const double count = supports_for(*facts.length, from_box, spacing);
        finding.also.push_back({"supports", value_of(count, Unit::count)});
        working.step("a run of ", *facts.length, " ft between two boxes: ", count, " supports at least");
    }
    if (facts.distance) {
        const bool fits = *facts.distance <= from_box * (1.0 + kSlack);
        finding.also.push_back({"fits", value_of(fits ? "yes" : "no")});
        if (!fits) finding.findings.emplace_back("the first support is too far from the box");
    }
}

std::optional<Box> box_of(std::string_view word) {
    if (word == "clamped") return Box::clamped;
    return word == "single-gang-nonmetallic" ? std::optional{Box::single_gang_nonmetallic} : std::nullopt;
}

Finding run(const Facts& facts, const Setting& setting) {
    return support({facts.choice("method"), facts.number("trade_size"), box_of(facts.choice("box")),
                    facts.number("length"), facts.number("distance")},
                   setting);
}

}  // namespace

Finding support(const SupportFacts& facts, const Setting& setting) {
    Finding finding;
    Working working{finding.steps, setting.explain};
    const auto method =
        std::find_if(kMethods.begin(), kMethods.end(), [&](const Method& m) { return m.name == facts.method; });
    if (method == kMethods.end()) {
        finding.lacks("method");
        return finding;
    }
    finding.articles.emplace_back(method->article);
    if (method->row.empty() && !facts.trade_size) finding.lacks("trade_size");
    if (nonmetallic_cable(*method) && !facts.box && (facts.length || facts.distance)) finding.lacks("box");
    if (!finding.unknown.empty()) return finding;
    const auto name = method->row.empty() ? pvc_row(*facts.trade_size) : method->row;
    const auto* row = find(*setting.tables, name);
    if (row == nullptr || row->spacing_ft <= 0.0) {
        finding.lacks("support spacing of this wiring method and size");
        return finding;
    }
    const auto from_box = from_box_of(facts, *method, *row, *setting.tables);
    if (!from_box && (facts.length || facts.distance)) {
        finding.lacks("distance from the box for this wiring method");
        return finding;
    }
    finding.answer = value_of(row->spacing_ft, Unit::ft);
    finding.also.push_back({"spacing_in", value_of(row->spacing_ft * kInchesPerFoot, Unit::in)});
    working.step("between supports at most ", row->spacing_ft, " ft");
    if (from_box) add_first_support(facts, *from_box, row->spacing_ft, finding, working);
    if (nonmetallic_cable(*method) && facts.box == Box::single_gang_nonmetallic)
        finding.articles.emplace_back("314.17");
    if (method->row.empty() && *facts.trade_size > 1.0)
        finding.findings.emplace_back("the spacing of PVC over 1 in is recalled: verify it against the book");
    return finding;
}

Calculator support_calculator() {
    return {
        "support",
        "how far apart supports may be, and how near the box the first one is",
        "spacing in ft; also spacing_in, from_box (in), supports (least count, with length), fits (with distance)",
        {{"method", FactKind::choice, "wiring method (mc: four conductors at most, 10 AWG and smaller)", Unit::count, 0,
          0, false, "nm|uf|ac|mc|se|emt|imc|rmc|ent|fmc|lfmc|pvc"},
         {"trade_size", FactKind::number, "of PVC conduit", Unit::in, 0.5, 6},
         {"box", FactKind::choice,
          "what a nonmetallic cable enters: a box with a clamp, or a single-gang nonmetallic box without", Unit::count,
          0, 0, false, "clamped|single-gang-nonmetallic"},
         {"length", FactKind::number, "length of the run from box to box", Unit::ft, 0.1, 10000},
         {"distance", FactKind::number, "distance from the box to the first support, to be judged", Unit::in, 0, 1000}},
        run};
}

}  // namespace trade
