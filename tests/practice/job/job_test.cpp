#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <set>
#include <string>

#include "content/compose.hpp"
#include "jobs_shipped.hpp"
#include "practice/job/reminder.hpp"
#include "practice/stakes_weight.hpp"

namespace {

using practice::JobBrief;
using shipped_jobs::brief;

bool has(const JobBrief& found, const std::string& id) {
    return std::any_of(found.points.begin(), found.points.end(),
                       [&](const practice::JobPoint& p) { return p.point->id.text == id; });
}

std::vector<std::string> ids(const std::vector<const content::Job*>& jobs) {
    std::vector<std::string> list;
    for (const auto* job : jobs) list.push_back(job->id);
    return list;
}

std::vector<std::string> named(const std::string& words) {
    return ids(practice::jobs_named(shipped_jobs::jobs(), words));
}

std::size_t rank(const JobBrief& found, const std::string& id) {
    const auto at = std::find_if(found.points.begin(), found.points.end(),
                                 [&](const practice::JobPoint& p) { return p.point->id.text == id; });
    return static_cast<std::size_t>(at - found.points.begin());
}

/// What somebody who knows the trade would look for first.
const std::map<std::string, std::vector<std::string>>& obvious() {
    static const std::map<std::string, std::vector<std::string>> kObvious = {
        {"kitchen remodel",
         {"gfci.kitchen", "outlet.small-appliance", "dual.kitchen-laundry", "outlet.wall-counter", "outlet.island"}},
        {"bath remodel",
         {"gfci.bath", "outlet.bath-circuit", "outlet.bath-basin", "outlet.tub-luminaire", "outlet.tub-receptacle"}},
        {"replace a bath fan", {"appl.bath-fan", "outlet.bath-circuit"}},
        {"detached garage feeder",
         {"ground.outbuilding", "serv.building-disconnect", "gfci.garage", "wire.burial-depth",
          "outlet.garage-circuit"}},
        {"wire a garage", {"gfci.garage", "outlet.garage-basement", "outlet.garage-circuit", "mot.door-operator"}},
        {"shed", {"ground.outbuilding", "wire.burial-depth", "serv.building-disconnect"}},
        {"hot tub", {"practice.spa", "pool.disconnect", "pool.hot-tub-bond"}},
        {"swimming pool",
         {"pool.bonding", "pool.bonded-parts", "pool.perimeter", "pool.water-bond", "practice.pool-receptacle"}},
        {"pool pump", {"practice.pool-pump", "pool.bonded-parts"}},
        {"jetted tub", {"pool.hydromassage", "gfci.bath"}},
        {"panel change", {"surge.service", "emergency.disconnect", "ground.neutral-once", "space.depth"}},
        {"subpanel", {"ground.neutral-once", "cond.feeder", "space.width-height"}},
        {"service upgrade", {"surge.service", "emergency.disconnect", "ground.main-jumper", "ground.electrode-system"}},
        {"ground rod", {"ground.rods", "ground.gec-size", "ground.electrode-clamp", "ground.water-pipe-electrode"}},
        {"EV charger", {"ev.continuous", "ev.individual", "ev.load-calc", "gfci.ev"}},
        {"sump pump", {"gfci.basement", "gfci.appliances", "mot.pump-trips"}},
        {"well pump", {"bond.well-casing", "motor.overload"}},
        {"attic lighting", {"outlet.lighting-attic", "wire.attic", "safe.attic"}},
        {"crawl space", {"gfci.crawl-receptacle", "gfci.crawl-light", "wire.nm-exposed", "safe.crawl-space"}},
        {"finish basement", {"gfci.basement", "dual.basement", "outlet.garage-basement"}},
        {"water heater", {"appl.water-heater", "appl.disconnect-large", "repair.water-heater"}},
        {"dryer", {"ground.range-dryer", "load.dryers", "gfci.laundry"}},
        {"laundry room", {"gfci.laundry", "outlet.laundry", "dual.kitchen-laundry"}},
        {"electric range", {"ground.range-dryer", "load.one-range", "branch.range-circuit"}},
        {"dishwasher", {"gfci.dishwasher", "appl.dishwasher-cord", "appl.disposer-cord"}},
        {"ceiling fan", {"box.fan", "lum.fan-control"}},
        {"recessed lights", {"lum.recessed-clearance", "lum.thermal-protector"}},
        {"new light fixture", {"ground.old-luminaire", "box.luminaire", "lum.lamp-wattage"}},
        {"closet light", {"outlet.closet-luminaire", "lum.closet-storage"}},
        {"outdoor receptacle", {"gfci.outdoor", "weather.covers", "weather.wr", "outlet.outdoor"}},
        {"landscape lighting", {"lum.low-voltage", "wire.burial-depth", "lum.trees"}},
        {"trench", {"wire.burial-depth", "cable.backfill", "cable.dig-safe", "safe.trench"}},
        {"replace receptacles", {"gfci.replacement", "afci.replacement", "outlet.replace-ungrounded", "replace.types"}},
        {"add an outlet", {"afci.extension", "practice.no-ground-extension", "box.fill-conductors"}},
        {"GFCI tripping", {"trouble.gfci-afci", "repair.gfci-sum", "gfci.testing"}},
        {"breaker tripping", {"trouble.breaker-trips", "afci.trouble", "repair.by-halves"}},
        {"half the house is dead", {"repair.half-house", "trouble.service-neutral"}},
        {"smart switch", {"switch.neutral-at-box", "switch.dimmers"}},
        {"three-way switch", {"switch.three-way", "switch.three-way-interchange"}},
        {"air conditioner",
         {"mot.ac-sight", "cooling.conductor", "cooling.device", "gfci.outdoor-outlets", "outlet.service"}},
        {"window unit", {"mot.room-ac-share", "mot.room-ac-cord"}},
        {"furnace", {"mot.furnace", "appl.furnace-extras"}},
        {"baseboard heater", {"appl.heat-disconnect", "appl.baseboard-receptacle", "ctl.line-thermostat"}},
        {"floor heat", {"appl.floor-heat"}},
        {"standby generator", {"standby.backfeed", "standby.neutral", "standby.location"}},
        {"solar panels", {"solar.rapid-shutdown", "solar.busbar", "solar.daylight"}},
        {"home battery", {"solar.storage-place", "solar.storage-shutdown"}},
        {"smoke alarms", {"branch.smoke-alarms", "afci.smoke", "ctl.smoke-link"}},
        {"doorbell", {"ctl.doorbell", "ctl.class2-apart"}},
        {"knob and tube", {"wire.old-wiring", "ground.old-circuits", "repair.cloth-wire"}},
        {"aluminum wiring", {"wire.aluminum-copper", "repair.aluminum"}},
        {"room addition", {"outlet.wall-spacing", "afci.rooms", "outlet.lighting-rooms"}},
        {"rough in", {"wire.bored-hole", "wire.nm-support", "box.free-length"}},
        {"temp power", {"gfci.temporary", "safe.site-gfci"}},
        {"conduit", {"support.emt", "wire.bends", "cond.raceway-fill"}},
        {"office", {"gfci.business-places", "branch.meeting-room"}},
        {"restaurant", {"gfci.business-places", "appl.kitchen-demand", "appl.hood-shutdown"}},
        {"exit sign", {"standby.unit-lights", "lum.emergency"}},
        {"troffer", {"lum.disconnect", "lum.support"}},
        {"sign", {"branch.sign-outlet", "special.sign-disconnect"}},
        {"motor", {"motor.table-current", "motor.overload", "mot.sight"}},
        {"transformer", {"trans.bond-place", "trans.electrode", "trans.primary-only"}},
        {"mobile home", {"special.mobile-home"}},
        {"flooded basement", {"repair.flooded", "cable.flooded"}},
        {"surge protector", {"surge.service", "surge.device", "serv.surge-fit"}},
    };
    return kObvious;
}

}  // namespace

