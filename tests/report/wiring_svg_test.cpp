#include "report/wiring_svg.hpp"

#include <doctest/doctest.h>

#include <string>
#include <vector>

namespace {

using namespace trade::switching;

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

/// True when every element that opens is closed in turn. Enough of a reader for what we write.
bool well_formed(const std::string& text) {
    std::vector<std::string> open;
    for (auto at = text.find('<'); at != std::string::npos; at = text.find('<', at + 1)) {
        const auto end = text.find('>', at);
        if (end == std::string::npos || text.find('<', at + 1) < end) return false;
        const std::string tag = text.substr(at + 1, end - at - 1);
        if (tag.ends_with("/")) continue;
        const std::string name = tag.substr(tag.front() == '/' ? 1 : 0, tag.find(' ') - (tag.front() == '/' ? 1 : 0));
        if (tag.front() != '/') {
            open.push_back(name);
            continue;
        }
        if (open.empty() || open.back() != name) return false;
        open.pop_back();
    }
    return open.empty();
}

}  // namespace

TEST_CASE("wiring svg: every drawing is closed, scales, and names each conductor with its colour in words") {
    for (const auto& arrangement : arrangements()) {
        auto faults = faults_for(arrangement);
        faults.push_back(nothing_wrong());
        for (const auto& fault : faults) {
            CAPTURE(arrangement.id);
            CAPTURE(fault.id);
            const std::string svg = report::wiring_svg(arrangement, fault);
            CHECK(well_formed(svg));
            CHECK(has(svg, "viewBox=\"0 0 360 "));
            CHECK(has(svg, "<title "));
            CHECK(has(svg, "<desc "));
            for (const auto& one : arrangement.circuit.conductors) {
                const bool remarked = one.colour == Colour::remarked_white;
                CHECK(has(svg, one.name + ", " + (remarked ? "white*" : std::string{to_text(one.colour)})));
            }
            if (fault.kind != FaultKind::none) CHECK(has(svg, ">x = "));
            if (fault.kind == FaultKind::none) CHECK_FALSE(has(svg, "class=\"x\""));
        }
    }
}

TEST_CASE("wiring svg: words of the drawing stay words") {
    Arrangement changed = *find_arrangement("single-pole-feed-at-switch");
    changed.title = "A & B <script> \"quoted\"";
    const std::string svg = report::wiring_svg(changed);
    CHECK(well_formed(svg));
    CHECK_FALSE(has(svg, "<script"));
    CHECK(has(svg, "A &amp; B &lt;script&gt; &quot;quoted&quot;"));
}

TEST_CASE("wiring svg: a reader that sees nothing hears what is joined with what, and the fault when it may be named") {
    const auto& arrangement = *find_arrangement("single-pole-feed-at-switch");
    const auto fault = find_fault(arrangement, "switch-leg-open.switch-leg").value();
    const std::string svg = report::wiring_svg(arrangement, fault);
    CHECK(has(svg, "In switch box: feed hot black with S line; "));
    CHECK(has(svg, "switch leg is open between switch box and light box."));
    CHECK(has(svg, "fault: Switch leg open"));
    CHECK_FALSE(has(report::wiring_svg(arrangement, fault, false), "fault: Switch leg open"));
}
