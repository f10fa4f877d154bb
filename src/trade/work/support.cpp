#include "trade/work/support.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace trade {
namespace {

using base::Unit;
using Box = SupportFacts::Box;
using SeUse = SupportFacts::SeUse;

constexpr double kSlack = 1e-9;
constexpr double kInchesPerFoot = 12.0;
constexpr double kLargestPvc = 3.0;  ///< in, of the table
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

/// Inside SE cable goes by the rules of nonmetallic-sheathed cable.
constexpr Method kInteriorSe = {"se", "nm", "334.30"};

/// PVC conduit has a row for every few trade sizes; empty beyond the largest.
std::string_view pvc_row(double trade_size) {
    if (trade_size <= 1.0) return "pvc-to-1";
    if (trade_size <= 2.0) return "pvc-to-2";
    return trade_size <= kLargestPvc ? "pvc-to-3" : "";
}

/// Null when no such method was told.
const Method* method_of(const SupportFacts& facts) {
    if (facts.method == "se" && facts.se_use == SeUse::interior) return &kInteriorSe;
    const auto* found =
        std::find_if(kMethods.begin(), kMethods.end(), [&](const Method& m) { return m.name == facts.method; });
    return found == kMethods.end() ? nullptr : found;
}

const Tables::Support* find(const Tables& tables, std::string_view row) {
    const auto found = std::find_if(tables.supports.begin(), tables.supports.end(),
                                    [&](const Tables::Support& s) { return s.method == row; });
    return found == tables.supports.end() ? nullptr : &*found;
}

/// Cables whose single-gang nonmetallic boxes need no clamp.
bool nonmetallic_cable(const Method& method) {
    return method.name == "nm" || method.name == "uf";
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

std::string beyond(const Method& method, const SupportFacts& facts) {
    if (method.row.empty() && *facts.trade_size > kLargestPvc)
        return "beyond our table, which ends at PVC of 3 in: " + base::number_text(*facts.trade_size) + " in; see " +
               std::string{method.article} + " in the book";
    return "beyond our table: it has no spacing for this wiring method; see " + std::string{method.article} +
           " in the book";
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

std::optional<SeUse> use_of(std::string_view word) {
    if (word == "service") return SeUse::service;
    return word == "interior" ? std::optional{SeUse::interior} : std::nullopt;
}

Finding run(const Facts& facts, const Setting& setting) {
    return support({facts.choice("method"), use_of(facts.choice("use")), facts.number("trade_size"),
                    box_of(facts.choice("box")), facts.number("length"), facts.number("distance")},
                   setting);
}

}  // namespace

Finding support(const SupportFacts& facts, const Setting& setting) {
    Finding finding;
    Working working{finding.steps, setting.explain};
    const auto* method = method_of(facts);
    if (method == nullptr) {
        finding.lacks("method");
        return finding;
    }
    const bool open = method->name == "se" && !facts.se_use;
    if (open) finding.lacks("use");
    if (open || method == &kInteriorSe) finding.articles.emplace_back("338.10(B)(4)");
    finding.articles.emplace_back(method->article);
    if (method->row.empty() && !facts.trade_size) finding.lacks("trade_size");
    if (nonmetallic_cable(*method) && !facts.box && (facts.length || facts.distance)) finding.lacks("box");
    if (!finding.unknown.empty()) return finding;
    const auto name = method->row.empty() ? pvc_row(*facts.trade_size) : method->row;
    const auto* row = find(*setting.tables, name);
    if (row == nullptr || row->spacing_ft <= 0.0) {
        finding.refuse(beyond(*method, facts));
        return finding;
    }
    const auto from_box = from_box_of(facts, *method, *row, *setting.tables);
    if (!from_box && (facts.length || facts.distance)) {
        finding.refuse("beyond our table: it has no distance from the box for this; see " +
                       std::string{method->article} + " in the book");
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
         {"use", FactKind::choice, "se: service-entrance conductors, or wiring inside, which goes by the rules of nm",
          Unit::count, 0, 0, false, "service|interior"},
         {"trade_size", FactKind::number, "of PVC conduit", Unit::in, 0.5, 6},
         {"box", FactKind::choice,
          "what a nonmetallic cable enters: a box with a clamp, or a single-gang nonmetallic box without", Unit::count,
          0, 0, false, "clamped|single-gang-nonmetallic"},
         {"length", FactKind::number, "length of the run from box to box", Unit::ft, 0.1, 10000},
         {"distance", FactKind::number, "distance from the box to the first support, to be judged", Unit::in, 0, 1000}},
        run};
}

}  // namespace trade
