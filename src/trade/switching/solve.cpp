#include "trade/switching/solve.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

namespace trade::switching {
namespace {

constexpr double kOff = 6.0;
constexpr double kDim = 102.0;
constexpr double kBright = 132.0;
constexpr double kLive = 1.0;  // above what rounding leaves, below any voltage that the model gives to live copper
constexpr double kGfciAmps = 0.006;
constexpr double kTiny = 1e-9;
constexpr std::array<Node, 5> kAnchors = {kGround, kNeutral, kOtherNeutral, kHotA, kHotB};

/// Sets of nodes that are one piece of copper.
class Pieces {
public:
    explicit Pieces(std::size_t nodes) : parent_(nodes) { std::iota(parent_.begin(), parent_.end(), Node{0}); }
    Node find(Node node) {
        while (parent_[node] != node) node = parent_[node] = parent_[parent_[node]];
        return node;
    }
    // The lower number leads, so that the fixed nodes lead their pieces.
    void join(Node a, Node b) {
        a = find(a);
        b = find(b);
        if (a != b) parent_[std::max(a, b)] = std::min(a, b);
    }
    bool joined(Node a, Node b) { return find(a) == find(b); }

private:
    std::vector<Node> parent_;
};

void join_contacts(const Switch& one, std::size_t position, Pieces& pieces) {
    const auto& at = one.screws;
    switch (one.kind) {
        case SwitchKind::single_pole:
            if (position == 1) pieces.join(at[0], at[1]);
            break;
        case SwitchKind::three_way:
            pieces.join(at[0], at[1 + position]);
            break;
        case SwitchKind::four_way:
            pieces.join(at[0], at[2 + position]);
            pieces.join(at[1], at[3 - position]);
            break;
    }
}

/// What copper alone decides.
struct Shorts {
    bool breaker = false;
    bool to_ground = false;    ///< a hot on ground or on a neutral behind the sensor's back
    bool neutral_tie = false;  ///< neutral joined to ground or to another neutral on the load side
};

Shorts shorts_in(const Circuit& circuit, Pieces& pieces) {
    Shorts found;
    const auto hot = [&](Node leg) {
        const bool away = pieces.joined(leg, kGround) || pieces.joined(leg, kOtherNeutral);
        found.to_ground = found.to_ground || away;
        found.breaker = found.breaker || away || pieces.joined(leg, kNeutral);
    };
    hot(kHotA);
    if (circuit.volts_b) {
        hot(kHotB);
        if (pieces.joined(kHotA, kHotB) && *circuit.volts_b != circuit.volts_a) found.breaker = true;
    }
    found.neutral_tie = pieces.joined(kNeutral, kGround) || pieces.joined(kNeutral, kOtherNeutral);
    return found;
}

/// Node voltages of the pieces that hang between loads.
class Voltages {
public:
    Voltages(const Circuit& circuit, Pieces& pieces) : volts_(circuit.points.size(), 0.0) {
        index_.assign(volts_.size(), kNone);
        fixed_.assign(volts_.size(), false);
        for (const Node anchor : kAnchors) fixed_[pieces.find(anchor)] = true;
        if (circuit.volts_b) volts_[pieces.find(kHotB)] = *circuit.volts_b;
        volts_[pieces.find(kHotA)] = circuit.volts_a;
        // Loads reach out from the fixed nodes; what they do not reach floats at 0 V.
        for (std::size_t round = 0; round < circuit.loads.size(); ++round)
            for (const auto& load : circuit.loads) reach(pieces.find(load.hot), pieces.find(load.shell));
        if (unknowns_.empty()) return;
        fill(circuit, pieces);
        eliminate();
    }
    [[nodiscard]] double at(Node piece) const { return volts_[piece]; }

private:
    [[nodiscard]] bool reached(Node piece) const { return fixed_[piece] || index_[piece] != kNone; }
    void reach(Node a, Node b) {
        if (reached(b)) std::swap(a, b);
        if (!reached(a) || reached(b)) return;
        index_[b] = unknowns_.size();
        unknowns_.push_back(b);
    }
    double& cell(std::size_t row, std::size_t column) { return system_[row * (unknowns_.size() + 1) + column]; }
    void add(Node from, Node to, double siemens) {
        const std::size_t row = index_[from];
        if (row == kNone) return;
        cell(row, row) += siemens;
        if (index_[to] == kNone)
            cell(row, unknowns_.size()) += siemens * volts_[to];
        else
            cell(row, index_[to]) -= siemens;
    }
    void fill(const Circuit& circuit, Pieces& pieces) {
        system_.assign(unknowns_.size() * (unknowns_.size() + 1), 0.0);
        for (const auto& load : circuit.loads) {
            const Node hot = pieces.find(load.hot);
            const Node shell = pieces.find(load.shell);
            if (hot == shell || !reached(hot)) continue;
            add(hot, shell, 1.0 / load.ohms);
            add(shell, hot, 1.0 / load.ohms);
        }
    }
    // Every reached piece has a path to a fixed one, so the matrix is positive definite: no pivoting needed.
    void eliminate() {
        const std::size_t n = unknowns_.size();
        for (std::size_t step = 0; step < n; ++step)
            for (std::size_t row = step + 1; row < n; ++row) {
                const double factor = cell(row, step) / cell(step, step);
                for (std::size_t column = step; column <= n; ++column) cell(row, column) -= factor * cell(step, column);
            }
        for (std::size_t row = n; row-- > 0;) {
            double sum = cell(row, n);
            for (std::size_t column = row + 1; column < n; ++column)
                sum -= cell(row, column) * volts_[unknowns_[column]];
            volts_[unknowns_[row]] = sum / cell(row, row);
        }
    }

