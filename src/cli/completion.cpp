#include <algorithm>
#include <ostream>
#include <set>

#include "base/text.hpp"
#include "cli/context.hpp"

// Completion scripts written from the same table as the help, so that they cannot fall behind it.
namespace cli {
namespace {

std::vector<std::string> first_words() {
    std::vector<std::string> found;
    for (const auto& verb : verbs()) {
        const std::string& word = verb.group.empty() ? verb.name : verb.group;
        if (std::find(found.begin(), found.end(), word) == found.end()) found.push_back(word);
    }
    return found;
}

std::vector<std::string> second_words(const std::string& group) {
    std::vector<std::string> found;
    for (const auto& verb : verbs())
        if (verb.group == group && !group.empty()) found.push_back(verb.name);
    return found;
}

std::vector<std::string> option_names(const std::vector<OptionSpec>& options) {
    std::vector<std::string> names;
    for (const auto& option : options) names.push_back(option.name);
    return names;
}

std::string words_of(const Verb& verb) {
    auto names = option_names(verb.all_options());
    for (const auto& word : verb.words) names.insert(names.end(), word.choices.begin(), word.choices.end());
    return base::join(names, " ");
}

std::string global_words() {
    return base::join(option_names(global_options()), " ") + " --help --version";
}

std::string does_of(const std::string& first) {
    for (const auto& verb : verbs())
        if (verb.group.empty() && verb.name == first) return verb.does;
    return groups().at(first);
}

/// An apostrophe would end the quoted text it stands in.
std::string quotable(std::string text) {
    std::erase(text, '\'');
    return text;
}

/// Options with a fixed set of values, from all verbs, each once.
std::vector<OptionSpec> options_with_choices() {
    std::vector<OptionSpec> found;
    std::set<std::string> seen;
    const auto add = [&](const std::vector<OptionSpec>& options) {
        for (const auto& option : options)
            if (!option.choices.empty() && seen.insert(option.name).second) found.push_back(option);
    };
    add(global_options());
    for (const auto& verb : verbs()) add(verb.all_options());
    return found;
}

void write_bash(std::ostream& out) {
    out << "# Completion for bash. Written by 'greentag completion bash'.\n"
           "_greentag() {\n"
           "    local current=\"${COMP_WORDS[COMP_CWORD]}\" previous=\"${COMP_WORDS[COMP_CWORD-1]}\" words=\"\" "
           "first=\"\" second=\"\" i\n"
           "    for ((i = 1; i < COMP_CWORD; i++)); do\n"
           "        case \"${COMP_WORDS[i]}\" in\n"
           "            -*) ;;\n"
           "            *) if [ -z \"$first\" ]; then first=\"${COMP_WORDS[i]}\"; elif [ -z \"$second\" ]; then "
           "second=\"${COMP_WORDS[i]}\"; fi ;;\n"
           "        esac\n"
           "    done\n"
           "    case \"$previous\" in\n";
    for (const auto& option : options_with_choices())
        out << "        " << option.name << ") COMPREPLY=($(compgen -W '" << base::join(option.choices, " ")
            << "' -- \"$current\")); return ;;\n";
    out << "        --home|--library) COMPREPLY=($(compgen -d -- \"$current\")); return ;;\n"
           "        --to) COMPREPLY=($(compgen -f -- \"$current\")); return ;;\n"
           "    esac\n"
           "    case \"$first $second\" in\n"
           "        ' ') words='"
        << base::join(first_words(), " ") << "' ;;\n";
    for (const auto& [group, does] : groups())
        out << "        '" << group << " ') words='" << base::join(second_words(group), " ") << "' ;;\n";
    for (const auto& verb : verbs())
        out << "        '" << verb.full_name() << (verb.group.empty() ? " '*" : "'") << ") words='" << words_of(verb)
            << "' ;;\n";
    out << "    esac\n"
           "    COMPREPLY=($(compgen -W \"$words "
        << global_words()
        << "\" -- \"$current\"))\n"
           "}\n"
           "complete -o default -F _greentag greentag\n";
}

void write_zsh(std::ostream& out) {
    out << "#compdef greentag\n# Completion for zsh. Written by 'greentag completion zsh'.\n_greentag() {\n"
           "    local -a first second options\n"
           "    first=(\n";
    for (const auto& word : first_words()) out << "        '" << word << ":" << quotable(does_of(word)) << "'\n";
    out << "    )\n    options=(" << global_words()
        << ")\n"
           "    if (( CURRENT == 2 )); then _describe verb first; compadd -- $options; return; fi\n"
           "    case \"$words[2]\" in\n";
    for (const auto& [group, does] : groups()) {
        out << "        " << group << ")\n            if (( CURRENT == 3 )); then\n                second=(\n";
        for (const auto& verb : verbs())
            if (verb.group == group) out << "                    '" << verb.name << ":" << quotable(verb.does) << "'\n";
        out << "                )\n                _describe verb second; return\n            fi\n"
               "            case \"$words[3]\" in\n";
        for (const auto& verb : verbs())
            if (verb.group == group)
                out << "                " << verb.name << ") options+=(" << words_of(verb) << ") ;;\n";
        out << "            esac ;;\n";
    }
    for (const auto& verb : verbs())
        if (verb.group.empty()) out << "        " << verb.name << ") options+=(" << words_of(verb) << ") ;;\n";
    out << "    esac\n    compadd -- $options\n    _files\n}\n"
           "if [ \"$funcstack[1]\" = _greentag ]; then _greentag \"$@\"; else compdef _greentag greentag; fi\n";
}

void write_fish_option(std::ostream& out, const std::string& condition, const OptionSpec& option) {
    out << "complete -c greentag " << condition << "-l " << option.name.substr(2) << " -d '" << quotable(option.does)
        << "'";
    if (!option.value.empty()) out << " -r";
    if (!option.choices.empty()) out << " -a '" << base::join(option.choices, " ") << "'";
    out << '\n';
}

void write_fish(std::ostream& out) {
    out << "# Completion for fish. Written by 'greentag completion fish'.\n";
    const std::string firsts = base::join(first_words(), " ");
    for (const auto& word : first_words())
        out << "complete -c greentag -f -n 'not __fish_seen_subcommand_from " << firsts << "' -a " << word << " -d '"
            << quotable(does_of(word)) << "'\n";
    for (const auto& verb : verbs()) {
        std::string condition = "-n '__fish_seen_subcommand_from " + verb.name + "' ";
        if (!verb.group.empty()) {
            const std::string within = "__fish_seen_subcommand_from " + verb.group;
            out << "complete -c greentag -f -n '" << within << "; and not __fish_seen_subcommand_from "
                << base::join(second_words(verb.group), " ") << "' -a " << verb.name << " -d '" << quotable(verb.does)
                << "'\n";
            condition = "-n '" + within + "; and __fish_seen_subcommand_from " + verb.name + "' ";
        }
        for (const auto& option : verb.all_options()) write_fish_option(out, condition, option);
        for (const auto& word : verb.words)
            if (!word.choices.empty())
                out << "complete -c greentag -f " << condition << "-a '" << base::join(word.choices, " ") << "'\n";
    }
    for (const auto& option : global_options()) write_fish_option(out, "", option);
}

}  // namespace

base::Exit run_completion(Context& context) {
    const std::string shell = context.value("SHELL");
    if (shell == "bash")
        write_bash(context.out());
    else if (shell == "zsh")
        write_zsh(context.out());
    else
        write_fish(context.out());
    return base::Exit::fine;
}

}  // namespace cli
