#include "trade/work/conductor.hpp"

#include <algorithm>
#include <cstdint>

namespace trade {
namespace {

using base::Unit;

constexpr double kSlack = 1e-9;
constexpr double kServiceShare = 0.83;
constexpr double kLeastService = 100.0;
constexpr double kMostService = 400.0;
constexpr std::size_t kUsualValues = 20;

bool enough(double has, double needs) {
    return has * (1.0 + kSlack) >= needs;
}

std::string_view yes_no(bool yes) {
    return yes ? "yes" : "no";
}

/// The reduced service rule reaches from 100 to 400 A.
bool reduced(const ConductorFacts& facts) {
    return facts.dwelling_service && facts.service && *facts.service >= kLeastService && *facts.service <= kMostService;
}

bool has_load(const ConductorFacts& facts) {
    return facts.load && facts.continuous;
}

double load_total(const ConductorFacts& facts) {
    return *facts.load + *facts.continuous;
}

double required(const ConductorFacts& facts) {
    return required_amps(*facts.load, *facts.continuous, facts.listed_100);
}

void lack_what_is_missing(const ConductorFacts& facts, Finding& finding) {
    if (!facts.size && facts.dwelling_service) {
        if (!facts.service) finding.lacks("service");
        return;
    }
    const bool needed = !facts.size || facts.load || facts.continuous;
    if (needed && !facts.load) finding.lacks("load");
    if (needed && !facts.continuous) finding.lacks("continuous");
    if (!facts.size && has_load(facts) && load_total(facts) <= 0.0)
        finding.refuse("a load of 0 A asks for no conductor: tell one that is more");
}

void cite(const ConductorFacts& facts, Edition edition, Finding& finding) {
    cite_ampacity(facts.conditions, edition, finding);
    if (facts.dwelling_service) finding.articles.emplace_back(edition < Edition::e2020 ? "310.15(B)(7)" : "310.12");
    if (facts.continuous.value_or(0.0) > 0.0) {
        finding.articles.emplace_back("210.19(A)");
        finding.articles.emplace_back("215.2(A)");
    }
    if (!facts.dwelling_service)
        finding.articles.emplace_back(facts.protection.use == Use::general ? "240.4" : "240.4(G)");
}

/// What the service conductors must carry: 83 % of the rating where that is allowed, all of it elsewhere.
double service_required(const ConductorFacts& facts) {
    return *facts.service * (reduced(facts) ? kServiceShare : 1.0);
}

void doubt_service(const ConductorFacts& facts, Finding& finding) {
    if (!facts.dwelling_service || !facts.service) return;
    if (!reduced(facts)) finding.findings.emplace_back("the 83 % rule is for services of 100 to 400 A");
    if (has_load(facts) && !enough(*facts.service, load_total(facts)))
        finding.findings.emplace_back("the load is more than the rating of the service");
}

void explain_required(const ConductorFacts& facts, Finding& finding, Working& working) {
    if (!has_load(facts) || facts.dwelling_service) return;
    finding.also.push_back({"required", value_of(required(facts), Unit::amp)});
    finding.also.push_back({"load_total", value_of(load_total(facts), Unit::amp)});
    working.step("device and terminations: ", *facts.continuous, " A x ", facts.listed_100 ? 1.0 : 1.25, " + ",
                 *facts.load, " A = ", required(facts), " A; the load itself ", load_total(facts), " A");
}

/// Whether a rated conductor serves for the load or the service that was told.
void judge_load(const ConductorFacts& facts, const Ampacity& ampacity, Finding& finding, Working& working) {
    if (facts.dwelling_service) {
        if (!facts.service) return;
        const bool fits = enough(ampacity.usable, service_required(facts));
        finding.also.push_back({"service_required", value_of(service_required(facts), Unit::amp)});
        finding.also.push_back({"fits", value_of(yes_no(fits))});
        working.step("service of ", *facts.service, " A needs ", service_required(facts),
                     " A: ", fits ? "enough" : "too small");
        if (!fits) finding.findings.emplace_back("the conductor is too small for the service");
        return;
    }
    if (!has_load(facts)) return;
    explain_required(facts, finding, working);
    const bool terminations = enough(ampacity.limit, required(facts));
    const bool carries = enough(ampacity.usable, load_total(facts));
    finding.also.push_back({"fits", value_of(yes_no(terminations && carries))});
    working.step("at the terminations ", ampacity.limit, " A: ", terminations ? "enough" : "too small",
                 "; under the conditions ", ampacity.usable, " A: ", carries ? "enough" : "too small");
    if (!terminations || !carries) finding.findings.emplace_back("the conductor is too small for the load");
}

/// The largest standard service rating that this ampacity is allowed to serve.
void add_service_most(const ConductorFacts& facts, double usable, const Setting& setting, Finding& finding) {
    if (!facts.dwelling_service) return;
    const double reach = std::min(usable / kServiceShare, kMostService);
    const auto most = setting.tables->standard_rating_below(reach, setting.edition);
    if (most && *most >= kLeastService) finding.also.push_back({"service_most", value_of(*most, Unit::amp)});
}

void judge_device(const ConductorFacts& facts, const Protection& protection, const Setting& setting, Finding& finding,
                  Working& working) {
    if (const auto most = protection.most()) {
        finding.also.push_back({"overcurrent", value_of(*most, Unit::amp)});
        working.step("largest overcurrent device: ", *most, " A");
    } else if (protection.depends()) {
        finding.findings.emplace_back("the largest device depends on whether several receptacles are fed: say so");
    } else if (protection.judged) {
        finding.findings.emplace_back("no standard device is small enough to protect this conductor");
    }
    if (!facts.device) return;
    if (const auto allowed = protection.allows(*facts.device))
        finding.also.push_back({"device_allowed", value_of(yes_no(*allowed))});
    doubt_size(*facts.device, protection, finding);
    doubt_rating(*facts.device, *setting.tables, finding);
}

void rate(const ConductorFacts& facts, const Factors& factors, const Setting& setting, Finding& finding) {
    const auto ampacity = trade::rate(facts.conditions, factors, *facts.size, *setting.tables, finding);
    if (!ampacity) return;
    Working working{finding.steps, setting.explain};
    finding.answer = value_of(ampacity->usable, Unit::amp);
    add_values(factors, *ampacity, finding);
    finding.also.push_back({"ampacity", *finding.answer});
    explain(facts.conditions, factors, *facts.size, *ampacity, working);
    judge_load(facts, *ampacity, finding, working);
    add_service_most(facts, ampacity->usable, setting, finding);
    doubt_service(facts, finding);
    if (facts.dwelling_service) return;
    const auto protection =
        protection_for(ampacity->usable, facts.conditions.material, facts.size, facts.protection, setting);
    cite(protection, finding);
    add_values(protection, finding);
    judge_device(facts, protection, setting, finding, working);
}

/// Why a size will not do; none: it will.
enum class Fails : std::uint8_t { none, terminations, conditions, device };

struct Choice {
    Size size = Size::awg14;
    Ampacity ampacity;
    Protection protection;
    std::optional<Size> refused;  ///< the size before it
    Fails why = Fails::none;      ///< that one was refused
};

/// What a size has to pass.
struct Demand {
    double terminations = 0.0, conditions = 0.0;  ///< A
    std::optional<double> device;                 ///< A; empty: not judged by the ampacity
};

/// The devices around a size, with what is said of receptacles.
Protection protection_of(const ConductorFacts& facts, const Ampacity& ampacity, Size size, bool receptacles,
                         const Setting& setting) {
    ProtectionFacts protected_by = facts.protection;
    protected_by.receptacles = receptacles;
    return protection_for(ampacity.usable, facts.conditions.material, size, protected_by, setting);
}

bool allows(const Demand& demand, const Protection& protection) {
    return !demand.device || protection.allows(*demand.device).value_or(false);
}

std::optional<Choice> choose(const ConductorFacts& facts, const Factors& factors, const Demand& demand,
                             bool receptacles, const Setting& setting) {
    Choice choice;
    const auto refuse = [&](Size size, Fails why) {
        choice.refused = size;
        choice.why = why;
    };
    const std::size_t first = index_of(facts.conditions.sets > 1.0 ? Size::awg1_0 : Size::awg14);
    const std::size_t end = facts.conditions.nm ? index_of(Size::awg2) + 1 : kSizes;
    for (std::size_t i = first; i < end; ++i) {
        choice.size = size_at(i);
        const auto ampacity = ampacity_of(facts.conditions, factors, choice.size, *setting.tables);
        if (!ampacity) continue;
        if (!enough(ampacity->limit, demand.terminations)) {
            refuse(choice.size, Fails::terminations);
        } else if (!enough(ampacity->usable, demand.conditions)) {
            refuse(choice.size, Fails::conditions);
        } else {
            choice.ampacity = *ampacity;
            choice.protection = protection_of(facts, *ampacity, choice.size, receptacles, setting);
            if (allows(demand, choice.protection)) return choice;
            refuse(choice.size, Fails::device);
        }
    }
    return std::nullopt;
}

std::string_view words_for(Fails why) {
    switch (why) {
        case Fails::terminations:
            return "too little at the terminations";
        case Fails::conditions:
            return "too little under the conditions of use";
        case Fails::device:
            return "not protected by the device";
        case Fails::none:
            break;
    }
    return "";
}

/// The device that a load leads to; nothing where the ampacity does not decide it.
std::optional<double> device_for(const ConductorFacts& facts, const Setting& setting, Finding& finding) {
    if (facts.protection.use != Use::general) return facts.device ? facts.device : facts.protection.marked;
    const auto device = facts.device ? facts.device : least_device(required(facts), setting);
    if (!device) finding.refuse("beyond our table of standard ratings: " + base::number_text(required(facts)) + " A");
    return device;
}

/// The demand of a load or of a service. Nothing when it could not be told, which the finding then says.
std::optional<Demand> demand_of(const ConductorFacts& facts, const Setting& setting, Finding& finding,
                                Working& working) {
    if (facts.dwelling_service) {
        const double needs = service_required(facts);
        finding.also.push_back({"service_required", value_of(needs, Unit::amp)});
        working.step("service of ", *facts.service, " A", reduced(facts) ? " x 83 %" : "", " = ", needs, " A");
        return Demand{needs, needs, std::nullopt};
    }
    explain_required(facts, finding, working);
    const auto device = device_for(facts, setting, finding);
    if (finding.blocked()) return std::nullopt;
    if (device) {
        finding.also.push_back({"overcurrent", value_of(*device, Unit::amp)});
        working.step("overcurrent device: ", *device, " A");
        if (!facts.device && facts.protection.use == Use::general) explain_ten(required(facts), setting, working);
        if (!enough(*device, required(facts))) finding.findings.emplace_back("the device is too small for the load");
        doubt_rating(*device, *setting.tables, finding);
    }
    return Demand{required(facts), load_total(facts), facts.protection.use == Use::general ? device : std::nullopt};
}

/// Why no size was found.
std::string beyond(const Conditions& conditions) {
    if (conditions.nm) return "no nonmetallic-sheathed cable carries this: it is made up to 2 AWG";
    if (conditions.sets <= 1.0) return "no single conductor of our table carries this: use parallel sets";
    return "no conductor of our table carries this in " + base::number_text(conditions.sets) +
           " parallel sets: use more of them";
}

/// The least size; asks for `receptacles` when it was not said and the answer turns on it: then the size that would do
/// without several receptacles does not do with them.
std::optional<Choice> least(const ConductorFacts& facts, const Factors& factors, const Demand& demand,
                            const Setting& setting, Finding& finding) {
    const auto& said = facts.protection.receptacles;
    auto choice = choose(facts, factors, demand, said.value_or(false), setting);
    if (!choice) {
        finding.refuse(beyond(facts.conditions));
        return choice;
    }
    const bool could_be = !said && demand.device && *demand.device <= kMostReceptacleCircuit;
    if (could_be && !allows(demand, protection_of(facts, choice->ampacity, choice->size, true, setting))) {
        finding.lacks("receptacles");
        return std::nullopt;
    }
    return choice;
}

void size_it(const ConductorFacts& facts, const Factors& factors, const Setting& setting, Finding& finding) {
    Working working{finding.steps, setting.explain};
    const auto demand = demand_of(facts, setting, finding, working);
    if (!demand) return;
    const auto choice = least(facts, factors, *demand, setting, finding);
    if (!choice) return;
    finding.answer = value_of(choice->size);
    if (choice->refused) working.step(*choice->refused, ": ", words_for(choice->why));
    explain(facts.conditions, factors, choice->size, choice->ampacity, working);
    add_values(factors, choice->ampacity, finding);
    finding.also.push_back({"ampacity", value_of(choice->ampacity.usable, Unit::amp)});
    add_service_most(facts, choice->ampacity.usable, setting, finding);
    if (!facts.dwelling_service) {
        cite(choice->protection, finding);
        add_values(choice->protection, finding);
    }
    doubt_service(facts, finding);
    working.step("least size: ", choice->size);
}

Finding run(const Facts& facts, const Setting& setting) {
    ConductorFacts asked;
    asked.conditions = conditions_in(facts, "rating", setting.edition);
    asked.size = facts.size("size");
    asked.load = facts.number("load");
    asked.continuous = facts.number("continuous");
    asked.listed_100 = facts.flag("listed_100").value_or(false);
    asked.device = facts.number("device");
    asked.dwelling_service = facts.flag("dwelling_service").value_or(false);
    asked.service = facts.number("service");
    asked.protection = protection_in(facts);
    return conductor(asked, setting);
}

std::vector<FactSpec> fact_specs() {
    std::vector<FactSpec> specs = condition_facts("rating");
    specs.push_back({"size", FactKind::size, "conductor size (left out: the least size is found)"});
    for (const auto& spec : protection_facts()) specs.push_back(spec);
    specs.push_back({"device", FactKind::number, "overcurrent device already chosen (left out: the least one)",
                     Unit::amp, 1, 6000});
    specs.push_back({"dwelling_service", FactKind::flag,
                     "service or main feeder with the whole load of one dwelling? (left out: no)"});
    specs.push_back({"service", FactKind::number, "rating of that service", Unit::amp, 15, 6000});
    return specs;
}

}  // namespace

Finding conductor(const ConductorFacts& facts, const Setting& setting) {
    Finding finding;
    finding.also.reserve(kUsualValues);
    cite(facts, setting.edition, finding);
    lack_what_is_missing(facts, finding);
    const auto factors = factors_for(facts.conditions, "rating", *setting.tables, finding);
    if (!factors || finding.blocked()) return finding;
    doubt(facts.conditions, facts.size, finding);
    if (facts.size)
        rate(facts, *factors, setting, finding);
    else
        size_it(facts, *factors, setting, finding);
    return finding;
}

Calculator conductor_calculator() {
    return {
        "conductor", "the ampacity of a conductor where it runs, or the least conductor for a load",
        "A with a size, a size without one; also table, ambient_used, ambient_factor, adjustment, factor, adjusted, "
        "terminal_limit, ampacity, overcurrent (largest device; without a size the device), standard_below, "
        "standard_up, small_limit, required and load_total (with load), fits, device_allowed (with device), "
        "service_required and service_most (dwelling_service)",
        fact_specs(), run};
}

}  // namespace trade
