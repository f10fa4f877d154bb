#include <ostream>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "cli/context.hpp"
#include "content/originality.hpp"
#include "report/style.hpp"

namespace cli {
namespace {

using base::Exit;
using base::Failure;
using nlohmann::ordered_json;

std::string text_of(const std::string& path) {
    const auto text = content::read_source(path);
    if (text) return *text;
    throw Failure{Exit::no_input, path + ": " + text.error().front().what, text.error().front().mend};
}

ordered_json run_json(const content::Passage& passage, const content::SharedRun& run, const std::string& file) {
    return {{"file", passage.place.file}, {"line", passage.place.line}, {"passage", passage.name}, {"words", run.words},
            {"changed", run.changed},     {"shared", run.shared},       {"against", file},         {"at", run.line}};
}

void tell_run(std::ostream& out, const content::Passage& passage, const content::SharedRun& run,
              const std::string& file) {
    out << passage.place.file << ':' << passage.place.line << ": " << passage.name << ": shares "
        << report::counted(run.words, "word") << (run.changed ? ", one changed," : "") << " with " << file << ':'
        << run.line << ": \"" << run.shared << "\"\n";
}

}  // namespace

Exit run_library_originality(Context& context) {
    const auto files = context.values("--against");
    if (files.empty())
        throw Failure{Exit::usage, "originality against what?", "name a text of yours with --against FILE"};
    const auto least = static_cast<std::size_t>(
        context.number("--least", static_cast<std::int64_t>(content::kLeastSharedWords), 4, 1000));
    const auto contents = context.load_contents();
    const auto passages = content::passages(contents);
    ordered_json list = ordered_json::array();
    for (const auto& file : files)
        for (const auto& run : content::shared_runs(passages, text_of(file), contents.stock, least)) {
            list.push_back(run_json(passages[run.passage], run, file));
            if (!context.json()) tell_run(context.out(), passages[run.passage], run, file);
        }
    if (context.json())
        context.out() << ordered_json{{"ok", list.empty()}, {"passages", passages.size()}, {"runs", list}}.dump(2)
                      << '\n';
    else
        context.out() << report::counted(passages.size(), "passage") << ", "
                      << report::counted(list.size(), "shared run") << '\n';
    return list.empty() ? Exit::fine : Exit::problems;
}

}  // namespace cli
