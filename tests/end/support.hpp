#pragma once

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include <fcntl.h>
#include <stdlib.h>  // mkdtemp
#include <sys/wait.h>
#include <unistd.h>

#include "base/random.hpp"
#include "store/store.hpp"

/// Runs the real program from outside: arguments, environment and standard input in; exit status and both outputs out.
namespace end {

namespace fs = std::filesystem;
using Words = std::vector<std::string>;
using Environment = std::map<std::string, std::string>;

inline const std::string kProject = PROJECT_FOLDER;
inline const std::string kSmall = kProject + "/tests/end/small";

/// How a program ended.
struct Ended {
    int exit = -1;  ///< -1 when a signal ended it
    int signal = 0;
    std::string out, err;
};

inline std::string read_file(const std::string& path) {
    std::ifstream in{path, std::ios::binary};
    return {std::istreambuf_iterator<char>{in}, {}};
}

inline void write_file(const std::string& path, const std::string& text) {
    fs::create_directories(fs::path{path}.parent_path());
    std::ofstream{path, std::ios::binary | std::ios::trunc} << text;
}

inline std::string replaced(std::string text, const std::string& from, const std::string& to) {
    for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
    return text;
}

/// How much of an id stands at the front: all 36 characters, the 18 that lists show, or none.
inline std::size_t id_length(const std::string& text, std::size_t at) {
    static const std::string kForm = "xxxxxxxx-xxxx-7xxx-xxxx-xxxxxxxxxxxx";
    constexpr std::size_t kShort = 18;
    std::size_t length = 0;
    for (; length < kForm.size() && at + length < text.size(); ++length) {
        const char c = text[at + length];
        const bool hex = (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f');
        if (kForm[length] == 'x' ? !hex : c != kForm[length]) break;
    }
    return length == kForm.size() ? length : length >= kShort ? kShort : 0;
}

inline std::string without_ids(const std::string& text) {
    std::string masked;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t length = id_length(text, at);
        masked += length > 0 ? std::string{"<id>"} : std::string(1, text[at]);
        at += std::max<std::size_t>(1, length);
    }
    return masked;
}

/// The program installed in a folder of its own, so that it finds the small invented content and not the shipped one;
/// a data home and a desk for files beside it.
class Place {
public:
    explicit Place(const std::string& content = kSmall) {
        std::string form = (fs::temp_directory_path() / "greentag-end-XXXXXX").string();
        if (mkdtemp(form.data()) == nullptr) throw std::runtime_error{"no temporary folder"};
        root_ = form;
        for (const char* name : {"/bin", "/share/greentag", "/desk", "/home"}) fs::create_directories(root_ + name);
        install();
        for (const char* part : {"/decks", "/scenarios"})
            fs::copy(content + part, root_ + "/share/greentag" + part, fs::copy_options::recursive);
        for (const char* name : {"", "/desk", "/home"}) fs::permissions(root_ + name, fs::perms{0755});
    }
    Place(const Place&) = delete;
    Place& operator=(const Place&) = delete;
    ~Place() {
        std::error_code error;
        fs::remove_all(root_, error);
    }

    [[nodiscard]] std::string program() const { return root_ + "/bin/greentag"; }
    [[nodiscard]] std::string home() const { return root_ + "/home"; }
    [[nodiscard]] std::string store() const { return home() + "/greentag.db"; }
    [[nodiscard]] std::string desk(const std::string& name = "") const { return root_ + "/desk/" + name; }
    [[nodiscard]] const std::string& root() const { return root_; }

    [[nodiscard]] Ended run(const Words& words, const std::string& typed = "", const Environment& extra = {}) const {
        Words command = {program()};
        command.insert(command.end(), words.begin(), words.end());
        return start(command, typed, extra);
    }

    /// The same from the desk, with what is said on the error stream in its place among the rest.
    [[nodiscard]] Ended run_at_desk(const Words& words, const std::string& typed = "") const {
        Words command = {"/bin/sh", "-c", "cd \"$0\" && exec \"$@\" 2>&1", desk(), program()};
        command.insert(command.end(), words.begin(), words.end());
        return start(command, typed, {});
    }

    /// Puts a folder of the shipped content, such as "/decks/tables", beside the invented one.
    void bring(const std::string& folder) const {
        fs::copy(kProject + folder, root_ + "/share/greentag" + folder, fs::copy_options::recursive);
    }

