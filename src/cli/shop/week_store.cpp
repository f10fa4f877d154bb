#include "cli/shop/week_store.hpp"

#include <filesystem>
#include <ostream>
#include <system_error>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "base/located_json.hpp"
#include "cli/whole_file.hpp"
#include "content/source.hpp"
#include "report/shop/week_json.hpp"

namespace cli {
namespace {

using base::Exit;
using base::Failure;
using nlohmann::ordered_json;

std::string plan_path(const Context& context) {
    return context.home() + "/week-plan.json";
}
std::string wishes_path(const Context& context) {
    return context.home() + "/week-wishes.json";
}

/// Throws Failure (bad_data) that names the file.
std::string text_of(const std::string& path) {
    const auto text = content::read_source(path);
    if (text) return *text;
    throw Failure{Exit::bad_data, base::to_text(text.error().front()), "'greentag week plan --fresh' begins anew"};
}

WeekWishes read_wishes(const std::string& path) {
    const auto document = ordered_json::parse(text_of(path), nullptr, false);
    if (!document.is_object() || document.value("format", "") != "greentag-week-wishes/1")
        throw Failure{Exit::bad_data, path + ": holds no wishes for a plan",
                      "'greentag week plan --fresh' begins anew"};
    WeekWishes wishes;
    wishes.outline = document.value("outline", "");
    wishes.edition = document.value("edition", "");
    wishes.start = document.value("start", "");
    wishes.weeks = document.value("weeks", wishes.weeks);
    wishes.meets = document.value("meets", wishes.meets);
    wishes.holidays = document.value("holidays", wishes.holidays);
    wishes.pins = document.value("pins", wishes.pins);
    wishes.revision = document.value("revision", 0U);
    return wishes;
}

}  // namespace

std::optional<KeptYear> load_year(const Context& context) {
    std::error_code error;
    if (!std::filesystem::exists(plan_path(context), error)) return std::nullopt;
    KeptYear year;
    try {
        year.wishes = read_wishes(wishes_path(context));
    } catch (const nlohmann::json::exception&) {
        throw Failure{Exit::bad_data, wishes_path(context) + ": holds no wishes for a plan",
                      "'greentag week plan --fresh' begins anew"};
    }
    auto plan = report::read_week_plan(text_of(plan_path(context)), plan_path(context));
    if (!plan) {
        tell(context.err(), plan.error());
        throw Failure{Exit::bad_data, "the plan cannot be read", "'greentag week plan --fresh' begins anew"};
    }
    year.plan = std::move(*plan);
    return year;
}

void keep_year(const Context& context, const KeptYear& year) {
    const auto& w = year.wishes;
    const ordered_json wishes = {{"format", "greentag-week-wishes/1"},
                                 {"outline", w.outline},
                                 {"edition", w.edition},
                                 {"start", w.start},
                                 {"weeks", w.weeks},
                                 {"meets", w.meets},
                                 {"holidays", w.holidays},
                                 {"pins", w.pins},
                                 {"revision", w.revision}};
    write_whole(wishes_path(context), [&](std::ostream& out) { out << wishes.dump(2) << '\n'; });
    write_whole(plan_path(context),
                [&](std::ostream& out) { out << report::week_plan_json(year.plan).dump(2) << '\n'; });
}

}  // namespace cli
