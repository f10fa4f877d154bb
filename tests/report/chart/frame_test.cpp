#include "report/chart/frame.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "report/chart/reading.hpp"

using namespace report::chart;
using namespace reading;

namespace {

const Axis kShare{0, 1, "share", Unit::percent, true, true};

}  // namespace

TEST_CASE("chart frame: values stand where they should, and outside ones at the edge") {
    const Frame frame{{"f", "Title", "About."}, {360, 200}, {0, 10, "days"}, kShare};
    CHECK(frame.x(0) == doctest::Approx(frame.left()));
    CHECK(frame.x(10) == doctest::Approx(frame.right()));
    CHECK(frame.x(5) == doctest::Approx((frame.left() + frame.right()) / 2));
    CHECK(frame.x(99) == frame.x(10));
    CHECK(frame.y(0) == doctest::Approx(frame.bottom()));
    CHECK(frame.y(1) == doctest::Approx(frame.top()));
    CHECK(frame.y(-3) == frame.y(0));
    CHECK(frame.bottom() - frame.top() == doctest::Approx(200));
}

TEST_CASE("chart frame: a reader that sees nothing gets title, words and figures") {
    Frame frame{{"f", "Title", "About."}, {}, {0, 10, "days"}, kShare};
    frame.say("One figure.");
    const auto svg = frame.svg();
    CHECK(wrong(svg, "f").empty());
    CHECK(inside(svg, "title") == "Title");
    CHECK(inside(svg, "desc") == "About. One figure.");
    CHECK(has(svg, "viewBox=\"0 0 360 "));
}

TEST_CASE("chart frame: every word of a caller stays a word") {
    const std::string hostile = "A & <script>alert(\"x\")</script> 'b'\x02 \xFF";
    Frame frame{{hostile, hostile, hostile}, {}, {0, 1, hostile}, {0, 1, hostile}};
    frame.key(0, hostile);
    frame.key_line("even", hostile);
    frame.key_box("full", hostile);
    frame.mark(0.5, hostile);
    frame.say_empty(hostile);
    CHECK(wrong(frame.svg(), id_text(hostile)).empty());
}

TEST_CASE("chart frame: texts neither cover each other nor leave the sheet") {
    base::Random random{8};
    for (int n = 0; n < 300; ++n) {
        const double size = std::pow(10.0, 16 * random.unit() - 5);
        const double low = size * (random.unit() - 0.5);
        const int width = 240 + static_cast<int>(random.below(800));
        Axis across{low, low + size * random.unit(), "an axis that says what it shows in rather many words of its own"};
        across.outward = random.below(2) == 0;
        const Axis up{low, low + size * random.unit(), "up", Unit::plain, true, random.below(3) > 0};
        Frame frame{
            {"f", "A title of several words that needs a second line on a phone", ""}, {width, 220}, across, up};
        frame.key(0, "a key with a long explanation that has to be broken into lines somewhere");
        frame.key(1, "and another");
        CAPTURE(low);
        CAPTURE(size);
        CAPTURE(width);
        // Eighteen signs beside a plot are more than a sheet of 240 holds.
        const double widest = text_width(frame.y_text(low), 12);
        if (widest > 90) continue;
        for (const auto& told : crowded(frame.svg(), width)) FAIL_CHECK(told);
    }
}

TEST_CASE("chart frame: letters at the ends of lines keep apart, in order, by the plot") {
    base::Random random{9};
    for (int n = 0; n < 200; ++n) {
        Frame frame{{"f", "", ""}, {}, {0, 1, ""}, kShare};
        std::vector<LineEnd> ends;
        const std::size_t count_of = 1 + static_cast<std::size_t>(random.below(12));
        const double near = random.unit();
        for (std::size_t k = 0; k < count_of; ++k)
            ends.push_back({{frame.right(), frame.y(near + 0.05 * random.unit())}, k});
        frame.letters(ends);
        const auto all = texts(frame.svg());
        std::size_t letters = 0;
        for (std::size_t k = 0; k < all.size(); ++k) {
            if (!has(all[k].classes, "bold halo")) continue;
            ++letters;
            CHECK(all[k].base <= frame.bottom() + 5);
            CHECK(all[k].base >= frame.top() - 1);
            for (std::size_t j = 0; j < k; ++j)
                if (has(all[j].classes, "bold halo")) CHECK_FALSE(all[k].covers(all[j]));
        }
        CHECK(letters == count_of);
    }
}

TEST_CASE("chart frame: sizes too small for any chart are raised") {
    const Frame frame{{"f", "t", ""}, {1, -5}, {0, 1, ""}, kShare};
    CHECK(has(frame.svg(), "viewBox=\"0 0 240 "));
    CHECK(frame.bottom() > frame.top());
}