TEST_CASE("job: each shipped job finds at least six points, under every name and edition") {
    for (const auto edition : trade::kEditions)
        for (const auto& job : shipped_jobs::jobs()) {
            const auto found = brief(job.words.front(), edition);
            CAPTURE(job.id);
            CAPTURE(trade::to_text(edition));
            CHECK(std::find(found.jobs.begin(), found.jobs.end(), &job) != found.jobs.end());
            CHECK(found.points.size() >= 6);
            CHECK_FALSE(found.reminder.rules.empty());
        }
    for (const auto& job : shipped_jobs::jobs())
        for (const auto& words : job.words) CHECK_MESSAGE(brief(words).points.size() >= 6, words);
}

TEST_CASE("job: every shipped job is named by each of its names") {
    for (const auto& job : shipped_jobs::jobs())
        for (const auto& words : job.words) {
            const auto jobs = named(words);
            CHECK_MESSAGE(std::find(jobs.begin(), jobs.end(), job.id) != jobs.end(), job.id, ": ", words);
        }
}

TEST_CASE("job: the obvious points are among those found") {
    std::set<std::string> reached;
    for (const auto& [words, wanted] : obvious()) {
        const auto found = brief(words);
        for (const auto* job : found.jobs) reached.insert(job->id);
        for (const auto& id : wanted) CHECK_MESSAGE(has(found, id), words, " lacks ", id);
    }
    for (const auto& job : shipped_jobs::jobs())
        CHECK_MESSAGE(reached.contains(job.id), job.id, " has no obvious points");
}

