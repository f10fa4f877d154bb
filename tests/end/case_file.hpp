#pragma once

#include <algorithm>
#include <optional>
#include <sstream>
#include <string>
#include <vector>

#include "end/support.hpp"

/// Case files: what is given, what is run, and what the screen shows then. With GREENTAG_ACCEPT=1 in the environment
/// the test writes down what came out instead of comparing it; read the difference before keeping it.
///
///     # a line of explanation
///     given learner "Ada Volt" 2020       someone in the crew; without it the home is empty
///     given environment NO_COLOR=1
///     given shipped tables                a folder of the shipped decks beside the invented ones
///     given file <desk>/decks/mine.json   the lines that begin with "| " follow
///     now 2026-03-02T07:00Z seed 7        for every run from here on
///     run study --count 2
///     types                               lines for standard input
///     exit 0
///     shows                               standard output
///     complains                           the error stream; left out when nothing is said there
namespace end {

/// One run with what is expected of it.
struct Step {
    std::vector<std::string> head;  ///< the lines before "exit", as they stand in the file
    int line = 0;                   ///< of "run"
    int exit = 0;
    std::string shows, complains;
};

struct CaseFile {
    std::string path;
    std::vector<Step> steps;
};

inline bool begins(const std::string& line, const std::string& word) {
    return line == word || line.rfind(word + " ", 0) == 0;
}

/// Words of a line; a word in quotes may hold spaces, and \" stands for a quote.
inline Words words_of(const std::string& line) {
    Words words;
    std::string word;
    bool quoted = false, any = false;
    for (const char c : replaced(line, "\\\"", "\f") + " ") {
        if (c == '"') {
            quoted = !quoted;
            any = true;
        } else if (c == ' ' && !quoted) {
            if (any) words.push_back(replaced(word, "\f", "\""));
            word.clear();
            any = false;
        } else {
            word += c;
            any = true;
        }
    }
    return words;
}

/// Text as the lines of a case file: each behind "| ", a last one without its end behind "\ ", escapes made visible.
inline std::string as_lines(const std::string& text) {
    std::string lines;
    std::istringstream in{replaced(replaced(text, "\x1b", "␛"), "\r", "␍")};
    for (std::string line; std::getline(in, line);) lines += (in.eof() ? "\\ " : "| ") + line + "\n";
    return lines;
}

/// What stands behind the first word of a line.
inline std::string rest_of(const std::string& line) {
    const auto at = line.find(' ');
    return at == std::string::npos ? std::string{} : line.substr(at + 1);
}

/// Puts the lines of a file together into steps.
class CaseReader {
public:
    explicit CaseReader(const std::string& path) : in_{path} {
        if (!in_) throw std::runtime_error{path + ": cannot be read"};
        file_.path = path;
    }
    CaseFile read() {
        for (std::string line; std::getline(in_, line); ++number_) take(line);
        return file_;
    }

private:
    void take(const std::string& line) {
        if (begins(line, "exit") && !step_.head.empty())
            end_head(line);
        else if (block_ != nullptr && (line.rfind("| ", 0) == 0 || line.rfind("\\ ", 0) == 0))
            *block_ += line + "\n";
        else if (in_expected_ && (line == "shows" || line == "complains"))
            block_ = line == "shows" ? &file_.steps.back().shows : &file_.steps.back().complains;
        else
            add_to_head(line);
    }
    void end_head(const std::string& line) {
        step_.exit = std::stoi(rest_of(line));
        file_.steps.push_back(step_);
        step_ = {};
        in_expected_ = true;
        block_ = nullptr;
    }
    void add_to_head(const std::string& line) {
        in_expected_ = false;
        block_ = nullptr;
        if (begins(line, "run")) step_.line = number_;
        step_.head.push_back(line);
    }

    std::ifstream in_;
    CaseFile file_;
    Step step_;
    std::string* block_ = nullptr;
    bool in_expected_ = false;
    int number_ = 1;
};

inline std::string to_text(const CaseFile& file) {
    std::string text;
    for (const auto& step : file.steps) {
        for (const auto& line : step.head) text += line + "\n";
        text += "exit " + std::to_string(step.exit) + "\n";
        if (!step.shows.empty()) text += "shows\n" + step.shows;
        if (!step.complains.empty()) text += "complains\n" + step.complains;
    }
    return text;
}

/// Plays a case: every step in one home.
class CasePlayer {
public:
    /// The step as it came out this time.
    Step play(Step step) {
        Words words;
        std::string typed;
        for (std::size_t at = 0; at < step.head.size(); ++at) {
            const std::string& line = step.head[at];
            if (begins(line, "given file"))
                write_file(place_.unmasked(rest_of(rest_of(line))), block_after(step, at));
            else if (begins(line, "given"))
                given(rest_of(line));
            else if (begins(line, "now"))
                moment_ = words_of("--" + replaced(line, " seed ", " --seed "));
            else if (begins(line, "run"))
                words = words_of(place_.unmasked(rest_of(line)));
            else if (line == "types")
                typed = block_after(step, at);
        }
        words.insert(words.begin(), moment_.begin(), moment_.end());
        const Ended ended = place_.run(words, typed, environment_);
        step.exit = ended.exit;
        step.shows = as_lines(place_.masked(ended.out));
        step.complains = as_lines(place_.masked(ended.err));
        return step;
    }

private:
    static std::string block_after(const Step& step, std::size_t at) {
        std::string text;
        while (++at < step.head.size() && (begins(step.head[at], "|") || begins(step.head[at], "\\")))
            text +=
                (step.head[at].size() > 2 ? step.head[at].substr(2) : "") + (step.head[at].front() == '|' ? "\n" : "");
        return text;
    }
    void given(const std::string& what) {
        const Words words = words_of(what);
        if (words.front() == "environment")
            environment_[words.at(1).substr(0, words.at(1).find('='))] = words.at(1).substr(words.at(1).find('=') + 1);
        else if (words.front() == "shipped")
            place_.bring("/decks/" + words.at(1));
        else if (words.front() == "learner")
            add_learner(words.at(1), words.at(2));
        else
            throw std::runtime_error{"given " + what + ": not understood"};
    }
    void add_learner(const std::string& name, const std::string& edition) {
        Words words = {"crew", "add", name, "--edition", edition};
        words.insert(words.end(), moment_.begin(), moment_.end());
        if (place_.run(words).exit != 0) throw std::runtime_error{name + " could not be added"};
    }

    Place place_;
    Environment environment_;
    Words moment_;
};

/// Every case file, in order of name.
inline std::vector<std::string> case_files() {
    std::vector<std::string> files;
    for (const auto& entry : fs::directory_iterator{kProject + "/tests/end"})
        if (entry.path().extension() == ".case") files.push_back(entry.path().string());
    std::sort(files.begin(), files.end());
    return files;
}

/// The words of every "run" in every case file.
inline std::vector<Words> all_runs() {
    std::vector<Words> runs;
    for (const auto& path : case_files())
        for (const auto& step : CaseReader{path}.read().steps)
            for (const auto& line : step.head)
                if (begins(line, "run")) runs.push_back(words_of(rest_of(line)));
    return runs;
}

}  // namespace end
