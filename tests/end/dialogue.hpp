#pragma once

#include <csignal>
#include <optional>
#include <string>
#include <vector>

#include <poll.h>

#include <nlohmann/json.hpp>

#include "end/support.hpp"

// Far beyond what anything takes here: a program that hangs fails its test instead of stopping all of them.
constexpr int kPatienceMs = 60'000;

/// A study dialogue in JSON lines with the program running beside the test.
namespace end {

class Dialogue {
public:
    Dialogue(const Place& place, Words words) {
        words.insert(words.begin(), place.program());
        if (pipe(to_) != 0 || pipe(from_) != 0) throw std::runtime_error{"no pipe"};
        pid_ = fork();
        if (pid_ == 0) become(place, words);
        close(to_[0]);
        close(from_[1]);
    }
    Dialogue(const Dialogue&) = delete;
    Dialogue& operator=(const Dialogue&) = delete;
    ~Dialogue() {
        stop(SIGKILL);
        close(to_[1]);
        close(from_[0]);
    }

    /// The next line without its end; nothing when the program has closed its side.
    std::optional<std::string> line() {
        for (;;) {
            const auto end = held_.find('\n');
            if (end != std::string::npos) {
                std::string one = held_.substr(0, end);
                held_.erase(0, end + 1);
                return one;
            }
            pollfd answer{from_[0], POLLIN, 0};
            if (poll(&answer, 1, kPatienceMs) == 0) throw std::runtime_error{"the program says nothing"};
            char buffer[4096];
            const ssize_t count = read(from_[0], buffer, sizeof buffer);
            if (count <= 0) return std::nullopt;
            held_.append(buffer, static_cast<std::size_t>(count));
        }
    }
    void say(const std::string& text) const {
        const std::string whole = text + "\n";
        if (write(to_[1], whole.data(), whole.size()) < 0) return;  // it has gone; line() tells
    }
    /// Ends the program by a signal and gives how it ended.
    int stop(int signal) {
        if (pid_ <= 0) return 0;
        int status = 0;
        kill(pid_, signal);
        for (int waited = 0; waitpid(pid_, &status, WNOHANG) == 0; ++waited) {
            if (waited == kPatienceMs) kill(pid_, SIGKILL);
            usleep(1000);
        }
        pid_ = -1;
        return status;
    }

private:
    [[noreturn]] void become(const Place& place, const Words& words) const {
        dup2(to_[0], STDIN_FILENO);
        dup2(from_[1], STDOUT_FILENO);
        for (const int end : {to_[0], to_[1], from_[0], from_[1]}) close(end);
        setenv("GREENTAG_HOME", place.home().c_str(), 1);
        std::vector<char*> arguments;
        for (const auto& word : words) arguments.push_back(const_cast<char*>(word.c_str()));
        arguments.push_back(nullptr);
        execv(arguments.front(), arguments.data());
        _exit(127);
    }

    int to_[2] = {-1, -1};
    int from_[2] = {-1, -1};
    pid_t pid_ = -1;
    std::string held_;
};

/// The right answer to an ask that came with it.
inline std::string right_answer(const nlohmann::json& ask) {
    return nlohmann::json{{"answer", ask.at("right")}, {"sure", "fairly"}, {"took_ms", 1000}}.dump();
}

}  // namespace end
