#include <algorithm>
#include <set>
#include <utility>

#include "trade/switching/fault.hpp"

namespace trade::switching {
namespace {

Edit open(std::size_t link) {
    return {Edit::Kind::open, link};
}
Edit loosen(std::size_t link) {
    return {Edit::Kind::loosen, link};
}
Edit move(std::size_t link, Node to) {
    return {Edit::Kind::move, link, 0, to};
}
Edit touch(Node a, Node b) {
    return {Edit::Kind::touch, 0, a, b};
}
Edit join(Node end, Node screw) {
    return {Edit::Kind::join, 0, end, screw};
}

std::string capital(std::string text) {
    if (!text.empty() && text.front() >= 'a' && text.front() <= 'z')
        text.front() = static_cast<char>(text.front() - 'a' + 'A');
    return text;
}

std::string kebab(std::string text) {
    for (auto& letter : text) {
        if (letter == ' ') letter = '-';
        if (letter >= 'A' && letter <= 'Z') letter = static_cast<char>(letter - 'A' + 'a');
    }
    return text;
}

/// Looks over one circuit and writes down what can go wrong in it.
class Finder {
public:
    explicit Finder(const Circuit& circuit) : circuit_(circuit) {}

    std::vector<Fault> all() {
        for (const auto& conductor : circuit_.conductors) faults_of(conductor);
        for (const auto& load : circuit_.loads) faults_of(load);
        for (std::size_t i = 0; i < circuit_.switches.size(); ++i) faults_of(i);
        whole_circuit();
        return std::move(found_);
    }

private:
    void add(FaultKind kind, const std::string& at, std::string title, std::string place, std::vector<Edit> edits) {
        const auto& known = about(kind);
        Fault fault{kind,
                    std::string{known.id} + (at.empty() ? "" : "." + at),
                    std::move(title),
                    std::move(place),
                    std::string{known.find},
                    {Basis::Kind::practice, "way to find it: custom of the trade; effect: computed"},
                    std::move(edits)};
        found_.push_back(std::move(fault));
    }
    [[nodiscard]] std::string title(FaultKind kind) const { return std::string{about(kind).title}; }

    [[nodiscard]] const std::string& box_name(std::size_t box) const { return circuit_.boxes[box].name; }
    [[nodiscard]] std::string run_of(const Conductor& one) const {
        const auto& cable = circuit_.cables[one.cable];
        return "between " + box_name(cable.from) + " and " + box_name(cable.to);
    }
    /// The landing that `screw` holds; kNone when it holds none.
    [[nodiscard]] std::size_t held_by(Node screw) const {
        for (std::size_t i = 0; i < circuit_.links.size(); ++i)
            if (circuit_.links[i].kind == Link::Kind::landing && circuit_.links[i].b == screw) return i;
        return kNone;
    }
    /// The splice or screw that a lead or end is landed on, or the node itself.
    [[nodiscard]] Node holder(Node node) const {
        const auto landing = circuit_.landing_of(node);
        return landing == kNone ? node : circuit_.links[landing].b;
    }
    [[nodiscard]] const Conductor* conductor_at(Node end) const {
        const auto found = std::find_if(circuit_.conductors.begin(), circuit_.conductors.end(),
                                        [&](const Conductor& one) { return one.source == end || one.load == end; });
        return found == circuit_.conductors.end() ? nullptr : &*found;
    }

