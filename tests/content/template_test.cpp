// The template that a shop copies for its own jurisdiction, laid over what is shipped.
#include <algorithm>
#include <set>

#include <doctest/doctest.h>

#include "content/check/check.hpp"
#include "content/trade_data.hpp"

namespace {

using Given = std::vector<std::pair<std::string, std::string>>;
using trade::Edition;

const std::string kTemplate = std::string{PROJECT_FOLDER} + "/docs/templates/jurisdiction";

const content::TradeData& data() {
    static const auto data = content::load_trade_data(std::vector<std::string>{PROJECT_FOLDER, kTemplate}).value();
    return data;
}

/// The rules that ask for GFCI in a case, in the 2023 edition; the facts have to settle it.
std::set<std::string> asking(const std::string& place, const std::string& day, const Given& given) {
    trade::CaseFacts facts{data().vocabulary()};
    const Given ordinary = {{"occupancy", "one-family-dwelling"},
                            {"work", "new"},
                            {"phases", "1"},
                            {"amps", "20"},
                            {"volts", "120"},
                            {"volts_to_ground", "120"}};
    for (const auto& list : {ordinary, given})
        for (const auto& [name, text] : list) REQUIRE(facts.set(name, std::string_view{text}).has_value());
    trade::Ruling ruling;
    const auto gfci = trade::ResultSet{1} << data().vocabulary().find_result("GFCI").value();
    data().book(Edition::e2023, place, day).judge(facts, gfci, ruling);
    CHECK(ruling.findings.empty());
    for (const auto fact : ruling.unknown) FAIL_CHECK("unknown: ", data().vocabulary().facts()[fact].name);
    std::set<std::string> rules;
    for (const auto& fired : ruling.fired) rules.insert(fired.rule->id);
    CHECK((ruling.requires_ != 0) == !rules.empty());
    return rules;
}

const Given kWellPump = {
    {"equipment", "well-pump"}, {"outlet_kind", "hard-wired"}, {"location", "utility-room"}, {"volts", "240"}};
const Given kMicrowave = {{"equipment", "microwave"}, {"outlet_kind", "hard-wired"}, {"location", "kitchen"}};
const Given kNearTub = {{"equipment", "none"},
                        {"outlet_kind", "receptacle"},
                        {"location", "bedroom"},
                        {"basement", "none"},
                        {"exposure", "dry"},
                        {"distance_to_tub_ft", "7"},
                        {"distance_to_tub_through_door_ft", "none"},
                        {"distance_to_sink_ft", "none"},
                        {"distance_to_sink_through_door_ft", "none"},
                        {"distance_to_pool_ft", "none"},
                        {"food_or_beverage_area", "no"},
                        {"required_for_servicing", "no"}};
const Given kHeatPump = {{"equipment", "heat-pump"},
                         {"outlet_kind", "hard-wired"},
                         {"location", "outdoors"},
                         {"volts", "240"},
                         {"amps", "40"},
                         {"listed_hvac", "no"}};

}  // namespace

TEST_CASE("template: laid over what is shipped it has no fault, and stands in the list of places") {
    const auto contents = content::load_contents(std::vector<std::string>{PROJECT_FOLDER, kTemplate});
    REQUIRE(contents.has_value());
    for (const auto& fault : content::check_contents(*contents))
        CHECK_MESSAGE(fault.file.find(kTemplate) == std::string::npos, base::to_text(fault));
    const auto* ours = data().jurisdiction("ours");
    REQUIRE(ours != nullptr);
    CHECK(ours->amendments.size() == 4);
    std::set<trade::Amendment::Action> actions;
    for (const auto& one : ours->amendments) actions.insert(one.action);
    CHECK(actions.size() == 4);
    CHECK(ours->edition_on(base::parse_instant("2026-11-25").value()) == Edition::e2023);
}

TEST_CASE("template: the rule that is added asks for something there and nowhere else") {
    CHECK(asking("", "2026-11-25", kWellPump).empty());
    CHECK(asking("ours", "2026-11-25", kWellPump) == std::set<std::string>{"ours.gfci.well-pump"});
}

TEST_CASE("template: the rule that is deleted asks for nothing there any more") {
    CHECK(asking("", "2026-11-25", kMicrowave) == std::set<std::string>{"gfci.appliance.microwave"});
    CHECK(asking("ours", "2026-11-25", kMicrowave).empty());
}

TEST_CASE("template: the rule that is replaced reaches farther, from its day on") {
    CHECK(asking("", "2026-11-25", kNearTub).empty());
    CHECK(asking("ours", "2024-12-31", kNearTub).empty());
    CHECK(asking("ours", "2025-01-01", kNearTub) == std::set<std::string>{"gfci.dwelling.tub"});
}

TEST_CASE("template: the rule that is delayed waits for its day") {
    CHECK(asking("", "2026-11-25", kHeatPump) == std::set<std::string>{"gfci.outdoor-outlets"});
    CHECK(asking("ours", "2026-12-31", kHeatPump).empty());
    CHECK(asking("ours", "2027-01-01", kHeatPump) == std::set<std::string>{"gfci.outdoor-outlets"});
}

TEST_CASE("invented places: each of their amendments changes the answer of a case") {
    const Given dryer = {{"equipment", "clothes-dryer"},
                         {"outlet_kind", "hard-wired"},
                         {"location", "utility-room"},
                         {"volts", "240"},
                         {"amps", "30"}};
    const Given sewage = {{"equipment", "sewage-pump"}, {"outlet_kind", "hard-wired"}, {"location", "utility-room"}};
    CHECK_FALSE(asking("", "2026-11-25", dryer).empty());
    CHECK(asking("alder-county", "2026-11-25", dryer).empty());
    CHECK(asking("alder-county", "2027-12-31", kHeatPump).empty());
    CHECK_FALSE(asking("alder-county", "2028-01-01", kHeatPump).empty());
    CHECK(asking("", "2026-11-25", sewage).empty());
    CHECK_FALSE(asking("port-linden", "2026-11-25", sewage).empty());
    CHECK_FALSE(asking("port-linden", "2026-11-25", kNearTub).empty());
}
