#include "trade/loads/voltage_drop.hpp"

#include <algorithm>
#include <cmath>

namespace trade {
namespace {

using base::Unit;
using Method = VoltageDropFacts::Method;

constexpr double kPerThousand = 1000.0;
constexpr double kSlack = 1e-9;
constexpr double kAll = 100.0;  ///< %

double factor_of(const VoltageDropFacts& facts) {
    return facts.phases == 3 ? std::sqrt(3.0) : 2.0;
}

std::string_view factor_text(const VoltageDropFacts& facts) {
    return facts.phases == 3 ? "1.732 x " : "2 x ";
}

/// Resistance and reactance of one conductor, ohm per 1000 ft.
struct Ohms {
    double r = 0.0, x = 0.0;
};

/// Nothing where the table has no value for the size.
std::optional<Ohms> ohms_of(const VoltageDropFacts& facts, Size size, const Tables& tables) {
    const auto material = static_cast<std::size_t>(*facts.material);
    Ohms ohms;
    if (facts.method == Method::k) {
        const auto cmil = tables.cmil(size);
        if (cmil) ohms.r = tables.k[material] * kPerThousand / *cmil;
    } else if (facts.method == Method::impedance) {
        const auto& z = tables.impedance[index_of(size)];
        const auto run = static_cast<std::size_t>(*facts.run);
        ohms = {z.resistance[material][run], z.reactance[run]};
        if (ohms.x <= 0.0) return std::nullopt;
    } else {
        const auto& row = tables.resistance[index_of(size)];
        ohms.r = facts.solid ? row.solid[material] : row.stranded[material];
    }
    return ohms.r > 0.0 ? std::optional{ohms} : std::nullopt;
}

/// What all parallel sets together drop per ampere and 1000 ft, in phase with the voltage.
double effective(const VoltageDropFacts& facts, const Ohms& ohms) {
    if (facts.method != Method::impedance || facts.ohms) return ohms.r / facts.sets;
    const double cosine = *facts.power_factor;
    return (ohms.r * cosine + ohms.x * std::sqrt(1.0 - cosine * cosine)) / facts.sets;
}

double drop(const VoltageDropFacts& facts, double ohms) {
    return factor_of(facts) * *facts.length * *facts.amps * ohms / kPerThousand;
}

/// V that may drop; nothing without a limit.
std::optional<double> most_of(const VoltageDropFacts& facts) {
    std::optional<double> most = facts.most_volts;
    if (facts.most_percent) {
        const double volts = *facts.volts * *facts.most_percent / 100.0;
        most = most ? std::min(*most, volts) : volts;
    }
    return most;
}

void lack_what_the_table_needs(const VoltageDropFacts& facts, Finding& finding) {
    if (!facts.material) finding.lacks("material");
    if (facts.method != Method::impedance) return;
    if (!facts.run) finding.lacks("run");
    if (!facts.power_factor) finding.lacks("power_factor");
}

void lack_what_is_missing(const VoltageDropFacts& facts, Finding& finding) {
    const bool limited = facts.most_percent || facts.most_volts;
    const bool rated = facts.size || facts.ohms;
    if (facts.phases == 0) finding.lacks("phases");
    if (!facts.volts) finding.lacks("volts");
    if (!facts.amps) finding.lacks("amps");
    if (!facts.ohms) lack_what_the_table_needs(facts, finding);
    if (!facts.length && !(rated && limited)) finding.lacks("length");
    if (!rated && !limited) finding.lacks("size");
}

/// |V at the load + I Z| - V at the load.
double exact_drop(const VoltageDropFacts& facts, const Ohms& ohms) {
    const double cosine = *facts.power_factor;
    const double sine = std::sqrt(1.0 - cosine * cosine);
    const double scale = factor_of(facts) * *facts.length / kPerThousand / facts.sets;
    const double along = *facts.volts + *facts.amps * scale * (ohms.r * cosine + ohms.x * sine);
    const double across = *facts.amps * scale * (ohms.x * cosine - ohms.r * sine);
    return std::hypot(along, across) - *facts.volts;
}

void note_percent(double percent, const Tables& tables, Finding& finding) {
    if (tables.advised_drop_percent > 0.0 && percent > tables.advised_drop_percent * (1.0 + kSlack))
        finding.findings.emplace_back("more than is advised to drop along a branch circuit or a feeder");
}

/// A drop that is small enough says nothing of whether the wire stays cool.
void note_ampacity(const VoltageDropFacts& facts, Size size, const Tables& tables, Finding& finding) {
    auto carries = tables.ampacity_of(*facts.material, Rating::c75, size);
    const auto limit = tables.small_conductor_limit(*facts.material, size);
    if (limit && (!carries || *limit < *carries)) carries = limit;
    if (carries && *carries * facts.sets * (1.0 + kSlack) < *facts.amps)
        finding.findings.emplace_back("the load is more than this size carries in general use: ampacity comes first");
    if (facts.sets > 1.0 && size < Size::awg1_0)
        finding.findings.emplace_back("conductors in parallel are 1/0 AWG or larger, except in special cases");
}

void rate(const VoltageDropFacts& facts, const Ohms& ohms, const Tables& tables, Finding& finding, Working& working) {
    const double each = effective(facts, ohms);
    const double volts = drop(facts, each);
    const double percent = 100.0 * volts / *facts.volts;
    if (percent * (1.0 + kSlack) >= kAll) {
        finding.refuse("the wires would drop " + base::number_text(percent, 0) +
                       " % of the voltage: no load runs at the end of such a run, so check length, current and size");
        return;
    }
    finding.answer = value_of(volts, Unit::volt);
    finding.also.push_back({"percent", value_of(percent, Unit::percent)});
    finding.also.push_back({"volts_at_load", value_of(*facts.volts - volts, Unit::volt)});
    working.step(factor_text(facts), *facts.length, " ft x ", *facts.amps, " A x ", each, " ohm / 1000 = ", volts,
                 " V");
    working.step(volts, " V / ", *facts.volts, " V = ", percent, " %");
    if (facts.method == Method::impedance && !facts.ohms) {
        const double exact = exact_drop(facts, ohms);
        finding.also.push_back({"exact", value_of(exact, Unit::volt)});
        working.step("exactly, with the angle of the drop counted: ", exact, " V");
    }
    note_percent(percent, tables, finding);
}

void compare_with_limit(const VoltageDropFacts& facts, const Ohms& ohms, Finding& finding, Working& working) {
    const auto most = most_of(facts);
    if (!most || finding.blocked()) return;
    const double each = effective(facts, ohms);
    const double longest = *most * kPerThousand / (factor_of(facts) * *facts.amps * each);
    finding.also.push_back({"most_volts", value_of(*most, Unit::volt)});
    finding.also.push_back({"longest", value_of(longest, Unit::ft)});
    working.step("longest run: 1000 x ", *most, " V / (", factor_text(facts), *facts.amps, " A x ", each,
                 " ohm) = ", longest, " ft");
    if (!finding.answer) {
        finding.answer = value_of(longest, Unit::ft);
        return;
    }
    const bool fits = finding.answer->number <= *most * (1.0 + kSlack);
    finding.also.push_back({"fits", value_of(fits ? "yes" : "no")});
    if (!fits) finding.findings.emplace_back("more drops than may");
}

void explain_ohms(const VoltageDropFacts& facts, const Ohms& ohms, Working& working) {
    if (facts.ohms)
        working.step("ohm per 1000 ft as stated: ", ohms.r);
    else if (facts.method == Method::impedance)
        working.step(*facts.size, ": R ", ohms.r, ", X ", ohms.x,
                     " ohm per 1000 ft; R cos + X sin = ", effective(facts, ohms) * facts.sets, " ohm");
    else
        working.step(*facts.size, ": ", ohms.r, " ohm per 1000 ft");
    if (facts.sets > 1.0) working.step(facts.sets, " in parallel: ", effective(facts, ohms), " ohm");
}

/// The area by K, whatever the method: it is how the trade comes to a first size.
void add_cmil(const VoltageDropFacts& facts, double most, const Tables& tables, Finding& finding, Working& working) {
    const double k = tables.k[static_cast<std::size_t>(*facts.material)];
    if (k <= 0.0) return;
    const double cmil = factor_of(facts) * k * *facts.length * *facts.amps / most / facts.sets;
    finding.also.push_back({"cmil", value_of(cmil, Unit::cmil)});
    working.step("by K: ", factor_text(facts), k, " x ", *facts.length, " ft x ", *facts.amps, " A / ", most,
                 " V = ", cmil, " circular mils");
}

void add_size(const VoltageDropFacts& facts, Size size, const Ohms& ohms, const char* verdict, Working& working) {
    const double effect = effective(facts, ohms);
    working.step(size, ": ", factor_text(facts), *facts.length, " ft x ", *facts.amps, " A x ", effect,
                 " ohm / 1000 ft = ", drop(facts, effect), " V", verdict);
}

void size_it(const VoltageDropFacts& facts, const Tables& tables, Finding& finding, Working& working) {
    const double most = *most_of(facts);
    std::optional<std::pair<Size, Ohms>> smaller;
    for (std::size_t i = index_of(Size::awg14); i < kSizes; ++i) {
        // The table of ampacity tells which sizes there are of a material: aluminium starts at 12 AWG.
        if (!tables.ampacity_of(*facts.material, Rating::c75, size_at(i))) continue;
        const auto ohms = ohms_of(facts, size_at(i), tables);
        if (!ohms) continue;
        const double volts = drop(facts, effective(facts, *ohms));
        if (volts > most * (1.0 + kSlack)) {
            smaller = {size_at(i), *ohms};
            continue;
        }
        const double percent = 100.0 * volts / *facts.volts;
        finding.answer = value_of(size_at(i));
        finding.also.push_back({"most_volts", value_of(most, Unit::volt)});
        finding.also.push_back({"volts", value_of(volts, Unit::volt)});
        finding.also.push_back({"percent", value_of(percent, Unit::percent)});
        finding.also.push_back({"ohms_per_kft", value_of(ohms->r, Unit::ohm)});
        working.step("at most ", most, " V may drop");
        add_cmil(facts, most, tables, finding, working);
        if (smaller) add_size(facts, smaller->first, smaller->second, ", too much", working);
        add_size(facts, size_at(i), *ohms, ", the least size that keeps within it", working);
        working.step("ampacity and overcurrent protection are sized apart; the larger size counts");
        note_percent(percent, tables, finding);
        note_ampacity(facts, size_at(i), tables, finding);
        return;
    }
    finding.refuse("no size of our table keeps within this drop" +
                   std::string{facts.sets > 1.0 ? ": use more parallel sets" : ": use parallel sets"} +
                   ", a higher voltage or a shorter run");
}

Method method_of(std::string_view word) {
    if (word == "k") return Method::k;
    return word == "impedance" ? Method::impedance : Method::resistance;
}

std::optional<Tables::Run> run_of(std::string_view word) {
    if (word == "pvc") return Tables::Run::pvc;
    if (word == "aluminium") return Tables::Run::aluminium;
    return word == "steel" ? std::optional{Tables::Run::steel} : std::nullopt;
}

Finding run(const Facts& facts, const Setting& setting) {
    VoltageDropFacts asked;
    if (facts.has("phases")) asked.phases = facts.choice("phases") == "3" ? 3 : 1;
    asked.volts = facts.number("volts");
    asked.amps = facts.number("amps");
    asked.length = facts.number("length");
    asked.material = parse_material(facts.choice("material"));
    asked.size = facts.size("size");
    asked.ohms = facts.number("ohms");
    asked.sets = facts.number("sets").value_or(1.0);
    asked.most_percent = facts.number("most_percent");
    asked.most_volts = facts.number("most_volts");
    asked.method = method_of(facts.choice("method"));
    asked.solid = facts.choice("stranding") == "solid";
    asked.run = run_of(facts.choice("run"));
    asked.power_factor = facts.number("power_factor");
    return voltage_drop(asked, setting);
}

}  // namespace

Finding voltage_drop(const VoltageDropFacts& facts, const Setting& setting) {
    Finding finding;
    finding.articles.emplace_back("210.19(A)");
    lack_what_is_missing(facts, finding);
    if (!finding.unknown.empty()) return finding;
    Working working{finding.steps, setting.explain};
    finding.findings.emplace_back("advice, no requirement: an informational note says what should not drop");
    if (facts.power_factor && (facts.method != Method::impedance || facts.ohms))
        finding.findings.emplace_back("the power factor counts only with the impedance of the table");
    if (!facts.size && !facts.ohms) {
        size_it(facts, *setting.tables, finding, working);
        return finding;
    }
    const auto ohms = facts.ohms ? Ohms{*facts.ohms, 0.0} : ohms_of(facts, *facts.size, *setting.tables);
    if (!ohms) {
        finding.refuse("beyond our table for this method: no resistance of " + to_text(*facts.size) +
                       "; see Chapter 9 in the book");
        return finding;
    }
    finding.also.push_back({"ohms_per_kft", value_of(ohms->r, Unit::ohm)});
    explain_ohms(facts, *ohms, working);
    if (facts.length) rate(facts, *ohms, *setting.tables, finding, working);
    compare_with_limit(facts, *ohms, finding, working);
    if (facts.size && facts.material) note_ampacity(facts, *facts.size, *setting.tables, finding);
    return finding;
}

Calculator voltage_drop_calculator() {
    return {
        "voltage-drop",
        "the drop along a run, the least size for a drop, or the longest run",
        "V with size and length, a size without one, ft without a length; also percent, volts_at_load (V), "
        "ohms_per_kft, exact (by impedance), with a limit most_volts, longest (ft), fits, without a size volts, "
        "cmil",
        {{"phases", FactKind::choice, "1 for two wires, 3 for three-phase", Unit::count, 0, 0, false, "1|3"},
         {"volts", FactKind::number, "nominal voltage between the wires", Unit::volt, 1, 1000},
         {"amps", FactKind::number, "current of the load", Unit::amp, 0.01, 6000},
         {"length", FactKind::number, "length of the run one way (left out: the longest is found)", Unit::ft, 0,
          100000},
         {"material", FactKind::choice, "conductor material", Unit::count, 0, 0, false, "cu|al"},
         {"size", FactKind::size, "conductor size (left out: the least size is found)"},
         {"ohms", FactKind::number, "ohm per 1000 ft of one conductor (left out: the table's value)", Unit::ohm, 0.0001,
          1000},
         {"sets", FactKind::number, "conductors in parallel per phase (left out: 1)", Unit::count, 1, 12, true},
         {"most_percent", FactKind::number, "how much of the voltage may drop", Unit::percent, 0.1, 50},
         {"most_volts", FactKind::number, "how many volts may drop", Unit::volt, 0.01, 500},
         {"method", FactKind::choice,
          "table resistance, constant K, or impedance with the power factor (left out: resistance)", Unit::count, 0, 0,
          false, "resistance|k|impedance"},
         {"stranding", FactKind::choice, "by resistance: the conductors (left out: stranded)", Unit::count, 0, 0, false,
          "stranded|solid"},
         {"run", FactKind::choice, "by impedance: raceway the wires run in", Unit::count, 0, 0, false,
          "pvc|aluminium|steel"},
         {"power_factor", FactKind::number, "by impedance: power factor of the load, lagging", Unit::count, 0.1, 1}},
        run};
}

}  // namespace trade
