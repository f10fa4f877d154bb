#include "trade/work/overcurrent.hpp"

#include <cmath>

namespace trade {
namespace {

using base::Unit;

constexpr double kSlack = 1e-9;
/// No conductor with a small-conductor limit has more than this: 10 AWG copper at 90 C, cold around it.
constexpr double kSmallEnds = 50.0;
constexpr std::size_t kUsualValues = 16;
constexpr std::size_t kUsualArticles = 8;
/// From 2023 circuits up to this have no receptacles.
constexpr double kTenCircuit = 10.0;

std::string_view yes_no(bool yes) {
    return yes ? "yes" : "no";
}

bool has_load(const OvercurrentFacts& facts) {
    return facts.load && facts.continuous;
}

bool has_conductor(const OvercurrentFacts& facts) {
    return facts.ampacity || facts.size;
}

/// The cord-and-plug question stands alone.
bool only_receptacle(const OvercurrentFacts& facts) {
    return facts.receptacle && !has_conductor(facts) && !facts.load && !facts.continuous;
}

/// An ampacity that was told may be that of a small conductor, and then the size decides.
void lack_size(const OvercurrentFacts& facts, Finding& finding) {
    if (!facts.ampacity || facts.protection.use != Use::general) return;
    if (!facts.size && *facts.ampacity <= kSmallEnds) finding.lacks("size");
    if (facts.size ? *facts.size <= Size::awg10 : *facts.ampacity <= kSmallEnds)
        if (!facts.conditions.material) finding.lacks("material");
}

void lack_what_is_missing(const OvercurrentFacts& facts, Finding& finding) {
    if (only_receptacle(facts)) {
        if (!facts.rating) finding.lacks("rating");
        return;
    }
    const bool some_load = facts.load || facts.continuous;
    if (some_load && !facts.load) finding.lacks("load");
    if (some_load && !facts.continuous) finding.lacks("continuous");
    if (facts.receptacle && !facts.rating) finding.lacks("rating");
    if (!has_conductor(facts) && (facts.rating || !some_load)) finding.lacks("ampacity");
    lack_size(facts, finding);
    const bool needs_mark = !has_load(facts) || facts.rating;
    if (facts.protection.use != Use::general && !facts.protection.marked && needs_mark) finding.lacks("marked");
}

/// The ampacity told, or the one that size and conditions lead to.
std::optional<double> ampacity_for(const OvercurrentFacts& facts, const Setting& setting, Finding& finding,
                                   Working& working) {
    if (facts.ampacity) return facts.ampacity;
    const auto factors = factors_for(facts.conditions, "insulation", *setting.tables, finding);
    if (!factors) return std::nullopt;
    const auto found = rate(facts.conditions, *factors, *facts.size, *setting.tables, finding);
    if (!found) return std::nullopt;
    cite_ampacity(facts.conditions, setting.edition, finding);
    doubt(facts.conditions, facts.size, finding);
    explain(facts.conditions, *factors, *facts.size, *found, working);
    add_values(*factors, *found, finding);
    return found->usable;
}

void explain(const Protection& protection, double ampacity, Working& working) {
    working.step("conductor: ", ampacity, " A");
    if (protection.small) working.step("small conductor in general use: ", *protection.small, " A at most");
    if (const auto most = protection.most()) working.step("largest device: ", *most, " A");
}

/// The least device for the load, as `least`; refused beyond the list.
void add_least(const OvercurrentFacts& facts, const Setting& setting, Finding& finding, Working& working) {
    const double needs = required_amps(*facts.load, *facts.continuous, facts.listed_100);
    const auto least = least_device(needs, setting);
    finding.also.push_back({"required", value_of(needs, Unit::amp)});
    finding.also.push_back({"load_total", value_of(*facts.load + *facts.continuous, Unit::amp)});
    working.step(*facts.continuous, " A x ", facts.listed_100 ? 1.0 : 1.25, " + ", *facts.load, " A = ", needs, " A");
    if (!least) {
        finding.refuse("beyond our table of standard ratings: " + base::number_text(needs) + " A");
        return;
    }
    explain_ten(needs, setting, working);
    finding.also.push_back({"least", value_of(*least, Unit::amp)});
    working.step("least standard rating: ", *least, " A");
}

/// Whether a circuit with several receptacles may have this one. The table ends at 50 A: over that, one that is no
/// smaller than the circuit.
bool one_of_several(double receptacle, double circuit, const Tables& tables) {
    for (const auto& row : tables.receptacle_ratings)
        if (circuit <= row.circuit + kSlack) return receptacle + kSlack >= row.least && receptacle <= row.most + kSlack;
    return receptacle + kSlack >= circuit;
}

void add_cord_load(const OvercurrentFacts& facts, const Setting& setting, Finding& finding, Working& working) {
    if (!facts.receptacle || !facts.rating) return;
    finding.articles.emplace_back("210.21(B)");
    for (const auto& row : setting.tables->receptacle_loads) {
        if (std::abs(row.circuit - *facts.rating) > kSlack || std::abs(row.receptacle - *facts.receptacle) > kSlack)
            continue;
        finding.also.push_back({"cord_load", value_of(row.most, Unit::amp)});
        working.step(*facts.receptacle, " A receptacle on ", *facts.rating, " A: cord-and-plug load up to ", row.most,
                     " A");
        return;
    }
}

/// Whether the receptacle that was told may be on such a circuit, alone or among several; yes where none was told.
/// Nothing, and asked for, where that turns on how many there are.
std::optional<bool> receptacle_allowed(const OvercurrentFacts& facts, const Setting& setting, Finding& finding) {
    if (!facts.receptacle) return true;
    const double receptacle = *facts.receptacle;
    const double circuit = *facts.rating;
    const bool ten = setting.edition >= Edition::e2023 && circuit <= kTenCircuit + kSlack;
    const bool alone = !ten && receptacle + kSlack >= circuit;
    const bool several = !ten && one_of_several(receptacle, circuit, *setting.tables);
    const auto& said = facts.protection.receptacles;
    if (!said && alone != several) {
        finding.lacks("receptacles");
        return std::nullopt;
    }
    const bool allowed = said.value_or(true) ? several : alone;
    if (!allowed)
        finding.findings.push_back("a " + base::number_text(receptacle) + " A receptacle is not allowed on a " +
                                   base::number_text(circuit) + " A circuit, " +
                                   (ten     ? "which has none"
                                    : !said ? "neither alone nor among several"
                                    : *said ? "among several"
                                            : "alone on it: its rating is below that of the circuit"));
    if (said.value_or(false) && circuit > kMostReceptacleCircuit + kSlack)
        finding.findings.emplace_back("circuits over 50 A with several outlets are for industry only");
    return allowed;
}

/// The cord-and-plug question: the load, where the table has one and the receptacle may be there.
void answer_cord_load(const OvercurrentFacts& facts, const Setting& setting, Finding& finding) {
    // A load of its own is set where there are several receptacles.
    OvercurrentFacts asked = facts;
    asked.protection.receptacles = facts.protection.receptacles.value_or(true);
    const bool allowed = receptacle_allowed(asked, setting, finding).value_or(false);
    const auto* load = finding.find("cord_load");
    if (!allowed)
        finding.refuse("no cord-and-plug load is given for it");
    else if (load == nullptr)
        finding.refuse("beyond our table of cord-and-plug loads, which has circuits of 15, 20 and 30 A: a " +
                       base::number_text(*facts.receptacle) + " A receptacle on " + base::number_text(*facts.rating) +
                       " A");
    else
        finding.answer = *load;
}

/// Whether the conductor carries the load, if one was told.
bool carries_load(Finding& finding) {
    const auto* total = finding.find("load_total");
    if (total == nullptr || finding.find("ampacity")->number * (1.0 + kSlack) >= total->number) return true;
    finding.findings.emplace_back("the conductor is too small for the load");
    return false;
}

/// Yes or no for the device that was told.
void judge(const OvercurrentFacts& facts, const Protection& protection, const Setting& setting, Finding& finding,
           Working& working) {
    const auto allowed = protection.allows(*facts.rating);
    if (!allowed) finding.lacks("receptacles");
    const auto receptacle = receptacle_allowed(facts, setting, finding);
    if (finding.blocked()) return;
    const auto* needs = finding.find("required");
    const bool large_enough = needs == nullptr || *facts.rating * (1.0 + kSlack) >= needs->number;
    const bool good = carries_load(finding) && *allowed && large_enough && *receptacle;
    doubt_size(*facts.rating, protection, finding);
    doubt_rating(*facts.rating, *setting.tables, finding);
    if (!large_enough) finding.findings.emplace_back("the device is too small for the load");
    finding.answer = value_of(yes_no(good));
    finding.also.push_back({"allowed", *finding.answer});
    working.step(*facts.rating, " A: ", good ? "allowed" : "not allowed");
}

/// The least device for the load, or in words that none fits: a number would be taken for one that may go in.
void propose_least(const Protection& protection, double least, Finding& finding) {
    const auto allowed = protection.allows(least);
    if (!allowed && protection.judged) {
        finding.lacks("receptacles");
        return;
    }
    const bool carries = carries_load(finding);
    if (!carries)
        finding.answer = value_of("no device fits: the conductor is too small for the load");
    else if (!allowed.value_or(true))
        finding.answer = value_of("no device fits: the least for the load is too large for the conductor");
    else
        finding.answer = value_of(least, Unit::amp);
    if (allowed) finding.also.push_back({"allowed", value_of(yes_no(*allowed && carries))});
    doubt_size(least, protection, finding);
}

/// The largest device for the conductor.
void propose_most(const Protection& protection, const Setting& setting, Finding& finding) {
    if (protection.depends()) {
        finding.lacks("receptacles");
    } else if (const auto most = protection.most()) {
        finding.answer = value_of(*most, Unit::amp);
        doubt_rating(*most, *setting.tables, finding);
    } else {
        finding.answer = value_of("no device fits: no standard one is small enough for this conductor");
    }
}

void weigh(const OvercurrentFacts& facts, const Setting& setting, Finding& finding, Working& working) {
    const auto ampacity = ampacity_for(facts, setting, finding, working);
    if (!ampacity) return;
    finding.also.push_back({"ampacity", value_of(*ampacity, Unit::amp)});
    const auto protection = protection_for(*ampacity, facts.conditions.material, facts.size, facts.protection, setting);
    cite(protection, finding);
    add_values(protection, finding);
    if (const auto most = protection.most()) finding.also.push_back({"most", value_of(*most, Unit::amp)});
    explain(protection, *ampacity, working);
    if (facts.rating)
        judge(facts, protection, setting, finding, working);
    else if (const auto* least = finding.find("least"))
        propose_least(protection, least->number, finding);
    else
        propose_most(protection, setting, finding);
}

Finding run(const Facts& facts, const Setting& setting) {
    OvercurrentFacts asked;
    asked.ampacity = facts.number("ampacity");
    asked.size = facts.size("size");
    asked.conditions = conditions_in(facts, "insulation", setting.edition);
    asked.load = facts.number("load");
    asked.continuous = facts.number("continuous");
    asked.listed_100 = facts.flag("listed_100").value_or(false);
    asked.rating = facts.number("rating");
    asked.receptacle = facts.number("receptacle");
    asked.protection = protection_in(facts);
    return overcurrent(asked, setting);
}

std::vector<FactSpec> fact_specs() {
    std::vector<FactSpec> specs = {
        {"ampacity", FactKind::number, "of the conductor where it runs (left out: worked out from size and conditions)",
         Unit::amp, 0.1, 10000},
        {"size", FactKind::size, "conductor size"},
        {"rating", FactKind::number, "device to judge (left out: one is found)", Unit::amp, 1, 6000},
        {"receptacle", FactKind::number, "rating of a receptacle on that device", Unit::amp, 15, 60}};
    for (const auto& spec : condition_facts("insulation")) specs.push_back(spec);
    for (const auto& spec : protection_facts()) specs.push_back(spec);
    return specs;
}

}  // namespace

Finding overcurrent(const OvercurrentFacts& facts, const Setting& setting) {
    Finding finding;
    finding.also.reserve(kUsualValues);
    finding.articles.reserve(kUsualArticles);
    finding.articles.emplace_back(facts.protection.use == Use::general ? "240.4" : "240.4(G)");
    finding.articles.emplace_back("240.6(A)");
    lack_what_is_missing(facts, finding);
    if (!finding.unknown.empty()) return finding;
    Working working{finding.steps, setting.explain};
    add_cord_load(facts, setting, finding, working);
    if (only_receptacle(facts)) {
        answer_cord_load(facts, setting, finding);
        return finding;
    }
    if (has_load(facts)) add_least(facts, setting, finding, working);
    if (finding.blocked()) return finding;
    if (has_conductor(facts))
        weigh(facts, setting, finding, working);
    else
        finding.answer = *finding.find("least");
    return finding;
}

Calculator overcurrent_calculator() {
    return {"overcurrent", "the overcurrent device for a conductor and a load, or whether one is allowed",
            "yes or no with a rating; else A: the least with a load, the largest without, or in words that no device "
            "fits; also ampacity, most, "
            "standard_below, standard_up, small_limit, required and load_total and least (with load), allowed, "
            "cord_load (with receptacle), and with a size table, ambient_used, ambient_factor, adjustment, factor, "
            "adjusted, terminal_limit",
            fact_specs(), run};
}

}  // namespace trade
