#include <algorithm>
#include <map>
#include <ostream>
#include <set>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "base/text.hpp"
#include "cli/command_line.hpp"
#include "cli/context.hpp"
#include "practice/job/stem.hpp"

namespace cli {
namespace {

using base::Exit;
using nlohmann::ordered_json;
using Stems = std::set<std::string>;

// How much it tells that a word stands in a verb's name, among what people call it, in what it does, in an option.
constexpr int kInName = 4, kCalled = 3, kInDoes = 2, kInOption = 1;
constexpr std::size_t kMostVerbs = 6, kMostOptions = 2;
constexpr std::size_t kLeastBeginning = 4;  // letters that may begin a longer word

/// Words that people have in mind and that neither the name nor the description of a verb holds.
const std::map<std::string, std::string>& also_called() {
    static const std::map<std::string, std::string> kWords = {
        {"study", "learn practice drill train session book"},
        {"find", "search look rule section code"},
        {"require", "gfci afci tamper surge need"},
        {"job", "site van morning refresher remodel caution"},
        {"week plan", "calendar schedule vacation outline"},
        {"week show", "monday speech"},
        {"week drill", "practice"},
        {"meeting plan", "quiz monday prepare"},
        {"meeting sheet", "paper quiz pdf"},
        {"meeting key", "solution right"},
        {"meeting enter", "mark grade type result"},
        {"meeting review", "discuss mistake result"},
        {"report", "progress score statistics chart weak strong spreadsheet csv"},
        {"crew add", "new apprentice person hire join name"},
        {"crew set", "rename change county exam date"},
        {"crew retire", "leave left quit gone fired remove delete"},
        {"library import", "spreadsheet csv excel own"},
        {"library export", "spreadsheet csv excel template"},
        {"library new", "own write add rule"},
        {"library items-out", "platform training center qti"},
        {"jurisdiction list", "county city state adopted"},
        {"jurisdiction show", "county city amendment local"},
        {"jurisdiction changeover", "new edition change relearn differ"},
        {"record merge", "laptop van home bring join sync"},
        {"record backup", "save copy safe"},
        {"record restore", "undo lost damaged"},
        {"record export", "json lines"},
        {"exam sit", "mock test timed open closed book clock"},
        {"exam readiness", "ready pass chance license board"},
        {"exam outlines", "board license structure"},
        {"work list", "calculate calculator size number load"},
        {"completion", "tab shell"}};
    return kWords;
}

Stems stems_in(const std::string& text) {
    const auto list = practice::stems_of(text);
    return {list.begin(), list.end()};
}

bool holds(const Stems& words, const std::string& stem) {
    const auto from = words.lower_bound(stem);
    return from != words.end() && (*from == stem || (stem.size() >= kLeastBeginning && from->starts_with(stem)));
}

std::string called(const Verb& verb) {
    const auto found = also_called().find(verb.full_name());
    return found == also_called().end() ? std::string{} : found->second;
}

struct Suggestion {
    const Verb* verb = nullptr;
    int worth = 0;
    std::vector<OptionSpec> options;  ///< that have one of the words
};

Suggestion look_at(const Verb& verb, const Stems& typed) {
    Suggestion one{&verb, 0, {}};
    const auto name = stems_in(verb.full_name());
    const auto also = stems_in(called(verb));
    const auto does = stems_in(verb.does);
    const auto options = verb.all_options();
    for (const auto& stem : typed) {
        if (holds(name, stem)) one.worth += kInName;
        if (holds(also, stem)) one.worth += kCalled;
        if (holds(does, stem)) one.worth += kInDoes;
        for (const auto& option : options) {
            if (!holds(stems_in(option.name.substr(2) + " " + option.does), stem)) continue;
            one.worth += one.options.empty() ? kInOption : 0;
            if (one.options.size() < kMostOptions) one.options.push_back(option);
        }
    }
    return one;
}

std::vector<Suggestion> suggestions(const std::string& words) {
    const auto typed = stems_in(words);
    std::vector<Suggestion> all;
    for (const auto& verb : verbs())
        if (auto one = look_at(verb, typed); one.worth > 0) all.push_back(std::move(one));
    std::stable_sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.worth > b.worth; });
    // One word of several, met by chance, is no help.
    std::erase_if(all, [best = all.empty() ? 0 : all.front().worth](const auto& one) { return 3 * one.worth < best; });
    if (all.size() > kMostVerbs) all.resize(kMostVerbs);
    return all;
}

/// The words that suggestions know, for one that is a slip of the keyboard.
std::vector<std::string> known_words() {
    std::set<std::string> known;
    for (const auto& verb : verbs())
        for (const auto& word : base::words(verb.full_name() + " " + verb.does + " " + called(verb)))
            if (word.size() >= kLeastBeginning) known.insert(word);
    return {known.begin(), known.end()};
}

ordered_json to_json(const std::vector<Suggestion>& all) {
    ordered_json list = ordered_json::array();
    for (const auto& one : all) {
        ordered_json options = ordered_json::array();
        for (const auto& option : one.options) options.push_back({{"name", option.name}, {"does", option.does}});
        list.push_back({{"verb", one.verb->full_name()}, {"does", one.verb->does}, {"options", options}});
    }
    return {{"ok", true}, {"suggestions", list}};
}

std::vector<std::string> to_lines(const std::vector<Suggestion>& all, const report::Page& page) {
    std::vector<std::string> lines;
    for (const auto& one : all) {
        lines.push_back(report::inked(page, report::Ink::bold, "greentag " + one.verb->full_name()));
        report::add(lines, page, one.verb->does, 4);
        for (const auto& option : one.options)
            report::add_hanging(lines, page, "      " + option.name + "  ", option.does, report::Ink::faint);
    }
    return lines;
}

/// The help of a verb or a group of verbs, or all of it. False when the words are the name of none.
bool show_help_of(const Context& context, const std::vector<std::string>& words) {
    const std::string name = base::join(words, " ");
    const bool known =
        name.empty() || groups().contains(name) ||
        std::any_of(verbs().begin(), verbs().end(), [&](const Verb& v) { return v.full_name() == name; });
    if (!known) return false;
    auto arguments = words;
    arguments.emplace_back("--help");
    Exit status = Exit::fine;
    static_cast<void>(parse(arguments, context.out(), context.err(), status));
    return true;
}

}  // namespace

Exit run_help(Context& context) {
    const auto words = context.values("WORD");
    if (!context.json() && show_help_of(context, words)) return Exit::fine;
    std::string wanted = base::join(words, " ");
    auto all = suggestions(wanted);
    std::vector<std::string> lines;
    const auto near = all.empty() ? base::nearest(base::lower(wanted), known_words()) : std::nullopt;
    if (near) {
        all = suggestions(*near);
        report::add(lines, context.page(), "Nothing here is called '" + wanted + "'. By '" + *near + "':");
        wanted = *near;
    }
    if (context.json()) {
        context.out() << to_json(all).dump(2) << '\n';
        return all.empty() ? Exit::problems : Exit::fine;
    }
    for (auto& line : to_lines(all, context.page())) lines.push_back(std::move(line));
    if (all.empty()) report::add(lines, context.page(), "Nothing here is called '" + wanted + "'.");
    lines.emplace_back();
    report::add(lines, context.page(),
                "'greentag VERB --help' tells all of a verb. For the code itself: 'greentag find " + wanted +
                    "'; before a job: 'greentag job " + wanted + "'.",
                0, report::Ink::faint);
    context.print(lines);
    return all.empty() ? Exit::problems : Exit::fine;
}

}  // namespace cli
