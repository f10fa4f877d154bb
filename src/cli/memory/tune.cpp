#include "cli/memory/tune.hpp"

#include <ostream>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "cli/context.hpp"
#include "cli/memory/crew_log.hpp"
#include "cli/whole_file.hpp"
#include "practice/tune.hpp"
#include "report/memory/tuning_json.hpp"
#include "report/memory/tuning_text.hpp"

namespace cli {
namespace {

using base::Exit;

Exit forget(Context& context) {
    auto store = context.open_store(true);
    store.drop_fit();
    if (context.json())
        context.out() << nlohmann::ordered_json{{"ok", true}, {"parameters", "as shipped"}}.dump(2) << '\n';
    else
        context.out() << "The shipped parameters are in force again.\n";
    return Exit::fine;
}

}  // namespace

Exit run_tune(Context& context) {
    if (context.has("--as-shipped")) return forget(context);
    const auto library = context.open_library();
    const bool keeps = !context.has("--dry-run");
    auto store = context.open_store(keeps);
    const auto reader = read_crew_log(library, store, context.now());
    const auto& log = reader.log();
    const auto tuning = practice::tune(log, context.now());
    if (keeps) store.save_fit(tuning.run, tuning.values);
    if (context.has("--plot"))
        write_whole(context.value("--plot"),
                    [&](std::ostream& out) { out << report::calibration_svg(tuning.assessment); });
    if (context.json())
        context.out() << report::tuning_json(log, tuning).dump(2) << '\n';
    else
        context.print(report::tuning_text(log, tuning, keeps, context.page()));
    return Exit::fine;
}

std::optional<std::string> tune_if_due(const content::Library& library, store::Store& store, base::Instant now) {
    if (!practice::tuning_due(store.answer_count(), store.latest_fit())) return std::nullopt;
    const auto reader = read_crew_log(library, store, now);
    const auto& log = reader.log();
    const auto tuning = practice::tune(log, now);
    store.save_fit(tuning.run, tuning.values);
    return report::tuning_line(log, tuning);
}

}  // namespace cli
