#include "trade/switching/arrangements.hpp"
#include "trade/switching/builder.hpp"

namespace trade::switching {
namespace {

using Way = Builder::Way;

constexpr double kPluggedLampOhms = 240.0;
// 1500 W and 480 W at 120 V: each within its breaker, together more than one neutral may carry.
constexpr double kHeaterOhms = 9.6;
constexpr double kWorkLampOhms = 30.0;

Arrangement half_switched_feed_at_receptacle() {
    Builder b{
        "half-switched-receptacle-feed-at-receptacle", "Half-switched receptacle, feed at the receptacle",
        "Feed at the receptacle; a loop goes to the switch. The tab between the brass screws is broken off, so that "
        "the upper half is always on and the lower half follows the switch."};
    const auto outlet = b.box("receptacle box");
    const auto sw = b.box("switch box");
    const auto feed = b.feed(outlet);
    const auto loop = b.cable(outlet, sw, 2);
    const auto down = b.wire(loop, "hot-to-switch", Colour::remarked_white, Role::feed);
    const auto leg = b.wire(loop, "switch-leg", Colour::black, Role::switch_leg, Way::back);
    const auto s = b.wall_switch("S", sw, SwitchKind::single_pole);
    const auto upper = b.receptacle("upper half", "lamp in the upper half", outlet, kPluggedLampOhms);
    const auto lower = b.receptacle("lower half", "lamp in the lower half", outlet, kPluggedLampOhms);
    b.broken_tab(upper.hot, lower.hot);
    b.splice(outlet, {feed.hot.load, down.source, upper.hot});
    b.land(down.load, s[0]);
    b.land(leg.source, s[1]);
    b.land(leg.load, lower.hot);
    b.splice(outlet, {feed.neutral.load, upper.neutral, lower.neutral});
    return b.done();
}

Arrangement half_switched_feed_at_switch() {
    Builder b{"half-switched-receptacle-feed-at-switch", "Half-switched receptacle, feed at the switch",
              "Feed at the switch; a steady hot, the switch leg and the neutral go on to the receptacle, whose tab "
              "between the brass screws is broken off."};
    const auto sw = b.box("switch box");
    const auto outlet = b.box("receptacle box");
    const auto feed = b.feed(sw);
    const auto run = b.cable(sw, outlet, 3);
    const auto steady = b.wire(run, "steady-hot", Colour::black, Role::steady_hot);
    const auto leg = b.wire(run, "switch-leg", Colour::red, Role::switch_leg);
    const auto neutral = b.wire(run, "receptacle-neutral", Colour::white, Role::neutral);
    const auto s = b.wall_switch("S", sw, SwitchKind::single_pole);
    const auto upper = b.receptacle("upper half", "lamp in the upper half", outlet, kPluggedLampOhms);
    const auto lower = b.receptacle("lower half", "lamp in the lower half", outlet, kPluggedLampOhms);
    b.broken_tab(upper.hot, lower.hot);
    b.splice(sw, {feed.hot.load, s[0], steady.source});
    b.land(leg.source, s[1]);
    b.splice(sw, {feed.neutral.load, neutral.source});
    b.land(steady.load, upper.hot);
    b.land(leg.load, lower.hot);
    b.splice(outlet, {neutral.load, upper.neutral, lower.neutral});
    return b.done();
}

Arrangement multiwire() {
    Builder b{
        "multiwire-shared-neutral", "Multiwire circuit: two receptacles on two legs, one shared neutral",
        "Both legs and the shared neutral come into the first box; leg A feeds the receptacle there, leg B and the "
        "neutral go on to the second. The neutral is spliced and pigtailed. The appliances have their own switches."};
    const auto one = b.box("receptacle 1 box");
    const auto two = b.box("receptacle 2 box");
    const auto feed = b.shared_feed(one);
    const auto on = b.cable(one, two, 2);
    const auto hot_on = b.wire(on, "leg-b-onward", Colour::black, Role::steady_hot);
    const auto neutral_on = b.wire(on, "neutral-onward", Colour::white, Role::neutral);
    const auto first = b.receptacle("receptacle 1", "heater", one, kHeaterOhms, "heater switch");
    const auto second = b.receptacle("receptacle 2", "work lamp", two, kWorkLampOhms, "work lamp switch");
    b.land(feed.hot_a.load, first.hot);
    b.splice(one, {feed.hot_b.load, hot_on.source});
    b.splice(one, {feed.neutral.load, first.neutral, neutral_on.source});
    b.land(hot_on.load, second.hot);
    b.land(neutral_on.load, second.neutral);
    return b.done();
}

}  // namespace

std::vector<Arrangement> receptacle_arrangements() {
    return {half_switched_feed_at_receptacle(), half_switched_feed_at_switch(), multiwire()};
}

}  // namespace trade::switching
