#include "trade/work/raceway_fill.hpp"

#include <cmath>

namespace trade {
namespace {

using base::Unit;

constexpr double kSlack = 1e-9;
/// From this part of a wire on, one more of the same kind may go in.
constexpr double kRoundsUp = 0.8;
constexpr double kOne = 53.0, kTwo = 31.0, kMore = 40.0, kNipple = 60.0;
constexpr double kQuarterPi = 0.78539816339744831;

double percent_for(double wires, bool nipple) {
    if (nipple) return kNipple;
    if (wires <= 1.0) return kOne;
    return wires <= 2.0 ? kTwo : kMore;
}

double allowed_area(const Tables::Raceway& raceway, double wires, bool nipple) {
    return raceway.area * percent_for(wires, nipple) / 100.0;
}

/// The rows of the table go by the insulation, not by its rating.
std::string_view family(std::string_view insulation) {
    if (insulation.starts_with("thhn") || insulation.starts_with("thwn")) return "thhn";
    if (insulation.starts_with("xhhw")) return "xhhw";
    if (insulation.starts_with("thw")) return "thw";
    return insulation;
}

/// Flexible metal conduit of 3/8 in has a table of its own, by count.
bool listed_elsewhere(const Tables::Raceway& raceway) {
    return raceway.kind == "fmc" && raceway.trade_size == "3/8";
}

/// What goes in, added up.
struct Bundle {
    double wires = 0.0, area = 0.0;
    std::optional<double> each;  ///< in2 of one, while all are alike
    bool mixed = false;

