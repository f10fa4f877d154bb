#include <algorithm>
#include <map>
#include <utility>

#include "trade/switching/diagram.hpp"

namespace trade::switching {
namespace {

/// "S1 traveler screw 1" as it fits a drawing: "S1 traveler 1".
std::string without_screw(std::string name) {
    static constexpr std::string_view kWord = " screw";
    if (const auto at = name.find(kWord); at != std::string::npos) name.erase(at, kWord.size());
    return name;
}

std::string kind_text(const Switch& one) {
    if (one.in_appliance) return "switch of the appliance";
    switch (one.kind) {
        case SwitchKind::single_pole:
            return "single-pole switch, on joins the two screws";
        case SwitchKind::three_way:
            return "three-way switch, up joins common and traveler 1, down common and 2";
        case SwitchKind::four_way:
            return "four-way switch, up joins a1-b1 and a2-b2, down a1-b2 and a2-b1";
    }
    return "";
}

std::string kind_text(LoadKind kind) {
    switch (kind) {
        case LoadKind::lamp:
            return "lampholder between the black and the white lead";
        case LoadKind::fan:
            return "fan motor between the black and the white lead";
        case LoadKind::plugged_in:
            return "plugged in between brass and silver";
    }
    return "";
}

/// Draws the faulted circuit while looking at the sound one for what has changed.
class Painter {
public:
    Painter(const Circuit& sound, const Circuit& faulted) : sound_(sound), now_(faulted) {}

    std::vector<Picture::Box> boxes() const {
        std::vector<Picture::Box> made;
        for (std::size_t i = 0; i < now_.boxes.size(); ++i) made.push_back(box(i));
        return made;
    }

private:
    [[nodiscard]] Picture::Box box(std::size_t index) const {
        Picture::Box made;
        made.name = now_.boxes[index].name;
        made.by = cable_to(index);
        devices(index, made);
        made.joints = joints(index);
        touches(index, made);
        return made;
    }

    [[nodiscard]] std::optional<Picture::Cable> cable_to(std::size_t box) const {
        for (std::size_t i = 0; i < now_.cables.size(); ++i)
            if (now_.cables[i].to == box) return cable(i);
        return std::nullopt;
    }
    [[nodiscard]] Picture::Cable cable(std::size_t index) const {
        const auto& run = now_.cables[index];
        Picture::Cable made{index + 1,     now_.boxes[run.from].name, now_.boxes[run.to].name,
                            run.insulated, run.from + 1 == run.to,    {}};
        // The bare ground is made first and shown last.
        for (const bool ground : {false, true})
            for (const auto& one : now_.conductors)
                if (one.cable == index && (one.role == Role::ground) == ground)
                    made.conductors.push_back({one.name, one.colour, now_.links[one.link].open ? "open" : ""});
        return made;
    }

    void devices(std::size_t box, Picture::Box& made) const {
        for (std::size_t i = 0; i < now_.switches.size(); ++i) {
            const auto& one = now_.switches[i];
            if (one.box != box) continue;
            const bool changed = one.kind != sound_.switches[i].kind;
            made.devices.push_back((changed ? "x " : "") + one.name + ": " + kind_text(one));
        }
        for (const auto& one : now_.loads)
            if (one.box == box) made.devices.push_back(one.name + ": " + kind_text(one.kind));
        if (box == 0 && now_.volts_b != sound_.volts_b) made.faults.emplace_back("both breakers are on one leg");
    }

    /// Splice, screw or bar that a node is held by, followed through pigtails.
    [[nodiscard]] Node held(Node node) const {
        for (auto landing = now_.landing_of(node); landing != kNone; landing = now_.landing_of(node))
            node = now_.links[landing].b;
        return node;
    }

