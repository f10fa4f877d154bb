#include "base/ids.hpp"

#include <set>

#include <doctest/doctest.h>

namespace {

base::Instant at(std::int64_t ms) {
    return base::from_milliseconds(ms);
}

std::uint64_t milliseconds_in(const base::Id128& id) {
    std::uint64_t ms = 0;
    for (std::size_t i = 0; i < 6; ++i) ms = ms << 8U | id.bytes.at(i);
    return ms;
}

}  // namespace

TEST_CASE("id: rises although the clock stands for longer than the counter lasts") {
    base::IdMaker maker{1};
    base::Id128 before = maker.make(at(1'000'000));
    for (int i = 0; i < 20'000; ++i) {
        const auto next = maker.make(at(1'000'000));
        REQUIRE(before < next);
        before = next;
    }
}

TEST_CASE("id: property: rises under a clock that goes forward, stands and steps back") {
    for (base::Seed seed = 1; seed <= 50; ++seed) {
        base::IdMaker maker{seed};
        base::Random random{seed};
        std::set<base::Id128> seen;
        for (int i = 0; i < 400; ++i) {
            const auto id = maker.make(at(5'000'000 + static_cast<std::int64_t>(random.below(2000)) - 1000));
            if (!seen.empty()) REQUIRE_MESSAGE(*seen.rbegin() < id, "seed ", seed);
            seen.insert(id);
        }
    }
}

TEST_CASE("id: carries the time, its version and its variant") {
    base::IdMaker maker{2};
    const auto id = maker.make(at(1'767'225'600'123));
    CHECK(milliseconds_in(id) == 1'767'225'600'123U);
    CHECK((id.bytes[6] >> 4U) == 7);
    CHECK((id.bytes[8] >> 6U) == 2);
    CHECK(milliseconds_in(maker.make(at(-5))) == 1'767'225'600'123U);
}

TEST_CASE("id: two machines make different ones at the same moment") {
    base::IdMaker one{1};
    base::IdMaker two{2};
    CHECK(one.make(at(7)) != two.make(at(7)));
}

TEST_CASE("id: property: what is written is read back, with and without dashes") {
    base::IdMaker maker{3};
    for (std::int64_t ms = 0; ms < 500; ++ms) {
        const auto id = maker.make(at(ms * 7919));
        std::string text = base::to_text(id);
        CHECK(base::parse_id(text) == id);
        std::erase(text, '-');
        CHECK(base::parse_id(text) == id);
    }
}

TEST_CASE("id: reads capitals and refuses everything else") {
    CHECK(base::parse_id("018F3C2E-7D2A-7CC1-8F00-0123456789AB") ==
          base::parse_id("018f3c2e-7d2a-7cc1-8f00-0123456789ab"));
    for (const std::string_view bad :
         {"", "018f3c2e", "018f3c2e-7d2a-7cc1-8f00-0123456789a", "018f3c2e-7d2a-7cc1-8f00-0123456789abc",
          "018f3c2e-7d2a-7cc1-8f00-0123456789ag", "0-18f3c2e7d2a7cc18f000123456789ab",
          "018f3c2e-7d2a-7cc1-8f00-0123456789ab-", " 018f3c2e7d2a7cc18f000123456789ab"}) {
        CAPTURE(bad);
        CHECK_FALSE(base::parse_id(bad).has_value());
    }
}

TEST_CASE("id: the names of different kinds keep apart and hash alike when alike") {
    const base::PointId a{"box.accessible"};
    CHECK(std::hash<base::PointId>{}(a) == std::hash<base::PointId>{}(base::PointId{"box.accessible"}));
    CHECK(a < base::PointId{"box.fill"});
    static_assert(!std::is_same_v<base::PointId, base::QuestionId>);
}
