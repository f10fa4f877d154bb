#include <array>

#include "trade/switching/arrangements.hpp"
#include "trade/switching/builder.hpp"

namespace trade::switching {
namespace {

using Way = Builder::Way;
using Pair = std::array<Wire, 2>;
using Colours = std::array<Colour, 2>;

/// Two travelers in one cable, named for the stretch they run.
Pair travelers(Builder& b, std::size_t run, const std::string& stretch, Colours colours) {
    const std::string tail = stretch.empty() ? "" : "-" + stretch;
    return {b.wire(run, "traveler-1" + tail, colours[0], Role::traveler),
            b.wire(run, "traveler-2" + tail, colours[1], Role::traveler)};
}

void land_sources(Builder& b, const Pair& pair, Node first, Node second) {
    b.land(pair[0].source, first);
    b.land(pair[1].source, second);
}

void land_loads(Builder& b, const Pair& pair, Node first, Node second) {
    b.land(pair[0].load, first);
    b.land(pair[1].load, second);
}

Arrangement three_way_light_after() {
    Builder b{
        "three-way-feed-at-s1-light-after-s2", "Three-way pair, feed at S1, light after S2",
        "Hot goes to the common of S1, two travelers to S2, the switch leg from the common of S2 to the light; the "
        "neutral is spliced through both switch boxes."};
    const auto one = b.box("S1 box");
    const auto two = b.box("S2 box");
    const auto up = b.box("light box");
    const auto feed = b.feed(one);
    const auto between = b.cable(one, two, 3);
    const auto pair = travelers(b, between, "", {Colour::black, Colour::red});
    const auto neutral_1 = b.wire(between, "neutral-to-s2", Colour::white, Role::neutral);
    const auto last = b.cable(two, up, 2);
    const auto leg = b.wire(last, "switch-leg", Colour::black, Role::switch_leg);
    const auto neutral_2 = b.wire(last, "light-neutral", Colour::white, Role::neutral);
    const auto s1 = b.wall_switch("S1", one, SwitchKind::three_way);
    const auto s2 = b.wall_switch("S2", two, SwitchKind::three_way);
    const auto light = b.lamp("light", up);
    b.land(feed.hot.load, s1[0]);
    land_sources(b, pair, s1[1], s1[2]);
    land_loads(b, pair, s2[1], s2[2]);
    b.land(leg.source, s2[0]);
    b.splice(one, {feed.neutral.load, neutral_1.source});
    b.splice(two, {neutral_1.load, neutral_2.source});
    b.splice(up, {leg.load, light.hot});
    b.splice(up, {neutral_2.load, light.neutral});
    return b.done();
}

Arrangement three_way_dead_end() {
    Builder b{"three-way-feed-at-light-dead-end", "Three-way pair at a dead end, feed at the light",
              "Feed at the light; hot goes down on a re-marked white to the common of S1, travelers on to S2, and the "
              "switch leg comes back from S2 through the box of S1 to the light."};
    const auto up = b.box("light box");
    const auto one = b.box("S1 box");
    const auto two = b.box("S2 box");
    const auto feed = b.feed(up);
    const auto down = b.cable(up, one, 2);
    const auto hot = b.wire(down, "hot-to-s1", Colour::remarked_white, Role::feed);
    const auto leg_up = b.wire(down, "switch-leg-to-light", Colour::black, Role::switch_leg, Way::back);
    const auto between = b.cable(one, two, 3);
    const auto pair = travelers(b, between, "", {Colour::red, Colour::remarked_white});
    const auto leg = b.wire(between, "switch-leg-from-s2", Colour::black, Role::switch_leg, Way::back);
    const auto s1 = b.wall_switch("S1", one, SwitchKind::three_way);
    const auto s2 = b.wall_switch("S2", two, SwitchKind::three_way);
    const auto light = b.lamp("light", up);
    b.splice(up, {feed.hot.load, hot.source});
    b.land(hot.load, s1[0]);
    land_sources(b, pair, s1[1], s1[2]);
    land_loads(b, pair, s2[1], s2[2]);
    b.land(leg.source, s2[0]);
    b.splice(one, {leg.load, leg_up.source});
    b.splice(up, {leg_up.load, light.hot});
    b.splice(up, {feed.neutral.load, light.neutral});
    return b.done();
}

Arrangement three_way_middle() {
    Builder b{
        "three-way-feed-and-light-in-middle", "Three-way pair, feed and light in the middle",
        "Feed and light share the middle box; hot goes on to S1, the travelers pass back through the middle box to "
        "S2, and the switch leg returns from S2."};
    const auto up = b.box("light box");
    const auto one = b.box("S1 box");
    const auto two = b.box("S2 box");
    const auto feed = b.feed(up);
    const auto left = b.cable(up, one, 3);
    const auto hot = b.wire(left, "hot-to-s1", Colour::remarked_white, Role::feed);
    const Pair from_s1{b.wire(left, "traveler-1-from-s1", Colour::black, Role::traveler, Way::back),
                       b.wire(left, "traveler-2-from-s1", Colour::red, Role::traveler, Way::back)};
    const auto right = b.cable(up, two, 3);
    const auto to_s2 = travelers(b, right, "to-s2", {Colour::black, Colour::remarked_white});
    const auto leg = b.wire(right, "switch-leg", Colour::red, Role::switch_leg, Way::back);
    const auto s1 = b.wall_switch("S1", one, SwitchKind::three_way);
    const auto s2 = b.wall_switch("S2", two, SwitchKind::three_way);
    const auto light = b.lamp("light", up);
    b.splice(up, {feed.hot.load, hot.source});
    b.land(hot.load, s1[0]);
    land_sources(b, from_s1, s1[1], s1[2]);
    b.splice(up, {from_s1[0].load, to_s2[0].source});
    b.splice(up, {from_s1[1].load, to_s2[1].source});
    land_loads(b, to_s2, s2[1], s2[2]);
    b.land(leg.source, s2[0]);
    b.splice(up, {leg.load, light.hot});
    b.splice(up, {feed.neutral.load, light.neutral});
    return b.done();
}

Arrangement three_way_light_between() {
    Builder b{"three-way-feed-at-s1-light-between", "Three-way pair, feed at S1, light between the switches",
              "Travelers and neutral go from S1 to the light box; the travelers pass through to S2 and the switch leg "
              "comes back from S2 to the light."};
    const auto one = b.box("S1 box");
    const auto up = b.box("light box");
    const auto two = b.box("S2 box");
    const auto feed = b.feed(one);
    const auto left = b.cable(one, up, 3);
    const auto from_s1 = travelers(b, left, "from-s1", {Colour::black, Colour::red});
    const auto neutral = b.wire(left, "light-neutral", Colour::white, Role::neutral);
    const auto right = b.cable(up, two, 3);
    const auto to_s2 = travelers(b, right, "to-s2", {Colour::black, Colour::remarked_white});
    const auto leg = b.wire(right, "switch-leg", Colour::red, Role::switch_leg, Way::back);
    const auto s1 = b.wall_switch("S1", one, SwitchKind::three_way);
    const auto s2 = b.wall_switch("S2", two, SwitchKind::three_way);
    const auto light = b.lamp("light", up);
    b.land(feed.hot.load, s1[0]);
    b.splice(one, {feed.neutral.load, neutral.source});
    land_sources(b, from_s1, s1[1], s1[2]);
    b.splice(up, {from_s1[0].load, to_s2[0].source});
    b.splice(up, {from_s1[1].load, to_s2[1].source});
    land_loads(b, to_s2, s2[1], s2[2]);
    b.land(leg.source, s2[0]);
    b.splice(up, {leg.load, light.hot});
    b.splice(up, {neutral.load, light.neutral});
    return b.done();
}

Arrangement four_way_light_after() {
    Builder b{
        "four-way-feed-at-s1-light-after-s3", "Two three-ways and a four-way, feed at S1, light after S3",
        "Hot to the common of S1, travelers through the four-way S2 to S3, switch leg from the common of S3 to the "
        "light; the neutral is spliced through all switch boxes."};
    const auto one = b.box("S1 box");
    const auto two = b.box("S2 box");
    const auto three = b.box("S3 box");
    const auto up = b.box("light box");
    const auto feed = b.feed(one);
    const auto first = b.cable(one, two, 3);
    const auto in = travelers(b, first, "s1-to-s2", {Colour::black, Colour::red});
    const auto neutral_1 = b.wire(first, "neutral-to-s2", Colour::white, Role::neutral);
    const auto second = b.cable(two, three, 3);
    const auto out = travelers(b, second, "s2-to-s3", {Colour::black, Colour::red});
    const auto neutral_2 = b.wire(second, "neutral-to-s3", Colour::white, Role::neutral);
    const auto last = b.cable(three, up, 2);
    const auto leg = b.wire(last, "switch-leg", Colour::black, Role::switch_leg);
    const auto neutral_3 = b.wire(last, "light-neutral", Colour::white, Role::neutral);
    const auto s1 = b.wall_switch("S1", one, SwitchKind::three_way);
    const auto s2 = b.wall_switch("S2", two, SwitchKind::four_way);
    const auto s3 = b.wall_switch("S3", three, SwitchKind::three_way);
    const auto light = b.lamp("light", up);
    b.land(feed.hot.load, s1[0]);
    land_sources(b, in, s1[1], s1[2]);
    land_loads(b, in, s2[0], s2[1]);
    land_sources(b, out, s2[2], s2[3]);
    land_loads(b, out, s3[1], s3[2]);
    b.land(leg.source, s3[0]);
    b.splice(one, {feed.neutral.load, neutral_1.source});
    b.splice(two, {neutral_1.load, neutral_2.source});
    b.splice(three, {neutral_2.load, neutral_3.source});
    b.splice(up, {leg.load, light.hot});
    b.splice(up, {neutral_3.load, light.neutral});
    return b.done();
}

Arrangement four_way_dead_end() {
    Builder b{
        "four-way-feed-at-light-dead-end", "Two three-ways and a four-way at a dead end, feed at the light",
        "Feed at the light; hot goes down to S1, travelers through the four-way S2 to S3, and the switch leg comes "
        "back through all the switch boxes."};
    const auto up = b.box("light box");
    const auto one = b.box("S1 box");
    const auto two = b.box("S2 box");
    const auto three = b.box("S3 box");
    const auto feed = b.feed(up);
    const auto down = b.cable(up, one, 2);
    const auto hot = b.wire(down, "hot-to-s1", Colour::remarked_white, Role::feed);
    const auto leg_3 = b.wire(down, "switch-leg-to-light", Colour::black, Role::switch_leg, Way::back);
    const auto first = b.cable(one, two, 3);
    const auto in = travelers(b, first, "s1-to-s2", {Colour::red, Colour::remarked_white});
    const auto leg_2 = b.wire(first, "switch-leg-s2-to-s1", Colour::black, Role::switch_leg, Way::back);
    const auto second = b.cable(two, three, 3);
    const auto out = travelers(b, second, "s2-to-s3", {Colour::red, Colour::remarked_white});
    const auto leg_1 = b.wire(second, "switch-leg-s3-to-s2", Colour::black, Role::switch_leg, Way::back);
    const auto s1 = b.wall_switch("S1", one, SwitchKind::three_way);
    const auto s2 = b.wall_switch("S2", two, SwitchKind::four_way);
    const auto s3 = b.wall_switch("S3", three, SwitchKind::three_way);
    const auto light = b.lamp("light", up);
    b.splice(up, {feed.hot.load, hot.source});
    b.land(hot.load, s1[0]);
    land_sources(b, in, s1[1], s1[2]);
    land_loads(b, in, s2[0], s2[1]);
    land_sources(b, out, s2[2], s2[3]);
    land_loads(b, out, s3[1], s3[2]);
    b.land(leg_1.source, s3[0]);
    b.splice(two, {leg_1.load, leg_2.source});
    b.splice(one, {leg_2.load, leg_3.source});
    b.splice(up, {leg_3.load, light.hot});
    b.splice(up, {feed.neutral.load, light.neutral});
    return b.done();
}

}  // namespace

std::vector<Arrangement> multi_point_arrangements() {
    return {three_way_light_after(),   three_way_dead_end(),   three_way_middle(),
            three_way_light_between(), four_way_light_after(), four_way_dead_end()};
}

}  // namespace trade::switching
