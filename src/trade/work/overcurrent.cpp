#include "trade/work/overcurrent.hpp"

#include <cmath>

namespace trade {
namespace {

using base::Unit;

constexpr double kSlack = 1e-9;
/// No conductor with a small-conductor limit has more than this: 10 AWG copper at 90 C, cold around it.
constexpr double kSmallEnds = 50.0;

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
    const auto found = ampacity_of(facts.conditions, *factors, *facts.size, *setting.tables);
    if (!found) {
        finding.lacks("ampacity of a " + to_text(*facts.size) + " " + std::string{to_text(*facts.conditions.material)} +
                      " conductor");
        return std::nullopt;
    }
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

/// The least device for the load; nothing, and said, beyond the list.
std::optional<double> least_for(const OvercurrentFacts& facts, const Setting& setting, Finding& finding,
                                Working& working) {
    const double needs = required_amps(*facts.load, *facts.continuous, facts.listed_100);
    const auto least = least_device(needs, setting);
    finding.also.push_back({"required", value_of(needs, Unit::amp)});
    finding.also.push_back({"load_total", value_of(*facts.load + *facts.continuous, Unit::amp)});
    working.step(*facts.continuous, " A x ", facts.listed_100 ? 1.0 : 1.25, " + ", *facts.load, " A = ", needs, " A");
    if (!least) {
        finding.lacks("a standard rating for " + base::number_text(needs) + " A");
        return least;
    }
    finding.also.push_back({"least", value_of(*least, Unit::amp)});
    working.step("least standard rating: ", *least, " A");
    return least;
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
    const std::string what =
        base::number_text(*facts.receptacle) + " A receptacle on a " + base::number_text(*facts.rating) + " A circuit";
    if (only_receptacle(facts))
        finding.lacks("cord-and-plug load of a " + what);
    else
        finding.findings.push_back("no cord-and-plug load is listed for a " + what);
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
    if (!allowed) {
        finding.lacks("receptacles");
        return;
    }
    const auto* needs = finding.find("required");
    const bool large_enough = needs == nullptr || *facts.rating * (1.0 + kSlack) >= needs->number;
    const bool good = carries_load(finding) && *allowed && large_enough;
    doubt_size(*facts.rating, protection, finding);
    doubt_rating(*facts.rating, *setting.tables, finding);
    if (!large_enough) finding.findings.emplace_back("the device is too small for the load");
    finding.answer = value_of(yes_no(good));
    finding.also.push_back({"allowed", *finding.answer});
    working.step(*facts.rating, " A: ", good ? "allowed" : "not allowed");
}

/// The least device for the load; what is wrong with it for the conductor is said beside it.
void propose_least(const Protection& protection, double least, Finding& finding) {
    const auto allowed = protection.allows(least);
    if (!allowed && protection.judged) {
        finding.lacks("receptacles");
        return;
    }
    finding.answer = value_of(least, Unit::amp);
    const bool carries = carries_load(finding);
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
        finding.lacks("a standard device small enough for this conductor");
    }
}

void weigh(const OvercurrentFacts& facts, std::optional<double> least, const Setting& setting, Finding& finding,
           Working& working) {
    const auto ampacity = ampacity_for(facts, setting, finding, working);
    if (!ampacity) return;
    finding.also.push_back({"ampacity", value_of(*ampacity, Unit::amp)});
    const auto protection = protection_for(*ampacity, facts.conditions.material, facts.size, facts.protection, setting);
    add_values(protection, finding);
    if (const auto most = protection.most()) finding.also.push_back({"most", value_of(*most, Unit::amp)});
    explain(protection, *ampacity, working);
    if (facts.rating)
        judge(facts, protection, setting, finding, working);
    else if (least)
        propose_least(protection, *least, finding);
    else
        propose_most(protection, setting, finding);
}

Finding run(const Facts& facts, const Setting& setting) {
    OvercurrentFacts asked;
    asked.ampacity = facts.number("ampacity");
    asked.size = facts.size("size");
    asked.conditions = conditions_in(facts, "insulation");
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
    finding.articles = {facts.protection.use == Use::general ? "240.4" : "240.4(G)", "240.6(A)"};
    lack_what_is_missing(facts, finding);
    if (!finding.unknown.empty()) return finding;
    Working working{finding.steps, setting.explain};
    add_cord_load(facts, setting, finding, working);
    if (only_receptacle(facts)) {
        if (const auto* load = finding.find("cord_load")) finding.answer = *load;
        return finding;
    }
    const auto least = has_load(facts) ? least_for(facts, setting, finding, working) : std::nullopt;
    if (!finding.unknown.empty()) return finding;
    if (has_conductor(facts))
        weigh(facts, least, setting, finding, working);
    else
        finding.answer = value_of(*least, Unit::amp);
    return finding;
}

Calculator overcurrent_calculator() {
    return {"overcurrent", "the overcurrent device for a conductor and a load, or whether one is allowed",
            "yes or no with a rating; else A: the least with a load, the largest without; also ampacity, most, "
            "standard_below, standard_up, small_limit, required and load_total and least (with load), allowed, "
            "cord_load (with receptacle), and with a size table, ambient_used, ambient_factor, adjustment, factor, "
            "adjusted, terminal_limit",
            fact_specs(), run};
}

}  // namespace trade