    void faults_of(const Conductor& one) {
        const std::string name = capital(one.name);
        const auto cut = [&](FaultKind kind) {
            add(kind, one.id, name + " open " + run_of(one), run_of(one), {open(one.link)});
        };
        const auto ground = [&](FaultKind kind) {
            add(kind, one.id, name + " to ground " + run_of(one), run_of(one), {touch(one.load, kGround)});
        };
        switch (one.role) {
            case Role::feed:
            case Role::steady_hot:
                cut(FaultKind::feed_open);
                if (circuit_.cables[one.cable].from == 0) ground(FaultKind::feed_grounded);
                break;
            case Role::switch_leg:
                cut(FaultKind::switch_leg_open);
                if (held_at_switch(one.source)) ground(FaultKind::switch_leg_grounded);
                break;
            case Role::traveler:
                cut(FaultKind::traveler_open);
                ground(FaultKind::traveler_grounded);
                break;
            case Role::neutral:
                neutral_faults(one);
                break;
            case Role::ground:
                break;
        }
    }
    [[nodiscard]] bool held_at_switch(Node end) const {
        const Node at = holder(end);
        return std::any_of(circuit_.switches.begin(), circuit_.switches.end(), [&](const Switch& one) {
            return std::find(one.screws.begin(), one.screws.end(), at) != one.screws.end();
        });
    }
    void neutral_faults(const Conductor& one) {
        const bool shared = circuit_.volts_b && circuit_.cables[one.cable].from == 0;
        add(shared ? FaultKind::shared_neutral_open : FaultKind::neutral_open, one.id,
            capital(one.name) + " open " + run_of(one), run_of(one), {open(one.link)});
        const auto& box = circuit_.points[one.load].box;
        add(FaultKind::neutral_loose, one.id, capital(one.name) + " loose in " + box_name(box), "in " + box_name(box),
            {loosen(circuit_.landing_of(one.load))});
    }

    void faults_of(const Load& load) {
        const std::string place = "in " + box_name(load.box);
        if (load.kind == LoadKind::lamp)
            add(FaultKind::swapped_at_lampholder, kebab(load.name),
                title(FaultKind::swapped_at_lampholder) + " of " + load.name, place,
                {move(load.hot_inside, load.shell), move(load.shell_inside, load.hot)});
        if (load.kind != LoadKind::plugged_in)
            add(FaultKind::foreign_neutral, kebab(load.name), "Neutral of " + load.name + " taken from another circuit",
                place, {move(circuit_.landing_of(load.neutral_lead), kOtherNeutral)});
        if (!boxes_done_.insert(load.box).second) return;
        add(FaultKind::neutral_grounded, kebab(box_name(load.box)), "Neutral tied to ground " + place, place,
            {touch(holder(load.neutral_lead), circuit_.boxes[load.box].metal)});
        live_box(load);
    }
    void live_box(const Load& load) {
        for (const auto& one : circuit_.conductors)
            if (one.role == Role::ground && circuit_.cables[one.cable].to == load.box)
                add(FaultKind::live_box, kebab(box_name(load.box)),
                    "Hot touches " + box_name(load.box) + ", whose ground is open", "in " + box_name(load.box),
                    {open(one.link), touch(holder(load.hot_lead), circuit_.boxes[load.box].metal)});
    }

    void faults_of(std::size_t which) {
        const auto& one = circuit_.switches[which];
        const std::string place = "at " + one.name;
        const std::string id = kebab(one.name);
        if (one.kind == SwitchKind::three_way) {
            swap(FaultKind::travelers_crossed, id, "Travelers crossed " + place, place, one.screws[1], one.screws[2]);
            for (const std::size_t traveler : {std::size_t{1}, std::size_t{2}})
                swap(FaultKind::common_interchanged, id + "-traveler-" + std::to_string(traveler),
                     "Common and traveler " + std::to_string(traveler) + " interchanged " + place, place, one.screws[0],
                     one.screws[traveler]);
            add(FaultKind::single_pole_fitted, id, "Single-pole switch fitted in place of three-way " + one.name, place,
                {open(held_by(one.screws[2])), {Edit::Kind::make_single_pole, which}});
        }
        if (one.kind == SwitchKind::four_way) {
            swap(FaultKind::travelers_crossed, id, "Incoming travelers crossed with each other " + place, place,
                 one.screws[0], one.screws[1]);
            swap(FaultKind::four_way_pairs_mixed, id, "Incoming and outgoing travelers mixed " + place, place,
                 one.screws[1], one.screws[2]);
        }
    }
    void swap(FaultKind kind, const std::string& at, std::string words, std::string place, Node a, Node b) {
        add(kind, at, std::move(words), std::move(place), {move(held_by(a), b), move(held_by(b), a)});
    }

