#include "trade/switching/outcome.hpp"

#include <algorithm>
#include <cmath>

namespace trade::switching {
namespace {

constexpr double kSameVolts = 1.0;

/// Position that has the handle up: that of a single-pole switch is "on".
std::size_t handle_up(const Switch& one) {
    return one.kind == SwitchKind::single_pole ? 1 : 0;
}

/// The combination of `circuit` that has its handles as `handles` has them, one bit each, set for up.
std::size_t combination_with(const Circuit& circuit, std::size_t handles) {
    std::size_t combination = 0;
    for (std::size_t i = 0; i < circuit.switches.size(); ++i) {
        const std::size_t up = handle_up(circuit.switches[i]);
        combination = combination * 2 + (((handles >> i) & 1U) != 0 ? up : 1 - up);
    }
    return combination;
}

bool same_readings(const Table& one, const Row& a, const Table& other, const Row& b,
                   const std::vector<std::string>& points) {
    return std::all_of(points.begin(), points.end(), [&](const std::string& point) {
        const auto at = one.circuit.find_node(point);
        const auto there = other.circuit.find_node(point);
        const double first = at ? std::abs(a.volts[*at]) : 0.0;
        const double second = there ? std::abs(b.volts[*there]) : 0.0;
        return std::abs(first - second) < kSameVolts;
    });
}

bool same_row(const Row& a, const Row& b, Observe observe) {
    if (a.loads != b.loads) return false;
    if (observe == Observe::loads) return true;
    return a.breaker == b.breaker && a.gfci == b.gfci && a.afci == b.afci;
}

/// The rows of two tables that have their handles alike.
template <class Same>
bool every_row(const Table& one, const Table& other, Same same) {
    if (one.rows.size() != other.rows.size()) return false;
    for (std::size_t handles = 0; handles < one.rows.size(); ++handles)
        if (!same(one.rows[combination_with(one.circuit, handles)],
                  other.rows[combination_with(other.circuit, handles)]))
            return false;
    return true;
}

bool same_voltages(const Table& one, const Table& other, const std::vector<std::string>& points) {
    return every_row(one, other, [&](const Row& a, const Row& b) { return same_readings(one, a, other, b, points); });
}

}  // namespace

bool same_outcome(const Table& one, const Table& other, Observe observe, const std::vector<std::string>& points) {
    if (!every_row(one, other, [&](const Row& a, const Row& b) { return same_row(a, b, observe); })) return false;
    return observe != Observe::readings || same_voltages(one, other, points);
}

std::string outcome_key(const Table& table, Observe observe) {
    std::string key;
    for (std::size_t handles = 0; handles < table.rows.size(); ++handles) {
        const Row& row = table.rows[combination_with(table.circuit, handles)];
        for (const auto load : row.loads) key += std::string{to_text(load)} + ",";
        if (observe == Observe::loads) continue;
        for (const auto trip : {row.breaker, row.gfci, row.afci}) key += std::string{to_text(trip)} + ",";
    }
    return key;
}

std::vector<Fault> distinguishable(const Arrangement& arrangement, const Fault& fault, const std::vector<Fault>& others,
                                   Observe observe, const std::vector<std::string>& points) {
    std::vector<Table> taken = {solve(arrangement, fault)};
    std::vector<Fault> kept;
    for (const auto& other : others) {
        Table table = solve(arrangement, other);
        if (std::any_of(taken.begin(), taken.end(),
                        [&](const Table& one) { return same_outcome(one, table, observe, points); }))
            continue;
        taken.push_back(std::move(table));
        kept.push_back(other);
    }
    return kept;
}

std::optional<std::string> telling_point(const Table& one, const Table& other) {
    for (const auto& point : one.circuit.points) {
        if (point.kind == Point::Kind::splice || point.kind == Point::Kind::contact) continue;
        if (!same_voltages(one, other, {point.name})) return point.name;
    }
    return std::nullopt;
}

}  // namespace trade::switching
