#include "trade/switching/circuit.hpp"

#include <algorithm>

namespace trade::switching {

std::string_view to_text(Colour colour) {
    switch (colour) {
        case Colour::black:
            return "black";
        case Colour::red:
            return "red";
        case Colour::white:
            return "white";
        case Colour::remarked_white:
            return "white re-marked";
        case Colour::bare:
            return "bare";
    }
    return "";
}

std::optional<Node> Circuit::find_node(std::string_view name) const {
    const auto found = std::find_if(points.begin(), points.end(), [&](const Point& one) { return one.name == name; });
    if (found == points.end()) return std::nullopt;
    return static_cast<Node>(found - points.begin());
}

std::optional<std::size_t> Circuit::find_conductor(std::string_view id) const {
    const auto found =
        std::find_if(conductors.begin(), conductors.end(), [&](const Conductor& one) { return one.id == id; });
    if (found == conductors.end()) return std::nullopt;
    return static_cast<std::size_t>(found - conductors.begin());
}

std::size_t Circuit::landing_of(Node node) const {
    for (std::size_t i = 0; i < links.size(); ++i)
        if (links[i].kind == Link::Kind::landing && links[i].a == node && !links[i].open) return i;
    return kNone;
}

std::string_view position_text(const Switch& one, std::size_t position) {
    if (one.kind == SwitchKind::single_pole) return position == 0 ? "off" : "on";
    return position == 0 ? "up" : "down";
}

std::size_t position_of(const Circuit& circuit, std::size_t combination, std::size_t which) {
    return (combination >> (circuit.switches.size() - 1 - which)) & 1U;
}

}  // namespace trade::switching
