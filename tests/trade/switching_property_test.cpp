// What must hold of every arrangement with every fault, and a second solver of another kind to hold the first against.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <vector>

#include "base/text.hpp"
#include "trade/switching/fault.hpp"

namespace {

using namespace trade::switching;

constexpr double kCopperOhms = 1e-3;
constexpr double kLeakOhms = 1e9;
constexpr double kShortAmps = 1000.0;

/// Calls `check(arrangement, fault, table)` for the sound circuit and for every fault of every arrangement.
template <class Check>
void everywhere(Check check) {
    for (const auto& arrangement : arrangements()) {
        auto faults = faults_for(arrangement);
        faults.insert(faults.begin(), nothing_wrong());
        for (const auto& fault : faults) {
            CAPTURE(arrangement.id);
            CAPTURE(fault.id);
            check(arrangement, fault, solve(arrangement, fault));
        }
    }
}

/// All copper as small resistances, all nodes unknown but the sources: nothing is merged, nothing is decided by sets.
class PlainNodal {
public:
    PlainNodal(const Circuit& circuit, std::size_t combination) : circuit_(circuit), size_(circuit.points.size()) {
        for (const auto& link : circuit.links)
            if (!link.open) resistors_.push_back({link.a, link.b, kCopperOhms});
        for (std::size_t i = 0; i < circuit.switches.size(); ++i)
            close(circuit.switches[i], position_of(circuit, combination, i));
        for (const auto& load : circuit.loads) resistors_.push_back({load.hot, load.shell, load.ohms});
        for (std::size_t i = 0; i < size_; ++i)
            if (!fixed(i)) resistors_.push_back({static_cast<Node>(i), kGround, kLeakOhms});
        solve();
    }
    [[nodiscard]] double volts(std::size_t node) const { return volts_[node]; }
    /// Current out of a fixed node.
    [[nodiscard]] double out_of(Node node) const {
        double sum = 0.0;
        for (const auto& one : resistors_) {
            if (one.a == node) sum += (volts_[one.a] - volts_[one.b]) / one.ohms;
            if (one.b == node) sum += (volts_[one.b] - volts_[one.a]) / one.ohms;
        }
        return sum;
    }

private:
    struct Resistor {
        Node a, b;
        double ohms;
    };
    void copper(Node a, Node b) { resistors_.push_back({a, b, kCopperOhms}); }
    void close(const Switch& one, std::size_t position) {
        const auto& at = one.screws;
        if (one.kind == SwitchKind::single_pole && position == 1) copper(at[0], at[1]);
        if (one.kind == SwitchKind::three_way) copper(at[0], position == 0 ? at[1] : at[2]);
        if (one.kind == SwitchKind::four_way) {
            copper(at[0], position == 0 ? at[2] : at[3]);
            copper(at[1], position == 0 ? at[3] : at[2]);
        }
    }
    [[nodiscard]] bool fixed(std::size_t node) const {
        return node == kGround || node == kNeutral || node == kOtherNeutral || node == kHotA ||
               (node == kHotB && circuit_.volts_b);
    }
    [[nodiscard]] double source(std::size_t node) const {
        if (node == kHotA) return circuit_.volts_a;
        return node == kHotB && circuit_.volts_b ? *circuit_.volts_b : 0.0;
    }
    void solve() {
        std::vector<std::vector<double>> rows(size_, std::vector<double>(size_ + 1, 0.0));
        const auto add = [&](Node at, Node other, double siemens) {
            if (fixed(at)) return;
            rows[at][at] += siemens;
            if (fixed(other))
                rows[at][size_] += siemens * source(other);
            else
                rows[at][other] -= siemens;
        };
        for (const auto& one : resistors_) {
            add(one.a, one.b, 1.0 / one.ohms);
            add(one.b, one.a, 1.0 / one.ohms);
        }
        for (std::size_t i = 0; i < size_; ++i)
            if (fixed(i)) {
                rows[i][i] = 1.0;
                rows[i][size_] = source(i);
            }
        eliminate(rows);
    }
    void eliminate(std::vector<std::vector<double>>& rows) {
        for (std::size_t step = 0; step < size_; ++step) {
            std::size_t best = step;
            for (std::size_t row = step; row < size_; ++row)
                if (std::abs(rows[row][step]) > std::abs(rows[best][step])) best = row;
            std::swap(rows[step], rows[best]);
            for (std::size_t row = 0; row < size_; ++row) {
                const double factor = rows[row][step] / rows[step][step];
                if (row == step || factor == 0.0) continue;
                for (std::size_t column = step; column <= size_; ++column)
                    rows[row][column] -= factor * rows[step][column];
            }
        }
        for (std::size_t i = 0; i < size_; ++i) volts_.push_back(rows[i][size_] / rows[i][i]);
    }

