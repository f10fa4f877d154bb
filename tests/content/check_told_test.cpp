#include <doctest/doctest.h>

#include "content/check/check.hpp"
#include "content/sample_trade.hpp"

namespace {

using sample_trade::tells;

/// A call that tells the wires by number, and the clamps in words that "only" ties to the fact.
const std::string kCall = R"json({
  "format": "greentag-scenarios/1", "family": "told", "title": "Told", "mistakes": {"half": "Takes half.", "twice": "Takes twice."},
  "scenarios": [
    {"id": "call.told", "title": "A box", "tags": [], "editions": "2017-2026",
     "story": "{n} wires of 12 AWG enter a box with {words}.",
     "facts": {"n": {"from": 2, "to": 6, "step": 1}, "clamps": {"choices": ["yes", "no"]},
               "words": {"choices": ["clamps inside", "clamps outside"]}, "twice": {"is": "{=2*n}"}},
     "only": ["(clamps = 'yes') = (words = 'clamps inside')"],
     "asks": [
       {"id": "a", "point": "box.volume", "form": "number", "text": "What volume?", "places": 2, "within": 0.01,
        "compute": {"calculator": "box-fill",
                    "facts": {"conductors": "{twice}x12", "grounds": "none", "devices": "none", "clamps": "{clamps}"}},
        "mistakes": [{"as": "answer_number / 2", "mistake": "half"}, {"as": "answer_number * 2", "mistake": "twice"}],
        "why": "So many."}
     ]}
  ]
})json";

std::vector<std::string> found(const std::string& call) {
    return sample_trade::found(content::check_told, call);
}

}  // namespace

TEST_CASE("told facts: a call that tells its facts, in numbers, sums or other words, has no faults") {
    const auto lines = found(kCall);
    CHECK_MESSAGE(lines.empty(), (lines.empty() ? "" : lines.front()));
}

TEST_CASE("told facts: an answer that hangs on what nobody tells is told with the fact") {
    using sample_rules::spoiled;
    CHECK(tells(found(spoiled(kCall, "{n} wires", "Wires")), "call.told#a: the answer hangs on the fact 'n'"));
    // The words are there still, but no longer tied to the fact.
    CHECK(tells(found(spoiled(kCall, "(clamps = 'yes') = (words = 'clamps inside')", "n > 0")),
                "hangs on the fact 'clamps'"));
    // Told in the question and not in the story will do.
    CHECK(found(spoiled(spoiled(kCall, "{n} wires", "Wires"), "What volume?", "What volume for {n}?")).empty());
}

TEST_CASE("told facts: a fact that changes nothing in the answer need not be told") {
    using sample_rules::spoiled;
    CHECK(found(spoiled(kCall, "\"clamps\": \"{clamps}\"", "\"clamps\": \"yes\", \"volume\": \"{n}0\"")).empty());
}
