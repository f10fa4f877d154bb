#include "report/memory/items_json.hpp"

#include <cmath>
#include <string_view>

#include <nlohmann/json.hpp>

#include "memory/items/flag_words.hpp"

namespace report {
namespace {

using memory::ItemFlag;
using nlohmann::ordered_json;

ordered_json number(double value) {
    return std::isfinite(value) ? ordered_json(std::round(value * 1e6) / 1e6) : ordered_json(nullptr);
}

ordered_json interval_json(const memory::Interval& interval) {
    return {{"estimate", number(interval.estimate)}, {"low", number(interval.low)}, {"high", number(interval.high)}};
}

ordered_json logistic_json(const memory::LogisticItem& item) {
    if (!item.estimated) return nullptr;
    return {{"slope", number(item.slope)},
            {"slope_error", number(item.slope_error)},
            {"intercept", number(item.intercept)},
            {"intercept_error", number(item.intercept_error)},
            {"difficulty", item.difficulty ? number(*item.difficulty) : ordered_json(nullptr)},
            {"difficulty_error", number(item.difficulty_error)}};
}

std::string_view flag_name(ItemFlag flag) {
    switch (flag) {
        case ItemFlag::weaker_do_better:
            return "weaker_do_better";
        case ItemFlag::wrong_draws_better:
            return "wrong_draws_better";
        case ItemFlag::too_easy:
            return "too_easy";
        case ItemFlag::too_hard:
            return "too_hard";
        case ItemFlag::option_unused:
            return "option_unused";
        case ItemFlag::guessed_fast:
            return "guessed_fast";
        case ItemFlag::too_few:
            return "too_few";
    }
    return "";
}

ordered_json times_json(const memory::Times& times) {
    return {{"n", times.n},
            {"lower", number(times.lower)},
            {"median", number(times.median)},
            {"upper", number(times.upper)}};
}

ordered_json options_json(const practice::Item& item, const memory::ItemSummary& summary) {
    ordered_json options = ordered_json::array();
    for (const auto& use : summary.options) {
        const auto place = static_cast<std::size_t>(use.option);
        options.push_back({{"text", place < item.options.size() ? item.options[place] : ""},
                           {"right", use.option == 0},
                           {"count", use.count},
                           {"ability", use.ability ? number(*use.ability) : ordered_json(nullptr)}});
    }
    return options;
}

ordered_json item_json(const practice::Item& item, const memory::ItemSummary& summary,
                       const memory::LogisticItem& logistic) {
    ordered_json out = {{"question", item.id.text}, {"topic", item.topic}, {"n", summary.n}};
    out["right"] = interval_json(summary.share_right);
    out["discrimination"] =
        summary.discrimination ? interval_json(summary.discrimination->correlation) : ordered_json(nullptr);
    out["logistic"] = logistic_json(logistic);
    out["took_ms"] = times_json(summary.times);
    out["options"] = options_json(item, summary);
    out["flags"] = ordered_json::array();
    return out;
}

}  // namespace

ordered_json items_json(const practice::ItemLog& log, const practice::ItemFigures& figures) {
    ordered_json items = ordered_json::array();
    for (std::size_t n = 0; n < log.items.size(); ++n)
        items.push_back(item_json(log.items[n], figures.summaries[n], figures.fitted.items[n]));
    for (const auto& flag : figures.flags)
        items[flag.item]["flags"].push_back({{"flag", flag_name(flag.flag)}, {"says", memory::in_words(flag)}});
    const auto& fitted = figures.fitted;
    return {{"ok", true},
            {"learners", log.learners},
            {"answers", figures.counted},
            {"repeats", figures.repeats},
            {"changed", log.changed},
            {"model",
             {{"log_likelihood", number(fitted.log_likelihood)},
              {"parameters", fitted.parameters},
              {"converged", fitted.converged}}},
            {"items", items}};
}

}  // namespace report
