#include "trade/loads/motor_circuit.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

namespace trade {
namespace {

using base::Unit;
using Device = MotorFacts::Device;

constexpr double kConductorShare = 1.25;
constexpr double kCompressorShare = 1.75;  ///< first
constexpr double kHardStartShare = 2.25;   ///< where the unit does not start otherwise
constexpr double kLeastCompressorDevice = 15.0;
constexpr double kSlack = 1e-9;
constexpr double kServiceFactor = 1.15;
constexpr double kLowRise = 40.0;
/// A nameplate this far over the table is more likely a wrong horsepower or voltage.
constexpr double kFarOver = 1.25;

/// The voltage of the table for that of a system.
double table_volts(double volts) {
    struct Band {
        double least, most, table;
    };
    constexpr std::array kBands = {Band{110.0, 120.0, 115.0}, Band{220.0, 240.0, 230.0}, Band{440.0, 480.0, 460.0}};
    for (const auto& band : kBands)
        if (volts >= band.least && volts <= band.most) return band.table;
    return volts;
}

std::optional<double> table_amps(const MotorFacts& facts, double hp, const Tables& tables) {
    const double volts = table_volts(*facts.volts);
    for (const auto& row : tables.motor_currents)
        if (row.phase == facts.phases && row.volts == volts && std::abs(row.hp - hp) < kSlack)
            return row.amps > 0.0 ? std::optional{row.amps} : std::nullopt;
    return std::nullopt;
}

/// Why a motor has no current: where the table ends for its voltage and phases, or that it lacks such a row.
std::string beyond(const MotorFacts& facts, double hp, const Tables& tables) {
    double largest = 0.0;
    for (const auto& row : tables.motor_currents)
        if (row.phase == facts.phases && row.volts == table_volts(*facts.volts) && row.amps > 0.0)
            largest = std::max(largest, row.hp);
    const std::string what = base::number_text(hp) + " hp at " + base::number_text(*facts.volts) + " V, " +
                             (facts.phases == 3 ? "three-phase" : "single-phase");
    const std::string end =
        largest > 0.0 && hp > largest ? ", which ends at " + base::number_text(largest) + " hp for this voltage" : "";
    return "beyond our table of motor currents" + end + ": " + what + "; see Table " +
           (facts.phases == 3 ? "430.250" : "430.248") + " in the book";
}

double percent_of(const Tables::MotorProtection& row, Device device) {
    switch (device) {
        case Device::fuse:
            return row.fuse;
        case Device::dual_element_fuse:
            return row.dual_element_fuse;
        case Device::instantaneous:
            return row.instantaneous;
        case Device::breaker:
            break;
    }
    return row.inverse_time;
}

std::optional<double> protection_percent(const MotorFacts& facts, const Tables& tables) {
    const std::string_view type = facts.phases == 1 ? "single-phase" : "squirrel-cage";
    const auto found = std::find_if(tables.motor_protection.begin(), tables.motor_protection.end(),
                                    [&](const auto& row) { return row.type == type; });
    if (found == tables.motor_protection.end()) return std::nullopt;
    const double percent = percent_of(*found, facts.device);
    return percent > 0.0 ? std::optional{percent} : std::nullopt;
}

/// The rating of the branch circuit's protection for a motor current.
std::optional<double> rating_for(const MotorFacts& facts, double most, const Setting& setting) {
    // It is set rather than rated: there is no standard size to go up to.
    if (facts.device == Device::instantaneous) return most;
    return setting.tables->next_standard_rating(most, setting.edition, facts.device != Device::breaker);
}

/// The least size whose ampacity in the terminals' column carries the load.
void add_size(const MotorFacts& facts, double amps, const Setting& setting, Finding& finding, Working& working) {
    if (!facts.terminals) return;
    for (std::size_t i = index_of(Size::awg14); i < kSizes; ++i) {
        const auto carries = setting.tables->ampacity_of(facts.material, *facts.terminals, size_at(i));
        if (!carries || *carries * (1.0 + kSlack) < amps) continue;
        finding.also.push_back({"size", value_of(size_at(i))});
        working.step(size_at(i), " ", to_text(facts.material), " carries ", *carries, " A in the ",
                     degrees(*facts.terminals), " C column");
        return;
    }
    finding.findings.emplace_back("no single conductor of the table carries that much: use parallel sets");
}

void add_overload(const MotorFacts& facts, double table, Finding& finding, Working& working) {
    if (!facts.nameplate_amps) return;
    if (*facts.nameplate_amps > kFarOver * table)
        finding.findings.emplace_back(
            "the nameplate is far over the table: check horsepower and voltage; slow and high-torque motors go by it");
    if (!facts.service_factor && !facts.temperature_rise) {
        finding.findings.emplace_back("for the overload say service_factor or temperature_rise");
        return;
    }
    const bool more = (facts.service_factor && *facts.service_factor + kSlack >= kServiceFactor) ||
                      (facts.temperature_rise && *facts.temperature_rise <= kLowRise + kSlack);
    const double percent = more ? 125.0 : 115.0;
    const double amps = *facts.nameplate_amps * percent / 100.0;
    finding.also.push_back({"overload_percent", value_of(percent, Unit::percent)});
    finding.also.push_back({"overload", value_of(amps, Unit::amp)});
    working.step("overload: ", percent, " % of the nameplate's ", *facts.nameplate_amps, " A = ", amps, " A");
    finding.articles.emplace_back("430.32");
}

void add_device(const MotorFacts& facts, double amps, const Setting& setting, Finding& finding, Working& working) {
    const auto percent = protection_percent(facts, *setting.tables);
    if (!percent) {
        finding.findings.emplace_back("the table has no percent for this protection");
        return;
    }
    const double most = amps * *percent / 100.0;
    finding.also.push_back({"device_percent", value_of(*percent, Unit::percent)});
    finding.also.push_back({"device_most", value_of(most, Unit::amp)});
    working.step("protection: ", *percent, " % of ", amps, " A = ", most, " A");
    finding.articles.emplace_back("430.52");
    const auto rating = rating_for(facts, most, setting);
    if (!rating) {
        finding.findings.emplace_back("no standard rating is large enough");
        return;
    }
    finding.also.push_back({"device", value_of(*rating, Unit::amp)});
    if (facts.device == Device::instantaneous)
        finding.findings.emplace_back("an instantaneous breaker only as part of a listed combination controller");
    else
        working.step("next standard rating: ", *rating, " A");
}

/// Currents of the other motors; nothing, and noted, where the table has none.
std::optional<std::vector<double>> other_amps(const MotorFacts& facts, const Tables& tables, Finding& finding) {
    std::vector<double> all = facts.others;
    for (const double hp : facts.others_hp) {
        const auto amps = table_amps(facts, hp, tables);
        if (!amps) {
            finding.refuse(beyond(facts, hp, tables));
            return std::nullopt;
        }
        all.push_back(*amps);
    }
    return all;
}

void add_feeder_device(const MotorFacts& facts, double largest, double rest, const Setting& setting, Finding& finding,
                       Working& working) {
    const auto percent = protection_percent(facts, *setting.tables);
    if (!percent || facts.device == Device::instantaneous) return;
    const auto device = rating_for(facts, largest * *percent / 100.0, setting);
    if (!device) return;
    const double most = *device + rest;
    finding.also.push_back({"feeder_most", value_of(most, Unit::amp)});
    const auto rating = setting.tables->standard_rating_below(most, setting.edition);
    if (!rating) return;
    finding.also.push_back({"feeder_device", value_of(*rating, Unit::amp)});
    working.step("feeder device: not over ", *device, " + ", rest, " = ", most, " A: ", *rating, " A");
    finding.articles.emplace_back("430.62");
}

void feeder(const MotorFacts& facts, double own, const std::vector<double>& others, const Setting& setting,
            Finding& finding, Working& working) {
    const double all = own + std::accumulate(others.begin(), others.end(), 0.0);
    const double largest = std::max(own, *std::max_element(others.begin(), others.end()));
    const double amps = kConductorShare * largest + (all - largest);
    finding.answer = value_of(amps, Unit::amp);
    finding.articles.insert(finding.articles.begin(), "430.24");
    finding.also.push_back({"largest", value_of(largest, Unit::amp)});
    working.step("feeder: 125 % of the largest, ", largest, " A, and ", all - largest, " A of the others = ", amps,
                 " A");
    add_feeder_device(facts, largest, all - largest, setting, finding, working);
}

/// The names of a limit and of the rating under it, and the part of the compressor's current that it is.
struct CompressorLimit {
    std::string_view most, device;
    double share = 0.0;
};

/// The largest standard rating that is not over a limit; it need not be under 15 A.
void add_compressor_device(const MotorFacts& facts, const CompressorLimit& limit, const Setting& setting,
                           Finding& finding, Working& working) {
    const double most = limit.share * *facts.rated_load + *facts.fan;
    const double rating =
        std::max(setting.tables->standard_rating_below(most, setting.edition).value_or(0.0), kLeastCompressorDevice);
    finding.also.push_back({limit.most, value_of(most, Unit::amp)});
    finding.also.push_back({limit.device, value_of(rating, Unit::amp)});
    working.step("largest device: ", limit.share * 100.0, " % of ", *facts.rated_load, " A + ", *facts.fan,
                 " A = ", most, " A, not exceeded: ", rating, " A");
}

Finding air_conditioner(const MotorFacts& facts, const Setting& setting) {
    Finding finding;
    Working working{finding.steps, setting.explain};
    finding.articles = {"440.32", "440.22"};
    if (!facts.fan) {
        finding.lacks("fan");
        return finding;
    }
    if (facts.hp) finding.findings.emplace_back("a compressor goes by its rated-load current, not by horsepower");
    const double least = kConductorShare * *facts.rated_load + *facts.fan;
    finding.answer = value_of(least, Unit::amp);
    working.step("minimum circuit ampacity: 125 % of ", *facts.rated_load, " A + ", *facts.fan, " A = ", least, " A");
    add_compressor_device(facts, {"device_most", "device", kCompressorShare}, setting, finding, working);
    working.step("only where the unit does not start on that:");
    add_compressor_device(facts, {"most_if_no_start", "device_if_no_start", kHardStartShare}, setting, finding,
                          working);
    working.step("what the unit's nameplate is marked with counts before these");
    add_size(facts, least, setting, finding, working);
    return finding;
}

Device device_of(std::string_view word) {
    if (word == "fuse") return Device::fuse;
    if (word == "dual-element-fuse") return Device::dual_element_fuse;
    return word == "instantaneous" ? Device::instantaneous : Device::breaker;
}

std::vector<double> numbers_or_none(const Facts& facts, std::string_view name) {
    const auto* numbers = facts.numbers(name);
    return numbers == nullptr ? std::vector<double>{} : *numbers;
}

Finding run(const Facts& facts, const Setting& setting) {
    MotorFacts asked;
    asked.hp = facts.number("hp");
    asked.volts = facts.number("volts");
    if (facts.has("phases")) asked.phases = facts.choice("phases") == "3" ? 3 : 1;
    asked.device = device_of(facts.choice("device"));
    asked.nameplate_amps = facts.number("nameplate_amps");
    asked.service_factor = facts.number("service_factor");
    asked.temperature_rise = facts.number("temperature_rise");
    asked.others = numbers_or_none(facts, "others");
    asked.others_hp = numbers_or_none(facts, "others_hp");
    asked.rated_load = facts.number("rated_load");
    asked.fan = facts.number("fan");
    if (facts.has("terminals")) asked.terminals = facts.choice("terminals") == "60" ? Rating::c60 : Rating::c75;
    if (facts.choice("material") == "al") asked.material = Material::al;
    return motor_circuit(asked, setting);
}

}  // namespace

Finding motor_circuit(const MotorFacts& facts, const Setting& setting) {
    if (facts.rated_load) return air_conditioner(facts, setting);
    Finding finding;
    Working working{finding.steps, setting.explain};
    finding.articles.emplace_back("430.22");
    if (!facts.hp) finding.lacks("hp");
    if (!facts.volts) finding.lacks("volts");
    if (facts.phases == 0) finding.lacks("phases");
    if (!finding.unknown.empty()) return finding;
    const auto amps = table_amps(facts, *facts.hp, *setting.tables);
    if (!amps) {
        finding.refuse(beyond(facts, *facts.hp, *setting.tables));
        return finding;
    }
    const auto others = other_amps(facts, *setting.tables, finding);
    if (!others) return finding;
    const double conductor = kConductorShare * *amps;
    finding.answer = value_of(conductor, Unit::amp);
    finding.also.push_back({"table_amps", value_of(*amps, Unit::amp)});
    finding.also.push_back({"table_volts", value_of(table_volts(*facts.volts), Unit::volt)});
    finding.also.push_back({"conductor", value_of(conductor, Unit::amp)});
    working.step(*facts.hp, " hp at ", table_volts(*facts.volts), " V: table current ", *amps,
                 " A, whatever the nameplate says");
    working.step("conductor: 125 % of it = ", conductor, " A");
    add_device(facts, *amps, setting, finding, working);
    add_overload(facts, *amps, finding, working);
    if (!others->empty()) feeder(facts, *amps, *others, setting, finding, working);
    add_size(facts, finding.answer->number, setting, finding, working);
    return finding;
}

Calculator motor_circuit_calculator() {
    return {
        "motor-circuit",
        "conductor, protection and overload of a motor, of a feeder for several, or of an air conditioner",
        "least ampacity in A; also table_amps, table_volts, conductor (A), size (with terminals), device_percent, "
        "device_most, device (A), overload and overload_percent (with the nameplate), largest, feeder_most and "
        "feeder_device (A, with other motors), of an air conditioner most_if_no_start and "
        "device_if_no_start (A)",
        {{"hp", FactKind::number, "horsepower, fractions as 1/2 or 1-1/2", Unit::horsepower, 0.1, 1000},
         {"volts", FactKind::number, "voltage of the motor or of the system", Unit::volt, 100, 600},
         {"phases", FactKind::choice, "1 or 3", Unit::count, 0, 0, false, "1|3"},
         {"device", FactKind::choice, "protection of the branch circuit (left out: breaker, inverse-time)", Unit::count,
          0, 0, false, "breaker|fuse|dual-element-fuse|instantaneous"},
         {"nameplate_amps", FactKind::number, "current on the nameplate, for the overload", Unit::amp, 0.1, 2000},
         {"service_factor", FactKind::number, "as marked, for the overload", Unit::count, 1, 2},
         {"temperature_rise", FactKind::number, "as marked, for the overload", Unit::celsius, 10, 200},
         {"others", FactKind::numbers, "table currents of the other motors on a feeder (left out: none)", Unit::amp,
          0.1, 2000},
         {"others_hp", FactKind::numbers, "horsepower of the other motors, same voltage and phases (left out: none)",
          Unit::horsepower, 0.1, 1000},
         {"rated_load", FactKind::number, "rated-load current of a compressor: then it is an air conditioner",
          Unit::amp, 0.1, 1000},
         {"fan", FactKind::number, "current of its fan; 0 for none", Unit::amp, 0, 200},
         {"terminals", FactKind::choice, "temperature rating of the terminals in C, for the conductor's size",
          Unit::count, 0, 0, false, "60|75"},
         {"material", FactKind::choice, "conductor material (left out: copper)", Unit::count, 0, 0, false, "cu|al"}},
        run};
}

}  // namespace trade