    std::vector<double> volts_;
    std::vector<std::size_t> index_;
    std::vector<bool> fixed_;
    std::vector<Node> unknowns_;
    std::vector<double> system_;
};

LoadState state_at(double volts) {
    const double across = std::abs(volts);
    if (across < kOff) return LoadState::off;
    if (across < kDim) return LoadState::dim;
    return across <= kBright + kTiny ? LoadState::on : LoadState::bright;
}

/// Where the current of a load leaves or enters one of the fixed nodes.
void add_current(Amps& amps, Pieces& pieces, Node piece, double out) {
    if (piece == pieces.find(kHotA))
        amps.hot_a += out;
    else if (piece == pieces.find(kHotB))
        amps.hot_b += out;
    else if (piece == pieces.find(kNeutral))
        amps.neutral -= out;
    else if (piece == pieces.find(kGround))
        amps.ground -= out;
    else if (piece == pieces.find(kOtherNeutral))
        amps.other_neutral -= out;
}

Row dead_row(const Circuit& circuit) {
    Row row;
    row.loads.assign(circuit.loads.size(), LoadState::off);
    row.volts.assign(circuit.points.size(), 0.0);
    row.live.assign(circuit.points.size(), Live::dead);
    return row;
}

void tell_nodes(const Circuit& circuit, Pieces& pieces, const Voltages& voltages, Row& row) {
    const Node hot_a = pieces.find(kHotA);
    const Node hot_b = circuit.volts_b ? pieces.find(kHotB) : hot_a;
    for (std::size_t i = 0; i < circuit.points.size(); ++i) {
        const Node piece = pieces.find(static_cast<Node>(i));
        row.volts[i] = voltages.at(piece);
        if (piece == hot_a || piece == hot_b)
            row.live[i] = Live::hot;
        else if (std::abs(row.volts[i]) >= kLive)
            row.live[i] = Live::through_load;
    }
}

void tell_loads(const Circuit& circuit, Pieces& pieces, const Voltages& voltages, Row& row) {
    for (std::size_t i = 0; i < circuit.loads.size(); ++i) {
        const auto& load = circuit.loads[i];
        const Node hot = pieces.find(load.hot);
        const Node shell = pieces.find(load.shell);
        const double across = voltages.at(hot) - voltages.at(shell);
        row.loads[i] = state_at(across);
        add_current(row.amps, pieces, hot, across / load.ohms);
        add_current(row.amps, pieces, shell, -across / load.ohms);
    }
}

Row solve_one(const Circuit& circuit, Pieces pieces, std::size_t combination) {
    for (std::size_t i = 0; i < circuit.switches.size(); ++i)
        join_contacts(circuit.switches[i], position_of(circuit, combination, i), pieces);
    const Shorts shorts = shorts_in(circuit, pieces);
    Row row = dead_row(circuit);
    if (shorts.neutral_tie || shorts.to_ground) row.gfci = Trip::trips;
    if (shorts.breaker) {
        row.breaker = row.afci = Trip::trips;
        return row;
    }
    const Voltages voltages{circuit, pieces};
    tell_nodes(circuit, pieces, voltages, row);
    tell_loads(circuit, pieces, voltages, row);
    const double missing = row.amps.hot_a + row.amps.hot_b - row.amps.neutral;
    if (std::abs(missing) >= kGfciAmps - kTiny) row.gfci = Trip::trips;
    row.neutral_overloaded = std::abs(row.amps.neutral) > circuit.breaker_amps + kTiny;
    return row;
}

/// With `made` the loose joints count as closed, else as open.
Pieces copper_of(const Circuit& circuit, bool made) {
    Pieces pieces{circuit.points.size()};
    for (const auto& link : circuit.links)
        if (!link.open && (made || !link.loose)) pieces.join(link.a, link.b);
    return pieces;
}

void merge_broken(Row& row, const Row& broken) {
    for (std::size_t i = 0; i < row.loads.size(); ++i)
        if (row.loads[i] != broken.loads[i]) {
            row.loads[i] = LoadState::flickers;
            if (row.afci == Trip::holds) row.afci = Trip::may_trip;
        }
    for (std::size_t i = 0; i < row.live.size(); ++i) row.live[i] = std::max(row.live[i], broken.live[i]);
    row.gfci = std::max(row.gfci, broken.gfci);
}

}  // namespace

std::string_view to_text(LoadState state) {
    switch (state) {
        case LoadState::off:
            return "off";
        case LoadState::dim:
            return "dim";
        case LoadState::on:
            return "on";
        case LoadState::bright:
            return "too bright";
        case LoadState::flickers:
            return "flickers";
    }
    return "";
}

std::string_view to_text(Live live) {
    switch (live) {
        case Live::dead:
            return "dead";
        case Live::through_load:
            return "live through a load";
        case Live::hot:
            return "hot";
    }
    return "";
}

std::string_view to_text(Trip trip) {
    switch (trip) {
        case Trip::holds:
            return "holds";
        case Trip::trips:
            return "trips";
        case Trip::may_trip:
            return "may trip";
    }
    return "";
}

Table solve(Circuit circuit) {
    Table table{std::move(circuit), {}};
    const Circuit& wired = table.circuit;
    const Pieces copper = copper_of(wired, true);
    const bool loose = std::any_of(wired.links.begin(), wired.links.end(), [](const Link& one) { return one.loose; });
    table.rows.reserve(wired.combinations());
    for (std::size_t i = 0; i < wired.combinations(); ++i) table.rows.push_back(solve_one(wired, copper, i));
    if (!loose) return table;
    const Pieces broken = copper_of(wired, false);
    for (std::size_t i = 0; i < table.rows.size(); ++i) merge_broken(table.rows[i], solve_one(wired, broken, i));
    return table;
}

base::Checked<double> reading(const Table& table, std::size_t combination, std::string_view from, std::string_view to) {
    if (combination >= table.rows.size())
        return base::refuse("combination " + std::to_string(combination) + " is not in the table",
                            "it has " + std::to_string(table.rows.size()) + ", counted from 0");
    const auto& volts = table.rows[combination].volts;
    const auto a = table.circuit.find_node(from);
    const auto b = table.circuit.find_node(to);
    if (!a || !b)
        return base::refuse("no point is called '" + std::string{a ? to : from} + "'",
                            "name a point of the circuit, such as 'ground'");
    return std::abs(volts[*a] - volts[*b]);
}

}  // namespace trade::switching