TEST_CASE("job: the first points of some jobs are those that everybody would name first") {
    CHECK(rank(brief("kitchen remodel"), "gfci.kitchen") == 0);
    CHECK(rank(brief("hot tub"), "practice.spa") == 0);
    CHECK(rank(brief("replace a bath fan"), "appl.bath-fan") < 3);
    CHECK(rank(brief("ceiling fan"), "box.fan") == 0);
    CHECK(rank(brief("temporary power"), "gfci.temporary") < 2);
}

TEST_CASE("job: longer names win over shorter ones within them, in any order and form of the words") {
    CHECK(named("detached garage feeder") == std::vector<std::string>{"detached-garage-feeder"});
    CHECK(named("Feeders for the detached garages") == std::vector<std::string>{"detached-garage-feeder"});
    CHECK(named("garage") == std::vector<std::string>{"garage"});
    CHECK(named("solar panels") == std::vector<std::string>{"solar"});
    CHECK(named("remodeling two kitchens") == std::vector<std::string>{"kitchen-remodel"});
    CHECK(named("replace a bath fan") == std::vector<std::string>{"bath-fan"});
    auto both = named("kitchen remodel and a hot tub");
    std::sort(both.begin(), both.end());
    CHECK(both == std::vector<std::string>{"hot-tub", "kitchen-remodel"});
    CHECK(named("nothing of the kind").empty());
    CHECK(named("").empty());
}

TEST_CASE("job: words of no shipped job still find points, and what is not found is said") {
    const auto found = brief("torque");
    CHECK(found.jobs.empty());
    CHECK_FALSE(found.points.empty());
    const auto none = brief("zzyzx quux");
    CHECK(none.points.empty());
    CHECK(none.drill.empty());
    CHECK(none.reminder.rules.empty());
    CHECK(none.unmatched == std::vector<std::string>{"zzyzx", "quux"});
    const auto part = brief("kitchen zzyzx");
    CHECK(part.unmatched == std::vector<std::string>{"zzyzx"});
    CHECK(has(part, "gfci.kitchen"));
    const auto slip = brief("genrator");
    CHECK(std::find(slip.nearest.begin(), slip.nearest.end(), "Generator and transfer") != slip.nearest.end());
}

TEST_CASE("job: facts stated with the words decide which rules fire") {
    practice::JobFor what;
    what.words = {"location=crawl-space", "outlet_kind=lighting", "occupancy=dwelling", "volts=120",
                  "volts_to_ground=120"};
    const auto found = practice::brief_job(shipped_jobs::source(), shipped_jobs::jobs(), what);
    REQUIRE(found);
    CHECK(found->jobs.empty());
    CHECK(has(*found, "gfci.crawl-light"));
    CHECK_FALSE(has(*found, "gfci.kitchen"));
    what.words = {"kitchen", "loc=x", "volts=many"};
    const auto refused = practice::brief_job(shipped_jobs::source(), shipped_jobs::jobs(), what);
    REQUIRE_FALSE(refused);
    CHECK(refused.error().size() >= 2);
    what.words = {};
    CHECK_FALSE(practice::brief_job(shipped_jobs::source(), shipped_jobs::jobs(), what));
    what.words = {"  "};
    CHECK_FALSE(practice::brief_job(shipped_jobs::source(), shipped_jobs::jobs(), what));
}

TEST_CASE("job: every point found has a reason, a version of the edition, and none of the tags ruled out") {
    for (const auto edition : trade::kEditions)
        for (const auto& job : shipped_jobs::jobs()) {
            const auto found = brief(job.words.front(), edition);
            CAPTURE(job.id);
            std::set<base::PointId> seen;
            double before = 1e9;
            for (const auto& point : found.points) {
                CHECK(seen.insert(point.point->id).second);
                CHECK_FALSE(point.reasons.empty());
                CHECK(point.version == point.point->version(edition));
                CHECK(point.bearing > 0.0);
                CHECK(point.weight == doctest::Approx(point.bearing * practice::stakes_weight(point.point->stakes)));
                CHECK(point.weight <= before);
                before = point.weight;
                if (found.jobs.size() != 1) continue;
                for (const auto& tag : found.jobs.front()->without)
                    CHECK(std::find(point.point->tags.begin(), point.point->tags.end(), tag) ==
                          point.point->tags.end());
            }
        }
}

