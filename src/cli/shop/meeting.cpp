#include <algorithm>
#include <filesystem>
#include <map>
#include <ostream>
#include <set>
#include <system_error>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "base/text.hpp"
#include "cli/context.hpp"
#include "cli/crew_edition.hpp"
#include "cli/memory/crew_log.hpp"
#include "cli/shop/job.hpp"
#include "cli/shop/meeting_store.hpp"
#include "cli/shop/week_store.hpp"
#include "cli/whole_file.hpp"
#include "content/source.hpp"
#include "practice/shop/meeting_entry.hpp"
#include "practice/shop/meeting_plan.hpp"
#include "practice/shop/meeting_review.hpp"
#include "practice/shop/progress.hpp"
#include "report/meeting/meeting_html.hpp"
#include "report/meeting/meeting_json.hpp"
#include "report/meeting/meeting_text.hpp"
#include "report/session_json.hpp"
#include "report/style.hpp"

namespace cli {
namespace {

using base::Exit;
using base::Failure;
using nlohmann::ordered_json;
using practice::Meeting;

/// Meetings whose asks count as asked lately.
constexpr std::size_t kRecentMeetings = 3;
constexpr double kMeetingBeginsAt = 7.0 / 24;
constexpr std::size_t kPointsOfJob = 12;  // of the weightiest, for two asks in ten

/// Points of the week in which the meeting is held, where the year is planned.
std::vector<base::PointId> points_of_week(const Context& context, base::Instant day) {
    const auto year = load_year(context);
    if (!year) return {};
    const auto* week = year->plan.next(practice::monday_of(std::chrono::floor<std::chrono::days>(day)));
    std::vector<base::PointId> points;
    if (week != nullptr)
        for (const auto& point : week->points) points.push_back(point.id);
    return points;
}

/// What the crew has to put right, and how many of them.
void add_corrections(const Context& context, store::Store& store, const content::Library& library,
                     const std::vector<store::Learner>& crew, practice::MeetingFor& what) {
    const auto reader = read_crew_log(library, store, context.now());
    std::map<std::string, double> sure_and_wrong;
    std::map<std::string, double> wrong;
    for (const auto& learner : crew) {
        practice::ProgressFor of;
        of.edition = what.edition;
        of.now = context.now();
        of.most_samples = 0;
        const auto progress = practice::progress(library.index(), reader.log(), learner.id, of);
        for (const auto& one : progress.corrections) (one.tripped() ? sure_and_wrong : wrong)[one.point.text] += 1.0;
    }
    for (const auto& [id, weight] : sure_and_wrong) what.sure_and_wrong.push_back({{id}, weight});
    for (const auto& [id, weight] : wrong) what.corrections.push_back({{id}, weight});
}

/// What bears most on each of the coming jobs.
void add_jobs(const Context& context, const content::Library& library, practice::MeetingFor& what) {
    if (!context.has("--job")) return;
    const auto contents = context.load_contents();
    const auto trade = trade_in(context, contents);
    for (const auto& words : context.values("--job")) {
        practice::JobFor job;
        job.words = {words};
        job.under.edition = what.edition;
        job.most_points = kPointsOfJob;
        const auto brief = brief_for(context, contents, trade, job);
        if (brief.points.empty())
            throw Failure{Exit::no_input, "--job: nothing in the library bears on '" + words + "'",
                          brief.nearest.empty() ? "say it in other words, such as 'bath fan'"
                                                : "did you mean: " + base::join(brief.nearest, "; ") + "?"};
        for (const auto& found : brief.points)
            if (library.find(found.point->id) != nullptr) what.jobs.push_back(found.point->id);
    }
}

void add_recent(const std::vector<KeptMeeting>& meetings, practice::MeetingFor& what) {
    const std::size_t first = meetings.size() > kRecentMeetings ? meetings.size() - kRecentMeetings : 0;
    for (std::size_t i = first; i < meetings.size(); ++i)
        for (const auto& one : meetings[i].meeting.asks) what.recent.push_back({one.ask.question.point, one.ask.id});
}

bool entered(store::Store& store, const Meeting& meeting) {
    std::set<base::Id128> ids;
    for (const auto& sheet : meeting.sheets)
        for (std::size_t ask = 0; ask < meeting.asks.size(); ++ask) ids.insert(practice::entry_id(meeting, sheet, ask));
    bool found = false;
    store.for_each_answer([&](const store::AnswerRecord& record) { found = found || ids.contains(record.id); });
    return found;
}

/// Refuses to put a plan in the place of one that has been answered, or printed perhaps.
void check_free(Context& context, store::Store& store, const std::string& day) {
    std::error_code error;
    if (context.has("--look") || !std::filesystem::exists(meeting_path(context, day), error)) return;
    const std::string again = "there is a meeting on " + day + " already";
    if (!context.has("--again"))
        throw Failure{Exit::usage, again,
                      "show it: greentag meeting review; or plan it anew with --again: sheets that "
                      "have been printed are then void"};
    for (const auto& kept : load_meetings(context))
        if (kept.path == meeting_path(context, day) && entered(store, kept.meeting))
            throw Failure{Exit::usage, again + ", and its answers have been entered",
                          "plan another day with --on DATE"};
}

std::vector<practice::Entry> entries_of(store::Store& store, const Meeting& meeting) {
    std::vector<store::AnswerRecord> log;
    store.for_each_answer([&](const store::AnswerRecord& record) {
        if (record.setting == store::Setting::meeting) log.push_back(record);
    });
    return practice::entries_in_log(meeting, log);
}

report::Paper paper_of(const Context& context) {
    return context.value("--paper") == "a4" ? report::Paper::a4 : report::Paper::letter;
}

void write_page(Context& context, const std::string& path, const std::string& text) {
    write_whole(path, [&](std::ostream& out) { out << text; });
    if (context.json())
        context.out() << ordered_json{{"ok", true}, {"written", path}}.dump(2) << '\n';
    else
        context.out() << "written: " << path << '\n';
}

std::string html_file(const Context& context) {
    if (context.has("--html")) return context.value("--html");
    throw Failure{Exit::usage, "printed where?", "name the page with --html FILE; a browser prints it"};
}

std::string typed_sheets(Context& context) {
    if (context.has("FILE")) {
        const auto text = content::read_source(context.value("FILE"));
        if (text) return *text;
        throw Failure{Exit::no_input, context.value("FILE") + ": " + text.error().front().what,
                      text.error().front().mend};
    }
    std::string text;
    if (context.world().input_is_terminal)
        context.out()
            << "One sheet a line: its number, then an answer for each ask, such as 12 bacd-e. Empty line to end.\n";
    while (const auto line = context.world().input->line()) {
        if (line->empty() && context.world().input_is_terminal) break;
        text += *line + "\n";
    }
    return text;
}

}  // namespace

Exit run_meeting_plan(Context& context) {
    const auto library = context.open_library();
    auto store = context.open_store(true);
    const auto crew = active(store.learners());
    practice::MeetingFor what;
    const auto day = std::chrono::floor<std::chrono::days>(context.instant("--on").value_or(context.now()));
    what.day = base::after_days(day, kMeetingBeginsAt);
    check_free(context, store, base::date_text(what.day));
    what.title = context.has("--title") ? context.value("--title") : "Shop meeting";
    what.shop = context.value("--shop");
    what.edition = edition_meant(context);
    what.seed = context.seed();
    what.asks = static_cast<std::size_t>(context.number("--asks", 10, practice::kFewestAsks, practice::kMostAsks));
    what.week = points_of_week(context, what.day);
    add_corrections(context, store, library, crew, what);
    add_jobs(context, library, what);
    add_recent(load_meetings(context), what);
    auto plan = practice::plan_meeting(library, what);
    if (!plan) {
        tell(context.err(), plan.error());
        throw Failure{Exit::unavailable, "no meeting can be planned so", "mend what is named above"};
    }
    practice::add_sheets(plan->meeting, crew);
    if (!context.has("--look")) keep_meeting(context, plan->meeting);
    if (context.json())
        context.out() << report::plan_json(*plan).dump(2) << '\n';
    else
        context.print(report::plan_text(*plan, context.page()));
    return Exit::fine;
}

Exit run_meeting_sheet(Context& context) {
    auto kept = meeting_meant(context);
    // Somebody who has joined since gets the next number.
    auto store = context.open_store(false);
    const auto before = kept.meeting.sheets.size();
    practice::add_sheets(kept.meeting, active(store.learners()));
    if (kept.meeting.sheets.empty())
        throw Failure{Exit::no_input, "there is nobody in the crew yet", "add someone: greentag crew add \"NAME\""};
    if (kept.meeting.sheets.size() != before) keep_meeting(context, kept.meeting);
    if (context.has("--form")) write_page(context, context.value("--form"), report::entry_form_csv(kept.meeting));
    if (context.has("--html") || !context.has("--form"))
        write_page(context, html_file(context), report::sheets_html(kept.meeting, paper_of(context)));
    return Exit::fine;
}

Exit run_meeting_key(Context& context) {
    const auto kept = meeting_meant(context);
    write_page(context, html_file(context), report::key_html(kept.meeting, paper_of(context)));
    return Exit::fine;
}

Exit run_meeting_enter(Context& context) {
    const auto kept = meeting_meant(context);
    const auto library = context.open_library();
    auto store = context.open_store(true);
    const std::string text = typed_sheets(context);
    const practice::EnterFor what{context.has("FILE") ? context.value("FILE") : "typed", store.learners()};
    auto result = context.value("FILE").ends_with(".csv") ? practice::enter_csv(kept.meeting, text, what)
                                                          : practice::enter_lines(kept.meeting, text, what);
    const auto there = entries_of(store, kept.meeting);
    for (auto& fault : practice::told_of_changed(kept.meeting, practice::changed_asks(kept.meeting, library)))
        result.faults.push_back(std::move(fault));
    for (auto& fault : practice::told_of_differing(result.entries, there)) result.faults.push_back(std::move(fault));
    std::set<base::Id128> known;
    for (const auto& one : there) known.insert(one.id);
    std::vector<store::AnswerRecord> fresh;
    for (const auto& entry : result.entries)
        if (known.insert(entry.id).second) {
            fresh.push_back(practice::record_of(kept.meeting, entry));
            fresh.back().device = store.device();
        }
    store.append_all(fresh);
    store.settle();
    const bool sound = !base::any_errors(result.faults);
    if (context.json()) {
        context.out() << ordered_json{{"ok", sound},
                                      {"answers", result.entries.size()},
                                      {"new", fresh.size()},
                                      {"faults", report::faults_json(result.faults)}}
                             .dump(2)
                      << '\n';
        return sound ? Exit::fine : Exit::bad_data;
    }
    tell(sound ? context.out() : context.err(), result.faults);
    context.out() << report::counted(result.entries.size(), "answer") << " read, " << fresh.size() << " new\n";
    if (sound) return Exit::fine;
    throw Failure{Exit::bad_data, "some sheets were not taken",
                  "mend the lines named above and enter them again: what was taken stays"};
}

Exit run_meeting_review(Context& context) {
    const auto kept = meeting_meant(context);
    auto store = context.open_store(false);
    const auto review = practice::review(kept.meeting, entries_of(store, kept.meeting));
    const auto names = context.has("--no-names") ? report::Names::hidden : report::Names::shown;
    if (context.has("--html"))
        write_page(context, context.value("--html"),
                   report::review_html(kept.meeting, review, names, paper_of(context)));
    else if (context.json())
        context.out() << report::review_json(kept.meeting, review).dump(2) << '\n';
    else
        context.print(report::review_text(kept.meeting, review, names, context.page()));
    return Exit::fine;
}

}  // namespace cli
