#include "trade/switching/builder.hpp"

#include <utility>

#include "base/text.hpp"

namespace trade::switching {
namespace {

constexpr double kOtherLeg = -120.0;

/// "traveler-1-s1-to-s2" as people write it: "traveler 1 S1 to S2".
std::string words_of(const std::string& id) {
    auto words = base::split(id, '-');
    for (auto& word : words) {
        const bool leg = word == "a" || word == "b";
        const bool named_switch = word.size() == 2 && word[0] == 's' && word[1] >= '0' && word[1] <= '9';
        if (leg || named_switch) word[0] = static_cast<char>(word[0] - 'a' + 'A');
    }
    return base::join(words, " ");
}

std::vector<std::string> screw_names(SwitchKind kind) {
    switch (kind) {
        case SwitchKind::single_pole:
            return {"line screw", "load screw"};
        case SwitchKind::three_way:
            return {"common", "traveler screw 1", "traveler screw 2"};
        case SwitchKind::four_way:
            return {"screw a1", "screw a2", "screw b1", "screw b2"};
    }
    return {};
}

}  // namespace

Builder::Builder(std::string id, std::string title, std::string about) {
    made_.id = std::move(id);
    made_.title = std::move(title);
    made_.about = std::move(about);
    made_.basis = {Basis::Kind::practice, "common ways of wiring switches; outcomes computed"};
    made_.circuit.boxes.push_back({"panel", kGround, kGround});
    splices_.push_back(0);
    for (const auto* name : {"ground", "neutral bar", "breaker", "second breaker", "neutral of another circuit"})
        node(name, 0, Point::Kind::screw);
}

Node Builder::node(std::string name, std::size_t box, Point::Kind kind) {
    made_.circuit.points.push_back({std::move(name), box, kind});
    return static_cast<Node>(made_.circuit.points.size() - 1);
}

std::size_t Builder::link(Node a, Node b, Link::Kind kind) {
    made_.circuit.links.push_back({a, b, kind});
    return made_.circuit.links.size() - 1;
}

std::string Builder::place(std::size_t box) const {
    return made_.circuit.boxes[box].name;
}

std::size_t Builder::box(std::string name) {
    auto& boxes = made_.circuit.boxes;
    boxes.push_back({std::move(name)});
    splices_.push_back(0);
    const std::size_t index = boxes.size() - 1;
    boxes[index].metal = node(boxes[index].name, index, Point::Kind::box);
    boxes[index].spare = node("connector in " + boxes[index].name, index, Point::Kind::splice);
    return index;
}

std::size_t Builder::cable(std::size_t from, std::size_t to, int insulated) {
    auto& cables = made_.circuit.cables;
    cables.push_back({from, to, insulated});
    const std::size_t index = cables.size() - 1;
    wire(index, "ground-" + std::to_string(cables.size()), Colour::bare, Role::ground);
    return index;
}

Wire Builder::wire(std::size_t cable, std::string id, Colour colour, Role role, Way way) {
    const Cable run = made_.circuit.cables[cable];
    const std::size_t first = way == Way::out ? run.from : run.to;
    const std::size_t last = way == Way::out ? run.to : run.from;
    const std::string name = words_of(id);
    const Wire ends{node(name + " in " + place(first), first, Point::Kind::end),
                    node(name + " in " + place(last), last, Point::Kind::end)};
    const std::size_t run_link = link(ends.source, ends.load, Link::Kind::run);
    made_.circuit.conductors.push_back({std::move(id), name, colour, role, cable, ends.source, ends.load, run_link});
    return ends;
}

Builder::Feed Builder::feed(std::size_t to) {
    const std::size_t run = cable(0, to, 2);
    const Feed made{wire(run, "feed-hot", Colour::black, Role::feed),
                    wire(run, "feed-neutral", Colour::white, Role::neutral)};
    land(made.hot.source, kHotA);
    land(made.neutral.source, kNeutral);
    return made;
}

Builder::SharedFeed Builder::shared_feed(std::size_t to) {
    made_.circuit.volts_b = kOtherLeg;
    const std::size_t run = cable(0, to, 3);
    const SharedFeed made{wire(run, "leg-a-hot", Colour::black, Role::feed),
                          wire(run, "leg-b-hot", Colour::red, Role::feed),
                          wire(run, "shared-neutral", Colour::white, Role::neutral)};
    land(made.hot_a.source, kHotA);
    land(made.hot_b.source, kHotB);
    land(made.neutral.source, kNeutral);
    return made;
}

std::vector<Node> Builder::wall_switch(const std::string& name, std::size_t box, SwitchKind kind) {
    Switch made{name, kind, box, {}};
    for (const auto& screw : screw_names(kind))
        made.screws.push_back(node(name + " " + screw, box, Point::Kind::screw));
    made_.circuit.switches.push_back(made);
    return made.screws;
}

Builder::Leads Builder::lamp(const std::string& name, std::size_t box) {
    Load made{name, LoadKind::lamp, box};
    made.hot_lead = node(name + " black lead", box, Point::Kind::lead);
    made.neutral_lead = node(name + " white lead", box, Point::Kind::lead);
    made.hot = node(name + " centre contact", box, Point::Kind::contact);
    made.shell = node(name + " screw shell", box, Point::Kind::contact);
    made.hot_inside = link(made.hot_lead, made.hot, Link::Kind::inside);
    made.shell_inside = link(made.neutral_lead, made.shell, Link::Kind::inside);
    made_.circuit.loads.push_back(made);
    return {made.hot_lead, made.neutral_lead};
}

Builder::Leads Builder::fan(const std::string& name, std::size_t box, double ohms) {
    Load made{name, LoadKind::fan, box};
    made.hot = made.hot_lead = node(name + " black lead", box, Point::Kind::lead);
    made.shell = made.neutral_lead = node(name + " white lead", box, Point::Kind::lead);
    made.ohms = ohms;
    made_.circuit.loads.push_back(made);
    return {made.hot, made.shell};
}

Builder::Leads Builder::receptacle(const std::string& name, std::string load, std::size_t box, double ohms,
                                   std::string own_switch) {
    Load made{std::move(load), LoadKind::plugged_in, box};
    made.hot_lead = node(name + " brass screw", box, Point::Kind::screw);
    made.neutral_lead = made.shell = node(name + " silver screw", box, Point::Kind::screw);
    made.hot = made.hot_lead;
    made.ohms = ohms;
    if (!own_switch.empty()) {
        made.hot = node(made.name + " behind its switch", box, Point::Kind::contact);
        Switch own{std::move(own_switch), SwitchKind::single_pole, box, {made.hot_lead, made.hot}, true};
        made_.circuit.switches.push_back(std::move(own));
    }
    made_.circuit.loads.push_back(made);
    return {made.hot_lead, made.neutral_lead};
}

void Builder::broken_tab(Node a, Node b) {
    made_.circuit.broken_tabs.push_back({a, b});
}

void Builder::land(Node end, Node screw) {
    link(end, screw, Link::Kind::landing);
}

void Builder::splice(std::size_t box, std::initializer_list<Node> members) {
    const std::string number = std::to_string(++splices_[box]);
    const Node hub = node("splice " + number + " in " + place(box), box, Point::Kind::splice);
    for (const Node member : members) land(member, hub);
}

Arrangement Builder::done() {
    auto& circuit = made_.circuit;
    for (std::size_t i = 0; i < circuit.conductors.size(); ++i) {
        const Conductor one = circuit.conductors[i];
        if (one.role != Role::ground) continue;
        land(one.source, circuit.boxes[circuit.cables[one.cable].from].metal);
        land(one.load, circuit.boxes[circuit.cables[one.cable].to].metal);
    }
    return std::move(made_);
}

}  // namespace trade::switching
