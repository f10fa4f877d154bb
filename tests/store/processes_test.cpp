#include <doctest/doctest.h>

#include <sys/wait.h>
#include <csignal>
#include <cstdio>

#include "store/support.hpp"

using namespace stores;
using store::Store;

namespace {

constexpr int kEach = 200;

/// Another process that does this once it is told to go; its exit status tells whether it got to the end. Made before
/// any store is open here: SQLite does not allow an open database to be carried into a child.
class Other {
public:
    explicit Other(const std::function<void()>& act) {
        if (pipe(gate_) != 0) throw std::runtime_error{"no pipe"};
        pid_ = fork();
        if (pid_ == 0) _exit(wait_and_do(act) ? 0 : 1);
    }
    Other(const Other&) = delete;
    Other& operator=(const Other&) = delete;
    ~Other() {
        kill(pid_, SIGKILL);
        if (!ended_) waitpid(pid_, &status_, 0);
        for (const int end : gate_) close(end);
    }
    void go() const {
        if (write(gate_[1], "g", 1) != 1) throw std::runtime_error{"the other process is gone"};
    }
    [[nodiscard]] bool running() {
        if (!ended_ && waitpid(pid_, &status_, WNOHANG) == pid_) ended_ = true;
        return !ended_;
    }
    /// True when it ended well.
    bool wait() {
        if (!ended_) waitpid(pid_, &status_, 0);
        ended_ = true;
        return WIFEXITED(status_) && WEXITSTATUS(status_) == 0;
    }

private:
    bool wait_and_do(const std::function<void()>& act) const {
        char told = 0;
        if (read(gate_[0], &told, 1) != 1) return false;
        const auto failure = failure_of(act);
        if (failure) std::fprintf(stderr, "another process failed with %d\n", static_cast<int>(*failure));
        return !failure.has_value();
    }

    int gate_[2] = {-1, -1};
    pid_t pid_ = -1;
    int status_ = 0;
    bool ended_ = false;
};

/// A store of two learners, closed again.
std::vector<base::Id128> make_crew(const std::string& path) {
    Store store{options(path)};
    return {add(store, "Ada Volt"), add(store, "Ben Ohm")};
}

void answer_all(const std::string& path, const base::Id128& who, bool settling) {
    Store store{options(path)};
    for (int number = 0; number < kEach; ++number) {
        store.append(answer(who, number));
        if (settling && number % 5 == 0) store.settle();
    }
}

std::size_t answers_in(const store::RecallStates& states) {
    std::size_t count = 0;
    for (const auto& [point, state] : states) count += state.answers();
    return count;
}

}  // namespace

TEST_CASE("processes: two that append at the same time both keep all their answers") {
    const TempFolder folder;
    const auto crew = make_crew(folder.path());
    Other one{[&] { answer_all(folder.path(), crew[0], false); }};
    Other two{[&] { answer_all(folder.path(), crew[1], true); }};
    one.go();
    two.go();
    CHECK(one.wait());
    CHECK(two.wait());
    Store store{options(folder.path())};
    CHECK(store.answer_count() == 2 * kEach);
    CHECK(store.verify().problems.empty());
}

TEST_CASE("processes: two stores open in one process see each other's answers") {
    const TempFolder folder;
    Store one{options(folder.path())};
    Store two{options(folder.path())};
    const auto who = add(one, "Ada Volt");
    Log kept = append(one, who, 0, 5);
    two.settle();
    for (const auto& record : append(two, who, 5, 9)) kept.push_back(record);
    CHECK(log_of(one) == kept);
    CHECK(one.states(who) == folded(kept, who));
}

TEST_CASE("processes: several that begin the same store at once make one store with one device") {
    const TempFolder folder;
    std::vector<std::unique_ptr<Other>> others;
    for (int i = 0; i < 8; ++i)
        others.push_back(std::make_unique<Other>([&] { const Store store{options(folder.path())}; }));
    for (const auto& other : others) other->go();
    for (const auto& other : others) CHECK(other->wait());
    CHECK(Store{options(folder.path())}.verify().problems.empty());
    CHECK(side_door(folder.path()).number("SELECT count(*) FROM device") == 1);
}

TEST_CASE("processes: states read while another process appends and settles miss no answer that was there before") {
    const TempFolder folder;
    const auto who = make_crew(folder.path()).front();
    Other other{[&] { answer_all(folder.path(), who, true); }};
    Store store{options(folder.path())};
    other.go();
    while (other.running()) {
        const auto before = static_cast<std::size_t>(store.answer_count());
        CHECK(answers_in(store.states(who)) >= before);
    }
    CHECK(other.wait());
    CHECK(answers_in(store.states(who)) == kEach);
}

TEST_CASE("processes: verify finds nothing wrong while another process appends and settles") {
    const TempFolder folder;
    const auto who = make_crew(folder.path()).front();
    Other other{[&] { answer_all(folder.path(), who, true); }};
    Store store{options(folder.path())};
    other.go();
    while (other.running()) CHECK(store.verify().problems == std::vector<std::string>{});
    CHECK(other.wait());
}

TEST_CASE("processes: an append waits for a lock that is given up in time") {
    const TempFolder folder;
    const auto who = make_crew(folder.path()).front();
    Other other{[&] { Store{options(folder.path())}.append(answer(who)); }};
    auto lock = side_door(folder.path());
    lock.run("BEGIN IMMEDIATE");
    other.go();
    usleep(200'000);
    CHECK(other.running());
    lock.run("COMMIT");
    CHECK(other.wait());
    CHECK(lock.number("SELECT count(*) FROM answer") == 1);
}

TEST_CASE("processes: an append that waited in vain says so, and the next one is kept") {
    const TempFolder folder;
    Store store{options(folder.path())};
    const auto who = add(store, "Ada Volt");
    append(store, who, 0, 1);
    {
        auto lock = side_door(folder.path());
        lock.run("BEGIN IMMEDIATE");
        CHECK(failure_of([&] { store.append(answer(who, 1)); }) == base::Exit::busy);
    }
    const auto kept = store.append(answer(who, 2));
    CHECK(log_of(store).back() == kept);
}