TEST_CASE("job: what those who go have forgotten comes forward, and nothing else moves past it") {
    const auto plain = brief("kitchen remodel");
    for (const auto& chosen : plain.points) {
        practice::JobFor what;
        what.words = {"kitchen remodel"};
        what.seed = 1;
        what.weakness = {{chosen.point->id, 1.0}};
        const auto found = practice::brief_job(shipped_jobs::source(), shipped_jobs::jobs(), what).value();
        const auto now = rank(found, chosen.point->id.text);
        REQUIRE(now < found.points.size());
        CHECK(now <= rank(plain, chosen.point->id.text));
        CHECK(found.points[now].weight == doctest::Approx(2.0 * chosen.weight));
        what.weakness = {{chosen.point->id, 7.0}};  // counts as 1
        const auto over = practice::brief_job(shipped_jobs::source(), shipped_jobs::jobs(), what).value();
        CHECK(over.points[now].weight == doctest::Approx(2.0 * chosen.weight));
    }
}

TEST_CASE("job: the drill holds five minutes of points, each with a question, the same by seed") {
    const auto found = brief("kitchen remodel");
    CHECK(found.drill.size() == static_cast<std::size_t>(std::chrono::seconds{300} / practice::kDrillAsk));
    std::set<std::vector<std::string>> drills;
    for (base::Seed seed = 1; seed <= 40; ++seed) {
        const auto one = brief("kitchen remodel", trade::Edition::e2020, seed);
        const auto again = brief("kitchen remodel", trade::Edition::e2020, seed);
        CHECK(one.drill == again.drill);
        std::set<base::PointId> points;
        std::vector<std::string> list;
        for (const auto* point : one.drill) {
            CHECK(points.insert(point->id).second);
            CHECK(has(one, point->id.text));
            CHECK_FALSE(content::questions_for(*point, trade::Edition::e2020).empty());
            list.push_back(point->id.text);
        }
        drills.insert(list);
    }
    CHECK(drills.size() > 30);
}

TEST_CASE("job: the drill draws heavy points more often") {
    std::map<std::string, int> drawn;
    const auto found = brief("swimming pool");
    for (base::Seed seed = 1; seed <= 600; ++seed)
        for (const auto* point :
             practice::drill_of(found.points, trade::Edition::e2023, std::chrono::seconds{125}, seed))
            ++drawn[point->id.text];
    const auto third = found.points.size() / 3;
    int first = 0, last = 0;
    for (std::size_t i = 0; i < third; ++i) {
        first += drawn[found.points[i].point->id.text];
        last += drawn[found.points[found.points.size() - 1 - i].point->id.text];
    }
    CHECK(first > last);
    CHECK(practice::drill_of(found.points, trade::Edition::e2023, std::chrono::seconds{0}, 1).empty());
    CHECK(practice::drill_of({}, trade::Edition::e2023, std::chrono::seconds{300}, 1).empty());
}

TEST_CASE("job: the reminder says what the edition says, with a caution wherever somebody can be hurt") {
    for (const auto edition : trade::kEditions)
        for (const auto& job : shipped_jobs::jobs()) {
            const auto found = brief(job.words.front(), edition);
            CAPTURE(job.id);
            bool hurts = false;
            for (const auto& point : found.points) hurts = hurts || practice::stakes_weight(point.point->stakes) > 1.0;
            if (hurts) {
                REQUIRE_FALSE(found.reminder.cautions.empty());
                CHECK(found.reminder.cautions.front().find("lock out") != std::string::npos);
            }
            for (const auto& rule : found.reminder.rules) {
                const auto* version = shipped_jobs::contents().point(rule.point)->version(edition);
                REQUIRE(version != nullptr);
                CHECK(rule.says == version->says);
                CHECK(rule.article == version->article);
                CHECK(rule.unverified == version->unverified);
            }
            const std::set<std::string> once{found.reminder.mistakes.begin(), found.reminder.mistakes.end()};
            CHECK(once.size() == found.reminder.mistakes.size());
            CHECK_FALSE(once.contains(""));
        }
}

TEST_CASE("job: an edition's gap keeps its points out") {
    CHECK(has(brief("panel change", trade::Edition::e2023), "surge.service"));
    CHECK_FALSE(has(brief("panel change", trade::Edition::e2017), "surge.service"));  // 230.67 came in with 2020
}
