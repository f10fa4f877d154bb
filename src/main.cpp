// The only place that meets the real clock, entropy, environment, terminal and signals.
#include <array>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <iostream>
#include <map>
#include <optional>
#include <string>
#include <system_error>
#include <vector>

#include <poll.h>
#include <sys/ioctl.h>
#include <sys/random.h>
#include <unistd.h>

#include "cli/world.hpp"

namespace {

// Nothing to do in the handler: the wait it interrupts returns, and that is the message.
void on_interrupt(int /*signal*/) {}

/// Reads lines from standard input so that Ctrl-C ends the wait and the session can close in order.
///
/// From the first line on, the interrupt is held back except while waiting: one that comes between an ask and the wait
/// for its answer would otherwise be lost. Before that, and after the first one, Ctrl-C ends the program as usual.
class StandardInput final : public cli::Input {
public:
    std::optional<std::string> line() override {
        hold_interrupts();
        for (;;) {
            const auto end = held_.find('\n');
            if (end != std::string::npos) return take(end, end + 1);
            if (!wait()) return std::nullopt;
            std::array<char, 4096> buffer{};
            const ssize_t count = ::read(STDIN_FILENO, buffer.data(), buffer.size());
            if (count > 0) {
                held_.append(buffer.data(), static_cast<std::size_t>(count));
            } else {
                // A last line without its end still counts; a broken-off one does not.
                if (count == 0 && !held_.empty()) return take(held_.size(), held_.size());
                return std::nullopt;
            }
        }
    }

private:
    void hold_interrupts() {
        if (holding_) return;
        holding_ = true;
        struct sigaction action {};
        action.sa_handler = on_interrupt;
        sigemptyset(&action.sa_mask);
        sigaction(SIGINT, &action, nullptr);
        sigset_t interrupt;
        sigemptyset(&interrupt);
        sigaddset(&interrupt, SIGINT);
        sigprocmask(SIG_BLOCK, &interrupt, &while_waiting_);
    }

    /// False when the person broke off.
    bool wait() {
        pollfd input{STDIN_FILENO, POLLIN, 0};
        if (ppoll(&input, 1, nullptr, &while_waiting_) >= 0) return true;
        std::signal(SIGINT, SIG_DFL);
        sigprocmask(SIG_SETMASK, &while_waiting_, nullptr);
        return false;
    }

    std::string take(std::size_t length, std::size_t taken) {
        std::string line = held_.substr(0, length);
        held_.erase(0, taken);
        if (!line.empty() && line.back() == '\r') line.pop_back();
        return line;
    }

    std::string held_;
    bool holding_ = false;
    sigset_t while_waiting_{};
};

std::map<std::string, std::string> environment() {
    std::map<std::string, std::string> found;
    for (const char* name : {"GREENTAG_HOME", "XDG_DATA_HOME", "HOME", "NO_COLOR", "TERM"})
        if (const char* value = std::getenv(name)) found[name] = value;
    return found;
}

std::uint64_t entropy() {
    std::uint64_t drawn = 0;
    if (getrandom(&drawn, sizeof drawn, 0) != sizeof drawn)
        drawn = static_cast<std::uint64_t>(std::chrono::system_clock::now().time_since_epoch().count()) ^
                static_cast<std::uint64_t>(getpid());
    return drawn;
}

std::size_t columns() {
    winsize size{};
    if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0) return 0;
    return size.ws_col;
}

base::Instant now() {
    return std::chrono::floor<std::chrono::milliseconds>(std::chrono::system_clock::now());
}

}  // namespace

int main(int argc, char** argv) {
    std::ios::sync_with_stdio(false);
    StandardInput input;
    cli::World world;
    world.clock = now;
    world.entropy = entropy();
    world.environment = environment();
    std::error_code error;
    world.program = std::filesystem::read_symlink("/proc/self/exe", error).string();
    if (error) world.program = argc > 0 ? argv[0] : "greentag";
    world.input = &input;
    world.out = &std::cout;
    world.err = &std::cerr;
    world.input_is_terminal = isatty(STDIN_FILENO) == 1;
    world.output_is_terminal = isatty(STDOUT_FILENO) == 1;
    world.columns = columns;
    return cli::run(world, {argv + 1, argv + argc});
}
