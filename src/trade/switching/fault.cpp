#include "trade/switching/fault.hpp"

#include <algorithm>
#include <utility>

#include "base/text.hpp"

namespace trade::switching {
namespace {

void apply(Circuit& circuit, const Edit& edit) {
    switch (edit.kind) {
        case Edit::Kind::open:
            circuit.links[edit.which].open = true;
            break;
        case Edit::Kind::loosen:
            circuit.links[edit.which].loose = true;
            break;
        case Edit::Kind::touch:
            circuit.links.push_back({edit.a, edit.b, Link::Kind::contact_by_fault});
            break;
        case Edit::Kind::join:
            circuit.links.push_back({edit.a, edit.b, Link::Kind::landing});
            break;
        case Edit::Kind::move:
            circuit.links[edit.which].b = edit.b;
            break;
        case Edit::Kind::make_single_pole:
            circuit.switches[edit.which].kind = SwitchKind::single_pole;
            circuit.switches[edit.which].screws.resize(2);
            break;
        case Edit::Kind::same_leg:
            circuit.volts_b = circuit.volts_a;
            break;
    }
}

}  // namespace

const KindOfFault& about(FaultKind kind) {
    return kinds_of_fault()[static_cast<std::size_t>(kind)];
}

const std::vector<KindOfFault>& kinds_of_fault() {
    static const std::vector<KindOfFault> all = {
        {FaultKind::none, "sound", "Nothing wrong", "any circuit", "Try every combination of the switches."},
        {FaultKind::feed_open, "feed-open", "Feed lost", "a hot ahead of the switching",
         "Follow the hot from the breaker: the break lies between the last box where it is hot and the first where it "
         "is "
         "not."},
        {FaultKind::feed_grounded, "feed-grounded", "Hot to ground ahead of the switch", "a hot from the panel",
         "With the circuit locked out and the conductor free at both ends, test it to ground; the switches make no "
         "difference."},
        {FaultKind::switch_leg_open, "switch-leg-open", "Switch leg open", "a switch leg",
         "The leg is hot at the switch and not at the light; prove the break dead, end to end, by continuity."},
        {FaultKind::switch_leg_grounded, "switch-leg-grounded", "Switch leg to ground", "a switch leg",
         "The breaker trips exactly in the positions that should light; locked out, test the freed leg to ground."},
        {FaultKind::neutral_open, "neutral-open", "Neutral open", "a neutral that feeds one leg only",
         "Hot to ground reads full and hot to white reads nothing; the white past the break is live through the load."},
        {FaultKind::neutral_loose, "neutral-loose", "Neutral loose", "a neutral joint",
         "Locked out, tug each conductor at the splice; look for heat, discoloring and a conductor that slips out."},
        {FaultKind::neutral_grounded, "neutral-grounded", "Neutral tied to ground on the load side",
         "a box with a load",
         "Locked out and with the circuit's neutral off its bar, test it to ground: it should read open."},
        {FaultKind::foreign_neutral, "foreign-neutral", "Neutral taken from another circuit", "a load with leads",
         "Clamp hot and neutral of the circuit together at the panel: what is missing comes back somewhere else."},
        {FaultKind::swapped_at_lampholder, "swapped-at-lampholder", "Hot and neutral swapped at the lampholder",
         "a lampholder", "Read from the screw shell to ground with the switch on: it should be nothing."},
        {FaultKind::switch_across, "switch-across", "Switch across hot and neutral",
         "one single-pole switch in reach of hot and neutral",
         "Locked out, trace which conductors the two screws hold: one should be the hot, the other the switch leg."},
        {FaultKind::switched_neutral, "switched-neutral", "Switch in the neutral",
         "one single-pole switch in reach of hot and neutral",
         "With the switch off, read from the black at the light to ground: it should be nothing."},
        {FaultKind::lights_in_series, "lights-in-series", "Two lights in series", "two lights on one switch",
         "Take out one lamp: the other goes dark. Each has about half the voltage."},
        {FaultKind::traveler_open, "traveler-open", "Traveler open", "a traveler",
         "With the first switch on that traveler it is hot at this end and dead at the other; locked out, ring it "
         "through."},
        {FaultKind::traveler_grounded, "traveler-grounded", "Traveler to ground", "a traveler",
         "The breaker trips in the positions that put that traveler on the hot; locked out, test it to ground."},
        {FaultKind::travelers_crossed, "travelers-crossed", "Travelers crossed at one switch",
         "a three-way or four-way switch",
         "Nothing needs finding: every handle still changes the light, only up and down have changed places."},
        {FaultKind::common_interchanged, "common-interchanged", "Common and traveler interchanged",
         "a three-way switch",
         "At the feed's switch the conductor that stays hot in every position belongs on the common; at the last "
         "switch "
         "the conductor to the light does."},
        {FaultKind::single_pole_fitted, "single-pole-fitted", "Single-pole switch in place of a three-way",
         "a three-way switch", "Look at the device: two screws beside the green one, and a handle marked on and off."},
        {FaultKind::four_way_pairs_mixed, "four-way-pairs-mixed", "Incoming and outgoing travelers mixed at a four-way",
         "a four-way switch",
         "The trouble follows the middle handle; locked out, test the device for which screws belong together."},
        {FaultKind::shared_neutral_open, "shared-neutral-open", "Shared neutral open", "a multiwire circuit",
         "The two legs read far from 120 V to the white, one high and one low, and full voltage between them: shut off "
         "both at once."},
        {FaultKind::both_legs_on_one, "both-legs-on-one", "Both hots of a multiwire circuit on one leg",
         "a multiwire circuit", "Between the two hots there should be 240 V; on one leg there is none."},
        {FaultKind::tab_unbroken, "tab-unbroken", "Tab left on a half-switched receptacle",
         "a half-switched receptacle",
         "Locked out, look at the brass side: the link between the two screws is still there."},
        {FaultKind::live_box, "live-box", "Hot touches a metal box that has lost its ground", "a load in a metal box",
         "Treat the box as live. Read from box to a known ground before touching; locked out, find the open ground."},
    };
    return all;
}

const Fault& nothing_wrong() {
    static const Fault sound = [] {
        const auto& kind = about(FaultKind::none);
        return Fault{kind.kind, std::string{kind.id},   std::string{kind.title},
                     "",        std::string{kind.find}, {Basis::Kind::practice, ""},
                     {}};
    }();
    return sound;
}

base::Checked<Fault> find_fault(const Arrangement& arrangement, std::string_view id) {
    if (id == nothing_wrong().id) return nothing_wrong();
    std::vector<std::string> known;
    for (auto& one : faults_for(arrangement)) {
        if (one.id == id) return std::move(one);
        known.push_back(std::move(one.id));
    }
    return base::refuse("'" + arrangement.id + "' has no fault '" + std::string{id} + "'",
                        "known here: " + base::join(known, ", "));
}

Circuit with_fault(const Circuit& circuit, const Fault& fault) {
    Circuit changed = circuit;
    for (const auto& edit : fault.edits) apply(changed, edit);
    return changed;
}

Table solve(const Arrangement& arrangement, const Fault& fault) {
    return solve(with_fault(arrangement.circuit, fault));
}

}  // namespace trade::switching
