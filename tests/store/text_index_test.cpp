#include "store/text_index.hpp"

#include <doctest/doctest.h>

using store::TextIndex;
using Keys = std::vector<std::string>;

namespace {

const TextIndex& shelf() {
    static const TextIndex kShelf{{{"box", "Boxes stay reachable", "No ceiling may hide a junction", "remodel"},
                                   {"fill", "Room in a box", "Count the conductors of each size", "volume"},
                                   {"reach", "Six feet to a receptacle", "Measured along the wall", "outlets"}}};
    return kShelf;
}

}  // namespace

TEST_CASE("text index: a beginning of a word finds it") {
    CHECK(shelf().search({"recept"}, 9) == Keys{"reach"});
    CHECK(shelf().search({"junct"}, 9) == Keys{"box"});
}

TEST_CASE("text index: other forms of a word find it, in either case") {
    CHECK(shelf().search({"CONDUCTOR"}, 9) == Keys{"fill"});
    CHECK(shelf().search({"ceilings"}, 9) == Keys{"box"});
}

TEST_CASE("text index: rows with all the words come alone") {
    CHECK(shelf().search({"box", "volume"}, 9) == Keys{"fill"});
    CHECK(shelf().search({"box"}, 9).size() == 2);
}

TEST_CASE("text index: when no row has all the words, rows with any of them") {
    CHECK(shelf().search({"receptacle", "generator"}, 9) == Keys{"reach"});
    CHECK(shelf().search({"generator"}, 9).empty());
}

TEST_CASE("text index: a title weighs more than a body, and the best comes first") {
    const TextIndex two{{{"body", "Other", "bonding", ""}, {"title", "Bonding", "other", ""}}};
    CHECK(two.search({"bonding"}, 9) == Keys{"title", "body"});
}

TEST_CASE("text index: at most as many as asked for") {
    CHECK(shelf().search({"box"}, 1).size() == 1);
    CHECK(shelf().search({"box"}, 0).empty());
}

TEST_CASE("text index: signs and operators typed by someone are only words") {
    for (const char* typed : {"\"", "box\"", "\"\"\"", "NOT", "AND", "OR", "NEAR(", "*", "box*", "title:", "^box", "-",
                              "a AND (b", "'; DROP TABLE found", ""})
        CHECK_NOTHROW((void)shelf().search({typed}, 9));
    CHECK(shelf().search({"box", "NOT", "volume"}, 9).size() == 2);
}

TEST_CASE("text index: no words find nothing, and an empty index holds nothing") {
    CHECK(shelf().search({}, 9).empty());
    CHECK(TextIndex{{}}.search({"box"}, 9).empty());
}
