#include "base/fault.hpp"

#include <doctest/doctest.h>

TEST_CASE("fault: is told with its place, its kind and its mend") {
    const base::Fault whole{"decks/boxes.json", "/points/3", 12, "what", "mend", false};
    CHECK(base::to_text(whole) == "decks/boxes.json:12: /points/3: what; mend");
    CHECK(base::to_text({"a.json", "", 0, "what", "", true}) == "a.json: warning: what");
    CHECK(base::to_text({"", "", 7, "what", "mend", false}) == "what; mend");
}

TEST_CASE("fault: only more than a warning is an error") {
    const base::Fault warning{"", "", 0, "w", "", true};
    const base::Fault error{"", "", 0, "e", "", false};
    CHECK_FALSE(base::any_errors({}));
    CHECK_FALSE(base::any_errors({warning, warning}));
    CHECK(base::any_errors({warning, error}));
}

TEST_CASE("fault: a refusal carries one fault without a place") {
    const base::Checked<int> refused = base::refuse("no", "yes");
    REQUIRE_FALSE(refused.has_value());
    CHECK(refused.error() == base::Faults{{"", "", 0, "no", "yes", false}});
}
