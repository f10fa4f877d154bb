#include "report/chart/svg.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <set>

#include "report/chart/reading.hpp"

using namespace report::chart;
using namespace reading;

namespace {

/// Contrast on white. Source: WCAG 2.1, "relative luminance" and "contrast ratio" (W3C 2018; from memory).
double contrast(const std::string& colour) {
    const double weights[] = {0.2126, 0.7152, 0.0722};
    const std::string full =
        colour.size() == 3 ? std::string{colour[0], colour[0], colour[1], colour[1], colour[2], colour[2]} : colour;
    double luminance = 0;
    for (std::size_t n = 0; n < 3; ++n) {
        const double part = std::stoi(full.substr(2 * n, 2), nullptr, 16) / 255.0;
        luminance += weights[n] * (part <= 0.03928 ? part / 12.92 : std::pow((part + 0.055) / 1.055, 2.4));
    }
    return 1.05 / (luminance + 0.05);
}

/// What a rule of the style sheet sets, first by the selector that ends it; empty when it sets nothing of the kind.
std::string set_by(const std::string& selector, const std::string& property) {
    const std::string sheet{style_sheet()};
    for (auto at = sheet.find(selector + "{"); at != std::string::npos; at = sheet.find(selector + "{", at + 1)) {
        const std::string rule = sheet.substr(at, sheet.find('}', at) - at);
        for (const char* before : {"{", ";"}) {
            const auto found = rule.find(before + property + ":");
            if (found == std::string::npos) continue;
            const auto from = found + property.size() + 2;
            return rule.substr(from, rule.find(';', from) - from);
        }
    }
    return {};
}

}  // namespace

TEST_CASE("chart svg: the contrast formula is the known one") {
    CHECK(contrast("000") == doctest::Approx(21.0));
    CHECK(contrast("ffffff") == doctest::Approx(1.0));
    CHECK(contrast("777777") == doctest::Approx(4.48).epsilon(0.002));  // a grey often quoted as just short of 4.5
}

TEST_CASE("chart svg: text and series have a contrast of seven on white, and dashes tell series apart") {
    CHECK(contrast(set_by(".chart text", "fill").substr(1)) >= 7);
    std::set<std::string> dashes;
    for (std::size_t look = 0; look < kLooks; ++look) {
        const std::string line = ".chart ." + line_class(look);
        CAPTURE(line);
        CHECK(contrast(set_by(line, "stroke").substr(1)) >= 7);
        dashes.insert(set_by(line, "stroke-dasharray"));
    }
    CHECK(dashes.size() == kLooks);
    CHECK(contrast(set_by(".chart .axis", "stroke").substr(1)) >= 7);
    CHECK(contrast(set_by(".chart .full", "fill").substr(1)) >= 7);
    CHECK(contrast(set_by(".chart .open", "stroke").substr(1)) >= 7);
}

TEST_CASE("chart svg: every look has a marker of its own shape") {
    std::set<std::string> shapes;
    for (std::size_t look = 0; look < kLooks; ++look) {
        Shapes one;
        one.marker({10, 10}, look);
        const auto at = one.markup().find(" class=");
        shapes.insert(one.markup().substr(0, at));
    }
    CHECK(shapes.size() == kLooks);
}

TEST_CASE("chart svg: text is escaped, and what XML forbids is left out") {
    CHECK(escaped("a < b & \"c\" > 'd'") == "a &lt; b &amp; &quot;c&quot; &gt; &#39;d&#39;");
    CHECK(escaped("one\ntwo\tthree") == "one two three");
    CHECK(escaped(std::string{"a\x01\x1f\x7f\0z", 6}) == "az");
    CHECK(escaped("caf\xC3\xA9 \xE2\x89\xA5") == "caf\xC3\xA9 \xE2\x89\xA5");
    CHECK(escaped("bad \xFF\xC3 end") == "bad ?? end");
    CHECK(escaped("none \xEF\xBF\xBF") == "none ?");
    CHECK(id_text("crew \"A\"/3_b.c-d") == "crew--A--3_b.c-d");
}

TEST_CASE("chart svg: numbers look the same everywhere") {
    CHECK(number(1234.56) == "1234.6");
    CHECK(number(2.0) == "2");
    CHECK(number(-0.04) == "0");
    CHECK(number(0.125, 3) == "0.125");
    CHECK(number(100, 0) == "100");
    CHECK(grouped(0) == "0");
    CHECK(grouped(999) == "999");
    CHECK(grouped(1000) == "1,000");
    CHECK(grouped(-1234567.891, 2) == "-1,234,567.89");
    CHECK(grouped(-0.001, 2) == "0.00");
    CHECK(grouped(0.5, 2) == "0.50");
}

TEST_CASE("chart svg: only finite values of a human size are drawn") {
    CHECK(drawable(0));
    CHECK(drawable(-1e12));
    CHECK_FALSE(drawable(1.1e12));
    CHECK_FALSE(drawable(std::numeric_limits<double>::infinity()));
    CHECK_FALSE(drawable(std::numeric_limits<double>::quiet_NaN()));
}

TEST_CASE("chart svg: letters and looks come round again") {
    CHECK(letter(0) == "A");
    CHECK(letter(25) == "Z");
    CHECK(letter(26) == "A");
    CHECK(line_class(0) == line_class(kLooks));
}
