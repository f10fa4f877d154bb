#include <algorithm>
#include <ostream>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "cli/context.hpp"
#include "cli/memory/item_matrix.hpp"
#include "content/source.hpp"
#include "practice/item_log.hpp"
#include "report/memory/items_json.hpp"
#include "report/memory/items_text.hpp"

namespace cli {
namespace {

using base::Exit;
using base::Failure;

practice::ItemLog from_store(const Context& context) {
    const auto library = context.open_library();
    auto store = context.open_store(false);
    practice::ItemLogReader reader{library};
    const auto topics = context.values("--topic");
    store.for_each_answer([&](const store::AnswerRecord& record) {
        const auto* entry = topics.empty() ? nullptr : library.find(record.point);
        if (topics.empty() ||
            (entry != nullptr && std::find(topics.begin(), topics.end(), entry->topic) != topics.end()))
            reader.add(record);
    });
    return reader.log();
}

practice::ItemLog from_matrix(const Context& context, const std::string& path) {
    const auto text = content::read_source(path);
    if (!text) throw Failure{Exit::no_input, path + ": " + text.error().front().what, text.error().front().mend};
    auto log = read_item_matrix(*text, path);
    if (log) return std::move(*log);
    tell(context.err(), log.error());
    throw Failure{Exit::bad_data, "the answers cannot be used", "mend the places named above"};
}

memory::LogisticOptions options_from(const Context& context) {
    memory::LogisticOptions options;
    if (context.value("--slopes") == "one") options.form = memory::LogisticForm::one_parameter;
    // Few answers need a prior; data from elsewhere are estimated as published work does it, without.
    if (!context.has("--matrix")) options.prior = memory::ItemPrior{};
    return options;
}

}  // namespace

Exit run_library_items(Context& context) {
    const auto log = context.has("--matrix") ? from_matrix(context, context.value("--matrix")) : from_store(context);
    const auto figures = practice::item_figures(log, options_from(context));
    if (context.json())
        context.out() << report::items_json(log, figures).dump(2) << '\n';
    else
        context.print(
            report::items_text(log, figures, context.has("--all") || context.has("--matrix"), context.page()));
    return Exit::fine;
}

}  // namespace cli
