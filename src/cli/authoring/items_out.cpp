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
#include "cli/whole_file.hpp"
#include "report/exchange/question_items.hpp"
#include "report/table.hpp"

namespace cli {
namespace {

using base::Exit;
using base::Failure;
namespace fs = std::filesystem;

/// A folder that holds nothing: items of another edition or an older library must not be left lying among these.
fs::path empty_folder(const std::string& path) {
    std::error_code error;
    fs::create_directories(path, error);
    if (error) throw Failure{Exit::cannot_write, path + ": " + error.message(), "name another folder"};
    if (!fs::is_empty(path, error))
        throw Failure{Exit::cannot_write, path + " is not empty", "name a new folder, or empty this one"};
    fs::create_directories(fs::path{path} / "items", error);
    if (error) throw Failure{Exit::cannot_write, path + "/items: " + error.message(), "check the folder"};
    return path;
}

void refuse_unknown_topics(const content::Contents& contents, const std::vector<std::string>& topics) {
    std::set<std::string> known;
    for (const auto& deck : contents.decks) known.insert(deck.topic);
    for (const auto& topic : topics) {
        if (known.contains(topic)) continue;
        const auto near = base::nearest(topic, {known.begin(), known.end()});
        throw Failure{Exit::no_input, "there is no topic '" + topic + "'",
                      near ? "did you mean '" + *near + "'?" : "'greentag library list' shows the topics"};
    }
}

void tell_left_out(Context& context, const report::QuestionItems& items) {
    std::map<std::string, std::size_t> reasons;
    for (const auto& one : items.left_out) ++reasons[one.why];
    for (const auto& [why, count] : reasons) context.out() << "left out, " << why << ": " << count << '\n';
}

}  // namespace

Exit run_library_items_out(Context& context) {
    const auto contents = context.load_contents();
    report::ItemsFor what;
    what.edition = trade::parse_edition(context.value("--edition")).value_or(trade::Edition::e2023);
    what.seed = context.seed();
    what.topics = context.values("--topic");
    what.unverified = context.has("--unverified");
    refuse_unknown_topics(contents, what.topics);
    const auto items = report::question_items(contents, what);
    if (items.items.empty())
        throw Failure{Exit::unavailable, "no question can go out", "'greentag library list' shows what there is"};
    const auto folder = empty_folder(context.value("DIR"));
    for (const auto& item : items.items)
        write_whole((folder / item.href).string(), [&](std::ostream& out) { out << item.xml; });
    // Last: a folder without its manifest is seen to be unfinished.
    write_whole((folder / report::kManifestName).string(),
                [&](std::ostream& out) { out << report::items_manifest(items); });
    if (context.json()) {
        nlohmann::ordered_json left = nlohmann::ordered_json::array();
        for (const auto& one : items.left_out) left.push_back({{"question", one.question}, {"why", one.why}});
        context.out() << nlohmann::ordered_json{{"ok", true}, {"items", items.items.size()}, {"left_out", left}}.dump(2)
                      << '\n';
        return Exit::fine;
    }
    context.out() << report::counted(items.items.size(), "item") << " of the " << trade::to_text(what.edition)
                  << " edition in " << folder.string() << '\n';
    tell_left_out(context, items);
    return Exit::fine;
}

}  // namespace cli
