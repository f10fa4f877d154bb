#include <doctest/doctest.h>

#include "content/check/check.hpp"
#include "content/sample_trade.hpp"

namespace {

using sample_trade::tells;

/// A call that has a box worked out, with one ask to take apart.
const std::string kCall = R"json({
  "format": "greentag-scenarios/1", "family": "boxes-worked-out", "title": "Boxes", "mistakes": {"clamps": "Forgets the clamps.", "half": "Takes half."},
  "scenarios": [
    {"id": "call.box", "title": "A box", "tags": [], "editions": "2017-2026", "story": "{n} wires of 12 AWG enter a box.",
     "facts": {"n": {"from": 2, "to": 6, "step": 2}},
     "only": ["n < 6"],
     "asks": [
       {"id": "a", "point": "box.volume", "form": "number", "text": "What volume?", "places": 2, "within": 0.01,
        "compute": {"calculator": "box-fill",
                    "facts": {"conductors": "{n}x12", "grounds": "none", "devices": "none", "clamps": "yes"}},
        "mistakes": [{"facts": {"clamps": "no"}, "mistake": "clamps"}, {"as": "answer_number / 2", "mistake": "half"}],
        "why": "So many."}
     ]}
  ]
})json";

std::vector<std::string> found(const std::string& call) {
    return sample_trade::found(content::check_computed, call);
}

}  // namespace

TEST_CASE("computed calls: one that can be drawn, with paths that lead elsewhere, has no faults") {
    const auto lines = found(kCall);
    CHECK_MESSAGE(lines.empty(), (lines.empty() ? "" : lines.front()));
}

TEST_CASE("computed calls: one that can never be drawn is told with the reason") {
    using sample_rules::spoiled;
    CHECK(tells(found(spoiled(kCall, "n < 6", "n < 1")), "cannot be drawn under 2017: no draw meets \"only\""));
    CHECK(tells(found(spoiled(kCall, "\"grounds\": \"none\", ", "")), "#a: the calculator gives no 'answer'"));
    CHECK(tells(found(spoiled(kCall, "{n}x12", "{n}x13")), "cannot be drawn"));
}

TEST_CASE("computed calls: a mistake that leads nowhere, or to the right answer, is told") {
    using sample_rules::spoiled;
    CHECK(tells(found(spoiled(kCall, "{\"facts\": {\"clamps\": \"no\"}", "{\"facts\": {\"clips\": \"no\"}")),
                "the mistake 'clamps' leads nowhere: there is no fact 'clips'"));
    CHECK(tells(found(spoiled(kCall, "{\"facts\": {\"clamps\": \"no\"}", "{\"facts\": {\"clamps\": \"yes\"}")),
                "the mistake 'clamps' never leads to another answer"));
}
