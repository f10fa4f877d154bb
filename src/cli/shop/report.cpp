#include <algorithm>
#include <filesystem>
#include <optional>
#include <ostream>
#include <system_error>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "cli/context.hpp"
#include "cli/crew_edition.hpp"
#include "cli/exam/exam.hpp"
#include "cli/exam/readiness_maker.hpp"
#include "cli/memory/crew_log.hpp"
#include "cli/memory/progress.hpp"
#include "cli/whole_file.hpp"
#include "practice/shop/crew_progress.hpp"
#include "report/shop/progress_csv.hpp"
#include "report/shop/progress_html.hpp"
#include "report/shop/progress_json.hpp"
#include "report/shop/progress_text.hpp"

namespace cli {
namespace {

using base::Exit;
using base::Failure;

practice::ProgressFor progress_for(const Context& context, store::Store& store, const content::Library& library,
                                   const store::Learner& learner) {
    practice::ProgressFor what;
    what.edition = context.pick_for(learner).edition;
    what.now = context.now();
    what.recall = practice::Recall{store.fitted(learner.id), learner.id};
    what.title_of = [&library](const content::PointEntry& entry) { return library.point(entry).title; };
    return what;
}

void write_text(const std::string& path, const std::string& text) {
    write_whole(path, [&](std::ostream& out) { out << text; });
}

/// A folder for the office's tables. Throws Failure (cannot_write).
std::string csv_folder(const Context& context) {
    std::string folder = context.value("--csv");
    std::error_code error;
    std::filesystem::create_directories(folder, error);
    if (error)
        throw Failure{Exit::cannot_write, folder + ": cannot be made: " + error.message(), "name another folder"};
    return folder;
}

std::string answers_csv(const content::Library& library, store::Store& store,
                        const std::vector<store::Learner>& learners) {
    report::AnswersCsv table{library.index(), learners};
    store.for_each_answer([&](const store::AnswerRecord& record) { table.add(record); });
    return table.text();
}

void tell_written(Context& context, const std::vector<std::string>& files) {
    if (context.json()) return;
    for (const auto& file : files) context.out() << "written: " << file << '\n';
}

/// Readiness for the exam of --outline.
struct Ready {
    content::Outline outline;
    std::vector<ReadinessMaker::Made> made;  ///< in the order of the learners

    /// On the exam day where nothing more is studied.
    [[nodiscard]] double pass_of(std::size_t learner) const {
        return made[learner].found.plans.front().on_the_day.pass;
    }
};

/// Nothing without --outline.
std::optional<Ready> readiness_for(const Context& context, const content::Library& library, store::Store& store,
                                   const std::vector<store::Learner>& learners) {
    if (!context.has("--outline")) return std::nullopt;
    const auto outlines = load_outlines(context);
    Ready ready{find_outline(outlines, context.value("--outline")), {}};
    ReadinessMaker maker{context, library, store, ready.outline};
    const bool one = learners.size() == 1;
    Progress bar{context, "looking ahead"};
    for (const auto& learner : learners) {
        const auto before = static_cast<double>(ready.made.size());
        ready.made.push_back(
            maker.of(learner, exam_morning({}, learner, context.now()),
                     one ? std::vector<int>{5, 10, 15, 20, 30} : std::vector<int>{},
                     [&](double share) { bar.show((before + share) / static_cast<double>(learners.size())); }));
    }
    bar.clear();
    return ready;
}

std::vector<practice::LookUpFamily> families_of(const Context& context, const content::Library& library,
                                                const store::Learner& learner,
                                                const std::vector<practice::LookUp>& look_ups) {
    if (look_ups.empty()) return {};
    return practice::LookUpPicker{library, {context.pick_for(learner).edition, {}, {}, 0}, look_ups}.families();
}

Exit learner_report(Context& context, const content::Library& library, store::Store& store,
                    const store::Learner& learner) {
    std::vector<practice::LookUp> look_ups;
    const auto reader = read_crew_log(library, store, context.now(), [&](const store::AnswerRecord& record) {
        auto one = record.learner == learner.id ? practice::look_up_in(record) : std::nullopt;
        if (one) look_ups.push_back(std::move(*one));
    });
    const auto progress =
        practice::progress(library.index(), reader.log(), learner.id, progress_for(context, store, library, learner));
    const auto ready = readiness_for(context, library, store, {learner});
    std::optional<report::ReadinessPage> readiness;
    if (ready)
        readiness.emplace(
            report::ReadinessPage{ready->outline, learner, ready->made.front().asked, ready->made.front().found});
    const report::LearnerPage page{learner, progress, context.now(), readiness ? &*readiness : nullptr,
                                   families_of(context, library, learner, look_ups)};
    std::vector<std::string> written;
    if (context.has("--html")) {
        write_text(context.value("--html"), report::progress_html(page));
        written.push_back(context.value("--html"));
    }
    if (context.has("--csv")) {
        const std::string folder = csv_folder(context);
        write_text(folder + "/answers.csv", answers_csv(library, store, {learner}));
        write_text(folder + "/topics.csv", report::topics_csv(page));
        written.insert(written.end(), {folder + "/answers.csv", folder + "/topics.csv"});
    }
    if (context.json())
        context.out() << report::progress_json(page).dump(2) << '\n';
    else if (written.empty())
        context.print(report::progress_text(page, context.page()));
    tell_written(context, written);
    return Exit::fine;
}

Exit crew_report(Context& context, const content::Library& library, store::Store& store) {
    const auto learners = store.learners();
    std::vector<practice::MemberFor> crew;
    for (const auto& learner : learners)
        if (!learner.retired_at) crew.push_back({learner, progress_for(context, store, library, learner), {}});
    if (const auto ready = readiness_for(context, library, store, active(learners)))
        for (std::size_t i = 0; i < crew.size(); ++i) crew[i].pass = ready->pass_of(i);
    if (crew.empty())
        throw Failure{Exit::no_input, "there is nobody in the crew yet", "add someone: greentag crew add \"NAME\""};
    const auto reader = read_crew_log(library, store, context.now());
    const auto progress = practice::crew_progress(library.index(), reader.log(), crew, context.now());
    std::vector<std::string> written;
    if (context.has("--html")) {
        write_text(context.value("--html"), report::crew_progress_html(progress));
        written.push_back(context.value("--html"));
    }
    if (context.has("--csv")) {
        const std::string folder = csv_folder(context);
        write_text(folder + "/crew.csv", report::crew_csv(progress));
        write_text(folder + "/topics.csv", report::topics_csv(progress));
        write_text(folder + "/answers.csv", answers_csv(library, store, learners));
        written.insert(written.end(), {folder + "/crew.csv", folder + "/topics.csv", folder + "/answers.csv"});
    }
    if (context.json())
        context.out() << report::crew_progress_json(progress).dump(2) << '\n';
    else if (written.empty())
        context.print(report::crew_progress_text(progress, context.page()));
    tell_written(context, written);
    return Exit::fine;
}

}  // namespace

Exit run_report(Context& context) {
    const auto library = context.open_library();
    auto store = context.open_store(false);
    if (!context.has("--crew"))
        return learner_report(
            context, library, store,
            context.has("NAME") ? find_learner(store.learners(), context.value("NAME")) : context.learner(store));
    if (context.has("NAME")) throw Failure{Exit::usage, "the crew, or one of them?", "leave out --crew or the name"};
    return crew_report(context, library, store);
}

}  // namespace cli
