#include "cli/shop/job.hpp"

#include <algorithm>
#include <chrono>
#include <optional>
#include <ostream>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "cli/batch.hpp"
#include "cli/crew_edition.hpp"
#include "cli/shop/crew_standing.hpp"
#include "cli/study/session_setup.hpp"
#include "cli/study/study_screen.hpp"
#include "cli/whole_file.hpp"
#include "memory/model.hpp"
#include "report/shop/job_html.hpp"
#include "report/shop/job_json.hpp"
#include "report/shop/job_text.hpp"

namespace cli {
namespace {

using base::Exit;
using base::Failure;
using nlohmann::ordered_json;
using practice::JobBrief;

constexpr std::int64_t kDrillMinutes = 5;

/// Those named with --who, else the learner meant, else nobody.
std::vector<store::Learner> going(const Context& context, store::Store& store) {
    const auto crew = store.learners();
    std::vector<store::Learner> who;
    for (const auto& name : context.values("--who")) {
        auto one = find_present(crew, name);
        const bool twice = std::any_of(who.begin(), who.end(), [&](const auto& other) { return other.id == one.id; });
        if (!twice) who.push_back(std::move(one));
    }
    if (!who.empty()) return who;
    if (context.has("--learner") || active(crew).size() == 1) who.push_back(context.learner(store));
    return who;
}

/// Who answers the drill: --learner, else the only one who goes.
std::optional<store::Learner> drilled(const Context& context, store::Store& store,
                                      const std::vector<store::Learner>& who) {
    if (context.has("--learner")) return context.learner(store);
    return who.size() == 1 ? std::optional{who.front()} : std::nullopt;
}

/// The mean weakness of those who go, point by point.
std::map<base::PointId, double> weakness_of(const Context& context, store::Store& store,
                                            const content::Library& library, const std::vector<store::Learner>& who) {
    std::map<base::PointId, double> weakness;
    for (const auto& learner : who) {
        const Weakness one{context, store, learner};
        for (const auto& point : library.index().points)
            weakness[point.id] += one.of(point) / static_cast<double>(who.size());
    }
    return weakness;
}

/// The place of --jurisdiction and --edition, else of the first who goes, else the edition of most of the crew.
content::Under under_for(const Context& context, const content::TradeData& trade,
                         const std::vector<store::Learner>& who) {
    auto under = place_for(context, trade).under;
    if (context.has("--learner") || context.has("--edition") || context.has("--jurisdiction")) return under;
    if (who.empty()) return under;
    under.edition = context.pick_for(who.front()).edition;
    under.jurisdiction = who.front().jurisdiction;
    return under;
}

Exit drill(Context& context, content::Library& library, store::Store& store, const store::Learner& learner,
           const JobBrief& brief) {
    auto what = session_for(context, library, store, learner);
    what.pick.edition = brief.under.edition;
    for (const auto* point : brief.drill) what.pick.filter.points.push_back(point->id);
    what.plan.budget = std::chrono::minutes{context.number("--minutes", kDrillMinutes, 1, 240)};
    what.plan.calls = false;
    what.plan.setting = store::Setting::brief;
    practice::Session session{library, store, memory::advance, what};
    const auto exit = study_on_screen(context, session);
    store.settle();
    return exit;
}

void write_reminder(Context& context, const JobBrief& brief, const std::vector<store::Learner>& who) {
    report::JobSheetFor sheet{base::date_text(context.now()), brief.under.jurisdiction, {}};
    for (const auto& one : who) sheet.who_goes.push_back(one.name);
    const std::string path = context.value("--html");
    write_whole(path, [&](std::ostream& out) { out << report::job_html(brief, sheet); });
    if (!context.json()) context.out() << "written: " << path << '\n';
}

void show(Context& context, const JobBrief& brief) {
    if (context.json()) {
        ordered_json document{{"ok", true}};
        document.update(report::job_json(brief));
        context.out() << document.dump(2) << '\n';
        return;
    }
    context.print(report::job_text(brief, context.page()));
    if (context.has("--why")) context.print(report::job_points_text(brief, context.page()));
}

}  // namespace

content::TradeData trade_in(const Context& context, const content::Contents& contents) {
    auto data = content::TradeData::make(contents);
    if (data) return std::move(*data);
    tell(context.err(), data.error());
    throw Failure{Exit::bad_data, "the tables or rules have faults",
                  "mend the places named above; 'greentag library check' tells all"};
}

JobBrief brief_for(const Context& context, const content::Contents& contents, const content::TradeData& trade,
                   const practice::JobFor& what) {
    auto brief = practice::brief_job(practice::job_source(contents, trade), contents.jobs, what);
    if (brief) return std::move(*brief);
    tell(context.err(), brief.error());
    throw Failure{Exit::usage, "the job cannot be looked for so", "'greentag require --list' names the facts"};
}

Exit run_job(Context& context) {
    const auto contents = context.load_contents();
    const auto trade = trade_in(context, contents);
    auto library = context.open_library();
    auto store = context.open_store(true);
    const auto who = going(context, store);
    practice::JobFor what;
    what.words = context.values("WORDS");
    what.under = under_for(context, trade, who);
    what.weakness = weakness_of(context, store, library, who);
    what.seed = context.seed();
    what.drill = std::chrono::minutes{context.number("--minutes", kDrillMinutes, 1, 240)};
    const auto brief = brief_for(context, contents, trade, what);
    const auto learner = drilled(context, store, who);
    const bool only_shown = context.json() || context.has("--html") || context.has("--no-drill");
    if (!only_shown && learner && !brief.drill.empty()) {
        drill(context, library, store, *learner, brief);
        context.out() << '\n';
    }
    if (context.has("--html")) write_reminder(context, brief, who);
    if (!context.has("--html") || context.json()) show(context, brief);
    if (!only_shown && !learner && !store.learners().empty() && !brief.drill.empty())
        context.out() << "\nFor the five-minute drill, say who answers: --learner NAME.\n";
    return brief.points.empty() ? Exit::problems : Exit::fine;
}

}  // namespace cli
