#include <ostream>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "cli/context.hpp"
#include "cli/exam/sitting_file.hpp"

namespace cli {
namespace {

using base::Exit;
using nlohmann::ordered_json;

std::string count_in(const ordered_json& of, const char* key) {
    return std::to_string(of.value(key, 0));
}

/// "2026-03-07  residential-wireman, 2020 edition", then what came of it.
void add_result(std::vector<std::string>& lines, const ordered_json& one, const report::Page& page) {
    const bool green = one.value("tag", "") == "green";
    report::add(lines, page,
                one.value("start", "").substr(0, 10) + "  " + one.value("outline", "") + ", " +
                    one.value("edition", "") + " edition",
                0, report::Ink::bold);
    report::add(lines, page,
                std::string{green ? "GREEN TAG: " : "RED TAG: "} + count_in(one, "right") + " of " +
                    count_in(one, "asked") + " right, " + count_in(one, "needed") + " needed" +
                    (one.value("unanswered", 0) > 0 ? "; " + count_in(one, "unanswered") + " not answered" : "") +
                    (one.value("out_of_time", false) ? "; out of time" : ""),
                4, green ? report::Ink::good : report::Ink::bad);
    for (const auto& section : one.value("sections", ordered_json::array()))
        if (section.value("tag", "") == "red")
            report::add_hanging(
                lines, page, "    - ",
                section.value("title", "") + ": " + count_in(section, "right") + " of " + count_in(section, "asked"));
}

}  // namespace

Exit run_exam_results(Context& context) {
    auto store = context.open_store(false);
    const auto learner = context.learner(store);
    const auto results = kept_results(context, learner.id);
    if (context.json()) {
        context.out() << ordered_json{{"ok", true}, {"learner", learner.name}, {"results", results}}.dump(2) << '\n';
        return Exit::fine;
    }
    std::vector<std::string> lines;
    report::add(lines, context.page(), learner.name + ": " + report::counted(results.size(), "mock exam"), 0,
                report::Ink::bold);
    for (const auto& one : results) add_result(lines, one, context.page());
    if (results.empty()) report::add(lines, context.page(), "None sat to the end yet: greentag exam sit");
    context.print(lines);
    return Exit::fine;
}

}  // namespace cli
