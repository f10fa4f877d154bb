#include "cli/command_line.hpp"

#include <algorithm>
#include <memory>
#include <ostream>
#include <set>

#include <CLI/CLI.hpp>

#include "base/text.hpp"

namespace cli {
namespace {

using base::Exit;

/// The words of every option and verb, where the parser puts what was typed.
struct Slots {
    std::map<std::string, std::vector<std::string>> lists;
    std::map<std::string, bool> flags;
};

/// Refuses any other word. The parser's own check would print its list behind the choices that help shows already.
CLI::Validator choice_of(const std::vector<std::string>& choices) {
    return CLI::Validator{[choices](std::string& given) {
                              if (std::find(choices.begin(), choices.end(), given) != choices.end())
                                  return std::string{};
                              // A year that is no edition is no slip of the keyboard.
                              const bool number = given.find_first_not_of("0123456789") == std::string::npos;
                              const auto near = number ? std::nullopt : base::nearest(given, choices);
                              return "'" + given + "' is none of " + base::join(choices, ", ") +
                                     (near ? "; did you mean '" + *near + "'?" : "");
                          },
                          ""};
}

void add_option(CLI::App& app, const OptionSpec& spec, Slots& slots) {
    if (spec.value.empty()) {
        app.add_flag(spec.name, slots.flags[spec.name])->description(spec.does);
        return;
    }
    auto* option = app.add_option(spec.name, slots.lists[spec.name], spec.does);
    // One value each time it stands there: words behind it belong to the verb.
    option->type_name(spec.value)->expected(1)->allow_extra_args(false);
    if (spec.repeats)
        option->take_all();
    else
        option->take_last();
    if (!spec.choices.empty()) option->check(choice_of(spec.choices))->type_name(base::join(spec.choices, "|"));
}

void add_word(CLI::App& app, const WordSpec& spec, Slots& slots) {
    auto* option = app.add_option(spec.name, slots.lists[spec.name], spec.does);
    option->type_name("");
    if (spec.repeats)
        option->expected(spec.needed ? 1 : 0, 100000);
    else
        option->expected(1)->allow_extra_args(false);
    if (spec.needed) option->required();
    if (!spec.choices.empty()) option->check(choice_of(spec.choices));
}

void dress(CLI::App& app) {
    app.fallthrough();
    app.get_formatter()->column_width(26);
    app.get_formatter()->label("SUBCOMMAND", "VERB");
}

/// Only the verb that is wanted gets its options: building all of them would cost every start the same again.
class Tree {
public:
    Tree(CLI::App& app, Slots& slots, const std::vector<std::string>& arguments) {
        dress(app);
        for (const auto& option : global_options()) add_option(app, option, slots);
        app.require_subcommand(1);
        const std::set<std::string> named{arguments.begin(), arguments.end()};
        for (const auto& verb : verbs()) {
            CLI::App& parent = verb.group.empty() ? app : group(app, verb.group);
            CLI::App* sub = parent.add_subcommand(verb.name, verb.does);
            sub->group("Verbs");
            subs_.emplace_back(sub, &verb);
            if (!named.contains(verb.name)) continue;
            dress(*sub);
            for (const auto& option : verb.all_options()) add_option(*sub, option, slots);
            for (const auto& word : verb.words) add_word(*sub, word, slots);
        }
    }

    [[nodiscard]] const Verb* chosen() const {
        const auto found = std::find_if(subs_.begin(), subs_.end(), [](const auto& s) { return s.first->parsed(); });
        return found == subs_.end() ? nullptr : found->second;
    }

private:
    CLI::App& group(CLI::App& app, const std::string& name) {
        auto& held = groups_[name];
        if (held == nullptr) {
            held = app.add_subcommand(name, groups().at(name));
            dress(*held);
            held->group("Verbs");
            held->require_subcommand(1);
        }
        return *held;
    }

    static const std::map<std::string, std::string>& groups() { return cli::groups(); }

