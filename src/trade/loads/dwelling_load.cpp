#include "trade/loads/dwelling_load.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "trade/loads/range_load.hpp"

namespace trade {
namespace {

using base::Unit;
using Method = DwellingFacts::Method;

constexpr double kSlack = 1e-9;
constexpr double kMotorShare = 0.25;
constexpr double kPerThousand = 1000.0;

double sum(const std::vector<double>& values) {
    return std::accumulate(values.begin(), values.end(), 0.0);
}

/// One calculation under way.
struct Work {
    const DwellingFacts* facts;
    const Setting* setting;
    Finding* finding;
    Working working;

    /// A rule of the edition; one that the table does not have is noted, and the answer is dropped in the end.
    [[nodiscard]] double rule(std::string_view name) const {
        const auto value = setting->tables->load_rule(name, setting->edition);
        if (!value)
            finding->refuse("beyond our table of dwelling loads: it has no " + std::string{name} + " for this edition");
        return value.value_or(0.0);
    }
    void also(std::string_view name, double va) const { finding->also.push_back({name, value_of(va, Unit::voltamp)}); }
};

/// Lighting circuits that the floor area asks for. What the 2026 edition has for branch circuits is not known.
void add_circuits(const Work& w, double by_area) {
    if (w.setting->edition >= Edition::e2026) return;
    const double amps = by_area / w.rule("lighting-circuit-volts");
    for (const auto& [name, rating] : {std::pair{"circuits_15", 15.0}, std::pair{"circuits_20", 20.0}})
        w.finding->also.push_back({name, value_of(std::ceil(amps / rating - kSlack), Unit::count)});
}

/// Lighting and receptacles by area, with the small-appliance and laundry circuits.
double general_lighting(Work& w) {
    const double unit = w.rule("unit-load");
    const double by_area = unit * *w.facts->area;
    const double small = w.rule("small-appliance-circuit") * w.facts->small_appliance_circuits;
    const double laundry = w.rule("laundry-circuit") * w.facts->laundry_circuits;
    w.working.step(*w.facts->area, " ft2 x ", unit, " VA = ", by_area, " VA");
    w.working.step(w.facts->small_appliance_circuits, " small-appliance and ", w.facts->laundry_circuits,
                   " laundry circuits: ", small + laundry, " VA");
    w.also("by_area", by_area);
    w.also("lighting", by_area + small + laundry);
    add_circuits(w, by_area);
    return by_area + small + laundry;
}

double after_demand(Work& w, double va) {
    const double one_to = w.rule("demand-step-1-to");
    const double two_to = w.rule("demand-step-2-to");
    const double one = w.rule("demand-step-1");
    const double two = w.rule("demand-step-2");
    const double three = w.rule("demand-step-3");
    const double first = std::min(va, one_to);
    const double second = std::clamp(va - one_to, 0.0, std::max(0.0, two_to - one_to));
    const double third = std::max(0.0, va - two_to);
    const double left = (first * one + second * two + third * three) / 100.0;
    if (third > 0.0)
        w.working.step("first ", first, " VA at ", one, " %, next ", second, " at ", two, " %, the other ", third,
                       " at ", three, " %: ", left, " VA");
    else
        w.working.step("first ", first, " VA at ", one, " %, the other ", second, " at ", two, " %: ", left, " VA");
    w.also("after_demand", left);
    return left;
}

/// From 2020 an appliance has to be of a least size to count among the four that bring the percent.
struct Appliances {
    double large = 0.0, small = 0.0, count = 0.0;

