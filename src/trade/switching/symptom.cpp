#include "trade/switching/symptom.hpp"

#include <algorithm>
#include <map>

#include "base/text.hpp"

namespace trade::switching {
namespace {

using Combinations = std::vector<std::size_t>;

std::string name_with_article(const std::string& name) {
    const bool own_name = name.front() >= 'A' && name.front() <= 'Z';
    const bool numbered = name.back() >= '0' && name.back() <= '9';
    return own_name || numbered ? name : "the " + name;
}

std::string positions_text(const Circuit& circuit, std::size_t combination, const std::vector<std::size_t>& which,
                           const std::string& between) {
    std::vector<std::string> parts;
    for (const std::size_t i : which) {
        const auto& one = circuit.switches[i];
        parts.push_back(name_with_article(one.name) + " " +
                        std::string{position_text(one, position_of(circuit, combination, i))});
    }
    return base::join(parts, between);
}

std::vector<std::size_t> every_switch(const Circuit& circuit) {
    std::vector<std::size_t> all;
    for (std::size_t i = 0; i < circuit.switches.size(); ++i) all.push_back(i);
    return all;
}

/// Switches that have one position in all of the combinations.
std::vector<std::size_t> steady(const Circuit& circuit, const Combinations& combinations) {
    std::vector<std::size_t> found;
    for (const std::size_t i : every_switch(circuit))
        if (std::all_of(combinations.begin(), combinations.end(), [&](std::size_t one) {
                return position_of(circuit, one, i) == position_of(circuit, combinations.front(), i);
            }))
            found.push_back(i);
    return found;
}

/// "S1 up and S2 down" when that says exactly which combinations these are; else empty.
std::string common_text(const Circuit& circuit, const Combinations& combinations) {
    if (combinations.empty()) return "";
    const auto same = steady(circuit, combinations);
    if (circuit.combinations() >> same.size() != combinations.size()) return "";
    return positions_text(circuit, combinations.front(), same, " and ");
}

Combinations all_but(const Circuit& circuit, const Combinations& combinations) {
    Combinations left;
    for (std::size_t one = 0; one < circuit.combinations(); ++one)
        if (std::find(combinations.begin(), combinations.end(), one) == combinations.end()) left.push_back(one);
    return left;
}

/// "S1 up", "S1 up and S2 down, or S1 down and S2 up": the shortest words for a set that is neither empty nor all.
std::string where_text(const Circuit& circuit, const Combinations& combinations) {
    if (auto text = common_text(circuit, combinations); !text.empty()) return text;
    if (const auto text = common_text(circuit, all_but(circuit, combinations)); !text.empty()) return "all but " + text;
    std::vector<std::string> each;
    for (const std::size_t one : combinations)
        each.push_back(positions_text(circuit, one, every_switch(circuit), " and "));
    return base::join(each, ", or ");
}

/// True when flipping any one handle anywhere changes the state between on and off.
bool answers_every_handle(const Circuit& circuit, const std::vector<LoadState>& states) {
    for (std::size_t row = 0; row < states.size(); ++row) {
        if (states[row] != LoadState::on && states[row] != LoadState::off) return false;
        for (std::size_t i = 0; i < circuit.switches.size(); ++i)
            if (states[row] == states[row ^ (std::size_t{1} << i)]) return false;
    }
    return true;
}

std::string state_words(LoadState state, LoadKind kind) {
    const bool plain = state == LoadState::on || state == LoadState::off || state == LoadState::flickers;
    if (kind == LoadKind::lamp || plain)
        return (state == LoadState::flickers ? "" : "is ") + std::string{to_text(state)};
    return state == LoadState::dim ? "gets too little voltage" : "gets too much voltage";
}

std::string load_sentence(const Table& table, std::size_t which) {
    const auto& circuit = table.circuit;
    const auto& load = circuit.loads[which];
    std::vector<LoadState> states;
    std::map<LoadState, Combinations> sets;
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        states.push_back(table.rows[row].loads[which]);
        sets[states.back()].push_back(row);
    }
    const std::string name = name_with_article(load.name);
    if (sets.size() == 1)
        return "Whatever the switches do, " + name + " " + state_words(states.front(), load.kind) + ".";
    if (circuit.switches.size() > 1 && answers_every_handle(circuit, states))
        return "Each handle changes " + name + " every time; with all of them up it is " +
               std::string{to_text(states.front())} + ".";
    // The largest set is told last, as what is left; among equals the one that is off.
    auto rest = sets.begin();
    for (auto one = sets.begin(); one != sets.end(); ++one)
        if (one->second.size() > rest->second.size()) rest = one;
    std::vector<std::string> parts;
    for (const auto& [state, combinations] : sets)
        if (state != rest->first)
            parts.push_back("with " + where_text(circuit, combinations) + " " + (parts.empty() ? name : "it") + " " +
                            state_words(state, load.kind));
    std::string others = common_text(circuit, rest->second);
    others = others.empty() ? "in the other combinations" : "with " + others;
    std::string text = base::join(parts, "; ") + "; " + others + " it " + state_words(rest->first, load.kind) + ".";
    text.front() = 'W';
    return text;
}

std::string device_sentence(const Table& table, const std::string& name, Trip outcome, Trip Row::*device) {
    Combinations found;
    for (std::size_t row = 0; row < table.rows.size(); ++row)
        if (table.rows[row].*device == outcome) found.push_back(row);
    if (found.empty()) return "";
    const std::string words = name + " " + std::string{to_text(outcome)} + " ";
    if (found.size() == table.rows.size()) return words + "whatever the switches do.";
    return words + "with " + where_text(table.circuit, found) + ".";
}

bool apart_from_breaker(const Table& table, Trip Row::*device) {
    return std::any_of(table.rows.begin(), table.rows.end(),
                       [&](const Row& row) { return row.*device != row.breaker; });
}

}  // namespace

std::string combination_text(const Circuit& circuit, std::size_t combination) {
    std::vector<std::string> parts;
    for (std::size_t i = 0; i < circuit.switches.size(); ++i)
        parts.push_back(circuit.switches[i].name + " " +
                        std::string{position_text(circuit.switches[i], position_of(circuit, combination, i))});
    return base::join(parts, ", ");
}

std::vector<std::string> symptom(const Table& table, Observe observe) {
    std::vector<std::string> told;
    for (std::size_t i = 0; i < table.circuit.loads.size(); ++i) told.push_back(load_sentence(table, i));
    if (observe == Observe::loads) return told;
    told.push_back(device_sentence(table, "The breaker", Trip::trips, &Row::breaker));
    if (apart_from_breaker(table, &Row::gfci))
        told.push_back(device_sentence(table, "A GFCI at the source", Trip::trips, &Row::gfci));
    if (apart_from_breaker(table, &Row::afci))
        told.push_back(device_sentence(table, "An AFCI", Trip::may_trip, &Row::afci));
    std::erase(told, "");
    return told;
}

}  // namespace trade::switching
