#include <doctest/doctest.h>

#include "store/faulty_disk.hpp"
#include "store/support.hpp"

using namespace stores;
using store::Store;

namespace {

constexpr base::Seed kSeeds = 300;

/// Two learners, some forty answers in random order of time, settled and reopened at random moments.
struct History {
    explicit History(base::Seed seed) : random{seed}, store{std::make_unique<Store>(options(folder.path()))} {
        for (const char* name : {"Ada Volt", "Ben Ohm"}) crew.push_back(add(*store, name));
        for (auto left = 20 + random.below(40); left > 0; --left) step();
    }

    void step() {
        kept.push_back(store->append(any_answer(random, crew[random.below(2)])));
        if (random.below(10) == 0) store->settle();
        if (random.below(20) == 0) store->rebuild();
    }

    [[nodiscard]] bool states_are_folds() const {
        return std::all_of(crew.begin(), crew.end(),
                           [&](const auto& who) { return store->states(who) == folded(kept, who); });
    }

    FaultyDisk disk{FaultyDisk::Syncs::skipped};
    TempFolder folder;
    base::Random random;
    std::unique_ptr<Store> store;
    std::vector<base::Id128> crew;
    Log kept;
};

/// The log of one history under the crew of it, in another store.
std::unique_ptr<Store> another(const TempFolder& folder, const History& history) {
    auto store = std::make_unique<Store>(options(folder.path()));
    enlist(folder.path(), history.store->learners());
    return store;
}

}  // namespace

TEST_CASE("derived states: equal to a plain fold to the last bit, before settling, after it and after rebuilding") {
    for (base::Seed seed = 1; seed <= kSeeds; ++seed) {
        History history{seed};
        CHECK_MESSAGE(history.states_are_folds(), "seed ", seed);
        history.store->settle();
        CHECK_MESSAGE(history.states_are_folds(), "seed ", seed);
        CHECK(history.store->rebuild() == static_cast<std::int64_t>(history.kept.size()));
        CHECK_MESSAGE(history.states_are_folds(), "seed ", seed);
    }
}

TEST_CASE("derived states: verify finds nothing wrong, whatever the order of answers and settlings") {
    for (base::Seed seed = 1; seed <= kSeeds; ++seed) {
        const History history{seed + kSeeds};
        CHECK_MESSAGE(history.store->verify().problems.empty(), "seed ", seed);
    }
}

TEST_CASE("derived states: settling again changes no byte of the file") {
    const TempFolder folder;
    make_store(folder.path(), 30);
    const auto settled = read_bytes(folder.path());
    { Store{options(folder.path())}.settle(); }
    CHECK(read_bytes(folder.path()) == settled);
}

TEST_CASE("derived states: the same from a log that arrives in any order and any parts") {
    for (base::Seed seed = 1; seed <= 60; ++seed) {
        History history{seed + 2 * kSeeds};
        const TempFolder folder;
        const auto store = another(folder, history);
        Log log = history.kept;
        history.random.shuffle(log);
        const auto half = log.begin() + static_cast<std::ptrdiff_t>(log.size() / 2);
        store->append_all({log.begin(), half});
        store->settle();
        store->append_all(log);
        for (const auto& who : history.crew)
            CHECK_MESSAGE(store->states(who) == history.store->states(who), "seed ", seed);
    }
}

TEST_CASE("derived states: none for someone who has answered nothing") {
    const TempFolder folder;
    Store store{options(folder.path())};
    append(store, add(store, "Ada Volt"), 0, 5);
    CHECK(store.states(add(store, "Ben Ohm")).empty());
}
