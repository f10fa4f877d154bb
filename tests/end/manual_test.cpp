#include <doctest/doctest.h>

#include <cstdlib>
#include <map>

#include "base/text.hpp"
#include "end/case_file.hpp"

/// The examples of docs/manual.md are what the program answers. A line above each block says how it is played:
///
///     <!-- play now=2026-03-02T07:00Z seed=7 first=12 last=3 typed="b /sure|q" exit=65 -->
///     ```console
///     $ greentag study --count 1
///
/// `first` and `last`: so many lines of each answer are shown, with "..." between; `typed`: lines for the last command
/// of the block, parted by "|"; `exit`: its status. <!-- run now=... seed=... : greentag ... --> is played unseen. All
/// of it happens in one data home and one folder, over the shipped content. With GREENTAG_ACCEPT=1 the answers are
/// written into the page; read the difference before keeping it.
namespace {

using namespace end;

const std::string kPage = kProject + "/docs/manual.md";
const std::string kPrompt = "$ greentag ";

std::map<std::string, std::string> directive(const std::string& line) {
    std::map<std::string, std::string> said;
    for (const auto& word : words_of(line))
        if (const auto equal = word.find('='); equal != std::string::npos)
            said.emplace(word.substr(0, equal), word.substr(equal + 1));
    return said;
}

std::size_t number(const std::map<std::string, std::string>& said, const std::string& name, std::size_t otherwise) {
    const auto found = said.find(name);
    return found == said.end() ? otherwise : std::stoul(found->second);
}

std::vector<std::string> lines_of(const std::string& text) {
    auto lines = base::split(text, '\n');
    while (!lines.empty() && lines.back().empty()) lines.pop_back();
    return lines;
}

/// What is shown of an answer. Nothing is left out where that would save no line.
std::vector<std::string> shown(std::vector<std::string> lines, const std::map<std::string, std::string>& said) {
    if (!said.contains("first") && !said.contains("last")) return lines;
    const std::size_t first = number(said, "first", 0), last = number(said, "last", 0);
    if (lines.size() <= first + last + 1) return lines;
    std::vector<std::string> part{lines.begin(), lines.begin() + static_cast<std::ptrdiff_t>(first)};
    part.emplace_back("...");
    part.insert(part.end(), lines.end() - static_cast<std::ptrdiff_t>(last), lines.end());
    return part;
}

/// Plays the page in order and gives it back with the answers of the program.
class Manual {
public:
    std::string played(const std::string& page) {
        std::vector<std::string> block;
        bool inside = false;
        for (const auto& line : base::split(page, '\n')) {
            ++number_;
            if (line.starts_with("<!-- play ")) said_ = directive(line);
            if (line.starts_with("<!-- run ")) run_unseen(line);
            if (inside && line == "```") {
                play(block);
                inside = false;
                said_.clear();
            }
            if (inside)
                block.push_back(line);
            else
                page_ += line + "\n";
            if (line == "```console") {
                REQUIRE_MESSAGE(!said_.empty(), kPage, ":", number_, ": no line says how this block is played");
                inside = true;
                block.clear();
            }
        }
        page_.pop_back();
        return page_;
    }
    [[nodiscard]] std::size_t runs() const { return runs_; }

private:
    Ended run(const std::string& command, const std::string& typed) {
        Words words = words_of(command);
        words.insert(words.end(), {"--now", said_.at("now"), "--seed", said_.at("seed")});
        ++runs_;
        return place_.run_at_desk(words, typed);
    }

    void run_unseen(const std::string& line) {
        said_ = directive(line.substr(0, line.find(" : ")));
        const std::string rest = line.substr(line.find(" : ") + 3);
        const auto ended = run(rest.substr(9, rest.rfind(" -->") - 9), "");
        CHECK_MESSAGE(ended.exit == 0, kPage, ":", number_, ": ", ended.out);
        said_.clear();
    }

    void play(const std::vector<std::string>& block) {
        std::vector<std::string> commands;
        for (const auto& line : block)
            if (line.starts_with(kPrompt)) commands.push_back(line.substr(kPrompt.size()));
        for (std::size_t n = 0; n < commands.size(); ++n) {
            const bool last = n + 1 == commands.size();
            std::string typed = last && said_.contains("typed") ? replaced(said_.at("typed"), "|", "\n") + "\n" : "";
            const auto ended = run(commands[n], typed);
            const int wanted = last ? static_cast<int>(number(said_, "exit", 0)) : 0;
            CHECK_MESSAGE(ended.exit == wanted, kPage, ":", number_, ": ", commands[n], "\n", ended.out);
            page_ += kPrompt + commands[n] + "\n";
            for (const auto& line : shown(lines_of(ended.out), said_)) page_ += line + "\n";
        }
    }

    Place place_{kProject};
    std::map<std::string, std::string> said_;
    std::string page_;
    std::size_t number_ = 0, runs_ = 0;
};

}  // namespace

TEST_CASE("manual: every example is what the program answers") {
    const std::string page = read_file(kPage);
    Manual manual;
    const std::string played = manual.played(page);
    CHECK(manual.runs() >= 40);
    if (std::getenv("GREENTAG_ACCEPT") != nullptr) {
        write_file(kPage, played);
        return;
    }
    const auto is = base::split(page, '\n'), would_be = base::split(played, '\n');
    for (std::size_t n = 0; n < std::min(is.size(), would_be.size()); ++n)
        REQUIRE_MESSAGE(is[n] == would_be[n], kPage, ":", n + 1, "\nthe program says: ", would_be[n]);
    CHECK(is.size() == would_be.size());
}

TEST_CASE("manual: every verb has a heading") {
    const std::string page = read_file(kPage);
    std::size_t verbs = 0;
    for (const auto& line : base::split(read_file(kProject + "/docs/commands.md"), '\n')) {
        if (!line.starts_with("## ")) continue;
        const std::string verb = line.substr(3);
        if (verb.starts_with("work ") && verb != "work list") continue;
        ++verbs;
        CHECK_MESSAGE(page.find("\n### " + verb + "\n") != std::string::npos, verb);
    }
    CHECK(verbs > 40);
}
