#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <vector>

#include "base/text.hpp"
#include "jobs_shipped.hpp"
#include "report/exchange/xml_writer.hpp"
#include "report/shop/job_html.hpp"
#include "report/shop/job_text.hpp"

namespace {

using shipped_jobs::brief;

/// Relative luminance and contrast as WCAG 2.1 defines them (section "relative luminance", "contrast ratio").
double luminance(const std::string& color) {
    double sum = 0.0;
    const double share[] = {0.2126, 0.7152, 0.0722};
    for (int i = 0; i < 3; ++i) {
        const double value = std::stoi(color.substr(1 + 2 * static_cast<std::size_t>(i), 2), nullptr, 16) / 255.0;
        sum += share[i] * (value <= 0.03928 ? value / 12.92 : std::pow((value + 0.055) / 1.055, 2.4));
    }
    return sum;
}
double contrast(const std::string& a, const std::string& b) {
    const double x = luminance(a), y = luminance(b);
    return (std::max(x, y) + 0.05) / (std::min(x, y) + 0.05);
}

/// The colours that a property is set to, in order.
std::set<std::string> colors(const std::string& html, const std::string& property) {
    std::set<std::string> found;
    for (auto at = html.find(property); at != std::string::npos; at = html.find(property, at + 1)) {
        if (at > 0 && (html[at - 1] == '-' || std::isalpha(static_cast<unsigned char>(html[at - 1])))) continue;
        const auto hash = html.find('#', at);
        found.insert(html.substr(hash, 7));
    }
    return found;
}

std::string sheet(const std::string& words) {
    return report::job_html(brief(words), {"2026-03-02", "Demo county", {"Ana Field", "Bo <Reyes>"}});
}

}  // namespace

TEST_CASE("job sheet: cautions first, then what governs, then mistakes, everything escaped") {
    const auto html = sheet("kitchen remodel");
    const auto found = brief("kitchen remodel");
    const auto cautions = html.find("Before hands go in"), governs = html.find("What governs"),
               mistakes = html.find("Mistakes to avoid");
    CHECK(cautions < governs);
    CHECK(governs < mistakes);
    CHECK(mistakes != std::string::npos);
    CHECK(html.find("<h1>Kitchen remodel</h1>") != std::string::npos);
    CHECK(html.find("2023 edition") != std::string::npos);
    CHECK(html.find("Bo &lt;Reyes&gt;") != std::string::npos);
    for (const auto& rule : found.reminder.rules) {
        CHECK(html.find(report::xml_escaped(rule.says)) != std::string::npos);
        CHECK(html.find(report::xml_escaped(rule.article)) != std::string::npos);
    }
    for (const auto& line : found.reminder.mistakes) CHECK(html.find(report::xml_escaped(line)) != std::string::npos);
    CHECK(report::job_html(brief("<script>alert(1)</script>"), {}).find("<script") == std::string::npos);
}

TEST_CASE("job sheet: self-contained, without scripts, and set for print") {
    for (const auto& job : shipped_jobs::jobs()) {
        const auto html = sheet(job.words.front());
        for (const auto* banned : {"<script", "http:", "https:", "src=", "@import", "url(", "javascript:", "onload"})
            CHECK_MESSAGE(html.find(banned) == std::string::npos, job.id, " ", banned);
        CHECK(html.find("@page") != std::string::npos);
        CHECK(html.find("@media print") != std::string::npos);
        CHECK(html.find("lang=\"en-US\"") != std::string::npos);
    }
}

TEST_CASE("job sheet: every ink stands out 7 to 1 from every ground") {
    const auto html = sheet("kitchen remodel");
    const auto inks = colors(html, "color:"), grounds = colors(html, "background:");
    REQUIRE(inks.size() >= 3);
    REQUIRE(grounds.size() == 2);
    for (const auto& ink : inks)
        for (const auto& ground : grounds) CHECK_MESSAGE(contrast(ink, ground) >= 7.0, ink, " on ", ground);
    CHECK(contrast("#767676", "#ffffff") == doctest::Approx(4.54).epsilon(0.005));  // the usual example of 4.5:1
}

TEST_CASE("job sheet: what is not confirmed says so") {
    bool seen = false;
    for (const auto& job : shipped_jobs::jobs()) {
        const auto found = brief(job.words.front(), trade::Edition::e2026);
        const bool open = std::any_of(found.reminder.rules.begin(), found.reminder.rules.end(),
                                      [](const practice::ReminderRule& r) { return r.unverified; });
        const auto html = report::job_html(found, {});
        CHECK_MESSAGE((html.find("Not confirmed for this edition") != std::string::npos) == open, job.id);
        seen = seen || open;
    }
    CHECK(seen);
}

TEST_CASE("job text: nothing is wider than the page, and the order is that of the sheet") {
    for (const std::size_t width : {40U, 60U, 80U, 120U})
        for (const auto& job : shipped_jobs::jobs()) {
            const auto found = brief(job.words.front());
            auto lines = report::job_text(found, {width, false});
            for (auto& line : report::job_points_text(found, {width, false})) lines.push_back(std::move(line));
            for (const auto& line : lines) CHECK_MESSAGE(base::display_width(line) <= width, job.id, ": ", line);
        }
    const auto text = base::join(report::job_text(brief("kitchen remodel"), {80, false}), "\n");
    CHECK(text.find("Kitchen remodel, 2023 edition") == 0);
    CHECK(text.find("Before hands go in") < text.find("What governs"));
    CHECK(text.find("What governs") < text.find("Mistakes to avoid"));
    CHECK(text.find("Mistakes to avoid") < text.find("Training aid"));
    const auto points = base::join(report::job_points_text(brief("kitchen remodel"), {80, false}), "\n");
    CHECK(points.find("the weightiest first") != std::string::npos);
    CHECK(points.find("gfci.kitchen") != std::string::npos);
    CHECK(text.find('\x1b') == std::string::npos);
}

TEST_CASE("job text: what was not found is told, with jobs that may have been meant") {
    const auto none = base::join(report::job_text(brief("zzyzx"), {80, false}), "\n");
    CHECK(none.find("Nothing in the library bears on these words.") != std::string::npos);
    CHECK(none.find("zzyzx") != std::string::npos);
    CHECK(none.find("Before hands go in") == std::string::npos);
    const auto slip = base::join(report::job_text(brief("genrator"), {80, false}), "\n");
    CHECK(slip.find("Did you mean: Generator and transfer") != std::string::npos);
}