    /// A line for the shell, in which $GREENTAG is the program.
    [[nodiscard]] Ended shell(const std::string& line, const std::string& typed = "") const {
        return start({"/bin/sh", "-c", line}, typed, {});
    }

    /// Words and line numbers that differ from run to run, replaced by their names.
    [[nodiscard]] std::string masked(const std::string& text) const {
        return replaced(replaced(replaced(without_ids(text), home(), "<home>"), root_ + "/desk", "<desk>"),
                        root_ + "/share/greentag", "<content>");
    }
    [[nodiscard]] std::string unmasked(const std::string& text) const {
        return replaced(replaced(text, "<home>", home()), "<desk>", root_ + "/desk");
    }

private:
    /// Links and does not copy where it can: the program may be large.
    void install() const {
        std::error_code error;
        fs::create_hard_link(GREENTAG_BINARY, program(), error);
        if (error) fs::copy(GREENTAG_BINARY, program());
    }

    [[nodiscard]] std::vector<std::string> environment(const Environment& extra) const {
        Environment all = {{"PATH", "/usr/sbin:/usr/bin:/sbin:/bin"},
                           {"HOME", root_},
                           {"GREENTAG_HOME", home()},
                           {"GREENTAG", program()},
                           {"TERM", "xterm"}};
        for (const auto& [name, value] : extra) all[name] = value;
        std::vector<std::string> list;
        for (const auto& [name, value] : all) list.push_back(name + "=" + value);
        return list;
    }

    [[nodiscard]] Ended start(const Words& command, const std::string& typed, const Environment& extra) const {
        write_file(root_ + "/typed", typed);
        const pid_t child = fork();
        if (child == 0) become(command, environment(extra));
        int status = 0;
        waitpid(child, &status, 0);
        Ended ended;
        if (WIFEXITED(status)) ended.exit = WEXITSTATUS(status);
        if (WIFSIGNALED(status)) ended.signal = WTERMSIG(status);
        ended.out = read_file(root_ + "/out");
        ended.err = read_file(root_ + "/err");
        return ended;
    }

    static std::vector<char*> pointers(std::vector<std::string>& list) {
        std::vector<char*> all;
        for (auto& one : list) all.push_back(one.data());
        all.push_back(nullptr);
        return all;
    }

    [[noreturn]] void become(Words command, std::vector<std::string> environment) const {
        const int write = O_WRONLY | O_CREAT | O_TRUNC;
        dup2(open((root_ + "/typed").c_str(), O_RDONLY), STDIN_FILENO);
        dup2(open((root_ + "/out").c_str(), write, 0644), STDOUT_FILENO);
        dup2(open((root_ + "/err").c_str(), write, 0644), STDERR_FILENO);
        execve(command.front().c_str(), pointers(command).data(), pointers(environment).data());
        _exit(127);
    }

    std::string root_;
};

/// A place with one learner who studies under 2020, added on Monday, 2 March 2026.
class PlaceWithAda : public Place {
public:
    PlaceWithAda() {
        if (run({"crew", "add", "Ada Volt", "--edition", "2020", "--now", "2026-03-02T06:00Z"}).exit != 0)
            throw std::runtime_error{"the learner could not be added"};
    }
};

/// Opens the store of a place to look into it; derived states are left alone.
inline store::Store look_into(const std::string& path) {
    static base::Seed opened = 0;
    return store::Store{{path, true, nullptr, base::derive_seed(++opened, std::to_string(getpid()))}};
}

inline std::vector<store::AnswerRecord> log_of(const std::string& path) {
    std::vector<store::AnswerRecord> log;
    auto store = look_into(path);
    store.for_each_answer([&](const store::AnswerRecord& record) { log.push_back(record); });
    return log;
}

/// Adds so many answers of the first learner in the crew.
inline void fill(const std::string& path, int answers) {
    auto store = look_into(path);
    store::AnswerRecord record;
    record.learner = store.learners().front().id;
    record.point = {"shop.paint"};
    record.question = {"shop.paint#a"};
    for (int number = 0; number < answers; ++number) {
        record.asked_at = base::from_milliseconds(1'772'434'800'000 + number);
        store.append(record);
    }
}

inline std::size_t count_of(const std::string& text, const std::string& part) {
    std::size_t count = 0;
    for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size())) ++count;
    return count;
}

inline bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace end
