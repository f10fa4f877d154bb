#include <algorithm>
#include <ostream>
#include <thread>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "cli/context.hpp"
#include "cli/memory/progress.hpp"
#include "cli/whole_file.hpp"
#include "content/deck.hpp"
#include "practice/stakes_weight.hpp"
#include "report/memory/rehearsal_text.hpp"

namespace cli {
namespace {

using base::Exit;
using memory::rehearsal::Generator;
using memory::rehearsal::Plan;

std::vector<memory::rehearsal::NamedPolicy> policies_meant(const Context& context) {
    const auto& all = memory::rehearsal::policies();
    if (!context.has("--policy")) return all;
    // Rotation comes first, wanted or not: the others are measured against it.
    std::vector<memory::rehearsal::NamedPolicy> meant{all.front()};
    for (const auto& name : context.values("--policy"))
        if (name != all.front().name) meant.push_back(*memory::rehearsal::find_policy(name));
    return meant;
}

Plan plan_meant(const Context& context) {
    using content::Stakes;
    Plan plan;
    plan.crowd.learners = static_cast<std::size_t>(context.number("--learners", 40, 2, 100'000));
    plan.crowd.points = static_cast<std::size_t>(context.number("--points", 200, 1, 10'000));
    plan.crowd.share_known = static_cast<double>(context.number("--known", 40, 0, 100)) / 100.0;
    plan.crowd.by_family = context.value("--spread") == "families";
    if (context.has("--stakes"))
        for (const auto stakes : {Stakes::shock, Stakes::fire, Stakes::inspection, Stakes::paperwork})
            plan.crowd.weights.push_back(practice::stakes_weight(stakes));
    plan.days = static_cast<std::size_t>(context.number("--days", 60, 1, 730));
    plan.seconds_a_day = 60.0 * static_cast<double>(context.number("--minutes", 8, 1, 240));
    plan.day_off = static_cast<double>(context.number("--days-off", 0, 0, 90)) / 100.0;
    plan.seed = static_cast<base::Seed>(context.number("--seed", 1, 0, INT64_MAX));
    plan.policies = policies_meant(context);
    plan.threads = std::max(1U, std::thread::hardware_concurrency());
    return plan;
}

std::vector<report::Rehearsed> play(const Context& context, const Plan& plan) {
    const std::string wanted = context.value("--generator");
    std::vector<report::Rehearsed> all;
    if (wanted != "pools") all.push_back({"traces", plan, {}});
    if (wanted != "traces") all.push_back({"pools", plan, {}});
    Progress bar{context, "rehearsing"};
    for (std::size_t n = 0; n < all.size(); ++n) {
        all[n].plan.generator = all[n].generator == "traces" ? Generator::trace : Generator::pools;
        all[n].results = memory::rehearsal::rehearse(all[n].plan, [&](std::size_t done, std::size_t of) {
            bar.show((static_cast<double>(n) + static_cast<double>(done) / static_cast<double>(of)) /
                     static_cast<double>(all.size()));
        });
    }
    bar.clear();
    return all;
}

}  // namespace

Exit run_rehearse(Context& context) {
    const auto all = play(context, plan_meant(context));
    if (context.has("--csv"))
        write_whole(context.value("--csv"), [&](std::ostream& out) { out << report::rehearsal_csv(all); });
    if (context.has("--plot"))
        write_whole(context.value("--plot"), [&](std::ostream& out) { out << report::rehearsal_svg(all); });
    if (context.json())
        context.out() << report::rehearsal_json(all).dump(2) << '\n';
    else
        context.print(report::rehearsal_text(all, context.page()));
    return Exit::fine;
}

}  // namespace cli