    void add(const std::vector<double>& va, double least) {
        for (const double one : va) {
            if (one + kSlack < least) {
                small += one;
                continue;
            }
            large += one;
            count += 1.0;
        }
    }
    [[nodiscard]] double demand(double from, double percent) const {
        return count >= from ? large * percent / 100.0 + small : large + small;
    }
};

struct Fastened {
    double all = 0.0, on_neutral = 0.0;
};

Fastened fastened(Work& w) {
    const double from = w.rule("fastened-appliances-from");
    const double percent = w.rule("fastened-appliances");
    const double least = w.setting->tables->load_rule("fastened-appliance-least-w", w.setting->edition).value_or(0.0);
    Appliances all, neutral;
    all.add(w.facts->fastened, least);
    all.add(w.facts->fastened_240, least);
    neutral.add(w.facts->fastened, least);
    const Fastened counted{all.demand(from, percent), neutral.demand(from, percent)};
    if (all.small > 0.0) w.working.step("appliances under ", least, " VA stay out of the percent: ", all.small, " VA");
    if (all.count > 0.0)
        w.working.step(all.count, " appliances fastened in place: ", all.large, " VA at ",
                       all.count >= from ? percent : 100.0, " %; in all ", counted.all, " VA");
    w.also("appliances", counted.all);
    return counted;
}

double ranges(Work& w) {
    const auto kw = range_demand(w.facts->range_kw, *w.setting->tables);
    if (!kw) w.finding->refuse(why_no_range_demand(w.facts->range_kw, false, *w.setting->tables));
    const double va = kw.value_or(0.0) * kPerThousand;
    if (va > 0.0) w.working.step("cooking by the demand table: ", va, " VA");
    w.also("range", va);
    return va;
}

double dryers(Work& w) {
    const auto va = dryer_demand(w.facts->dryer_kw, *w.setting->tables);
    if (!va) w.finding->refuse("beyond our table of dryers: " + std::to_string(w.facts->dryer_kw.size()) + " of them");
    if (va.value_or(0.0) > 0.0) w.working.step("dryers, at least 5000 VA each: ", *va, " VA");
    w.also("dryer", va.value_or(0.0));
    return va.value_or(0.0);
}

/// Where a calculation ends in less than half an ampere, the fraction may be dropped.
/// Source  220.5(B) (120.5 in 2026 as far as known), from memory.
double without_small_fraction(double amps) {
    constexpr double kHalf = 0.5;
    const double whole = std::floor(amps);
    return amps - whole < kHalf - kSlack ? whole : amps;
}

void finish(Work& w, double va) {
    if (w.finding->blocked()) return;
    w.finding->answer = value_of(va, Unit::voltamp);
    w.working.step("together ", va, " VA");
    if (!w.facts->volts) return;
    const double amps = va / *w.facts->volts;
    w.finding->also.push_back({"amps", value_of(amps, Unit::amp)});
    w.working.step(va, " VA / ", *w.facts->volts, " V = ", amps, " A");
    const double least = w.rule("service-least");
    const double counted = without_small_fraction(amps);
    if (counted < amps) w.working.step("less than half an ampere may be dropped: ", counted, " A");
    const auto service = w.setting->tables->next_standard_rating(std::max(counted, least), w.setting->edition);
    if (!service) {
        w.finding->findings.emplace_back("no standard rating is large enough");
        return;
    }
    w.finding->also.push_back({"service", value_of(*service, Unit::amp)});
    w.working.step("least standard rating, and at least ", least, " A: ", *service, " A");
}

/// Range and dryer use the neutral with a part; 240 V appliances, heating and cooling do not at all.
void add_neutral(Work& w, double demand, double appliances, double cooking_and_drying) {
    double motor = 0.0;
    if (w.facts->largest_motor_va > 0.0) {
        if (!w.facts->motor_on_neutral) {
            w.finding->findings.emplace_back("for the neutral say motor_on_neutral");
            return;
        }
        if (*w.facts->motor_on_neutral) motor = w.facts->largest_motor_va * kMotorShare;
    }
    const double percent = w.rule("neutral-of-range-and-dryer");
    const double neutral = demand + appliances + motor + percent / 100.0 * cooking_and_drying;
    w.working.step("neutral: ", demand, " + ", appliances + motor, " + ", percent, " % of ", cooking_and_drying, " = ",
                   neutral, " VA");
    w.also("neutral", neutral);
    if (w.facts->volts) w.finding->also.push_back({"neutral_amps", value_of(neutral / *w.facts->volts, Unit::amp)});
}

void standard(Work& w) {
    const double demand = after_demand(w, general_lighting(w));
    const Fastened appliances = fastened(w);
    const double range = ranges(w);
    const double dryer = dryers(w);
    const double heating = *w.facts->heating_va + w.facts->heat_pump_va;
    const double climate = std::max(heating, *w.facts->cooling_va);
    const double motor = w.facts->largest_motor_va * kMotorShare;
    if (climate > 0.0)
        w.working.step("heating ", heating, " VA or cooling ", *w.facts->cooling_va, " VA, the larger: ", climate,
                       " VA");
    if (motor > 0.0) w.working.step("a quarter more for the largest motor: ", motor, " VA");
    w.also("climate", climate);
    w.also("motor", motor);
    finish(w, demand + appliances.all + range + dryer + climate + motor);
    add_neutral(w, demand, appliances.on_neutral, range + dryer);
}

/// Heating and cooling of the optional method: each with its own percent, the larger counts.
double optional_climate(Work& w) {
    const bool pump = w.facts->heat_pump_va > 0.0;
    const bool many = w.facts->heaters && *w.facts->heaters >= w.rule("optional-separate-heaters-from");
    const double percent = pump   ? w.rule("optional-heat-pump-supplement")
                           : many ? w.rule("optional-separate-heaters")
                                  : w.rule("optional-central-heat");
    const double compressor = pump ? w.facts->heat_pump_va * w.rule("optional-heat-pump-compressor") / 100.0 : 0.0;
    const double heating = compressor + *w.facts->heating_va * percent / 100.0;
    const double cooling = *w.facts->cooling_va * w.rule("optional-cooling") / 100.0;
    if (pump) w.working.step("compressor of the heat pump: ", compressor, " VA");
    if (*w.facts->heating_va > 0.0)
        w.working.step("electric heat ", *w.facts->heating_va, " VA at ", percent, " %: heating in all ", heating,
                       " VA");
    if (heating > 0.0 || cooling > 0.0)
        w.working.step("heating ", heating, " VA or cooling ", cooling, " VA: the larger counts");
    w.also("climate", std::max(heating, cooling));
    return std::max(heating, cooling);
}

void optional_method(Work& w) {
    const double appliances = sum(w.facts->fastened) + sum(w.facts->fastened_240);
    const double nameplates = appliances + kPerThousand * (sum(w.facts->range_kw) + sum(w.facts->dryer_kw));
    const double general = general_lighting(w) + nameplates;
    const double first = std::min(general, w.rule("optional-first-step-to"));
    const double one = w.rule("optional-first-step");
    const double rest = w.rule("optional-remainder");
    const double left = (first * one + (general - first) * rest) / 100.0;
    w.also("appliances", appliances);
    w.also("general", general);
    w.also("after_demand", left);
    w.working.step("nameplates of all appliances: ", nameplates, " VA; general load ", general, " VA");
    w.working.step("first ", first, " VA at ", one, " %, the other ", general - first, " at ", rest, " %: ", left,
                   " VA");
    finish(w, left + optional_climate(w));
}

void note_oddities(Work& w) {
    auto& findings = w.finding->findings;
    if (w.facts->small_appliance_circuits < w.rule("small-appliance-circuits-least"))
        findings.emplace_back("a dwelling has at least two small-appliance circuits");
    if (w.facts->laundry_circuits < w.rule("laundry-circuits-least"))
        findings.emplace_back("a dwelling has a laundry circuit, except in special cases");
    if (w.setting->edition < Edition::e2026) return;
    findings.emplace_back("load values of the 2026 edition come from summaries: verify them against the book");
    if (w.facts->largest_motor_va > 0.0)
        findings.emplace_back("the quarter for the largest motor is kept for 2026, though that edition may not ask it");
}

std::vector<double> numbers_or_none(const Facts& facts, std::string_view name) {
    const auto* numbers = facts.numbers(name);
    return numbers == nullptr ? std::vector<double>{} : *numbers;
}

Finding run(const Facts& facts, const Setting& setting) {
    DwellingFacts asked;
    if (facts.has("method")) asked.method = facts.choice("method") == "optional" ? Method::optional : Method::standard;
    asked.area = facts.number("area");
    asked.small_appliance_circuits = facts.number("small_appliance_circuits").value_or(2.0);
    asked.laundry_circuits = facts.number("laundry_circuits").value_or(1.0);
    asked.fastened = numbers_or_none(facts, "fastened");
    asked.fastened_240 = numbers_or_none(facts, "fastened_240");
    asked.range_kw = numbers_or_none(facts, "range_kw");
    asked.dryer_kw = numbers_or_none(facts, "dryer_kw");
    asked.heating_va = facts.number("heating_va");
    asked.cooling_va = facts.number("cooling_va");
    asked.heaters = facts.number("heaters");
    asked.heat_pump_va = facts.number("heat_pump_va").value_or(0.0);
    asked.largest_motor_va = facts.number("largest_motor_va").value_or(0.0);
    asked.motor_on_neutral = facts.flag("motor_on_neutral");
    asked.volts = facts.number("volts");
    return dwelling_load(asked, setting);
}

/// Where the load by floor area stands. Lighting and receptacles of dwellings moved twice.
std::string_view area_article(Edition edition) {
    if (edition >= Edition::e2023) return "220.41";
    return edition >= Edition::e2020 ? "220.14(J)" : "220.12";
}

/// The sections of the parts that take part, that of the demand first. What they are in 2026 has not been confirmed.
void cite_standard(const DwellingFacts& facts, Edition edition, Finding& finding) {
    auto& articles = finding.articles;
    articles.emplace_back(edition >= Edition::e2023 ? "220.45" : "220.42");
    articles.emplace_back(area_article(edition));
    articles.emplace_back("220.52");
    if (!facts.fastened.empty() || !facts.fastened_240.empty()) articles.emplace_back("220.53");
    if (!facts.dryer_kw.empty()) articles.emplace_back("220.54");
    if (!facts.range_kw.empty()) articles.emplace_back("220.55");
    if (*facts.heating_va + facts.heat_pump_va > 0.0 && *facts.cooling_va > 0.0) articles.emplace_back("220.60");
    if (facts.largest_motor_va > 0.0) articles.emplace_back("430.24");
    articles.emplace_back("220.61");
}

void cite(const DwellingFacts& facts, Edition edition, Finding& finding) {
    if (edition >= Edition::e2026) {
        finding.articles.emplace_back("Article 120");
        return;
    }
    if (*facts.method == Method::optional)
        finding.articles.emplace_back("220.82");
    else
        cite_standard(facts, edition, finding);
    if (facts.volts) finding.articles.emplace_back("230.79(C)");
}

}  // namespace

Finding dwelling_load(const DwellingFacts& facts, const Setting& setting) {
    Finding finding;
    const bool heat_pump = facts.heat_pump_va > 0.0;
    if (!facts.method) finding.lacks("method");
    if (!facts.area) finding.lacks("area");
    if (!facts.heating_va) finding.lacks("heating_va");
    if (!facts.cooling_va) finding.lacks("cooling_va");
    if (facts.method == Method::optional && facts.heating_va.value_or(0.0) > 0.0 && !heat_pump && !facts.heaters)
        finding.lacks("heaters");
    if (!finding.unknown.empty()) return finding;
    cite(facts, setting.edition, finding);
    Work w{&facts, &setting, &finding, Working{finding.steps, setting.explain}};
    note_oddities(w);
    if (*facts.method == Method::standard)
        standard(w);
    else
        optional_method(w);
    if (finding.blocked()) finding.answer.reset();
    return finding;
}

Calculator dwelling_load_calculator() {
    return {
        "dwelling-load",
        "load of a new dwelling by the standard or the optional calculation",
        "VA; also by_area, lighting, after_demand, appliances, climate, range, dryer, motor and neutral (standard), "
        "general (optional), with volts amps, service (A) and neutral_amps, up to 2023 circuits_15 and circuits_20",
        {{"method", FactKind::choice, "which calculation", Unit::count, 0, 0, false, "standard|optional"},
         {"area", FactKind::number, "floor area by outside measures, without open porches, garages and unused spaces",
          Unit::ft2, 1, 100000},
         {"small_appliance_circuits", FactKind::number, "20 A small-appliance circuits (left out: 2)", Unit::count, 0,
          20, true},
         {"laundry_circuits", FactKind::number, "laundry circuits (left out: 1)", Unit::count, 0, 5, true},
         {"fastened", FactKind::numbers,
          "nameplates of appliances fastened in place that use the neutral: dishwasher, disposal (left out: none)",
          Unit::voltamp, 1, 100000},
         {"fastened_240", FactKind::numbers,
          "nameplates of those fastened in place that do not: water heater, pump (left out: none)", Unit::voltamp, 1,
          100000},
         {"range_kw", FactKind::numbers, "nameplates of ranges, ovens and cooktops (left out: none)", Unit::kilowatt,
          0.1, 100},
         {"dryer_kw", FactKind::numbers, "nameplates of clothes dryers (left out: none)", Unit::kilowatt, 0.1, 100},
         {"heating_va", FactKind::number, "240 V electric heating, or the supplement of a heat pump; 0 for none",
          Unit::voltamp, 0, 1000000},
         {"heaters", FactKind::number, "optional: separately controlled heating units, 1 for central heat", Unit::count,
          1, 100, true},
         {"heat_pump_va", FactKind::number, "compressor of a heat pump (left out: none)", Unit::voltamp, 0, 1000000},
         {"cooling_va", FactKind::number, "240 V cooling; 0 for none", Unit::voltamp, 0, 1000000},
         {"largest_motor_va", FactKind::number,
          "standard: the largest motor among what counts, for the quarter more (left out: none)", Unit::voltamp, 0,
          100000},
         {"motor_on_neutral", FactKind::flag, "does the largest motor run between a hot wire and the neutral?"},
         {"volts", FactKind::number, "voltage between the hot wires, for the currents", Unit::volt, 100, 600}},
        run};
}

}  // namespace trade
