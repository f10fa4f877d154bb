#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// Switch-controlled circuits as wired, solved for every position of their switches.
namespace trade::switching {

/// A point that cannot have two voltages: the end of a conductor, a lead, a screw, a splice, a metal box.
using Node = std::uint16_t;
inline constexpr std::size_t kNone = std::numeric_limits<std::size_t>::max();

/// Nodes that every circuit has, in this order.
inline constexpr Node kGround = 0;        ///< grounding bar, bonded to the neutral at the source: 0 V
inline constexpr Node kNeutral = 1;       ///< where the circuit's neutral lands, behind the GFCI's sensor: 0 V
inline constexpr Node kHotA = 2;          ///< the breaker's load terminal
inline constexpr Node kHotB = 3;          ///< that of the other leg; dead in a circuit with one leg
inline constexpr Node kOtherNeutral = 4;  ///< neutral of another circuit, that does not pass this circuit's GFCI: 0 V
inline constexpr Node kFirstFree = 5;

enum class Colour : std::uint8_t { black, red, white, remarked_white, bare };
/// "black", "white re-marked".
[[nodiscard]] std::string_view to_text(Colour colour);

/// What a conductor is for.
enum class Role : std::uint8_t { feed, steady_hot, switch_leg, traveler, neutral, ground };

struct Box {
    std::string name;
    Node metal = kGround;  ///< the box itself
    Node spare = kGround;  ///< a splice that sound work does not use
};

struct Cable {
    std::size_t from = 0;  ///< box nearer to the source
    std::size_t to = 0;
    int insulated = 2;  ///< conductors beside the bare ground: 2 for "2-wire with ground"
};

/// One conductor of a cable, from box to box.
struct Conductor {
    std::string id;    ///< unique in its circuit: "traveler-1-s2"
    std::string name;  ///< the words of the id
    Colour colour = Colour::black;
    Role role = Role::feed;
    std::size_t cable = 0;
    Node source = 0;  ///< end that power reaches first when everything is sound
    Node load = 0;
    std::size_t link = 0;
};

/// Copper from node to node, without resistance.
struct Link {
    enum class Kind : std::uint8_t { run, landing, inside, contact_by_fault };
    Node a = 0;
    Node b = 0;  ///< of a landing: the screw or splice
    Kind kind = Kind::run;
    bool open = false;
    bool loose = false;  ///< makes and breaks
};

enum class SwitchKind : std::uint8_t { single_pole, three_way, four_way };

struct Switch {
    std::string name;
    SwitchKind kind = SwitchKind::single_pole;
    std::size_t box = 0;
    /// single-pole: line, load; three-way: common, traveler 1, traveler 2; four-way: a1, a2, b1, b2.
    std::vector<Node> screws;
    bool in_appliance = false;  ///< the load's own switch rather than one in the wall
};

enum class LoadKind : std::uint8_t { lamp, fan, plugged_in };

/// A load of constant resistance. A real filament has less of it when dim, so dim is told from off, not measured.
struct Load {
    std::string name;
    LoadKind kind = LoadKind::lamp;
    std::size_t box = 0;
    Node hot = 0;    ///< centre contact of a lampholder, or the side meant for the hot
    Node shell = 0;  ///< screw shell of a lampholder, or the side meant for the neutral
    double ohms = 240.0;
    Node hot_lead = 0;  ///< the conductor or screw that the wiring lands on
    Node neutral_lead = 0;
    std::size_t hot_inside = kNone;  ///< link from lead to contact; only lampholders have them
    std::size_t shell_inside = kNone;
};

/// What the nodes are called and where they are.
struct Point {
    std::string name;  ///< unique in its circuit
    std::size_t box = 0;
    enum class Kind : std::uint8_t { end, lead, screw, splice, box, contact } kind = Kind::end;
};

struct Circuit {
    std::vector<Point> points;  ///< by node
    std::vector<Box> boxes;     ///< the first is the panel
    std::vector<Cable> cables;
    std::vector<Conductor> conductors;
    std::vector<Link> links;
    std::vector<Switch> switches;
    std::vector<Load> loads;
    std::vector<std::array<Node, 2>> broken_tabs;  ///< screws of a receptacle that sound work keeps apart
    double volts_a = 120.0;
    std::optional<double> volts_b;  ///< against neutral: -120 for the other leg of a multiwire circuit
    double breaker_amps = 15.0;

    [[nodiscard]] std::size_t combinations() const { return std::size_t{1} << switches.size(); }
    [[nodiscard]] std::optional<Node> find_node(std::string_view name) const;
    [[nodiscard]] std::optional<std::size_t> find_conductor(std::string_view id) const;
    /// The link by which an end, lead or screw is held by a screw or splice; kNone for a node that nothing holds.
    [[nodiscard]] std::size_t landing_of(Node node) const;
};

/// Positions run 0, 1. Three-way and four-way: up, down; single-pole and an appliance's own: off, on.
/// A four-way up joins a1-b1 and a2-b2 (straight), down a1-b2 and a2-b1 (cross); a three-way up joins the common to
/// traveler 1. Which way a real device does it cannot be seen from outside; the drawing tells it for the trainee.
[[nodiscard]] std::string_view position_text(const Switch& one, std::size_t position);
/// Position of one switch in a combination. The first switch changes slowest.
[[nodiscard]] std::size_t position_of(const Circuit& circuit, std::size_t combination, std::size_t which);

}  // namespace trade::switching
