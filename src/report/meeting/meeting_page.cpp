#include "report/meeting/meeting_page.hpp"

namespace report {
namespace {

// Points and millimetres: this is paper. 12 points are the least for a sheet that is read in a van.
constexpr std::string_view kStyle = R"css(
*{box-sizing:border-box}
html{background:#fff;color:#000}
body{margin:0 auto;max-width:196mm;font:12pt/1.2 "Liberation Sans",Arial,Helvetica,sans-serif;overflow-wrap:anywhere}
h1{font-size:16pt;margin:0 0 4pt}
h2{font-size:14pt;margin:14pt 0 4pt}
h3{font-size:12pt;margin:10pt 0 2pt}
p{margin:0 0 4pt}
.side{break-after:page}
.side:last-child{break-after:auto}
.head{display:flex;justify-content:space-between;gap:10pt;border-bottom:2pt solid #000;padding-bottom:5pt;margin-bottom:7pt}
.head p{margin:0}
.name{margin:0;font-size:16pt;font-weight:bold}
.number{flex:none;min-width:64pt;border:2pt solid #000;padding:1pt 8pt;text-align:center;font-weight:bold}
.number b{display:block;font-size:32pt;line-height:1}
.asks{list-style:none;margin:0;padding:0}
.asks>li{break-inside:avoid;margin:0 0 8pt}
.back .number{border:0;padding:0;font-size:16pt}
.back .number b{display:inline;font-size:20pt}
.back{align-items:baseline}
.text{white-space:pre-line}
.text b{margin-right:4pt}
.options{list-style:none;margin:0;padding:0 0 0 14pt}
.options li{padding-left:17pt;text-indent:-17pt}
.options b{display:inline-block;width:17pt;text-indent:0}
.two{display:grid;grid-template-columns:1fr 1fr;column-gap:10pt}
table{border-collapse:collapse;width:100%}
.wide{overflow-wrap:normal}
th,td{border:1pt solid #000;padding:2pt 4pt;text-align:left;vertical-align:top}
tr{break-inside:avoid}
thead{display:table-header-group}
.strip{float:right;width:140pt;margin:0 0 6pt 10pt;border:2pt solid #000;white-space:nowrap;overflow-wrap:normal}
.strip th,.strip td{padding:3pt 2pt;height:25pt;vertical-align:middle;text-align:center;border-width:1pt 0}
.strip .boxes{text-align:left;white-space:normal}
.box{display:inline-block;width:16pt;height:16pt;border:1.2pt solid #000;margin:1pt 2pt 1pt 0;text-align:center;line-height:14pt}
.line{display:inline-block;width:52pt;border-bottom:1.2pt solid #000;height:16pt}
.note{clear:both;border-top:1pt solid #000;padding-top:4pt;margin-top:6pt}
.letters{text-align:center;font-weight:bold;white-space:nowrap}
h2,h3{break-after:avoid}
.ask p,.ask li{break-inside:avoid}
.ask{border-top:1pt solid #000;padding-top:4pt;margin-top:8pt}
.plain{margin:0;padding-left:18pt}
@media print{main{padding:0 1pt}}
@media screen{body{padding:8pt}.side{margin-bottom:24pt}.wide{overflow-x:auto}}
@media screen and (max-width:480px){.two{grid-template-columns:minmax(0,1fr)}.strip{float:none;margin:0 0 8pt}}
)css";

}  // namespace

std::string html_text(std::string_view text) {
    std::string out;
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        if (c == '&')
            out += "&amp;";
        else if (c == '<')
            out += "&lt;";
        else if (c == '>')
            out += "&gt;";
        else if (c == '"')
            out += "&quot;";
        else if (c == '\'')
            out += "&#39;";
        else if ((byte >= 0x20U && byte != 0x7fU) || c == '\n' || c == '\t')
            out += c;
    }
    return out;
}

std::string element(std::string_view tag, std::string_view text, std::string_view attributes) {
    const std::string name{tag};
    return "<" + name + (attributes.empty() ? "" : " " + std::string{attributes}) + ">" + html_text(text) + "</" +
           name + ">";
}

std::string document(const std::string& title, Paper paper, const std::string& body) {
    return "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
           "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n" +
           element("title", title) + "\n<style>\n@page{size:" + (paper == Paper::a4 ? "A4" : "letter") +
           " portrait;margin:10mm}" + std::string{kStyle} + "</style>\n</head>\n<body>\n" + body + "</body>\n</html>\n";
}

std::string lead_head(const practice::Meeting& meeting, const std::string& what) {
    const std::string shop = meeting.shop.empty() ? "Shop meeting" : meeting.shop;
    return element("h1", shop + ": " + what) +
           element("p", meeting.title + (meeting.title.empty() ? "" : ", ") + day_and_edition(meeting)) +
           element("p", "Meeting " + base::to_text(meeting.id)) + "\n";
}

}  // namespace report
