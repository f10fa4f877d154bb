#include "report/meeting/meeting_html.hpp"

#include <algorithm>
#include <cctype>
#include <set>
#include <string>

#include <doctest/doctest.h>

#include "practice/shop/meetings.hpp"
#include "report/meeting/meeting_sides.hpp"

namespace {

using practice::Meeting;
using report::Names;
using report::Paper;

std::size_t count(const std::string& text, const std::string& part) {
    std::size_t found = 0;
    for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size())) ++found;
    return found;
}

/// Every start tag has its end tag, in the right order; elements that have none are left out.
bool well_nested(const std::string& html) {
    static const std::set<std::string> kEmpty = {"meta", "!DOCTYPE"};
    std::vector<std::string> open;
    for (auto at = html.find('<'); at != std::string::npos; at = html.find('<', at + 1)) {
        const bool closes = html[at + 1] == '/';
        const auto begin = at + (closes ? 2 : 1);
        const auto name = html.substr(begin, html.find_first_of(" >", begin) - begin);
        if (kEmpty.contains(name)) continue;
        if (!closes) {
            open.push_back(name);
        } else {
            if (open.empty() || open.back() != name) return false;
            open.pop_back();
        }
    }
    return open.empty();
}

/// Sizes that the style gives to type, in points.
std::vector<double> type_sizes(const std::string& html) {
    std::vector<double> sizes;
    for (const std::string name : {"font-size:", "font:"})
        for (auto at = html.find(name); at != std::string::npos; at = html.find(name, at + 1))
            sizes.push_back(std::stod(html.substr(at + name.size())));
    return sizes;
}

/// The text of one side of a sheet, by the order in which sides stand.
std::string side(const std::string& html, std::size_t number) {
    auto at = html.find("<section");
    for (std::size_t i = 0; i < number; ++i) at = html.find("<section", at + 1);
    REQUIRE(at != std::string::npos);
    return html.substr(at, html.find("</section>", at) - at);
}

std::string hostile_page(const std::string& which) {
    Meeting meeting = meetings::small(1);
    const std::string hostile = "<script>alert(\"1\")</script>&'\x1b[2J";
    meeting.title = meeting.shop = hostile;
    meeting.sheets[0].name = hostile;
    for (auto& one : meeting.asks) {
        one.ask.title = one.ask.question.text = one.ask.question.why = one.ask.caution = hostile;
        one.ask.version.says = one.ask.version.article = hostile;
        for (auto& option : one.ask.options) option.text = hostile;
        for (auto& text : one.ask.question.right) text = hostile;
        for (auto& wrong : one.ask.question.wrong) wrong.text = hostile;
        for (auto& [id, words] : one.ask.mistakes) words = hostile;
    }
    if (which == "sheets") return report::sheets_html(meeting, Paper::letter);
    if (which == "key") return report::key_html(meeting, Paper::letter);
    const auto entered = practice::enter_lines(meeting, "1 b+[cd][20]b", {});
    return report::review_html(meeting, practice::review(meeting, entered.entries), Names::shown, Paper::a4);
}

}  // namespace

TEST_CASE("meeting page: text is escaped everywhere") {
    CHECK(report::html_text("a<b>&\"'\x01\x7f\xC2\xB5\n") == "a&lt;b&gt;&amp;&quot;&#39;\xC2\xB5\n");
    for (const std::string which : {"sheets", "key", "review"}) {
        CAPTURE(which);
        const auto html = hostile_page(which);
        CHECK(count(html, "<script") == 0);
        CHECK(count(html, "\x1b") == 0);
        CHECK(count(html, "&lt;script&gt;alert(&quot;1&quot;)&lt;/script&gt;&amp;&#39;[2J") > 5);
        CHECK(well_nested(html));
    }
}

TEST_CASE("meeting page: whole documents, nothing from elsewhere, black on white, no small type") {
    const Meeting meeting = meetings::planned(3, 4);
    const auto review = practice::review(meeting, {});
    for (const auto& html : {report::sheets_html(meeting, Paper::a4), report::key_html(meeting, Paper::a4),
                             report::review_html(meeting, review, Names::shown, Paper::a4)}) {
        CHECK(html.starts_with("<!DOCTYPE html>"));
        CHECK(well_nested(html));
        for (const std::string outside : {"http", "src=", "href=", "url(", "@import", "<link", "<script"})
            CHECK(count(html, outside) == 0);
        CHECK(count(html, "@page{size:A4 portrait") == 1);
        const auto style = html.substr(html.find("<style>"), html.find("</style>") - html.find("<style>"));
        // Black on white is 21:1 by the formula of WCAG 2.1, relative luminance (1 + 0.05) / (0 + 0.05).
        for (auto at = style.find('#'); at != std::string::npos; at = style.find('#', at + 1))
            CHECK((style.substr(at, 4) == "#fff" || style.substr(at, 4) == "#000"));
        CHECK(count(style, "rgb") + count(style, "opacity") == 0);
        const auto sizes = type_sizes(style);
        REQUIRE(sizes.size() >= 5);
        CHECK(*std::ranges::min_element(sizes) >= 12.0);
        CHECK(count(html, "Training aid.") >= 1);
    }
    CHECK(count(report::sheets_html(meeting, Paper::letter), "@page{size:letter portrait") == 1);
}