    const Circuit& circuit_;
    std::size_t size_;
    std::vector<Resistor> resistors_;
    std::vector<double> volts_;
};

bool multi_point(const Circuit& circuit) {
    return std::any_of(circuit.switches.begin(), circuit.switches.end(),
                       [](const Switch& one) { return one.kind == SwitchKind::three_way; });
}

std::size_t ones_in(std::size_t bits) {
    std::size_t count = 0;
    for (; bits != 0; bits >>= 1U) count += bits & 1U;
    return count;
}

}  // namespace

TEST_CASE("switching property: there are enough arrangements, ids are unique, every point has a name of its own") {
    CHECK(arrangements().size() >= 12);
    std::vector<std::string> all;
    for (const auto& one : arrangements()) all.push_back(one.id);
    CHECK(base::join(all, "|") == kArrangementIds);
    std::set<std::string> ids;
    for (const auto& one : arrangements()) {
        CAPTURE(one.id);
        CHECK(ids.insert(one.id).second);
        CHECK(find_arrangement(one.id) == &one);
        std::set<std::string> names;
        for (const auto& point : one.circuit.points) {
            CAPTURE(point.name);
            CHECK(names.insert(point.name).second);
        }
    }
    CHECK(find_arrangement("no-such") == nullptr);
}

TEST_CASE("switching property: every kind of fault is met somewhere and its ids are unique in an arrangement") {
    std::set<FaultKind> met;
    for (const auto& arrangement : arrangements()) {
        CAPTURE(arrangement.id);
        std::set<std::string> ids;
        for (const auto& fault : faults_for(arrangement)) {
            CAPTURE(fault.id);
            CHECK(ids.insert(fault.id).second);
            CHECK_FALSE(fault.edits.empty());
            CHECK_FALSE(fault.title.empty());
            CHECK_FALSE(fault.place.empty());
            CHECK_FALSE(fault.find.empty());
            CHECK(find_fault(arrangement, fault.id).value().title == fault.title);
            met.insert(fault.kind);
        }
        CHECK_FALSE(find_fault(arrangement, "no-such").has_value());
    }
    met.insert(FaultKind::none);
    for (const auto& kind : kinds_of_fault()) {
        CAPTURE(kind.id);
        CHECK(met.count(kind.kind) == 1);
        CHECK(about(kind.kind).id == kind.id);
    }
    CHECK(kinds_of_fault().size() >= 15);
}

TEST_CASE("switching property: three-way and four-way circuits are parity") {
    for (const auto& arrangement : arrangements()) {
        if (!multi_point(arrangement.circuit)) continue;
        CAPTURE(arrangement.id);
        const Table table = solve(arrangement);
        for (std::size_t row = 0; row < table.rows.size(); ++row)
            CHECK((table.rows[row].loads[0] == LoadState::on) == (ones_in(row) % 2 == 0));
    }
}

TEST_CASE("switching property: nothing sound trips, and every switch changes some load") {
    for (const auto& arrangement : arrangements()) {
        CAPTURE(arrangement.id);
        const Table table = solve(arrangement);
        for (const auto& row : table.rows) {
            CHECK(row.breaker == Trip::holds);
            CHECK(row.gfci == Trip::holds);
            CHECK(row.afci == Trip::holds);
            CHECK_FALSE(row.neutral_overloaded);
            CHECK(std::count(row.live.begin(), row.live.end(), Live::through_load) == 0);
        }
        for (std::size_t i = 0; i < arrangement.circuit.switches.size(); ++i)
            CHECK(table.rows[0].loads != table.rows[std::size_t{1} << i].loads);
    }
}

TEST_CASE("switching property: no shell and no box of a sound circuit is live") {
    for (const auto& arrangement : arrangements()) {
        CAPTURE(arrangement.id);
        const Table table = solve(arrangement);
        for (const auto& row : table.rows) {
            for (const auto& load : arrangement.circuit.loads) CHECK(row.live[load.shell] == Live::dead);
            for (const auto& box : arrangement.circuit.boxes) CHECK(row.live[box.metal] == Live::dead);
        }
    }
}

TEST_CASE("switching property: what the sources give comes back, in amperes and in watts") {
    everywhere([](const Arrangement&, const Fault&, const Table& table) {
        const auto& circuit = table.circuit;
        for (const auto& row : table.rows) {
            const auto& amps = row.amps;
            CHECK(amps.hot_a + amps.hot_b - amps.neutral - amps.ground - amps.other_neutral ==
                  doctest::Approx(0.0).epsilon(1e-9));
            double used = 0.0;
            for (const auto& load : circuit.loads)
                used += std::pow(row.volts[load.hot] - row.volts[load.shell], 2) / load.ohms;
            CHECK(circuit.volts_a * amps.hot_a + circuit.volts_b.value_or(0.0) * amps.hot_b ==
                  doctest::Approx(used).epsilon(1e-9));
            for (const double volts : row.volts) CHECK(std::isfinite(volts));
        }
    });
}

