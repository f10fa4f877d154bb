#include <doctest/doctest.h>

#include "store/store.hpp"
#include "store/support.hpp"

using namespace stores;
using store::FitRun;
using store::FittedValue;
using store::Store;

namespace {

FitRun run_of(std::int64_t answers, bool kept) {
    return {kMonday, answers, kept, 0.41, 0.47};
}

bool has(const std::vector<FittedValue>& values, const FittedValue& wanted) {
    return std::find(values.begin(), values.end(), wanted) != values.end();
}

}  // namespace

TEST_CASE("fit store: a learner gets what holds for everyone and for themselves") {
    const TempFolder folder;
    Store store{options(folder.path())};
    const auto ada = add(store, "Ada Volt");
    const auto bo = add(store, "Bo Ampere");
    CHECK(!store.latest_fit());
    CHECK(store.fitted(ada).empty());
    const std::vector<FittedValue> values = {{"shared", {}, "base", 1.25},
                                             {"point", {}, "box.fill", -0.5},
                                             {"learner", ada, "", 0.3},
                                             {"learner", bo, "", -0.3},
                                             {"branch", bo, "boxes", 0.1}};
    store.save_fit(run_of(400, true), values);
    CHECK(store.latest_fit() == run_of(400, true));
    CHECK(store.fitted(ada).size() == 3);
    CHECK(has(store.fitted(ada), values[0]));
    CHECK(has(store.fitted(ada), values[2]));
    CHECK(store.fitted(bo).size() == 4);
    CHECK(store.fitted({}).size() == 2);
}

TEST_CASE("fit store: a run that was not kept leaves the values before it in force") {
    const TempFolder folder;
    Store store{options(folder.path())};
    const auto ada = add(store, "Ada Volt");
    store.save_fit(run_of(400, true), {{"shared", {}, "base", 1.25}});
    store.save_fit(run_of(500, false), {{"shared", {}, "base", 9.0}});
    CHECK(store.latest_fit() == run_of(500, false));
    CHECK(store.fitted(ada) == std::vector<FittedValue>{{"shared", {}, "base", 1.25}});
    store.save_fit(run_of(600, true), {{"shared", {}, "base", 1.5}});
    CHECK(store.fitted(ada) == std::vector<FittedValue>{{"shared", {}, "base", 1.5}});
    store.drop_fit();
    CHECK(store.fitted(ada).empty());
    CHECK(store.latest_fit() == run_of(600, true));
}

TEST_CASE("fit store: values that cannot be kept leave the earlier ones whole") {
    const TempFolder folder;
    Store store{options(folder.path())};
    store.save_fit(run_of(400, true), {{"shared", {}, "base", 1.25}});
    CHECK_THROWS(store.save_fit(run_of(500, true), {{"shared", {}, "base", 2.0}, {"no such kind", {}, "x", 1.0}}));
    CHECK(store.fitted({}) == std::vector<FittedValue>{{"shared", {}, "base", 1.25}});
    CHECK(store.latest_fit() == run_of(400, true));
}
