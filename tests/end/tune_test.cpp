#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "end/dialogue.hpp"

using namespace end;

namespace {

/// Ada, with the shipped content.
struct Shop : Place {
    Shop() : Place{kProject} { REQUIRE(run({"crew", "add", "Ada Volt", "--edition", "2023"}).exit == 0); }

    /// A session of sixty points given up, and their corrections.
    [[nodiscard]] Ended give_up_on(const std::string& day) const {
        std::string typed;
        for (int n = 0; n < 140; ++n) typed += "!\n";
        return run({"study", "--no-call", "--count", "60", "--seed", "3", "--now", day}, typed);
    }
    [[nodiscard]] std::optional<store::FitRun> latest() const {
        return store::Store{{store(), false, nullptr, 1}}.latest_fit();
    }
};

}  // namespace

TEST_CASE("tune: by itself when the log has grown, taken once the last answers can judge it, and taken back") {
    const Shop shop;
    const auto first = shop.give_up_on("2026-03-02T07:00Z");
    REQUIRE(first.exit == 0);
    REQUIRE(shop.latest().has_value());
    const auto answers = shop.latest()->answers;
    CHECK(answers >= 60);
    const auto second = shop.give_up_on("2026-03-05T07:00Z");
    CHECK(holds(second.out, "The recall model was fitted anew to"));
    REQUIRE(shop.latest()->kept);
    CHECK(shop.latest()->answers > answers + 50);
    CHECK(shop.latest()->log_loss < shop.latest()->prior_log_loss);

    // Somebody who knows nothing is foreseen to know little, where the shipped parameters expected more.
    const Words readiness = {"exam",      "readiness", "shop-basics", "--json",
                             "--minutes", "5",         "--now",       "2026-03-06T07:00Z"};
    const auto fitted = nlohmann::json::parse(shop.run(readiness).out);
    CHECK(fitted["today"]["right"].get<double>() < 3);
    CHECK(fitted["too_little"] == false);
    const Words show = {"crew", "show", "Ada Volt", "--json", "--now", "2026-03-06T07:00Z"};
    const auto after = shop.run(show).out;
    CHECK(shop.run({"tune", "--as-shipped"}).exit == 0);
    CHECK(shop.run(show).out != after);
    CHECK(holds(shop.run({"tune", "--now", "2026-03-06T07:00Z"}).out, "Taken:"));
    CHECK(shop.run(show).out == after);
}
