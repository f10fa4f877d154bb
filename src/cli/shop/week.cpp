#include <algorithm>
#include <chrono>
#include <map>
#include <ostream>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "base/text.hpp"
#include "cli/context.hpp"
#include "cli/crew_edition.hpp"
#include "cli/exam/exam.hpp"
#include "cli/shop/crew_standing.hpp"
#include "cli/shop/week_store.hpp"
#include "cli/study/session_setup.hpp"
#include "cli/study/study_screen.hpp"
#include "cli/whole_file.hpp"
#include "memory/model.hpp"
#include "practice/shop/week_points.hpp"
#include "practice/shop/week_talk.hpp"
#include "report/shop/calendar.hpp"
#include "report/shop/week_json.hpp"
#include "report/shop/week_text.hpp"

namespace cli {
namespace {

using base::Exit;
using base::Failure;
using nlohmann::ordered_json;
using std::chrono::sys_days;

sys_days day_of(base::Instant when) {
    return std::chrono::floor<std::chrono::days>(when);
}

/// Throws Failure (usage) that names the option.
sys_days day_in(const std::string& text, const std::string& option) {
    const auto when = base::parse_instant(text);
    if (when) return day_of(*when);
    throw Failure{Exit::usage, option + ": '" + text + "' is no day", "write it like 2026-12-24"};
}

const std::vector<std::string> kWeekdays = {"sunday",   "monday", "tuesday", "wednesday",
                                            "thursday", "friday", "saturday"};

std::chrono::weekday weekday_of(const std::string& name) {
    const auto found = std::find(kWeekdays.begin(), kWeekdays.end(), name);
    return std::chrono::weekday{static_cast<unsigned>(found - kWeekdays.begin())};
}

/// "2026-12-24", "2026-12-24..2027-01-02", either with "=name" after it.
practice::Holiday holiday_of(const std::string& text) {
    const auto equals = text.find('=');
    const std::string days = text.substr(0, equals);
    const auto dots = days.find("..");
    practice::Holiday holiday;
    holiday.from = day_in(days.substr(0, dots), "--holiday");
    holiday.to = dots == std::string::npos ? holiday.from : day_in(days.substr(dots + 2), "--holiday");
    if (equals != std::string::npos) holiday.name = text.substr(equals + 1);
    return holiday;
}

practice::WeekPin pin_of(const std::string& text) {
    const auto equals = text.find('=');
    if (equals == std::string::npos)
        throw Failure{Exit::usage, "--pin: '" + text + "' names no article", "write it like 2027-03-01=250"};
    return {day_in(text.substr(0, equals), "--pin"), text.substr(equals + 1)};
}

/// What was said so far, with what is said now. --free takes a pin or a holiday back by its first day.
WeekWishes wishes_of(const Context& context, const std::optional<KeptYear>& kept) {
    WeekWishes wishes = kept ? kept->wishes : WeekWishes{};
    if (wishes.start.empty()) wishes.start = base::date_text(context.now());
    if (wishes.edition.empty()) wishes.edition = trade::to_text(edition_meant(context));
    if (context.has("--outline"))
        wishes.outline = context.value("--outline") == "all" ? "" : context.value("--outline");
    if (context.has("--edition")) wishes.edition = context.value("--edition");
    if (context.has("--from")) wishes.start = context.value("--from");
    if (context.has("--weeks")) wishes.weeks = static_cast<int>(context.number("--weeks", 52, 1, 520));
    if (context.has("--on")) wishes.meets = context.value("--on");
    for (const auto& one : context.values("--holiday")) wishes.holidays.push_back(one);
    for (const auto& one : context.values("--pin")) wishes.pins.push_back(one);
    for (const auto& day : context.values("--free")) {
        const auto begins = [&](const std::string& one) { return one.starts_with(day); };
        if (std::erase_if(wishes.pins, begins) + std::erase_if(wishes.holidays, begins) == 0)
            throw Failure{Exit::no_input, "nothing begins on '" + day + "'", "name the first day of a pin or holiday"};
    }
    return wishes;
}

/// How weak the crew is on each point it has met: one less the mean chance of a right answer now.
std::unordered_map<base::PointId, double> weakness_of(const Context& context, const content::Library& library) {
    std::unordered_map<base::PointId, double> weakness;
    if (!context.store_exists()) return weakness;
    auto store = context.open_store(false);
    std::unordered_map<base::PointId, std::pair<double, int>> sums;
    for (const auto& learner : active(store.learners())) {
        const Weakness one{context, store, learner};
        for (const auto& [id, state] : one.states()) {
            const auto* point = library.find(id);
            if (point == nullptr) continue;
            auto& [sum, count] = sums[id];
            sum += one.of(*point);
            ++count;
        }
    }
    for (const auto& [id, sum] : sums) weakness[id] = std::clamp(sum.first / sum.second, 0.0, 1.0);
    return weakness;
}

practice::WeekPlan planned(const Context& context, const WeekWishes& wishes, const content::Contents& contents,
                           const practice::WeekPlan* previous) {
    const auto edition = *trade::parse_edition(wishes.edition);
    const content::Outline* outline =
        wishes.outline.empty() ? nullptr : &find_outline(contents.outlines, wishes.outline);
    const auto portions = practice::portions_of(practice::week_points(contents, edition, outline));
    if (portions.empty())
        throw Failure{Exit::unavailable, "there are no points to plan with", "name another outline or edition"};
    practice::WeekPlanFor what;
    what.start = day_in(wishes.start, "--from");
    what.weeks = wishes.weeks;
    what.meets = weekday_of(wishes.meets);
    for (const auto& one : wishes.holidays) what.holidays.push_back(holiday_of(one));
    for (const auto& one : wishes.pins) what.pins.push_back(pin_of(one));
    what.weakness = weakness_of(context, context.open_library());
    what.today = day_of(context.now());
    what.previous = previous;
    what.seed = static_cast<base::Seed>(context.number("--seed", 1, 0, INT64_MAX));
    auto plan = practice::plan_weeks(portions, what);
    if (plan) return std::move(*plan);
    tell(context.err(), plan.error());
    throw Failure{Exit::usage, "no plan can be made so", "mend what is named above"};
}

KeptYear kept_year(const Context& context) {
    if (auto year = load_year(context)) return std::move(*year);
    throw Failure{Exit::no_input, "there is no plan for the year yet", "make one: greentag week plan"};
}

void write_calendar(const Context& context, const KeptYear& year) {
    report::CalendarFor what;
    what.shop = context.home();
    what.name = "Article of the week";
    what.stamp = context.now();
    what.revision = year.wishes.revision;
    what.alarm = std::chrono::hours{7};
    const std::string text = report::calendar_text(year.plan, what);
    write_whole(context.value("--calendar"), [&](std::ostream& out) { out << text; });
}

void print_under(Context& context, const KeptYear& year, const std::vector<std::string>& lines) {
    context.print(lines);
    context.out() << "\nUnder the " << year.wishes.edition << " edition of the code.\n";
}

void show_year(Context& context, const KeptYear& year) {
    if (context.has("--calendar")) write_calendar(context, year);
    if (context.json())
        context.out() << ordered_json{{"ok", true}, {"plan", report::week_plan_json(year.plan)}}.dump(2) << '\n';
    else
        print_under(context, year, report::week_plan_text(year.plan, day_of(context.now()), context.page()));
    if (context.has("--calendar") && !context.json())
        context.out() << "written: " << context.value("--calendar") << '\n';
}

/// The week meant: of --on DATE, else the next meeting.
const practice::PlannedWeek& week_meant(const Context& context, const KeptYear& year) {
    const auto day =
        context.has("--of") ? practice::monday_of(day_in(context.value("--of"), "--of")) : day_of(context.now());
    if (const auto* week = year.plan.next(day)) return *week;
    throw Failure{Exit::no_input, "the plan has no week after " + base::date_text(base::Instant{day}),
                  "go on with: greentag week plan --fresh"};
}

}  // namespace

Exit run_week_plan(Context& context) {
    const auto kept = context.has("--fresh") ? std::nullopt : load_year(context);
    const auto contents = context.load_contents();
    KeptYear year{wishes_of(context, kept), {}};
    year.plan = planned(context, year.wishes, contents, kept ? &kept->plan : nullptr);
    if (!kept || !(kept->plan == year.plan)) ++year.wishes.revision;
    if (!context.has("--look")) keep_year(context, year);
    show_year(context, year);
    return Exit::fine;
}

Exit run_week_year(Context& context) {
    show_year(context, kept_year(context));
    return Exit::fine;
}

Exit run_week_show(Context& context) {
    const auto year = kept_year(context);
    const auto& week = week_meant(context, year);
    const auto talk = practice::week_talk(week, context.load_contents(), *trade::parse_edition(year.wishes.edition));
    const auto* next = year.plan.next(week.day + std::chrono::days{1});
    if (context.json())
        context.out() << ordered_json{{"ok", true},
                                      {"week", report::week_json(week)},
                                      {"talk", report::week_talk_json(talk)},
                                      {"next", next == nullptr ? ordered_json(nullptr) : report::week_json(*next)}}
                             .dump(2)
                      << '\n';
    else
        print_under(context, year, report::week_text(week, talk, next, context.page()));
    return Exit::fine;
}

Exit run_week_drill(Context& context) {
    const auto year = kept_year(context);
    const auto& week = week_meant(context, year);
    content::Library library = context.open_library();
    store::Store store = context.open_store(true);
    const auto learner = context.learner(store);
    auto what = session_for(context, library, store, learner);
    for (const auto& point : week.points) what.pick.filter.points.push_back(point.id);
    what.plan.calls = false;
    practice::Session session{library, store, memory::advance, what};
    const auto exit = study_on_screen(context, session);
    store.settle();
    return exit;
}

}  // namespace cli
