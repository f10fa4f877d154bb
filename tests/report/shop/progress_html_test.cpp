#include "report/shop/progress_html.hpp"

#include <cmath>
#include <regex>
#include <set>

#include <doctest/doctest.h>

#include "report/chart/reading.hpp"
#include "report/shop/made_page.hpp"
#include "report/shop/progress_style.hpp"

namespace {

using reading::count;
using reading::has;

std::string body_of(const std::string& page) {
    const auto from = page.find("<body>");
    return page.substr(from, page.find("</html>") - from);
}

std::vector<std::string> all(const std::string& text, const std::string& pattern) {
    std::vector<std::string> found;
    const std::regex regex{pattern};
    for (auto at = std::sregex_iterator{text.begin(), text.end(), regex}; at != std::sregex_iterator{}; ++at)
        found.push_back((*at)[1].str());
    return found;
}

/// Relative luminance of "#rrggbb" or "#rgb". Source: WCAG 2.2, definition of relative luminance.
double luminance(std::string hex) {
    hex.erase(0, 1);
    if (hex.size() == 3) hex = {hex[0], hex[0], hex[1], hex[1], hex[2], hex[2]};
    const auto part = [&](std::size_t at) {
        const double share = std::stoi(hex.substr(at, 2), nullptr, 16) / 255.0;
        return share <= 0.04045 ? share / 12.92 : std::pow((share + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * part(0) + 0.7152 * part(2) + 0.0722 * part(4);
}

double contrast(std::string_view a, std::string_view b) {
    const double x = luminance(std::string{a}), y = luminance(std::string{b});
    return (std::max(x, y) + 0.05) / (std::min(x, y) + 0.05);
}

void check_page(const std::string& page) {
    CHECK(page.starts_with("<!DOCTYPE html>\n<html lang=\"en\">"));
    CHECK(reading::well_formed(body_of(page)));
    CHECK_FALSE(has(page, "<script"));
    CHECK_FALSE(has(page, "src="));
    CHECK_FALSE(has(page, "url("));
    CHECK_FALSE(has(page, "@import"));
    CHECK_FALSE(has(page, "<link"));
    CHECK(all(page, "( on[a-z]+=)").empty());
    // The only address is the name of the SVG namespace; links stay on the page.
    CHECK(count(page, "http") == count(page, "xmlns=\"http://www.w3.org/2000/svg\"") + count(page, "http-equiv"));
    for (const auto& link : all(page, "href=\"([^\"]*)\"")) {
        CHECK(link.starts_with("#"));
        CHECK(count(page, " id=\"" + link.substr(1) + "\"") == 1);
    }
    const auto ids = all(page, " id=\"([^\"]*)\"");
    CHECK(std::set<std::string>(ids.begin(), ids.end()).size() == ids.size());
    for (const auto& names : all(page, "aria-labelledby=\"([^\"]*)\""))
        for (const auto& id : all(names, "([^ ]+)")) CHECK_MESSAGE(count(page, " id=\"" + id + "\"") == 1, id);
    CHECK(count(page, "<table") == count(page, "<caption>"));
    CHECK(count(page, "<svg") == count(page, "<title id="));
    CHECK(count(page, "<svg") == count(page, "<desc id="));
    CHECK(count(page, "<h1>") == 1);
    CHECK_FALSE(has(page, "nan"));
}

}  // namespace

TEST_CASE("progress html: property: every page stands alone, is well formed, and everything drawn is told") {
    for (base::Seed seed = 1; seed <= 8; ++seed) {
        CAPTURE(seed);
        const made::Shop shop{seed, 2 * seed * seed};
        for (std::size_t member = 0; member < 4; ++member) check_page(report::progress_html(shop.page(member)));
        check_page(report::crew_progress_html(shop.crew));
    }
    check_page(report::crew_progress_html({}));
}

TEST_CASE("progress html: a learner's page tells of nobody else") {
    const made::Shop shop{5};
    const std::string page = report::progress_html(shop.page(0));
    CHECK(has(page, "Ada Ferris"));
    for (const auto& other : {"Bo Lund", "Cid Marsh", "Dee Newly"}) CHECK_FALSE(has(page, other));
    const std::string lead = report::crew_progress_html(shop.crew);
    for (const auto& name : {"Ada Ferris", "Bo Lund", "Cid Marsh", "Dee Newly"}) CHECK(has(lead, name));
}

TEST_CASE("progress html: each circuit has its number, its topic, its load and its state in words") {
    const made::Shop shop{6, 40};
    const auto page = shop.page(0);
    const std::string html = report::progress_html(page);
    for (std::size_t n = 0; n < page.progress.topics.size(); ++n) {
        const auto& topic = page.progress.topics[n].standing;
        const auto at = html.find("<td role=\"cell\" class=\"number\">" + std::to_string(n + 1) + "</td>");
        REQUIRE(at != std::string::npos);
        const std::string row = html.substr(at, html.find("</tr>", at) - at);
        CHECK(has(row, ">" + topic.topic + "<"));
        const std::string state = topic.urgent > 0 ? "tripped"
                                  : topic.met == 0 ? "spare"
                                  : topic.due > 0  ? "due"
                                                   : "closed";
        CHECK(has(row, "</span>" + state + "</td>"));
    }
}

TEST_CASE("progress html: the lead's page begins with what needs them, in order") {
    const made::Shop shop{7};
    const std::string html = report::crew_progress_html(shop.crew);
    CHECK(html.find("Needs you today</h2>") < html.find("Crew</h2>"));
    CHECK(count(html, "<span class=\"kind\">") == shop.crew.needs.size());
    std::size_t from = 0;
    for (const auto& need : shop.crew.needs) {
        const std::string kind{practice::to_text(need.kind)};
        const auto at = html.find("<li class=\"" + kind + "\"><span class=\"kind\">" + kind + "</span>", from);
        REQUIRE(at != std::string::npos);
        from = at + 1;
    }
    CHECK(has(report::crew_progress_html({}), "Nothing needs you today."));
}

TEST_CASE("progress html: names and titles are text, whatever they hold") {
    made::Shop shop{8, 60, {"<b>Al & \"Co\"</b>", "Bo", "C", "D"}};
    for (auto& member : shop.crew.members)
        for (auto& one : member.progress.corrections) one.title = "<script>alert('x')</script>";
    for (auto& need : shop.crew.needs)
        for (auto& one : need.points) one.title = "<img src=x>";
    for (std::size_t member = 0; member < 4; ++member) check_page(report::progress_html(shop.page(member)));
    const std::string lead = report::crew_progress_html(shop.crew);
    CHECK(has(lead, "&lt;b&gt;Al &amp; "));
    CHECK_FALSE(has(lead, "<img"));
    CHECK_FALSE(has(lead, "<b>Al"));
}

TEST_CASE("progress html: readiness stands there only where it was given") {
    const made::Shop shop{9};
    CHECK_FALSE(has(report::progress_html(shop.page(0)), "Exam readiness"));
    auto page = shop.page(0);
    const content::Outline outline;
    const practice::ReadinessFor asked;
    practice::Readiness found;
    found.today.pass = 0.62;
    found.today.pass_low = 0.4;
    found.today.pass_high = 0.8;
    const report::ReadinessPage readiness{outline, page.learner, asked, found};
    page.readiness = &readiness;
    const std::string html = report::progress_html(page);
    CHECK(has(html, "chance to pass 62 %, in nine cases of ten between 40 % and 80 %"));
    check_page(html);
}

TEST_CASE("progress html: days are marked as days, and are not broken at their hyphens") {
    const made::Shop shop{10};
    const std::string html = report::progress_html(shop.page(0));
    CHECK(has(html, "As of <time datetime=\"2026-03-04\">2026-03-04</time>."));
    CHECK(has(html, "time{white-space:nowrap}"));
}

TEST_CASE("progress html: text keeps a contrast of seven to one, and no other colour carries text") {
    // WCAG 2.2: white on black is 21; #767676 on white is the known edge of 4.5.
    CHECK(contrast("#ffffff", "#000000") == doctest::Approx(21));
    CHECK(contrast("#767676", "#fff") == doctest::Approx(4.54).epsilon(0.005));
    std::set<std::string> inks, papers;
    for (const auto& pair : report::kProgressInks) {
        CHECK_MESSAGE(contrast(pair.ink, pair.paper) >= 7, pair.name);
        inks.insert(std::string{pair.ink});
        papers.insert(std::string{pair.paper});
    }
    const auto whole = [](const std::string& hex) {
        return hex.size() == 7 ? hex : std::string{'#', hex[1], hex[1], hex[2], hex[2], hex[3], hex[3]};
    };
    const std::string style = report::progress_document("t", "");
    const auto used = all(style, "[;{]color:(#[0-9a-f]+)");
    CHECK(used.size() > 8);
    for (const auto& hex : used) CHECK_MESSAGE(inks.count(whole(hex)) == 1, hex);
    for (const auto& hex : all(style, "background:(#[0-9a-f]+)")) CHECK_MESSAGE(papers.count(whole(hex)) == 1, hex);
}

TEST_CASE("progress html: the style knows phones, wide screens, strong zoom and paper") {
    const std::string style = report::progress_document("t", "");
    // Widths are in em, so that zoom and larger type count as a narrower page.
    for (const auto& query : all(style, "@media([^{]*)")) CHECK_FALSE(has(query, "px"));
    CHECK(has(style, "@media print{"));
    CHECK(has(style, "width=device-width"));
}
