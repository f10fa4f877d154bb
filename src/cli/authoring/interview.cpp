#include "cli/authoring/interview.hpp"

#include <algorithm>
#include <ostream>
#include <vector>

#include "base/exit_status.hpp"
#include "base/text.hpp"
#include "report/style.hpp"

namespace cli {

using base::Exit;
using base::Failure;

bool Interview::person() const {
    return context_->world().input_is_terminal;
}

void Interview::say(const std::string& text) {
    std::vector<std::string> lines;
    report::add(lines, context_->page(), text);
    context_->print(lines);
}

std::string Interview::line(const std::string& question, const std::string& otherwise) {
    context_->out() << question << (otherwise.empty() ? "" : " [" + otherwise + "]") << " > " << std::flush;
    const auto reply = context_->world().input->line();
    if (!reply) {
        context_->out() << '\n';
        throw Failure{Exit::usage, "broken off; nothing was written", "begin again with 'greentag library new'"};
    }
    if (!person()) context_->out() << *reply << '\n';
    const std::string trimmed{base::trim(*reply)};
    return trimmed.empty() ? otherwise : trimmed;
}

std::string Interview::judged(const std::string& question, const Judge& judge, const std::string& otherwise,
                              bool needed) {
    for (;;) {
        std::string reply = line(question, otherwise);
        if (!needed && (reply.empty() || reply == "-")) return {};
        const auto fault = reply.empty() ? std::optional<std::string>{"this cannot stay empty"}
                           : judge       ? judge(reply)
                                         : std::nullopt;
        if (!fault) return reply;
        if (!person())
            throw Failure{Exit::bad_data, question + ": " + *fault,
                          "nothing was written; mend the line and begin again"};
        say("  Not so: " + *fault + ".");
    }
}

std::string Interview::ask(const std::string& question, const Judge& judge, const std::string& otherwise) {
    return judged(question, judge, otherwise, true);
}

std::string Interview::ask_or_none(const std::string& question, const Judge& judge, const std::string& otherwise) {
    return judged(question, judge, otherwise, false);
}

std::string Interview::choice(const std::string& question, const std::vector<std::string>& words,
                              const std::string& otherwise) {
    std::string meant;
    const auto judge = [&](const std::string& reply) -> std::optional<std::string> {
        const std::string small = base::lower(reply);
        std::vector<std::string> fitting;
        for (const auto& word : words) {
            if (word == small) fitting = {word};
            if (word == small) break;
            if (word.starts_with(small)) fitting.push_back(word);
        }
        if (fitting.size() == 1) meant = fitting.front();
        return fitting.size() == 1 ? std::nullopt : std::optional{"say one of " + base::join(words, ", ")};
    };
    ask(question + " (" + base::join(words, ", ") + ")", judge, otherwise);
    return meant;
}

bool Interview::yes(const std::string& question, bool otherwise) {
    return choice(question, {"yes", "no"}, otherwise ? "yes" : "no") == "yes";
}

Interview::Judge at_least(std::size_t letters) {
    return [letters](const std::string& reply) -> std::optional<std::string> {
        if (base::display_width(reply) >= letters) return std::nullopt;
        return "write at least " + std::to_string(letters) + " letters";
    };
}

}  // namespace cli
