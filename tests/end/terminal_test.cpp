// A session at a real terminal: prompts, a narrow window, a window made narrower half way, Ctrl-C.
#include <doctest/doctest.h>

#include <algorithm>
#include <csignal>

#include <poll.h>
#include <pty.h>
#include <sys/ioctl.h>

#include "base/text.hpp"
#include "end/support.hpp"

using namespace end;

namespace {

constexpr int kPatienceMs = 30'000;

/// The program at a terminal of its own.
class Terminal {
public:
    Terminal(const Place& place, Words words, unsigned short columns) {
        words.insert(words.begin(), place.program());
        winsize size{24, columns, 0, 0};
        pid_ = forkpty(&fd_, nullptr, nullptr, &size);
        if (pid_ < 0) throw std::runtime_error{"no terminal to be had"};
        if (pid_ == 0) become(place, words);
    }
    Terminal(const Terminal&) = delete;
    Terminal& operator=(const Terminal&) = delete;
    ~Terminal() {
        if (pid_ > 0) kill(pid_, SIGKILL);
        if (pid_ > 0) waitpid(pid_, nullptr, 0);
        close(fd_);
    }

    void type(const std::string& text) const {
        if (write(fd_, text.data(), text.size()) < 0) throw std::runtime_error{"the terminal has gone"};
    }
    void narrow_to(unsigned short columns) const {
        winsize size{24, columns, 0, 0};
        ioctl(fd_, TIOCSWINSZ, &size);
    }
    /// Everything shown up to `wanted`, or to the end; what came with it is kept for the next call.
    std::string until(const std::string& wanted) {
        for (;;) {
            const auto found = wanted.empty() ? std::string::npos : unread_.find(wanted);
            if (found != std::string::npos) return take(found + wanted.size());
            pollfd more{fd_, POLLIN, 0};
            if (poll(&more, 1, kPatienceMs) == 0) throw std::runtime_error{"nothing more is shown; so far: " + unread_};
            char buffer[4096];
            const ssize_t count = read(fd_, buffer, sizeof buffer);
            if (count <= 0) return take(unread_.size());
            unread_.append(buffer, static_cast<std::size_t>(count));
        }
    }
    int ended() {
        int status = 0;
        waitpid(pid_, &status, 0);
        pid_ = -1;
        return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    }

private:
    std::string take(std::size_t count) {
        std::string taken = unread_.substr(0, count);
        unread_.erase(0, count);
        return taken;
    }
    [[noreturn]] static void become(const Place& place, const Words& words) {
        setenv("GREENTAG_HOME", place.home().c_str(), 1);
        setenv("NO_COLOR", "1", 1);
        std::vector<char*> arguments;
        for (const auto& word : words) arguments.push_back(const_cast<char*>(word.c_str()));
        arguments.push_back(nullptr);
        execv(arguments.front(), arguments.data());
        _exit(127);
    }

    pid_t pid_ = -1;
    int fd_ = -1;
    std::string unread_;
};

/// A place with a learner in its crew.
struct Bench : Place {
    Bench() : Place{kProject} { REQUIRE(run({"crew", "add", "Ada Volt", "--edition", "2020"}).exit == 0); }
};

std::size_t widest(const std::string& shown) {
    std::size_t most = 0;
    for (const auto& line : base::split(shown, '\n')) most = std::max(most, base::display_width(line));
    return most;
}

const Words kStudy = {"study", "--no-call", "--seed", "7"};

}  // namespace

TEST_CASE("terminal: what is not known is explained, and Ctrl-C closes the session in order") {
    const Bench place;
    Terminal terminal{place, kStudy, 80};
    terminal.until(" > ");
    terminal.type("!\n");
    CHECK(terminal.until(" > ").find("NOT KNOWN") != std::string::npos);
    terminal.type("\x03");
    CHECK(terminal.until("").find("RED TAG: 1 correction due") != std::string::npos);
    CHECK(terminal.ended() == 0);
}

TEST_CASE("terminal: what is no answer is asked again") {
    const Bench place;
    Terminal terminal{place, {"study", "--no-call", "--seed", "7", "--topic", "boxes"}, 80};
    terminal.until(" > ");
    terminal.type("??\n");
    CHECK(terminal.until(" > ").find("Not read as an answer") != std::string::npos);
    terminal.type("q\n");
    CHECK(terminal.until("").find("Nothing was answered") != std::string::npos);
    CHECK(terminal.ended() == 0);
}

TEST_CASE("terminal: a narrow window is kept to, also when it is made narrower half way") {
    const Bench place;
    Terminal terminal{place, kStudy, 50};
    CHECK(widest(terminal.until(" > ")) <= 50);
    terminal.narrow_to(36);
    terminal.type("!\n");
    terminal.until("NOT KNOWN");
    CHECK(widest(terminal.until(" > ")) <= 36);
    terminal.type("q\n");
    CHECK(widest(terminal.until("")) <= 36);
    CHECK(terminal.ended() == 0);
}

TEST_CASE("terminal: the end of input (Ctrl-D) leaves with everything kept") {
    const Bench place;
    Terminal terminal{place, kStudy, 80};
    terminal.until(" > ");
    terminal.type("!\n");
    terminal.until("NOT KNOWN");
    terminal.until(" > ");
    terminal.type("\x04");
    CHECK(terminal.until("").find("1 answer") != std::string::npos);
    CHECK(terminal.ended() == 0);
    CHECK(store::Store{{place.store(), false, nullptr, 1}}.answer_count() == 1);
}

TEST_CASE("terminal: a reply that does not do is asked for again, and a question that does not stand keeps its parts") {
    const Place place{kProject};
    Terminal terminal{place, {"library", "new"}, 100};
    const auto reply = [&](const std::string& text) {
        terminal.type(text + "\n");
        return terminal.until(" > ");
    };
    terminal.until(" > ");
    reply("Lock the van");
    reply("");
    CHECK(reply("danger").find("Not so: say one of shock, fire, inspection, paperwork") != std::string::npos);
    for (const char* text :
         {"inspection", "van", "", "Article 110", "The last one to leave a job locks the van.", "practice", "", "yes",
          "You leave a job last and the van is open. What do you do?", "Lock it and take the key",
          "Leave the key in it", "Thinks somebody needs it; the last one locks up.", "Leave the key in it",
          "thinks-somebody-needs-it", ""})
        reply(text);
    CHECK(reply("").find("stands twice") != std::string::npos);
    for (int kept = 0; kept < 6; ++kept) reply("");
    CHECK(reply("Hang the key on a wheel").find("[thinks-somebody-needs-it]") != std::string::npos);
    for (int rest = 0; rest < 3; ++rest) reply("");
    CHECK(reply("no").find("right: Lock it and take the key") != std::string::npos);
    terminal.type("yes\n");
    CHECK(terminal.until("").find("Written to ") != std::string::npos);
    CHECK(terminal.ended() == 0);
    CHECK(place.run({"library", "show", "shop.lock-the-van"}).out.find("Hang the key on a wheel") != std::string::npos);
}