    std::map<std::string, CLI::App*> groups_;
    std::vector<std::pair<CLI::App*, const Verb*>> subs_;
};

Values values_of(const Slots& slots) {
    Values values;
    for (const auto& [name, flag] : slots.flags)
        if (flag) values[name] = {};
    for (const auto& [name, list] : slots.lists)
        if (!list.empty()) values[name] = list;
    return values;
}

std::vector<std::string> known_first_words() {
    std::vector<std::string> known;
    for (const auto& verb : verbs()) known.push_back(verb.group.empty() ? verb.name : verb.group);
    std::sort(known.begin(), known.end());
    known.erase(std::unique(known.begin(), known.end()), known.end());
    return known;
}

/// The first word that is no option, when no verb or group is called so.
std::optional<std::string> mistyped_verb(const std::vector<std::string>& arguments) {
    std::set<std::string> takes_value;
    for (const auto& option : global_options())
        if (!option.value.empty()) takes_value.insert(option.name);
    const auto known = known_first_words();
    for (std::size_t i = 0; i < arguments.size(); ++i) {
        if (takes_value.contains(arguments[i]))
            ++i;
        else if (!arguments[i].starts_with("-"))
            return std::find(known.begin(), known.end(), arguments[i]) == known.end() ? std::optional{arguments[i]}
                                                                                      : std::nullopt;
    }
    return std::nullopt;
}

/// What stands behind the name of a group and is none of its verbs, with the nearest that is.
std::optional<std::string> mistyped_in_group(const std::vector<std::string>& arguments) {
    for (std::size_t i = 0; i + 1 < arguments.size(); ++i) {
        if (!groups().contains(arguments[i])) continue;
        std::vector<std::string> known;
        for (const auto& verb : verbs())
            if (verb.group == arguments[i]) known.push_back(verb.name);
        const std::string& next = arguments[i + 1];
        if (next.starts_with("-") || std::find(known.begin(), known.end(), next) != known.end()) return std::nullopt;
        const auto near = base::nearest(next, known);
        return "there is no verb '" + arguments[i] + " " + next + "'; " +
               (near ? "did you mean '" + arguments[i] + " " + *near + "'?" : "there are: " + base::join(known, ", "));
    }
    return std::nullopt;
}

std::vector<std::string> known_options() {
    std::vector<std::string> names = {"--help", "--version"};
    for (const auto& option : global_options()) names.push_back(option.name);
    for (const auto& verb : verbs())
        for (const auto& option : verb.all_options()) names.push_back(option.name);
    return names;
}

/// The nearest known option to one in the command line that nobody knows.
std::string option_hint(const std::vector<std::string>& arguments) {
    const auto known = known_options();
    for (const auto& word : arguments) {
        const std::string name = word.substr(0, word.find('='));
        if (!name.starts_with("--") || std::find(known.begin(), known.end(), name) != known.end()) continue;
        if (const auto near = base::nearest(name, known)) return "; did you mean '" + *near + "'?";
    }
    return "; --help lists what there is";
}

/// "work --list" is how people ask for it; the verb is "work list".
std::vector<std::string> with_list_verb(std::vector<std::string> arguments) {
    for (std::size_t i = 0; i + 1 < arguments.size(); ++i)
        if (arguments[i] == "work" && arguments[i + 1] == "--list") arguments[i + 1] = "list";
    return arguments;
}

/// "help" with the words behind it, whatever they are: they may be names of verbs, which the parser would take for
/// such.
std::optional<Parsed> help_asked(const std::vector<std::string>& arguments) {
    std::set<std::string> takes_value;
    for (const auto& option : global_options())
        if (!option.value.empty()) takes_value.insert(option.name);
    Values values;
    bool asked = false;
    for (std::size_t i = 0; i < arguments.size(); ++i) {
        const auto& word = arguments[i];
        if (word == "--help" || word == "-h") return std::nullopt;
        if (takes_value.contains(word) && i + 1 < arguments.size())
            values[word].push_back(arguments[++i]);
        else if (word.starts_with("-"))
            values[word] = {};
        else if (asked)
            values["WORD"].push_back(word);
        else if (word == "help")
            asked = true;
        else
            return std::nullopt;
    }
    if (!asked) return std::nullopt;
    const auto found =
        std::find_if(verbs().begin(), verbs().end(), [](const Verb& v) { return v.full_name() == "help"; });
    return Parsed{&*found, std::move(values)};
}

}  // namespace

std::string version_text() {
    return std::string{"greentag "} + GREENTAG_VERSION;
}

std::optional<Parsed> parse(const std::vector<std::string>& typed, std::ostream& out, std::ostream& err, Exit& status) {
    const auto arguments = with_list_verb(typed);
    status = Exit::usage;
    if (auto help = help_asked(arguments)) return help;
    if (const auto wrong = mistyped_verb(arguments)) {
        const auto near = base::nearest(*wrong, known_first_words());
        err << "greentag: there is no verb '" << *wrong << "'"
            << (near ? "; did you mean '" + *near + "'?" : "; 'greentag help WORD' suggests") << '\n';
        return std::nullopt;
    }
    if (const auto complaint = mistyped_in_group(arguments)) {
        err << "greentag: " << *complaint << '\n';
        return std::nullopt;
    }
    CLI::App app{
        "Trains electricians in the code they work under. A training aid: the adopted code, local amendments and "
        "the inspector decide."};
    app.name("greentag");
    app.set_version_flag("--version", version_text());
    Slots slots;
    const Tree tree{app, slots, arguments};
    try {
        std::vector<std::string> reversed{arguments.rbegin(), arguments.rend()};
        app.parse(reversed);
    } catch (const CLI::ParseError& error) {
        if (error.get_exit_code() == 0) {
            status = Exit::fine;
            app.exit(error, out, err);
        } else {
            const std::string said = error.what();
            const bool unknown = dynamic_cast<const CLI::ExtrasError*>(&error) != nullptr;
            err << "greentag: " << said << (unknown ? option_hint(arguments) : "; --help shows how") << '\n';
        }
        return std::nullopt;
    }
    return Parsed{tree.chosen(), values_of(slots)};
}

}  // namespace cli
