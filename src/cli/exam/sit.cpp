#include <algorithm>
#include <numeric>
#include <ostream>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "base/text.hpp"
#include "cli/context.hpp"
#include "cli/exam/exam.hpp"
#include "cli/exam/sitting_desk.hpp"
#include "cli/exam/sitting_file.hpp"
#include "practice/exam/candidates.hpp"
#include "practice/exam/paper.hpp"
#include "practice/exam/result.hpp"
#include "report/exam/sitting_text.hpp"

namespace cli {
namespace {

using base::Exit;
using base::Failure;
using Candidates = std::vector<std::vector<practice::Candidate>>;

std::size_t sum_of(const practice::Division& division) {
    return std::accumulate(division.begin(), division.end(), std::size_t{0});
}

const content::Outline& outline_meant(const Context& context, const std::vector<content::Outline>& outlines) {
    if (context.has("ID")) return find_outline(outlines, context.value("ID"));
    std::vector<std::string> known;
    for (const auto& one : outlines) known.push_back(one.id);
    throw Failure{Exit::usage, "sit which exam?", "name an outline, one of: " + base::join(known, ", ")};
}

/// How many each section asks: as many as the outline does, else in proportion to what --questions says.
practice::Division division_meant(const Context& context, practice::PaperFor what, const Candidates& candidates) {
    auto full = practice::full_length(*what.outline);
    if (!context.has("--questions")) return full;
    const auto most = static_cast<std::int64_t>(std::max<std::size_t>(1, sum_of(full)));
    const auto total = static_cast<std::size_t>(context.number("--questions", most, 1, most));
    // What a refusal offered is sat as it was offered.
    what.asked = full;
    const auto whole = practice::assemble(what, candidates);
    if (!whole && sum_of(whole.error().possible) == total) return whole.error().possible;
    practice::Division there;
    for (const auto& section : candidates) there.push_back(section.size());
    if (const auto division = practice::division_of(*what.outline, total, there)) return *division;
    throw Failure{Exit::unavailable, "'" + what.outline->id + "' has not that many questions to ask",
                  "ask for fewer with --questions"};
}

practice::Paper new_paper(const Context& context, const content::Library& library, const content::Outline& outline,
                          trade::Edition edition) {
    const auto parts = practice::parts_of(outline, content::traits_in(library, edition));
    const auto candidates = practice::candidates_in(library, parts, {edition, true, {}});
    practice::PaperFor what{&outline, edition, {}, context.seed()};
    what.asked = division_meant(context, what, candidates);
    auto paper = practice::assemble(what, candidates);
    if (paper) return std::move(*paper);
    tell(context.err(), practice::to_faults(paper.error(), outline));
    const std::size_t possible = sum_of(paper.error().possible);
    throw Failure{Exit::unavailable,
                  "there are too few questions for '" + outline.id + "' under the " +
                      std::string{trade::to_text(edition)} + " edition",
                  possible == 0 ? "name another outline: 'greentag exam outlines'"
                                : "'greentag exam sit " + outline.id + " --questions " + std::to_string(possible) +
                                      "' is what there can be"};
}

practice::SittingFor new_sitting(const Context& context, const content::Library& library,
                                 const content::Outline& outline, const store::Learner& learner) {
    const auto said = trade::parse_edition(context.value("--edition"));
    practice::SittingFor what;
    what.learner = learner.id;
    what.jurisdiction = learner.jurisdiction;
    what.paper = new_paper(context, library, outline, said ? *said : context.pick_for(learner).edition);
    what.limit = practice::time_for(outline, what.paper.items.size());
    what.start = context.now();
    what.id = base::IdMaker{context.world().entropy}.make(what.start);
    return what;
}

[[noreturn]] void refuse_changed(const Context& context, const base::Faults& faults) {
    tell(context.err(), faults);
    throw Failure{Exit::bad_data, "the library has changed since this exam was begun; it cannot go on as it was",
                  "bring the content back as it was, or 'greentag exam sit --set-aside' and begin another"};
}

std::vector<content::Ask> posed(const Context& context, const content::Library& library, const practice::Paper& paper,
                                const content::Outline& outline) {
    for (const auto& item : paper.items)
        if (item.section >= outline.sections.size()) refuse_changed(context, {});
    auto asks = practice::pose(library, paper);
    if (!asks) refuse_changed(context, asks.error());
    return std::move(*asks);
}

/// The answers go into the log before the result closes the sitting: after a crash between them both are done again,
/// and nothing is there twice.
void close(Context& context, store::Store& store, const practice::Sitting& sitting, const content::Outline& outline,
           base::Instant now) {
    const auto result = practice::result_of(sitting, outline, now);
    if (!result) throw Failure{Exit::internal, "an exam that goes on has no result", "tell the developers"};
    store.append_all(practice::answer_records(sitting, store.device(), now));
    store.settle();
    keep_result(context, sitting, outline, *result);
    if (context.json()) {
        context.out() << report::result_json(sitting, outline, *result).dump(2) << '\n';
        return;
    }
    context.out() << '\n';
    context.print(report::exam_result_text(sitting, outline, *result, context.page()));
    context.print(report::exam_corrections_text(sitting, *result, context.page()));
}

void open_screen(Context& context, const practice::Sitting& sitting, const content::Outline& outline, bool again) {
    auto& out = context.json() ? context.err() : context.out();
    std::vector<std::string> lines;
    if (!again) lines = report::exam_opening_text(sitting.what(), outline, context.page());
    if (again) report::add(lines, context.page(), "The exam that was begun goes on; its clock never stopped.");
    report::add(lines, context.page(), desk_help());
    for (const auto& line : lines) out << line << '\n';
    out.flush();
}

Exit sit(Context& context, store::Store& store, practice::Sitting& sitting, const content::Outline& outline,
         SittingFile& file, bool again) {
    SittingDesk desk{context, sitting, outline, file};
    if (!sitting.over(desk.now())) open_screen(context, sitting, outline, again);
    if (desk.run()) close(context, store, sitting, outline, desk.now());
    return Exit::fine;
}

Exit go_on(Context& context, store::Store& store, const content::Library& library,
           const std::vector<content::Outline>& outlines, const OpenSitting& open) {
    const auto& what = open.kept.what;
    const auto& outline = find_outline(outlines, what.paper.outline);
    if (context.has("ID") && context.value("ID") != outline.id)
        throw Failure{Exit::usage, "an exam of '" + outline.id + "' has been begun and has no result yet",
                      "'greentag exam sit' goes on with it; --set-aside takes it out of the way"};
    practice::Sitting sitting{what, posed(context, library, what.paper, outline)};
    sitting.replay(open.kept.events);
    SittingFile file{open.path};
    return sit(context, store, sitting, outline, file, true);
}

}  // namespace

Exit run_exam_sit(Context& context) {
    const auto outlines = load_outlines(context);
    const auto library = context.open_library();
    auto store = context.open_store(true);
    const auto learner = context.learner(store);
    const auto open = open_sitting(context, learner.id);
    if (context.has("--set-aside")) {
        if (!open) throw Failure{Exit::no_input, "no exam has been begun", "'greentag exam sit ID' begins one"};
        context.out() << "Set aside without a result: " << set_aside(*open) << '\n';
        return Exit::fine;
    }
    if (open) return go_on(context, store, library, outlines, *open);
    const auto& outline = outline_meant(context, outlines);
    const auto what = new_sitting(context, library, outline, learner);
    practice::Sitting sitting{what, posed(context, library, what.paper, outline)};
    auto file = SittingFile::begin(context, sitting.what());
    return sit(context, store, sitting, outline, file, false);
}

}  // namespace cli
