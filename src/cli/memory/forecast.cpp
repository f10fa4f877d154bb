#include <fstream>
#include <ostream>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "cli/context.hpp"
#include "cli/memory/histories.hpp"
#include "memory/fit/assessment.hpp"
#include "memory/fit/belief.hpp"
#include "report/memory/tuning_json.hpp"
#include "report/rounded.hpp"

namespace cli {
namespace {

using base::Exit;
using base::Failure;
using memory::Belief;
using nlohmann::ordered_json;

constexpr std::size_t kDraws = 100;
constexpr double kLongestDays = 365'000.0;

void read_file(Histories& histories, const std::string& path) {
    std::ifstream in{path, std::ios::binary};
    if (!in) throw Failure{Exit::no_input, path + ": cannot be read", "check that it is there and readable"};
    for (std::string text; std::getline(in, text);) histories.add(text);
    if (in.bad()) throw Failure{Exit::io_error, path + ": reading failed half way", "try again"};
}

Histories read(const Context& context) {
    Histories histories;
    const std::string path = context.value("FILE");
    if (!path.empty() && path != "-")
        read_file(histories, path);
    else
        while (const auto text = context.world().input->line()) histories.add(*text);
    histories.settle();
    return histories;
}

ordered_json error_json(const base::Fault& fault) {
    return {{"line", fault.line}, {"pointer", fault.pointer}, {"what", fault.what}, {"mend", fault.mend}};
}

ordered_json half_life_json(double days) {
    return days < kLongestDays ? ordered_json(report::rounded<6>(days)) : ordered_json(nullptr);
}

ordered_json forecast_json(const Histories& histories, const Histories::Line& line, const Belief& belief) {
    ordered_json all = ordered_json::array();
    for (std::size_t n = 0; n < line.times.size(); ++n) {
        const auto state = histories.state(line.learner, line.point, line.times[n]);
        const memory::Asked asked{line.learner, line.point, 0};
        const auto chance = belief.recall(state, line.times[n], asked);
        ordered_json one;
        one["at"] = ordered_json::parse(line.times_as_given[n]);
        one["answers"] = state.answers();
        one["recall"] = report::rounded<6>(chance.middle);
        one["low"] = report::rounded<6>(chance.low);
        one["high"] = report::rounded<6>(chance.high);
        one["half_life_days"] = half_life_json(memory::half_life_days(state, belief.most_probable(asked)));
        all.push_back(std::move(one));
    }
    return all;
}

/// The answers to learn from, by number: none with the shipped parameters alone.
memory::Observations to_learn_from(const Context& context, const Histories& histories) {
    if (context.has("--as-shipped")) return memory::observe({}, histories.learners(), histories.family_of_point());
    return part(memory::observe(histories.answers(), histories.learners(), histories.family_of_point()), false);
}

void write_score(const Context& context, const Histories& histories) {
    const auto all = memory::observe(histories.answers(), histories.learners(), histories.family_of_point());
    const auto assessment = memory::assess(memory::try_out(all, memory::shipped_priors()));
    ordered_json score = report::assessment_json(assessment);
    score["repeated"] = histories.repeated();
    context.out() << ordered_json{{"score", score}}.dump() << '\n';
}

}  // namespace

Exit run_forecast(Context& context) {
    const Histories histories = read(context);
    const Belief belief{to_learn_from(context, histories), memory::shipped_priors(), kDraws,
                        static_cast<base::Seed>(context.number("--seed", 1, 0, INT64_MAX))};
    bool all_read = true;
    for (const auto& line : histories.lines()) {
        ordered_json out;
        out["id"] = ordered_json::parse(line.id);
        if (line.faults.empty())
            out["forecast"] = forecast_json(histories, line, belief);
        else
            out["error"] = error_json(line.faults.front());
        all_read = all_read && line.faults.empty();
        context.out() << out.dump() << '\n';
    }
    if (context.has("--score")) write_score(context, histories);
    return all_read ? Exit::fine : Exit::bad_data;
}

}  // namespace cli
