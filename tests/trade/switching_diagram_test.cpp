#include "trade/switching/diagram.hpp"

#include <doctest/doctest.h>

#include <string>

#include "base/text.hpp"

namespace {

using namespace trade::switching;

std::size_t times(const std::string& text, const std::string& part) {
    std::size_t count = 0;
    for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size())) ++count;
    return count;
}

std::string drawn(const char* arrangement, const char* fault) {
    const auto* found = find_arrangement(arrangement);
    return diagram(*found, find_fault(*found, fault).value());
}

}  // namespace

TEST_CASE("switching diagram: no line is wider than 76 columns, whatever is wrong") {
    for (const auto& arrangement : arrangements()) {
        auto faults = faults_for(arrangement);
        faults.push_back(nothing_wrong());
        for (const auto& fault : faults)
            for (const auto& line : base::split(diagram(arrangement, fault), '\n')) {
                CAPTURE(arrangement.id);
                CAPTURE(fault.id);
                CAPTURE(line);
                CHECK(line.size() <= 76);
                if (!line.empty() && (line.front() == '|' || line.front() == '+')) CHECK(line.size() == 76);
            }
    }
}

TEST_CASE("switching diagram: every conductor stands in its cable and at both ends, every box and device is there") {
    for (const auto& arrangement : arrangements()) {
        CAPTURE(arrangement.id);
        const Picture picture = trade::switching::picture(arrangement);
        const std::string text = diagram(arrangement);
        for (const auto& box : arrangement.circuit.boxes) CHECK(times(text, "+-- " + box.name + " -") == 1);
        for (const auto& one : arrangement.circuit.switches) CHECK(times(text, one.name + ": ") == 1);
        for (const auto& one : arrangement.circuit.loads) CHECK(times(text, one.name + ": ") == 1);
        for (const auto& one : arrangement.circuit.conductors) {
            CAPTURE(one.name);
            std::size_t in = 0;
            std::size_t out = 0;
            std::size_t run = 0;
            for (const auto& box : picture.boxes) {
                for (const auto& joint : box.joints) {
                    for (const auto& label : joint.in) in += label.text == one.name ? 1 : 0;
                    for (const auto& label : joint.out) out += label.text == one.name ? 1 : 0;
                }
                if (!box.by) continue;
                for (const auto& label : box.by->conductors) run += label.text == one.name ? 1 : 0;
            }
            CHECK(in == 1);
            CHECK(out == 1);
            CHECK(run == 1);
        }
    }
}

TEST_CASE("switching diagram: every fault leaves its mark, a sound drawing has none") {
    for (const auto& arrangement : arrangements()) {
        CHECK(times(diagram(arrangement), "x ") == times(diagram(arrangement), "box "));
        for (const auto& fault : faults_for(arrangement)) {
            CAPTURE(arrangement.id);
            CAPTURE(fault.id);
            const std::string text = diagram(arrangement, fault);
            CHECK(text.ends_with("x = " + fault.title + "\n"));
            const std::string unnamed = diagram(arrangement, fault, false);
            CHECK(times(unnamed, "x = ") == 0);
            CHECK(times(unnamed, "| x ") + times(unnamed, "--x ") + times(unnamed, "[x ") + times(unnamed, "- x ") > 0);
        }
    }
}

TEST_CASE("switching diagram: a switch loop as drawn") {
    CHECK(drawn("single-pole-feed-at-light", "swapped-at-lampholder.light") ==
          R"(Single-pole switch, feed at the light (switch loop)
+-- panel -----------------------------------------------------------------+
|                              [neutral bar]------------- feed neutral wht |
|                                [breaker]------------------- feed hot blk |
|                                 [ground]------------------ ground 1 bare |
+--------------------------------------------------------------------------+
   ||  cable 1, panel to light box, 2-wire with ground:
   ||    feed hot black, feed neutral white, ground 1 bare
+-- light box -------------------------------------------------------------+
| light: lampholder between the black and the white lead                   |
| feed hot blk -------------------(splice)------------- hot to switch wht* |
| feed neutral wht ---------------(splice)                                 |
|                            [light white lead]                            |
|                                 (splice)----------------- switch leg blk |
|                            [light black lead]                            |
| ground 1 bare -------------[metal of the box]------------- ground 2 bare |
| x light: black lead on the screw shell, white on the centre contact      |
+--------------------------------------------------------------------------+
   ||  cable 2, light box to switch box, 2-wire with ground:
   ||    hot to switch white re-marked, switch leg black, ground 2 bare
+-- switch box ------------------------------------------------------------+
| S: single-pole switch, on joins the two screws                           |
| hot to switch wht* -------------[S line]                                 |
| switch leg blk -----------------[S load]                                 |
| ground 2 bare -------------[metal of the box]                            |
+--------------------------------------------------------------------------+
wht* = white, re-marked as a hot
x = Hot and neutral swapped at the lampholder of light
)");
}
