#include "memory/share_out.hpp"

#include <vector>

#include <doctest/doctest.h>

TEST_CASE("share out: each piece of work is done once, on any number of threads") {
    for (const unsigned threads : {0U, 1U, 2U, 7U})
        for (const std::size_t count : {0U, 1U, 5U, 100U}) {
            std::vector<int> done(count);
            memory::share_out(count, threads, [&](std::size_t n) { ++done[n]; });
            CHECK(done == std::vector<int>(count, 1));
        }
}
