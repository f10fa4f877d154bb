#include "trade/work/switching.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "trade/switching/diagram.hpp"
#include "trade/switching/solved.hpp"
#include "trade/switching/symptom.hpp"

namespace trade {
namespace {

using switching::Arrangement;
using switching::Row;
using SwitchTable = switching::Table;

std::string loads_text(const SwitchTable& table, std::size_t combination) {
    std::vector<std::string> states;
    const Row& row = table.rows[combination];
    for (std::size_t i = 0; i < row.loads.size(); ++i)
        states.push_back((row.loads.size() > 1 ? table.circuit.loads[i].name + " " : std::string{}) +
                         std::string{to_text(row.loads[i])});
    return base::join(states, ", ");
}

/// The worst outcome over all combinations, or that of one.
std::string_view outcome_text(const SwitchTable& table, std::optional<std::size_t> combination,
                              switching::Trip Row::*device) {
    auto worst = switching::Trip::holds;
    for (std::size_t i = 0; i < table.rows.size(); ++i)
        if (!combination || *combination == i) worst = std::max(worst, table.rows[i].*device);
    return to_text(worst);
}

void add_steps(const SwitchTable& table, const SwitchedCircuit& facts, const Arrangement& arrangement,
               const switching::Fault& fault, Finding& finding) {
    if (facts.draw)
        for (auto& line : base::split(switching::diagram(arrangement, fault), '\n'))
            finding.steps.push_back(std::move(line));
    for (std::size_t i = 0; i < table.rows.size(); ++i)
        finding.steps.push_back(switching::combination_text(table.circuit, i) + ": " + loads_text(table, i));
}

void add_reading(const SwitchTable& table, const SwitchedCircuit& facts, std::optional<std::size_t> combination,
                 Finding& finding) {
    if (facts.from.empty()) return;
    if (!combination) {
        finding.lacks("positions");
        return;
    }
    const auto volts = switching::reading(table, *combination, facts.from, facts.to.empty() ? "ground" : facts.to);
    if (volts)
        finding.also.push_back({"reading", value_of(*volts, base::Unit::volt)});
    else
        finding.findings.push_back(volts.error().front().what + "; " + volts.error().front().mend);
}

Finding run(const Facts& facts, const Setting& setting) {
    SwitchedCircuit asked;
    asked.arrangement = facts.choice("arrangement");
    asked.fault = facts.choice("fault");
    asked.positions = facts.choice("positions");
    asked.from = facts.choice("from");
    asked.to = facts.choice("to");
    asked.draw = facts.flag("draw").value_or(false);
    return switched_circuit(asked, setting);
}

}  // namespace

base::Checked<std::size_t> find_combination(const switching::Circuit& circuit, std::string_view text) {
    std::vector<std::optional<std::size_t>> positions(circuit.switches.size());
    for (const auto& part : base::split(text, ',')) {
        const std::string word = base::lower(base::trim(part));
        bool known = false;
        for (std::size_t i = 0; i < circuit.switches.size(); ++i)
            for (const std::size_t position : {0U, 1U})
                if (word == base::lower(circuit.switches[i].name) + " " +
                                std::string{position_text(circuit.switches[i], position)}) {
                    positions[i] = position;
                    known = true;
                }
        if (!known)
            return base::refuse("'" + std::string{base::trim(part)} + "' is no position of a switch here",
                                "write it like " + switching::combination_text(circuit, 0));
    }
    std::size_t combination = 0;
    for (const auto& position : positions) {
        if (!position)
            return base::refuse("the position of a switch is left out",
                                "write it like " + switching::combination_text(circuit, 0));
        combination = combination * 2 + *position;
    }
    return combination;
}

Finding switched_circuit(const SwitchedCircuit& facts, const Setting& setting) {
    Finding finding;
    // Switching itself has no section of its own; the switch's place in the hot conductor does.
    finding.articles = {"404.2"};
    const auto* arrangement = switching::find_arrangement(facts.arrangement);
    if (arrangement == nullptr) {
        finding.lacks("arrangement");
        return finding;
    }
    const auto* solved = switching::find_solved(*arrangement, facts.fault);
    if (solved == nullptr) {
        const auto fault = switching::find_fault(*arrangement, facts.fault).error().front();
        finding.lacks("fault");
        finding.findings.push_back(fault.what + "; " + fault.mend);
        return finding;
    }
    const SwitchTable& table = solved->table;
    std::optional<std::size_t> combination;
    if (!facts.positions.empty()) {
        const auto found = find_combination(table.circuit, facts.positions);
        if (!found) {
            finding.lacks("positions");
            finding.findings.push_back(found.error().front().what + "; " + found.error().front().mend);
            return finding;
        }
        combination = *found;
    }
    std::vector<std::string> states;
    for (std::size_t i = 0; i < table.rows.size(); ++i)
        if (!combination || *combination == i) states.push_back(loads_text(table, i));
    add_reading(table, facts, combination, finding);
    if (!finding.unknown.empty()) return finding;
    finding.answer = value_of(base::join(states, "; "));
    finding.also.push_back({"breaker", value_of(outcome_text(table, combination, &Row::breaker))});
    finding.also.push_back({"gfci", value_of(outcome_text(table, combination, &Row::gfci))});
    finding.also.push_back({"afci", value_of(outcome_text(table, combination, &Row::afci))});
    if (setting.explain) {
        finding.also.push_back({"symptom", value_of(base::join(switching::symptom(table), " "))});
        finding.also.push_back({"fault", value_of(solved->fault.title)});
        finding.also.push_back({"find", value_of(solved->fault.find.empty() ? "nothing to find" : solved->fault.find)});
        add_steps(table, facts, *arrangement, solved->fault, finding);
    }
    return finding;
}

Calculator switching_calculator() {
    return {
        "switching",
        "what a circuit of switches and lights does, sound or with a fault, and what a tester reads",
        "the states of the loads; also symptom, breaker, gfci, afci, reading (with positions and from), fault, find",
        {{"arrangement", FactKind::choice, "how it is wired", base::Unit::count, 0, 0, false,
          switching::kArrangementIds},
         {"fault", FactKind::word, "what is wrong, such as traveler-open.traveler-1 (left out: nothing)"},
         {"positions", FactKind::word, "where the handles are: 'S1 up, S2 down' (left out: every combination)"},
         {"from", FactKind::word, "the point that one lead of the tester is on"},
         {"to", FactKind::word, "the point that the other lead is on (left out: ground)"},
         {"draw", FactKind::flag, "draw the wiring"}},
        run};
}

}  // namespace trade