    [[nodiscard]] std::vector<Picture::Joint> joints(std::size_t box) const {
        std::map<Node, std::vector<Node>> groups;
        std::vector<Node> order;
        for (std::size_t i = 0; i < now_.points.size(); ++i) {
            const auto& point = now_.points[i];
            if (point.box != box || point.kind == Point::Kind::splice || point.kind == Point::Kind::contact) continue;
            const auto node = static_cast<Node>(i);
            auto& group = groups[held(node)];
            if (group.empty()) order.push_back(held(node));
            group.push_back(node);
        }
        std::vector<Picture::Joint> made;
        for (const Node hub : order) {
            auto one = joint(hub, groups[hub], box);
            const bool bare_screw = one.in.empty() && one.out.empty() && one.centre.size() == 1;
            if (!bare_screw) made.push_back(std::move(one));
        }
        // Grounds last, as the quiet part of the drawing.
        std::stable_partition(made.begin(), made.end(), [](const Picture::Joint& one) { return !grounds(one); });
        return made;
    }
    static bool grounds(const Picture::Joint& one) {
        const auto bare = [](const Picture::Label& label) { return label.colour == Colour::bare; };
        return std::any_of(one.in.begin(), one.in.end(), bare) || std::any_of(one.out.begin(), one.out.end(), bare);
    }

    [[nodiscard]] Picture::Joint joint(Node hub, const std::vector<Node>& members, std::size_t box) const {
        Picture::Joint made;
        made.splice = now_.points[hub].kind == Point::Kind::splice;
        if (hub == kOtherNeutral && box != 0) made.centre.push_back({now_.points[hub].name, std::nullopt, "wrong"});
        for (const Node node : members) {
            const auto* conductor = conductor_at(node);
            if (conductor == nullptr) {
                const bool metal = now_.points[node].kind == Point::Kind::box;
                made.centre.push_back(
                    {metal ? "metal of the box" : without_screw(now_.points[node].name), std::nullopt, mark(node)});
                continue;
            }
            const bool comes_in = now_.cables[conductor->cable].to == box;
            (comes_in ? made.in : made.out).push_back({conductor->name, conductor->colour, mark(node)});
        }
        return made;
    }
    [[nodiscard]] const Conductor* conductor_at(Node end) const {
        const auto found = std::find_if(now_.conductors.begin(), now_.conductors.end(),
                                        [&](const Conductor& one) { return one.source == end || one.load == end; });
        return found == now_.conductors.end() ? nullptr : &*found;
    }

    /// What the fault did to a node's landing.
    [[nodiscard]] std::string mark(Node node) const {
        const auto before = sound_.landing_of(node);
        if (before == kNone) return now_.landing_of(node) == kNone ? "" : "added";
        const auto& link = now_.links[before];
        if (link.open) return "capped";
        if (link.loose) return "loose";
        return link.b == sound_.links[before].b ? "" : "moved";
    }

    void touches(std::size_t box, Picture::Box& made) const {
        for (const auto& link : now_.links)
            if (link.kind == Link::Kind::contact_by_fault && now_.points[link.a].box == box)
                made.faults.push_back(touch_text(link));
        for (const auto& load : now_.loads)
            if (load.box == box && load.hot_inside != kNone &&
                now_.links[load.hot_inside].b != sound_.links[load.hot_inside].b)
                made.faults.push_back(load.name + ": black lead on the screw shell, white on the centre contact");
    }
    [[nodiscard]] std::string touch_text(const Link& link) const {
        const auto tab = std::find_if(now_.broken_tabs.begin(), now_.broken_tabs.end(),
                                      [&](const auto& one) { return one[0] == link.a && one[1] == link.b; });
        if (tab != now_.broken_tabs.end()) return "tab left on between the brass screws";
        const bool metal = now_.points[link.b].kind == Point::Kind::box;
        return told(link.a) + " touches " + (metal ? "the metal box" : now_.points[link.b].name);
    }
    /// A splice is told by the first that it holds.
    [[nodiscard]] std::string told(Node node) const {
        if (const auto* conductor = conductor_at(node)) return conductor->name;
        if (now_.points[node].kind != Point::Kind::splice) return now_.points[node].name;
        for (const auto& link : now_.links)
            if (link.kind == Link::Kind::landing && link.b == node) return told(link.a);
        return now_.points[node].name;
    }

    const Circuit& sound_;
    const Circuit& now_;
};

}  // namespace

Picture picture(const Arrangement& arrangement, const Fault& fault) {
    const Circuit faulted = with_fault(arrangement.circuit, fault);
    Picture made{arrangement.title, arrangement.about, fault.kind == FaultKind::none ? "" : fault.title, {}};
    made.boxes = Painter{arrangement.circuit, faulted}.boxes();
    return made;
}

}  // namespace trade::switching
