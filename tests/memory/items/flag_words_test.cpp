#include "memory/items/flag_words.hpp"

#include <string>

#include <doctest/doctest.h>

using namespace memory;

TEST_CASE("flag words: they carry the figures") {
    Flagged flag;
    flag.flag = ItemFlag::wrong_draws_better;
    flag.option = 2;
    flag.n = 60;
    flag.ability = 0.41;
    flag.against = -0.554;
    flag.chance = 0.0004;
    CHECK(in_words(flag) ==
          "the wrong option c draws learners who know more: mean ability on the other questions 0.41 for its choosers, "
          "-0.55 for those who chose the right one; 60 learners, chance below 0.001");
    flag.flag = ItemFlag::too_easy;
    flag.figure = {1, 0.901, 1};
    flag.limit = 0.9;
    CHECK(in_words(flag) == "too easy to tell anything: share right between 90 % and 100 % by 60 learners, limit 90 %");
    flag.flag = ItemFlag::too_few;
    flag.n = 19;
    flag.figure = {19, 19, 19};
    flag.limit = 20;
    CHECK(in_words(flag) == "too few answers to say: 19 of the 20 needed");
    flag.n = 60;
    flag.figure = {3, 3, 3};
    flag.limit = 5;
    CHECK(in_words(flag) == "too few on one side to say how it discriminates: of 60 learners, 3 of the 5 needed");
    for (const auto kind : {ItemFlag::weaker_do_better, ItemFlag::too_hard, ItemFlag::option_unused,
                            ItemFlag::guessed_fast, ItemFlag::too_few}) {
        flag.flag = kind;
        CHECK(in_words(flag).find("60") != std::string::npos);
    }
}

TEST_CASE("flag words: options beyond z have a number, and whom a group is compared with is said") {
    Flagged flag;
    flag.flag = ItemFlag::option_unused;
    flag.option = 26;
    flag.n = 90;
    flag.figure = {0, 0, 0.0327};
    CHECK(in_words(flag) == "option number 27 was never chosen by 90 learners: fewer than 3 % would");
    flag.flag = ItemFlag::wrong_draws_better;
    flag.option = 0;
    flag.chance = 0.012;
    flag.against_all = true;
    CHECK(in_words(flag).find("for all others") != std::string::npos);
    CHECK(in_words(flag).find("chance about 0.012") != std::string::npos);
}
