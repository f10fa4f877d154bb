#include "trade/switching/arrangements.hpp"
#include "trade/switching/builder.hpp"

namespace trade::switching {
namespace {

using Way = Builder::Way;

constexpr double kFanOhms = 160.0;

Arrangement feed_at_switch() {
    Builder b{
        "single-pole-feed-at-switch", "Single-pole switch, feed at the switch",
        "The feed comes into the switch box; hot goes to the switch, the neutral is spliced through to the light."};
    const auto sw = b.box("switch box");
    const auto up = b.box("light box");
    const auto feed = b.feed(sw);
    const auto run = b.cable(sw, up, 2);
    const auto leg = b.wire(run, "switch-leg", Colour::black, Role::switch_leg);
    const auto neutral = b.wire(run, "light-neutral", Colour::white, Role::neutral);
    const auto s = b.wall_switch("S", sw, SwitchKind::single_pole);
    const auto light = b.lamp("light", up);
    b.land(feed.hot.load, s[0]);
    b.land(leg.source, s[1]);
    b.splice(sw, {feed.neutral.load, neutral.source});
    b.splice(up, {leg.load, light.hot});
    b.splice(up, {neutral.load, light.neutral});
    return b.done();
}

Arrangement feed_at_light() {
    Builder b{
        "single-pole-feed-at-light", "Single-pole switch, feed at the light (switch loop)",
        "The feed comes into the light box; a two-wire loop takes the hot down on a re-marked white and brings the "
        "switch leg back on the black. The box of the light stays live with the switch off."};
    const auto up = b.box("light box");
    const auto sw = b.box("switch box");
    const auto feed = b.feed(up);
    const auto loop = b.cable(up, sw, 2);
    const auto down = b.wire(loop, "hot-to-switch", Colour::remarked_white, Role::feed);
    const auto leg = b.wire(loop, "switch-leg", Colour::black, Role::switch_leg, Way::back);
    const auto s = b.wall_switch("S", sw, SwitchKind::single_pole);
    const auto light = b.lamp("light", up);
    b.splice(up, {feed.hot.load, down.source});
    b.land(down.load, s[0]);
    b.land(leg.source, s[1]);
    b.splice(up, {leg.load, light.hot});
    b.splice(up, {feed.neutral.load, light.neutral});
    return b.done();
}

Arrangement feed_between() {
    Builder b{
        "single-pole-feed-between", "Single-pole switch, feed at a junction box between switch and light",
        "The feed comes into a junction box; one cable is the loop to the switch, the other goes on to the light."};
    const auto middle = b.box("junction box");
    const auto sw = b.box("switch box");
    const auto up = b.box("light box");
    const auto feed = b.feed(middle);
    const auto loop = b.cable(middle, sw, 2);
    const auto down = b.wire(loop, "hot-to-switch", Colour::remarked_white, Role::feed);
    const auto back = b.wire(loop, "switch-leg-from-switch", Colour::black, Role::switch_leg, Way::back);
    const auto run = b.cable(middle, up, 2);
    const auto leg = b.wire(run, "switch-leg-to-light", Colour::black, Role::switch_leg);
    const auto neutral = b.wire(run, "light-neutral", Colour::white, Role::neutral);
    const auto s = b.wall_switch("S", sw, SwitchKind::single_pole);
    const auto light = b.lamp("light", up);
    b.splice(middle, {feed.hot.load, down.source});
    b.land(down.load, s[0]);
    b.land(back.source, s[1]);
    b.splice(middle, {back.load, leg.source});
    b.splice(middle, {feed.neutral.load, neutral.source});
    b.splice(up, {leg.load, light.hot});
    b.splice(up, {neutral.load, light.neutral});
    return b.done();
}

Arrangement two_in_parallel() {
    Builder b{"two-lights-in-parallel", "Two lights on one single-pole switch, feed at the switch",
              "Switch leg and neutral go to the first light and on to the second, which stands in parallel with it."};
    const auto sw = b.box("switch box");
    const auto one = b.box("light 1 box");
    const auto two = b.box("light 2 box");
    const auto feed = b.feed(sw);
    const auto run = b.cable(sw, one, 2);
    const auto leg = b.wire(run, "switch-leg", Colour::black, Role::switch_leg);
    const auto neutral = b.wire(run, "neutral-to-light-1", Colour::white, Role::neutral);
    const auto on = b.cable(one, two, 2);
    const auto leg_on = b.wire(on, "switch-leg-to-light-2", Colour::black, Role::switch_leg);
    const auto neutral_on = b.wire(on, "neutral-to-light-2", Colour::white, Role::neutral);
    const auto s = b.wall_switch("S", sw, SwitchKind::single_pole);
    const auto first = b.lamp("light 1", one);
    const auto second = b.lamp("light 2", two);
    b.land(feed.hot.load, s[0]);
    b.land(leg.source, s[1]);
    b.splice(sw, {feed.neutral.load, neutral.source});
    b.splice(one, {leg.load, first.hot, leg_on.source});
    b.splice(one, {neutral.load, first.neutral, neutral_on.source});
    b.splice(two, {leg_on.load, second.hot});
    b.splice(two, {neutral_on.load, second.neutral});
    return b.done();
}

Arrangement two_on_two_switches() {
    Builder b{
        "two-lights-two-switches", "Two lights, each on a switch of its own, feed at the switches",
        "Both switches share one box and one feed; three conductors go to the first light, two on to the second."};
    const auto sw = b.box("switch box");
    const auto one = b.box("light 1 box");
    const auto two = b.box("light 2 box");
    const auto feed = b.feed(sw);
    const auto run = b.cable(sw, one, 3);
    const auto leg_1 = b.wire(run, "switch-leg-1", Colour::black, Role::switch_leg);
    const auto leg_2 = b.wire(run, "switch-leg-2", Colour::red, Role::switch_leg);
    const auto neutral = b.wire(run, "neutral-to-light-1", Colour::white, Role::neutral);
    const auto on = b.cable(one, two, 2);
    const auto leg_on = b.wire(on, "switch-leg-2-onward", Colour::black, Role::switch_leg);
    const auto neutral_on = b.wire(on, "neutral-to-light-2", Colour::white, Role::neutral);
    const auto s1 = b.wall_switch("S1", sw, SwitchKind::single_pole);
    const auto s2 = b.wall_switch("S2", sw, SwitchKind::single_pole);
    const auto first = b.lamp("light 1", one);
    const auto second = b.lamp("light 2", two);
    b.splice(sw, {feed.hot.load, s1[0], s2[0]});
    b.land(leg_1.source, s1[1]);
    b.land(leg_2.source, s2[1]);
    b.splice(sw, {feed.neutral.load, neutral.source});
    b.splice(one, {leg_1.load, first.hot});
    b.splice(one, {leg_2.load, leg_on.source});
    b.splice(one, {neutral.load, first.neutral, neutral_on.source});
    b.splice(two, {leg_on.load, second.hot});
    b.splice(two, {neutral_on.load, second.neutral});
    return b.done();
}

Arrangement fan_and_light() {
    Builder b{"fan-and-light", "Ceiling fan with light, on two switches, feed at the switches",
              "Three conductors go up to the fan: its own hot, the hot of its light, and the neutral that both share."};
    const auto sw = b.box("switch box");
    const auto up = b.box("fan box");
    const auto feed = b.feed(sw);
    const auto run = b.cable(sw, up, 3);
    const auto fan_hot = b.wire(run, "fan-switch-leg", Colour::black, Role::switch_leg);
    const auto light_hot = b.wire(run, "light-switch-leg", Colour::red, Role::switch_leg);
    const auto neutral = b.wire(run, "fan-and-light-neutral", Colour::white, Role::neutral);
    const auto s1 = b.wall_switch("S1", sw, SwitchKind::single_pole);
    const auto s2 = b.wall_switch("S2", sw, SwitchKind::single_pole);
    const auto fan = b.fan("fan", up, kFanOhms);
    const auto light = b.lamp("light", up);
    b.splice(sw, {feed.hot.load, s1[0], s2[0]});
    b.land(fan_hot.source, s1[1]);
    b.land(light_hot.source, s2[1]);
    b.splice(sw, {feed.neutral.load, neutral.source});
    b.splice(up, {fan_hot.load, fan.hot});
    b.splice(up, {light_hot.load, light.hot});
    b.splice(up, {neutral.load, fan.neutral, light.neutral});
    return b.done();
}

}  // namespace

std::vector<Arrangement> single_pole_arrangements() {
    return {feed_at_switch(),  feed_at_light(),       feed_between(),
            two_in_parallel(), two_on_two_switches(), fan_and_light()};
}

}  // namespace trade::switching
