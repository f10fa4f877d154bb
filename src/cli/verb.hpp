#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/exit_status.hpp"

namespace cli {

class Context;

/// An option of a verb, or a global one.
struct OptionSpec {
    std::string name;   ///< "--minutes"
    std::string value;  ///< what stands after it in the help, "N"; empty for a flag
    std::string does;
    bool repeats = false;
    std::vector<std::string> choices;  ///< all values there are; empty: any
};

struct WordSpec {
    std::string name;  ///< "NAME"
    std::string does;
    bool needed = true;
    bool repeats = false;
    std::vector<std::string> choices;
};

/// One thing the program does. Help, completions and the check of the manual all come from these.
struct Verb {
    std::string group;  ///< "crew" in "crew add"; empty for a verb of one word
    std::string name;
    std::string does;  ///< one line
    std::vector<OptionSpec> options;
    std::vector<WordSpec> words;
    base::Exit (*run)(Context&);
    /// Options that are made only when the verb is wanted, since every start would pay for them.
    std::vector<OptionSpec> (*more_options)(const Verb&) = nullptr;

    [[nodiscard]] std::vector<OptionSpec> all_options() const;
    [[nodiscard]] std::string full_name() const { return group.empty() ? name : group + " " + name; }
};

/// What was typed, by option name and word name.
using Values = std::map<std::string, std::vector<std::string>>;

/// Every verb, in the order help lists them.
[[nodiscard]] const std::vector<Verb>& verbs();
/// One line about each group of verbs.
[[nodiscard]] const std::map<std::string, std::string>& groups();
[[nodiscard]] const std::vector<OptionSpec>& global_options();

base::Exit run_study(Context& context);
base::Exit run_find(Context& context);
base::Exit run_crew_add(Context& context);
base::Exit run_crew_list(Context& context);
base::Exit run_crew_show(Context& context);
base::Exit run_crew_set(Context& context);
base::Exit run_crew_retire(Context& context);
base::Exit run_library_check(Context& context);
base::Exit run_library_list(Context& context);
base::Exit run_library_show(Context& context);
base::Exit run_record_export(Context& context);
base::Exit run_record_verify(Context& context);
base::Exit run_record_backup(Context& context);
base::Exit run_record_restore(Context& context);
base::Exit run_record_rebuild(Context& context);
base::Exit run_record_import(Context& context);
base::Exit run_record_merge(Context& context);
base::Exit run_jurisdiction_list(Context& context);
base::Exit run_jurisdiction_show(Context& context);
base::Exit run_jurisdiction_changeover(Context& context);
base::Exit run_completion(Context& context);
base::Exit run_tune(Context& context);
base::Exit run_forecast(Context& context);
base::Exit run_library_items(Context& context);
base::Exit run_library_coverage(Context& context);
base::Exit run_library_originality(Context& context);
base::Exit run_library_import(Context& context);
base::Exit run_library_export(Context& context);
base::Exit run_library_items_out(Context& context);
base::Exit run_library_new(Context& context);
base::Exit run_library_unread(Context& context);
base::Exit run_library_reading(Context& context);
base::Exit run_rehearse(Context& context);
base::Exit run_exam_outlines(Context& context);
base::Exit run_exam_readiness(Context& context);
base::Exit run_exam_sit(Context& context);
base::Exit run_exam_results(Context& context);
base::Exit run_week_plan(Context& context);
base::Exit run_week_year(Context& context);
base::Exit run_week_show(Context& context);
base::Exit run_week_drill(Context& context);
base::Exit run_meeting_plan(Context& context);
base::Exit run_meeting_sheet(Context& context);
base::Exit run_meeting_key(Context& context);
base::Exit run_meeting_enter(Context& context);
base::Exit run_meeting_review(Context& context);
base::Exit run_help(Context& context);
base::Exit run_job(Context& context);
base::Exit run_report(Context& context);
base::Exit run_work(Context& context);
base::Exit run_work_list(Context& context);
base::Exit run_require(Context& context);

/// The facts of the calculator that a verb of "work" runs, as options.
[[nodiscard]] std::vector<OptionSpec> work_options(const Verb& verb);

}  // namespace cli