    void whole_circuit() {
        for (const auto& tab : circuit_.broken_tabs)
            add(FaultKind::tab_unbroken, "", "Tab between the brass screws left on",
                "at the receptacle in " + box_name(circuit_.points[tab[0]].box), {touch(tab[0], tab[1])});
        if (circuit_.volts_b)
            add(FaultKind::both_legs_on_one, "", title(FaultKind::both_legs_on_one), "in the panel",
                {{Edit::Kind::same_leg}});
        const bool lamps_only = std::all_of(circuit_.loads.begin(), circuit_.loads.end(),
                                            [](const Load& one) { return one.kind == LoadKind::lamp; });
        if (circuit_.switches.size() != 1 || !lamps_only) return;
        if (circuit_.loads.size() == 2) series();
        const auto& only = circuit_.switches.front();
        const std::size_t hub = neutral_hub(only.box);
        if (hub != kNone)
            miswired_at_switch(only, static_cast<Node>(hub));
        else
            miswired_at_loop(only);
    }
    /// A splice in the box that holds a neutral; kNone when the box has no neutral.
    [[nodiscard]] std::size_t neutral_hub(std::size_t box) const {
        for (const auto& one : circuit_.conductors)
            if (one.role == Role::neutral && circuit_.points[one.load].box == box) return holder(one.load);
        return kNone;
    }
    /// The landing on `hub` of something that leads on to the loads (`onward`), or that comes from the source.
    [[nodiscard]] std::size_t member(Node hub, bool onward) const {
        for (std::size_t i = 0; i < circuit_.links.size(); ++i) {
            const auto& link = circuit_.links[i];
            if (link.kind != Link::Kind::landing || link.b != hub) continue;
            const auto* conductor = conductor_at(link.a);
            if ((conductor == nullptr || conductor->source == link.a) == onward) return i;
        }
        return kNone;
    }
    void miswired(FaultKind kind, const Switch& one, std::vector<Edit> edits, std::size_t box) {
        add(kind, "", title(kind), "at " + one.name + ", wired in " + box_name(box), std::move(edits));
    }
    void miswired_at_switch(const Switch& one, Node neutrals) {
        const auto line = held_by(one.screws[0]);
        const auto leg = held_by(one.screws[1]);
        const Node spare = circuit_.boxes[one.box].spare;
        miswired(FaultKind::switch_across, one, {move(leg, one.screws[0]), join(one.screws[1], neutrals)}, one.box);
        miswired(FaultKind::switched_neutral, one,
                 {move(line, spare), move(leg, spare), move(member(neutrals, false), one.screws[0]),
                  move(member(neutrals, true), one.screws[1])},
                 one.box);
    }
    void miswired_at_loop(const Switch& one) {
        const auto* down = conductor_at(circuit_.links[held_by(one.screws[0])].a);
        const auto* leg = conductor_at(circuit_.links[held_by(one.screws[1])].a);
        const std::size_t box = circuit_.points[leg->load].box;
        const Node hots = holder(down->source);
        const Node legs = holder(leg->load);
        const auto neutrals = static_cast<Node>(neutral_hub(box));
        const auto light_hot = member(legs, true);
        miswired(FaultKind::switch_across, one, {move(light_hot, hots), move(circuit_.landing_of(leg->load), neutrals)},
                 box);
        miswired(FaultKind::switched_neutral, one,
                 {move(light_hot, hots), move(circuit_.landing_of(down->source), neutrals),
                  move(member(neutrals, true), legs)},
                 box);
    }
    void series() {
        const auto& first = circuit_.loads[0];
        const Node spare = circuit_.boxes[first.box].spare;
        const Node legs = holder(first.hot_lead);
        for (const auto& one : circuit_.conductors)
            if (one.role == Role::switch_leg && holder(one.source) == legs)
                add(FaultKind::lights_in_series, "", title(FaultKind::lights_in_series), "in " + box_name(first.box),
                    {move(circuit_.landing_of(one.source), spare),
                     move(circuit_.landing_of(first.neutral_lead), spare)});
    }

    const Circuit& circuit_;
    std::vector<Fault> found_;
    std::set<std::size_t> boxes_done_;
};

}  // namespace

std::vector<Fault> faults_for(const Arrangement& arrangement) {
    return Finder{arrangement.circuit}.all();
}

}  // namespace trade::switching