TEST_CASE("meeting page: a sheet shows its own number, name and order, and every ask once") {
    const Meeting meeting = meetings::planned(8, 6);
    const auto html = report::sheets_html(meeting, Paper::letter);
    const auto sides = report::sides_of(meeting).size();
    REQUIRE(count(html, "<section") == sides * meeting.sheets.size());
    for (std::size_t s = 0; s < meeting.sheets.size(); ++s) {
        const auto& sheet = meeting.sheets[s];
        std::string paper;
        for (std::size_t i = 0; i < sides; ++i) {
            const auto one = side(html, s * sides + i);
            CHECK(count(one, "Sheet <b>" + std::to_string(sheet.number) + "</b>") == 1);
            CHECK(count(one, "class=\"name\">" + sheet.name) == 1);
            CHECK(count(one, "class=\"strip\"") == (i == 0 ? 1 : 0));
            paper += one;
        }
        CHECK(count(paper, "CAUTION:") == 1);
        for (std::size_t at = 0; at < meeting.asks.size(); ++at) {
            const auto shown = practice::ask_on(meeting, sheet, at);
            std::string list;
            for (std::size_t o = 0; o < shown.options.size(); ++o)
                list += "<li><b>" + content::letter(o) + "</b>" + report::html_text(shown.options[o].text) + "</li>";
            CHECK(count(paper, list + "</ul>") == (list.empty() ? count(paper, "</ul>") : 1));
            CHECK(count(paper, "<b>" + std::to_string(at + 1) + ".</b>" +
                                   report::html_text(report::printed_text(shown))) == 1);
        }
    }
}

TEST_CASE("meeting page: the strip has a box for each option and one for sure") {
    const Meeting meeting = meetings::small(1);
    const auto html = report::sheets_html(meeting, Paper::letter);
    const auto strip = html.substr(html.find("class=\"strip\""), html.find("</table>") - html.find("class=\"strip\""));
    CHECK(count(strip, "class=\"box\">a</span>") == 3);
    CHECK(count(strip, "class=\"box\">d</span>") == 2);
    CHECK(count(strip, "class=\"box\"></span>") == 4);
    CHECK(count(strip, "class=\"line\"") == 1);
    CHECK(count(html, "Mark every one that applies.") == 1);
    CHECK(count(html, "Write the number, in cubic inches.") == 1);
}

TEST_CASE("meeting page: the key tells the right answer of each sheet, and what mistakes show") {
    const Meeting meeting = meetings::planned(2, 3);
    const auto html = report::key_html(meeting, Paper::letter);
    for (const auto& sheet : meeting.sheets) {
        std::string row = "<tr><th scope=\"row\">" + std::to_string(sheet.number) + "</th><td>" + sheet.name + "</td>";
        for (std::size_t at = 0; at < meeting.asks.size(); ++at)
            row += "<td class=\"letters\">" + practice::right_on(meeting, sheet, at) + "</td>";
        CHECK(count(html, row + "</tr>") == 1);
    }
    for (const auto& one : meeting.asks) {
        CHECK(count(html, report::html_text(one.ask.version.says)) >= 1);
        CHECK(count(html, report::html_text(one.ask.version.article)) >= 1);
        for (const auto& [id, words] : one.ask.mistakes) CHECK(count(html, report::html_text(words)) >= 1);
    }
}

TEST_CASE("meeting page: the review for the wall names nobody") {
    const Meeting meeting = meetings::small(3);
    const auto entered = practice::enter_lines(meeting, "1 a+[ab][20]a\n2 b+[cd][18]b\n", {});
    const auto review = practice::review(meeting, entered.entries);
    const auto open = report::review_html(meeting, review, Names::shown, Paper::letter);
    const auto wall = report::review_html(meeting, review, Names::hidden, Paper::letter);
    for (const std::string name : {"Ada", "Ben", "Cleo"}) {
        CHECK(count(open, name) >= 1);
        CHECK(count(wall, name) == 0);
    }
    CHECK(count(wall, "Red tag") == 1);
    CHECK(count(wall, "Takes x for it.") == count(open, "Takes x for it."));
}
