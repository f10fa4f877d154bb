#include "base/instant.hpp"

#include <limits>
#include <vector>

#include <doctest/doctest.h>

#include "base/random.hpp"

namespace {

using base::Instant;

struct Spelling {
    std::string_view text;
    std::string_view means;
};

}  // namespace

TEST_CASE("instant: every good spelling means the moment it should") {
    const std::vector<Spelling> rows = {
        {"1970-01-01", "1970-01-01T00:00:00.000Z"},
        {"2026-03-02", "2026-03-02T00:00:00.000Z"},
        {"2026-03-02T07:00Z", "2026-03-02T07:00:00.000Z"},
        {"2026-03-02 07:00Z", "2026-03-02T07:00:00.000Z"},
        {"2026-03-02T07:00:05Z", "2026-03-02T07:00:05.000Z"},
        {"2026-03-02T07:00:05.1Z", "2026-03-02T07:00:05.100Z"},
        {"2026-03-02T07:00:05.123456Z", "2026-03-02T07:00:05.123Z"},
        {"2026-03-02T07:00-06:00", "2026-03-02T13:00:00.000Z"},
        {"2026-03-02T07:00-0600", "2026-03-02T13:00:00.000Z"},
        {"2026-01-01T00:30+05:30", "2025-12-31T19:00:00.000Z"},
        {"2024-02-29T12:00Z", "2024-02-29T12:00:00.000Z"},
        {"2000-02-29", "2000-02-29T00:00:00.000Z"},
        {"1969-12-31T23:59:59.999Z", "1969-12-31T23:59:59.999Z"},
    };
    for (const auto& row : rows) {
        CAPTURE(row.text);
        const auto when = base::parse_instant(row.text);
        REQUIRE(when.has_value());
        CHECK(base::to_text(*when) == row.means);
    }
}

TEST_CASE("instant: anything else is refused") {
    for (const std::string_view bad : {"",
                                       "2026",
                                       "2026-3-2",
                                       "2026-13-01",
                                       "2026-00-10",
                                       "2026-02-29",
                                       "1900-02-29",
                                       "2026-04-31",
                                       "2026-03-02T",
                                       "2026-03-02T07",
                                       "2026-03-02T07:00",
                                       "2026-03-02T24:00Z",
                                       "2026-03-02T07:60Z",
                                       "2026-03-02T07:00:60Z",
                                       "2026-03-02T07:00:00.Z",
                                       "2026-03-02T07:00+15:00",
                                       "2026-03-02T07:00+06:60",
                                       "2026-03-02T07:00Zz",
                                       "2026-03-02x07:00Z",
                                       "2026/03/02",
                                       " 2026-03-02",
                                       "2026-03-02 ",
                                       "20a6-03-02",
                                       "-026-03-02"}) {
        CAPTURE(bad);
        CHECK_FALSE(base::parse_instant(bad).has_value());
    }
}

TEST_CASE("instant: property: what is written is read back") {
    const auto first = base::to_milliseconds(*base::parse_instant("0001-01-01"));
    const auto last = base::to_milliseconds(*base::parse_instant("9999-12-31"));
    base::Random random{11};
    for (int i = 0; i < 5000; ++i) {
        const auto when = base::from_milliseconds(
            first + static_cast<std::int64_t>(random.below(static_cast<std::uint64_t>(last - first))));
        CAPTURE(base::to_text(when));
        CHECK(base::parse_instant(base::to_text(when)) == when);
        CHECK(base::parse_instant(base::date_text(when)) == std::chrono::floor<std::chrono::days>(when));
    }
}

TEST_CASE("instant: days between and after are each other's opposite") {
    base::Random random{12};
    const Instant start = *base::parse_instant("2026-03-02T07:00Z");
    for (int i = 0; i < 2000; ++i) {
        const double days = (random.unit() - 0.5) * 2000;
        CAPTURE(days);
        CHECK(base::days_between(start, base::after_days(start, days)) == doctest::Approx(days).epsilon(1e-6));
    }
}

TEST_CASE("instant: days after saturate a thousand years away") {
    const Instant start = base::from_milliseconds(0);
    const double far = std::numeric_limits<double>::infinity();
    CHECK(base::days_between(start, base::after_days(start, far)) == doctest::Approx(365'250.0));
    CHECK(base::days_between(start, base::after_days(start, -far)) == doctest::Approx(-365'250.0));
    CHECK(base::after_days(start, 400'000) == base::after_days(start, far));
}