TEST_CASE("switching property: a solver without any merging finds the same voltages, trips and imbalances") {
    std::size_t compared = 0;
    everywhere([&](const Arrangement&, const Fault& fault, const Table& table) {
        for (std::size_t row = 0; row < table.rows.size(); ++row) {
            CAPTURE(row);
            const PlainNodal plain{table.circuit, row};
            const bool shorted =
                std::abs(plain.out_of(kHotA)) > kShortAmps || std::abs(plain.out_of(kHotB)) > kShortAmps;
            CHECK((table.rows[row].breaker == Trip::trips) == shorted);
            double worst = 0.0;
            for (std::size_t i = 0; !shorted && i < table.circuit.points.size(); ++i)
                worst = std::max(worst, std::abs(plain.volts(i) - table.rows[row].volts[i]));
            CHECK(worst < 0.2);
            const double hots = plain.out_of(kHotA) + (table.circuit.volts_b ? plain.out_of(kHotB) : 0.0);
            const bool imbalance = std::abs(hots + plain.out_of(kNeutral)) >= 0.006;
            if (imbalance) CHECK(table.rows[row].gfci == Trip::trips);
            // A GFCI finds a neutral on ground without any load, by a signal of its own that voltages do not tell of.
            if (!imbalance && fault.kind != FaultKind::neutral_grounded) CHECK(table.rows[row].gfci == Trip::holds);
            ++compared;
        }
    });
    CHECK(compared > 1000);
}

TEST_CASE("switching property: every fault shows somewhere in loads, devices, live conductors or load on the neutral") {
    everywhere([](const Arrangement& arrangement, const Fault& fault, const Table& table) {
        if (fault.kind == FaultKind::none) return;
        const Table sound = solve(arrangement);
        bool shows = false;
        for (std::size_t i = 0; i < table.rows.size(); ++i) {
            const auto& a = table.rows[i];
            const auto& b = sound.rows[i];
            shows = shows || a.loads != b.loads || a.live != b.live || a.breaker != b.breaker || a.gfci != b.gfci ||
                    a.afci != b.afci || a.volts != b.volts;
        }
        CHECK(shows);
    });
}

TEST_CASE("switching property: a switch across hot and neutral lights when off and trips when on, wherever it is") {
    std::size_t met = 0;
    everywhere([&](const Arrangement&, const Fault& fault, const Table& table) {
        if (fault.kind != FaultKind::switch_across) return;
        ++met;
        for (const auto state : table.rows[0].loads) CHECK(state == LoadState::on);
        CHECK(table.rows[0].breaker == Trip::holds);
        CHECK(table.rows[1].breaker == Trip::trips);
    });
    CHECK(met == 4);
}

TEST_CASE("switching property: a switch in the neutral works and leaves the lampholder live when off") {
    std::size_t met = 0;
    everywhere([&](const Arrangement& arrangement, const Fault& fault, const Table& table) {
        if (fault.kind != FaultKind::switched_neutral) return;
        ++met;
        const Table sound = solve(arrangement);
        for (std::size_t row = 0; row < table.rows.size(); ++row) CHECK(table.rows[row].loads == sound.rows[row].loads);
        for (const auto& load : table.circuit.loads) {
            CHECK(table.rows[0].live[load.hot] == Live::hot);
            CHECK(table.rows[0].live[load.shell] == Live::through_load);
            CHECK(table.rows[1].live[load.shell] == Live::dead);
        }
    });
    CHECK(met == 4);
}

TEST_CASE("switching property: a tab left on makes the switched half steady") {
    everywhere([](const Arrangement&, const Fault& fault, const Table& table) {
        if (fault.kind != FaultKind::tab_unbroken) return;
        for (const auto& row : table.rows) {
            CHECK(row.loads == std::vector<LoadState>{LoadState::on, LoadState::on});
            CHECK(row.breaker == Trip::holds);
        }
    });
}

TEST_CASE("switching property: a hot on a box without ground makes the box live in some position and trips nothing") {
    everywhere([](const Arrangement&, const Fault& fault, const Table& table) {
        if (fault.kind != FaultKind::live_box) return;
        const Node metal = fault.edits.back().b;
        CHECK(std::any_of(table.rows.begin(), table.rows.end(),
                          [&](const Row& row) { return row.live[metal] == Live::hot; }));
        for (const auto& row : table.rows) {
            CHECK(row.breaker == Trip::holds);
            CHECK(row.gfci == Trip::holds);
        }
    });
}
