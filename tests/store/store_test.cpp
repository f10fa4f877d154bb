#include "store/store.hpp"

#include <doctest/doctest.h>

#include "store/support.hpp"

using namespace stores;
using store::Store;

TEST_CASE("store: an answer is there again after closing and opening, every field of it") {
    const TempFolder folder;
    const Log kept = make_store(folder.path(), 1);
    Store store{options(folder.path())};
    CHECK(log_of(store) == kept);
    CHECK(store.answer_count() == 1);
}

TEST_CASE("store: what was typed is kept byte for byte, whatever the bytes") {
    const TempFolder folder;
    Store store{options(folder.path())};
    auto typed = answer(add(store, "Ada Volt"));
    for (const std::string& given : {std::string{}, std::string{"a\0b", 3}, std::string{"\xff\xfe '\";--"}}) {
        typed.given = given;
        const auto id = store.append(typed).id;
        for (const auto& record : log_of(store))
            if (record.id == id) CHECK(record.given == given);
    }
    CHECK(store.answer_count() == 3);
}

TEST_CASE("store: extreme numbers come back as they were") {
    const TempFolder folder;
    Store store{options(folder.path())};
    auto record = answer(add(store, "Ada Volt"));
    for (const base::Seed seed : {base::Seed{0}, base::Seed{1} << 63U, ~base::Seed{0}}) {
        record.seed = seed;
        record.asked_at = base::from_milliseconds(-static_cast<std::int64_t>(seed >> 20U));
        record.mark = 1.0 / 3.0;
        const auto kept = store.append(record);
        CHECK(holds(log_of(store), kept.id));
        CHECK(log_of(store).front() == kept);
    }
}

TEST_CASE("store: ids rise in the order of appending, also when the clock steps back") {
    const TempFolder folder;
    Store store{options(folder.path())};
    const auto who = add(store, "Ada Volt");
    base::Id128 last;
    for (int number : {50, 10, 10, 90, 0}) {
        const auto id = store.append(answer(who, number)).id;
        CHECK(last < id);
        last = id;
    }
}

TEST_CASE("store: the device is drawn once and stays") {
    const TempFolder folder;
    const auto first = make_store(folder.path(), 1).front().device;
    Store store{options(folder.path())};
    CHECK(store.append(answer(store.learners().front().id, 1)).device == first);
    CHECK(first != base::Id128{});
}

TEST_CASE("store: the log refuses every change and every removal") {
    const TempFolder folder;
    const Log kept = make_store(folder.path(), 3);
    auto db = side_door(folder.path());
    for (const char* sql : {"UPDATE answer SET mark = 1", "UPDATE answer SET given = 'x' WHERE seq = 1",
                            "DELETE FROM answer", "DELETE FROM answer WHERE seq = 3"})
        CHECK_THROWS_WITH_AS(db.run(sql), doctest::Contains("append-only"), base::Failure);
    Store store{options(folder.path())};
    CHECK(log_of(store) == kept);
}

TEST_CASE("store: an answer of nobody in the crew is refused") {
    const TempFolder folder;
    Store store{options(folder.path())};
    CHECK_THROWS_AS(store.append(answer(id_of(9))), base::Failure);
    CHECK(store.answer_count() == 0);
}

TEST_CASE("store: an append that failed leaves nothing behind for the next one") {
    const TempFolder folder;
    Store store{options(folder.path())};
    const auto who = add(store, "Ada Volt");
    store.append(answer(who, 1));
    CHECK_THROWS_AS(store.append(answer(id_of(9), 2)), base::Failure);
    const auto kept = store.append(answer(who, 3));
    CHECK(holds(log_of(store), kept.id));
    CHECK(log_of(store).back() == kept);
}

TEST_CASE("store: adding a log twice adds it once") {
    const TempFolder folder;
    Store from{options(folder.path("from.db"))};
    const Log log = append(from, add(from, "Ada Volt"), 0, 50);
    Store store{options(folder.path())};
    enlist(folder.path(), from.learners());
    CHECK(store.append_all(log) == 50);
    CHECK(store.append_all(log) == 0);
    CHECK(log_of(store) == log);
}

TEST_CASE("store: adding a log of which one answer cannot be kept adds nothing") {
    const TempFolder folder;
    Store store{options(folder.path())};
    Log log = {answer(add(store, "Ada Volt")), answer(id_of(9))};
    log.front().id = id_of(1);
    log.back().id = id_of(2);
    CHECK_THROWS_AS(store.append_all(log), base::Failure);
    CHECK(store.answer_count() == 0);
}

TEST_CASE("store: the crew is told in order of name, the retired with it") {
    const TempFolder folder;
    Store store{options(folder.path())};
    for (const char* name : {"Cleo Amp", "Ada Volt", "Ben Ohm"}) add(store, name);
    auto crew = store.learners();
    crew.at(1).retired_at = kMonday;
    store.update_learner(crew.at(1));
    CHECK(store.learners() == crew);
    CHECK(crew.at(0).name + crew.at(1).name + crew.at(2).name == "Ada VoltBen OhmCleo Amp");
}

TEST_CASE("store: a learner's edition and exam can be set and taken back") {
    const TempFolder folder;
    Store store{options(folder.path())};
    auto ada = store.add_learner(learner_called("Ada Volt"), kMonday);
    ada.exam_at = kMonday;
    ada.edition.reset();
    store.update_learner(ada);
    CHECK(store.learners() == std::vector{ada});
    ada.exam_at.reset();
    store.update_learner(ada);
    CHECK(store.learners() == std::vector{ada});
}

TEST_CASE("store: reading only needs the file and makes none") {
    const TempFolder folder;
    CHECK(opening(folder.path(), false) == base::Exit::no_input);
    CHECK_FALSE(fs::exists(folder.path()));
}

TEST_CASE("store: reading only changes nothing in the file, not even by verifying") {
    const TempFolder folder;
    {
        Store store{options(folder.path())};
        append(store, add(store, "Ada Volt"), 0, 20);
    }
    const std::string before = read_bytes(folder.path());
    {
        Store store{options(folder.path(), false)};
        CHECK(store.verify().problems.empty());
        CHECK(store.states(store.learners().front().id).size() == 7);
    }
    CHECK(read_bytes(folder.path()) == before);
}

TEST_CASE("store: a folder that is not there is said to be so") {
    const TempFolder folder;
    CHECK(opening(folder.path("none/greentag.db")) == base::Exit::cannot_write);
}

TEST_CASE("store: verify counts what is there") {
    const TempFolder folder;
    make_store(folder.path(), 12);
    const auto found = Store{options(folder.path())}.verify();
    CHECK(found.answers == 12);
    CHECK(found.learners == 1);
    CHECK(found.problems.empty());
}
