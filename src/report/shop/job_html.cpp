#include "report/shop/job_html.hpp"

#include "base/text.hpp"
#include "report/exchange/xml_writer.hpp"
#include "report/shop/job_text.hpp"

namespace report {
namespace {

using practice::JobBrief;
using practice::Reminder;

std::string escaped(std::string_view text) {
    return xml_escaped(text);
}

// Every pair of colours is named once and tried in tests/report/shop/job_html_test.cpp.
constexpr std::string_view kStyle = R"(
@page { size: auto; margin: 12mm 13mm; }
* { box-sizing: border-box; }
html { color: #111111; background: #ffffff; }
body { font: 12.5pt/1.32 Arial, "Liberation Sans", Helvetica, sans-serif; margin: 0 auto; max-width: 46rem; padding: 0.8rem; }
h1 { font-size: 1.5em; line-height: 1.15; margin: 0; }
h2 { font-size: 1.08em; margin: 0.6em 0 0.2em; border-bottom: 2px solid #111111; }
p { margin: 0.15em 0; }
.under { color: #333333; margin-bottom: 0.5em; }
.caution { color: #5c0000; background: #fff4e5; border: 3px solid #5c0000; padding: 0.35em 0.6em; margin: 0.5em 0; }
.caution h2 { border: 0; margin: 0; }
ul, ol { margin: 0; padding-left: 1.3em; }
li { margin: 0.12em 0; }
dl { margin: 0; }
dt { font-weight: bold; margin-top: 0.35em; break-after: avoid; }
dt .article { display: inline-block; margin-right: 0.5em; }
dt .stakes { font-weight: normal; color: #333333; }
dd { margin: 0; break-inside: avoid; }
.open { color: #5c0000; }
footer { color: #333333; font-size: 0.8em; margin-top: 0.7em; border-top: 1px solid #333333; padding-top: 0.25em; }
@media print {
  body { font-size: 11pt; line-height: 1.2; max-width: none; padding: 0; }
  .caution, dd, li { break-inside: avoid; }
}
)";

std::string heading(const JobBrief& brief, const JobSheetFor& sheet) {
    std::vector<std::string> under;
    if (!sheet.day.empty()) under.push_back(sheet.day);
    under.push_back(trade::to_text(brief.under.edition) + " edition of the code");
    if (!sheet.jurisdiction.empty()) under.push_back(sheet.jurisdiction);
    if (!sheet.who_goes.empty()) under.push_back("going: " + base::join(sheet.who_goes, ", "));
    return "<h1>" + escaped(job_heading(brief)) + "</h1>\n<p class=\"under\">" + escaped(base::join(under, " · ")) +
           "</p>\n";
}

std::string list_of(const std::vector<std::string>& lines) {
    std::string list = "<ul>\n";
    for (const auto& line : lines) list += "<li>" + escaped(line) + "</li>\n";
    return list + "</ul>\n";
}

std::string cautions(const Reminder& reminder) {
    if (reminder.cautions.empty()) return {};
    return "<section class=\"caution\" aria-labelledby=\"c\">\n<h2 id=\"c\">Before hands go in</h2>\n" +
           list_of(reminder.cautions) + "</section>\n";
}

std::string rules(const Reminder& reminder) {
    if (reminder.rules.empty()) return "<p>Nothing in the library bears on these words.</p>\n";
    std::string html = "<section aria-labelledby=\"g\">\n<h2 id=\"g\">What governs</h2>\n<dl>\n";
    for (const auto& rule : reminder.rules) {
        html += "<dt><span class=\"article\">" + escaped(rule.article) + "</span> " + escaped(rule.title) +
                " <span class=\"stakes\">(" + std::string{content::to_text(rule.stakes)} + ")</span></dt>\n<dd>" +
                (rule.practice ? "<em>Practice of the trade:</em> " : "") + escaped(rule.says);
        if (rule.unverified) html += " <strong class=\"open\">Not confirmed for this edition: look it up.</strong>";
        html += "</dd>\n";
    }
    return html + "</dl>\n</section>\n";
}

std::string mistakes(const Reminder& reminder) {
    if (reminder.mistakes.empty()) return {};
    return "<section aria-labelledby=\"m\">\n<h2 id=\"m\">Mistakes to avoid</h2>\n" + list_of(reminder.mistakes) +
           "</section>\n";
}

}  // namespace

std::string job_html(const JobBrief& brief, const JobSheetFor& sheet) {
    return "<!DOCTYPE html>\n<html lang=\"en-US\">\n<head>\n<meta charset=\"utf-8\">\n"
           "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>" +
           escaped(job_heading(brief)) + "</title>\n<style>" + std::string{kStyle} +
           "</style>\n</head>\n<body>\n<main>\n" + heading(brief, sheet) + cautions(brief.reminder) +
           rules(brief.reminder) + mistakes(brief.reminder) +
           "</main>\n<footer>A training aid in our own words. The adopted code, local amendments, listings and the "
           "inspector decide.</footer>\n</body>\n</html>\n";
}

}  // namespace report
