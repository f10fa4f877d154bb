#pragma once

#include <array>
#include <initializer_list>
#include <string>
#include <vector>

#include "trade/switching/arrangement.hpp"

namespace trade::switching {

/// One conductor as the builder hands it out: the two ends to be landed.
struct Wire {
    Node source = 0;
    Node load = 0;
};

/// Writes an arrangement down the way it is wired: boxes, cables, conductors, then what each end lands on.
class Builder {
public:
    /// Away from the panel, or back towards it.
    enum class Way : std::uint8_t { out, back };

    Builder(std::string id, std::string title, std::string about);

    /// Box 0 is the panel and always there.
    std::size_t box(std::string name);
    std::size_t cable(std::size_t from, std::size_t to, int insulated);
    Wire wire(std::size_t cable, std::string id, Colour colour, Role role, Way way = Way::out);
    /// Cable from the panel with hot and neutral landed there.
    struct Feed {
        Wire hot, neutral;
    };
    Feed feed(std::size_t to);
    /// A three-wire cable of two legs and their shared neutral, and the second source.
    struct SharedFeed {
        Wire hot_a, hot_b, neutral;
    };
    SharedFeed shared_feed(std::size_t to);

    /// Screws in the order of Switch::screws.
    std::vector<Node> wall_switch(const std::string& name, std::size_t box, SwitchKind kind);
    /// The leads.
    struct Leads {
        Node hot = 0, neutral = 0;
    };
    Leads lamp(const std::string& name, std::size_t box);
    Leads fan(const std::string& name, std::size_t box, double ohms);
    /// One receptacle; its load is plugged in, and has a switch of its own when `own_switch` is not empty.
    Leads receptacle(const std::string& name, std::string load, std::size_t box, double ohms,
                     std::string own_switch = {});
    /// Two screws of one receptacle whose tab is broken off.
    void broken_tab(Node a, Node b);

    void land(Node end, Node screw);
    /// Ends, leads and pigtailed screws under one connector.
    void splice(std::size_t box, std::initializer_list<Node> members);

    /// Adds the grounds of every box, and hands the arrangement over.
    Arrangement done();

private:
    Node node(std::string name, std::size_t box, Point::Kind kind);
    std::size_t link(Node a, Node b, Link::Kind kind);
    std::string place(std::size_t box) const;

    Arrangement made_;
    std::vector<int> splices_;  // per box, for their names
};

}  // namespace trade::switching