    void add(double count, double area_of_one) {
        if (count <= 0.0) return;
        wires += count;
        area += count * area_of_one;
        if (each && *each != area_of_one) mixed = true;
        each = area_of_one;
    }
    [[nodiscard]] bool alike() const { return each.has_value() && !mixed; }
};

void add_items(Bundle& bundle, const std::vector<Item>& items, std::string_view insulation, const Setting& setting,
               Finding& finding, Working& working) {
    const auto* row = setting.tables->insulation(family(insulation));
    for (const auto& item : items) {
        if (item.count <= 0) continue;
        const double each = row == nullptr ? 0.0 : row->area[index_of(item.size)];
        if (each <= 0.0) {
            finding.refuse("beyond our table of areas: it has none for " + to_text(item.size) + " " +
                           std::string{insulation} + "; see Chapter 9 in the book");
            continue;
        }
        bundle.add(item.count, each);
        working.step(item.count, " x ", each, " (", item.size, " ", insulation, ") = ", item.count * each, " in2");
    }
}

Bundle bundle_of(const RacewayFillFacts& facts, const Setting& setting, Finding& finding, Working& working) {
    Bundle bundle;
    if (facts.conductors) add_items(bundle, *facts.conductors, facts.insulation, setting, finding, working);
    add_items(bundle, facts.conductors_2, facts.insulation_2, setting, finding, working);
    if (facts.cable_width) {
        const double each = kQuarterPi * *facts.cable_width * *facts.cable_width;
        bundle.add(facts.cables, each);
        working.step("cable ", *facts.cable_width, " in wide, taken as round: ", facts.cables, " x ", each, " in2");
    }
    return bundle;
}

/// Whether so many alike may go in where `room` is for them.
bool alike_fit(double wires, double each, double room) {
    return room / each * (1.0 + kSlack) >= wires - 1.0 + kRoundsUp;
}

bool holds(const Tables::Raceway& raceway, const Bundle& bundle, bool nipple) {
    const double room = allowed_area(raceway, bundle.wires, nipple);
    if (room * (1.0 + kSlack) >= bundle.area) return true;
    return bundle.alike() && alike_fit(bundle.wires, *bundle.each, room);
}

/// The most wires of one kind: over two by their own percentage, else two, else one.
double most_of(const Tables::Raceway& raceway, double each, bool nipple) {
    const double room = allowed_area(raceway, 3.0, nipple);
    const double more = std::floor(room / each * (1.0 + kSlack) + 1.0 - kRoundsUp);
    if (more > 2.0) return more;
    for (const double wires : {2.0, 1.0}) {
        Bundle bundle;
        bundle.add(wires, each);
        if (holds(raceway, bundle, nipple)) return wires;
    }
    return 0.0;
}

const Tables::Raceway* least_of(const RacewayFillFacts& facts, const Bundle& bundle, const Tables& tables) {
    for (const auto& raceway : tables.raceways)
        if (raceway.kind == facts.raceway && !listed_elsewhere(raceway) && holds(raceway, bundle, facts.nipple))
            return &raceway;
    return nullptr;
}

const Tables::Raceway* told(const RacewayFillFacts& facts, const Tables& tables) {
    for (const auto& raceway : tables.raceways)
        if (raceway.kind == facts.raceway && raceway.trade_size == facts.trade_size && !listed_elsewhere(raceway))
            return &raceway;
    return nullptr;
}

/// Why a trade size that was told is not among the rows.
std::string beyond(const RacewayFillFacts& facts) {
    if (facts.raceway == "fmc" && facts.trade_size == "3/8")
        return "beyond our table of areas: flexible metal conduit of 3/8 in goes by counts; see 348.22 in the book";
    return "beyond our table of areas: it has no " + std::string{facts.trade_size} + " " + std::string{facts.raceway} +
           "; see Chapter 9, Table 4 in the book";
}

std::string_view article_of(std::string_view raceway) {
    if (raceway == "emt") return "358.22";
    if (raceway == "imc") return "342.22";
    if (raceway == "rmc") return "344.22";
    if (raceway == "fmc") return "348.22";
    if (raceway == "ent") return "362.22";
    return "352.22";
}

void lack_what_is_missing(const RacewayFillFacts& facts, Finding& finding) {
    if (facts.raceway.empty()) finding.lacks("raceway");
    if (!facts.conductors && !facts.cable_width) finding.lacks("conductors");
    if (facts.conductors && !facts.conductors->empty() && facts.insulation.empty()) finding.lacks("insulation");
    if (!facts.conductors_2.empty() && facts.insulation_2.empty()) finding.lacks("insulation_2");
}

void tell(const RacewayFillFacts& facts, const Bundle& bundle, const Tables::Raceway& raceway, Finding& finding,
          Working& working) {
    const double allowed_percent = percent_for(bundle.wires, facts.nipple);
    const double allowed = allowed_area(raceway, bundle.wires, facts.nipple);
    const double percent = 100.0 * bundle.area / raceway.area;
    const bool fits = holds(raceway, bundle, facts.nipple);
    auto& also = finding.also;
    also.push_back({"raceway_area", value_of(raceway.area, Unit::in2)});
    also.push_back({"allowed_percent", value_of(allowed_percent, Unit::percent)});
    also.push_back({"allowed", value_of(allowed, Unit::in2)});
    also.push_back({"percent", value_of(percent, Unit::percent)});
    also.push_back({"fits", value_of(fits ? "yes" : "no")});
    working.step(raceway.trade_size, " ", raceway.kind, ": ", allowed_percent, " % of ", raceway.area, " = ", allowed,
                 " in2; used ", percent, " %: ", fits ? "enough" : "too small");
    if (!fits) finding.findings.emplace_back("the raceway is too small for what is in it");
    if (!bundle.alike()) return;
    const double most = most_of(raceway, *bundle.each, facts.nipple);
    also.push_back({"most", value_of(most, Unit::count)});
    working.step("of this kind at most ", most);
}

Finding run(const Facts& facts, const Setting& setting) {
    RacewayFillFacts asked;
    asked.raceway = facts.choice("raceway");
    asked.insulation = facts.choice("insulation");
    if (const auto* items = facts.items("conductors")) asked.conductors = *items;
    asked.insulation_2 = facts.choice("insulation_2");
    if (const auto* items = facts.items("conductors_2")) asked.conductors_2 = *items;
    asked.cable_width = facts.number("cable_width");
    asked.cables = facts.number("cables").value_or(1.0);
    asked.nipple = facts.flag("nipple").value_or(false);
    asked.trade_size = facts.choice("trade_size");
    return raceway_fill(asked, setting);
}

}  // namespace

Finding raceway_fill(const RacewayFillFacts& facts, const Setting& setting) {
    Finding finding;
    finding.articles = {"Chapter 9, Table 1", "Chapter 9, Table 4", "Chapter 9, Table 5"};
    if (!facts.raceway.empty()) finding.articles.emplace_back(article_of(facts.raceway));
    lack_what_is_missing(facts, finding);
    if (!finding.unknown.empty()) return finding;
    Working working{finding.steps, setting.explain};
    const Bundle bundle = bundle_of(facts, setting, finding, working);
    if (!finding.blocked() && bundle.wires <= 0.0) finding.lacks("conductors");
    if (finding.blocked()) return finding;
    finding.also.push_back({"area", value_of(bundle.area, Unit::in2)});
    finding.also.push_back({"wires", value_of(bundle.wires, Unit::count)});
    working.step("together ", bundle.area, " in2, ", bundle.wires, bundle.wires == 1.0 ? " wire" : " wires");
    const auto* chosen = facts.trade_size.empty() ? nullptr : told(facts, *setting.tables);
    if (!facts.trade_size.empty() && chosen == nullptr) finding.refuse(beyond(facts));
    const auto* least = least_of(facts, bundle, *setting.tables);
    if (least == nullptr) finding.refuse("no trade size of our table holds all this: use more than one raceway");
    if (chosen == nullptr) chosen = least;
    if (chosen != nullptr) tell(facts, bundle, *chosen, finding, working);
    if (finding.blocked()) return finding;
    finding.answer = value_of(least->trade_size);
    working.step("least trade size: ", least->trade_size);
    return finding;
}

Calculator raceway_fill_calculator() {
    constexpr std::string_view kInsulations = "thhn|thwn|thwn-2|thw|thw-2|xhhw|xhhw-2";
    return {
        "raceway-fill",
        "the least raceway that holds wires, and how full one is",
        "the least trade size; also area, wires, and of trade_size (left out: of the least) raceway_area, "
        "allowed_percent, allowed, percent, fits, most (wires all alike)",
        {{"raceway", FactKind::choice, "kind of raceway", Unit::count, 0, 0, false, "emt|imc|rmc|fmc|ent|pvc40|pvc80"},
         {"conductors", FactKind::wires, "every wire in it, equipment grounds among them; or none"},
         {"insulation", FactKind::choice, "insulation of the conductors", Unit::count, 0, 0, false, kInsulations},
         {"conductors_2", FactKind::wires, "wires of another insulation (left out: none)"},
         {"insulation_2", FactKind::choice, "that other insulation", Unit::count, 0, 0, false, kInsulations},
         {"cable_width", FactKind::number, "wider side of a cable in it (left out: none)", Unit::in, 0.05, 6},
         {"cables", FactKind::number, "how many of that cable (left out: 1)", Unit::count, 1, 100, true},
         {"nipple", FactKind::flag, "24 in or shorter between two enclosures? (left out: no)"},
         {"trade_size", FactKind::choice, "trade size to check (left out: the least is found)", Unit::count, 0, 0,
          false, "3/8|1/2|3/4|1|1-1/4|1-1/2|2|2-1/2|3|3-1/2|4|5|6"}},
        run};
}

}  // namespace trade
