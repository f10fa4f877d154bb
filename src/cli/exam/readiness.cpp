#include <algorithm>
#include <ostream>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "base/text.hpp"
#include "cli/context.hpp"
#include "cli/exam/exam.hpp"
#include "cli/exam/readiness_maker.hpp"
#include "cli/memory/progress.hpp"
#include "cli/whole_file.hpp"
#include "report/exam/readiness_json.hpp"
#include "report/exam/readiness_text.hpp"

namespace cli {
namespace {

using base::Exit;
using base::Failure;

const content::Outline& outline_meant(const Context& context, const std::vector<content::Outline>& outlines) {
    if (context.has("ID")) return find_outline(outlines, context.value("ID"));
    std::vector<std::string> known;
    for (const auto& one : outlines) known.push_back(one.id);
    throw Failure{Exit::usage, "ready for which exam?", "name an outline, one of: " + base::join(known, ", ")};
}

std::vector<int> minutes_meant(const Context& context) {
    std::vector<int> minutes;
    for (const auto number : context.numbers("--minutes", 1, 240)) minutes.push_back(static_cast<int>(number));
    if (minutes.empty()) minutes = {5, 10, 15, 20, 30};
    std::sort(minutes.begin(), minutes.end());
    minutes.erase(std::unique(minutes.begin(), minutes.end()), minutes.end());
    return minutes;
}

}  // namespace

Exit run_exam_readiness(Context& context) {
    const auto outlines = load_outlines(context);
    const auto& outline = outline_meant(context, outlines);
    const auto library = context.open_library();
    auto store = context.open_store(false);
    const auto learner = context.learner(store);
    ReadinessMaker maker{context, library, store, outline};
    Progress bar{context, "looking ahead"};
    const auto made = maker.of(learner, exam_morning(context.instant("--on"), learner, context.now()),
                               minutes_meant(context), [&](double share) { bar.show(share); });
    bar.clear();
    const report::ReadinessPage page{outline, learner, made.asked, made.found};
    if (context.has("--plot"))
        write_whole(context.value("--plot"), [&](std::ostream& out) { out << report::readiness_svg(page); });
    if (context.json())
        context.out() << report::readiness_json(page).dump(2) << '\n';
    else
        context.print(report::readiness_text(page, context.page()));
    return Exit::fine;
}

}  // namespace cli
