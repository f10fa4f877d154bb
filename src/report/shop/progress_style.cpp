#include "report/shop/progress_style.hpp"

#include "report/chart/svg.hpp"

namespace report {
namespace {

// The page is a panelboard seen from the front: a grey door, and on it the white card with its numbered circuits.
// Nothing relies on a background: printers leave them out.
constexpr std::string_view kBase = R"(
:root{color-scheme:light}
*{box-sizing:border-box}
body{margin:0;background:#e4e6e4;color:#141414;font:1rem/1.5 system-ui,-apple-system,"Segoe UI",Arial,sans-serif;overflow-wrap:break-word}
main,header,nav,footer{max-width:68rem;margin:0 auto;padding:0 .75rem}
header{padding-top:1.25rem}
h1{font-size:1.6rem;line-height:1.2;margin:0 0 .5rem}
h2{font-size:1.2rem;line-height:1.3;margin:0 0 .5rem;padding-bottom:.25rem;border-bottom:3px solid #141414}
h3{font-size:1rem;margin:0}
p{margin:.4rem 0;max-width:46rem}
section{background:#fff;border:2px solid #141414;padding:.9rem .9rem 1rem;margin:1rem 0}
a{color:#0a3d78}
a:focus-visible{outline:3px solid #0a3d78;outline-offset:2px}
.skip{position:absolute;left:-99rem}
.skip:focus{left:.5rem;top:.5rem;background:#fff;padding:.5rem;z-index:1}
.unseen{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
.faint{color:#404040;font-size:.95rem}
header .faint{color:#141414}
nav ul{list-style:none;margin:.5rem 0 0;padding:0;display:flex;flex-wrap:wrap;gap:.25rem 1rem}
nav a{display:inline-block;padding:.35rem 0;color:#141414}
)";

constexpr std::string_view kTag = R"(
.tag{display:inline-flex;max-width:100%;align-items:center;gap:.7rem;background:#fff;border:3px solid;padding:.35rem .9rem .35rem .7rem;font-weight:700;border-radius:1.2rem .3rem .3rem 1.2rem;margin:.25rem 0}
.tag::before{content:"";flex:none;width:.8rem;height:.8rem;border:2px solid;border-radius:50%}
.closed{color:#14532d}.due{color:#5f3b00}.tripped{color:#8c0014}.spare{color:#444}
)";

constexpr std::string_view kPanel = R"(
.panel{display:block;border:3px solid #141414;outline:2px solid #141414;outline-offset:3px;margin:.6rem 5px}
.panel caption{display:block;padding:.4rem .7rem;border-bottom:3px solid #141414;text-align:left}
.panel caption strong{display:block;letter-spacing:.12em;text-transform:uppercase}
.panel tbody{display:grid;grid-template-columns:1fr}
.panel tbody tr{display:grid;grid-template-columns:2.3rem 3.6rem minmax(0,1fr);align-items:center;border-bottom:1px solid #777;break-inside:avoid}
.panel td,.panel th{padding:.3rem .35rem;text-align:left;font-weight:400}
.panel .number{grid-row:1/3;font-weight:700;text-align:center;border-right:2px solid #141414;align-self:stretch;display:flex;align-items:center;justify-content:center}
.panel tbody th{grid-column:2/4;font-family:"Courier New",Courier,monospace;font-weight:700}
.panel tbody th span{display:block;font:.85rem/1.3 system-ui,-apple-system,"Segoe UI",Arial,sans-serif;color:#404040}
.panel .load{text-align:right;padding-top:0;white-space:nowrap;font-variant-numeric:tabular-nums}
.panel .state{padding-top:0;font-weight:700;display:flex;align-items:center;gap:.45rem}
.lever{flex:none;width:1.7rem;height:.85rem;border:2px solid;position:relative}
.lever::before{content:"";position:absolute;top:0;bottom:0;width:0;border-left:.7rem solid;left:0}
.due .lever::before{border-left-style:double}
.tripped .lever::before{left:.38rem}
.spare .lever::before{display:none}
@media print,(min-width:48em){.panel tbody{grid-template-columns:1fr 1fr}.panel tbody tr:nth-child(odd){border-right:3px solid #141414}}
@media screen and (min-width:60em){.panel tbody tr{grid-template-columns:2.3rem minmax(0,1fr) 3.6rem 7.2rem}
.panel .number{grid-row:1}.panel tbody th{grid-column:2}.panel .load,.panel .state{padding-top:.3rem}}
@media(max-width:17em){section{padding:.5rem .4rem}
.panel tbody tr{grid-template-columns:1.8rem minmax(0,1fr)}.panel .number{grid-row:1/4;padding:0}.panel tbody th{grid-column:2;font-size:.9rem}
.lever{display:none}.panel .load{text-align:left}.panel caption{padding:.3rem}.panel caption strong{letter-spacing:0}}
)";

constexpr std::string_view kTables = R"(
.charts{display:grid;gap:1rem;grid-template-columns:minmax(0,1fr);align-items:start}
@media(min-width:56em){.charts{grid-template-columns:minmax(0,1fr) minmax(0,1fr)}}
.pair{display:grid;gap:1rem;grid-template-columns:minmax(0,1fr);align-items:center}
.charts section{margin:0}
@media print,(min-width:56em){.charts>:last-child:nth-child(odd){grid-column:1/-1}.charts>:last-child:nth-child(odd) .pair{grid-template-columns:minmax(0,1fr) minmax(0,1fr)}}
.charts+section{margin-top:1rem}
table.rows{border-collapse:collapse;width:100%}
.rows caption{text-align:left;padding-bottom:.4rem}
.rows th,.rows td{text-align:left;vertical-align:middle;padding:.35rem .5rem;border-bottom:1px solid #777}
.rows thead th{border-bottom:2px solid #141414;vertical-align:bottom}
time{white-space:nowrap}
.rows .words{white-space:nowrap}
.rows .figure{text-align:right;white-space:nowrap;font-variant-numeric:tabular-nums}
.rows thead th.figure{white-space:normal}
.rows td.drawn{width:13rem}
@media screen and (max-width:47.99em){
.rows,.rows tbody,.rows tr,.rows tbody th{display:block}
.rows td{display:inline-block;margin-right:1rem}
.rows caption{display:block}
.rows thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.rows tr{border-bottom:2px solid #141414;padding:.4rem 0;break-inside:avoid}
.rows tbody th,.rows td,.rows .figure{border:0;padding:.1rem 0;text-align:left;white-space:normal}
.rows .words{white-space:normal}
.rows td.drawn{display:block;width:auto}
.rows td[data-head]::before{content:attr(data-head) ": ";color:#404040}
}
ol.needs{list-style:none;padding:0;margin:0;counter-reset:need}
ol.needs>li{counter-increment:need;border:2px solid #141414;border-left-width:.6rem;padding:.5rem .7rem;margin:.6rem 0;break-inside:avoid}
ol.needs>li.shock,ol.needs>li.fire{border-color:#8c0014}
ol.needs h3::before{content:counter(need) ". "}
ol.needs p{margin:.2rem 0}
ol.needs ul,ul.corrections{margin:.2rem 0;padding-left:1.2rem}
.kind{display:inline-block;border:2px solid;padding:0 .5rem;font-weight:700;font-size:.9rem;text-transform:uppercase;letter-spacing:.06em}
.shock>.kind,.fire>.kind{color:#8c0014}.overdue>.kind,.exam>.kind{color:#5f3b00}
ul.corrections li{margin:.3rem 0}
)";

constexpr std::string_view kPrint = R"(
@media print{
@page{margin:14mm}
html{font-size:10pt}
body{background:#fff}
.rows .words{white-space:normal}
nav,.skip{display:none}
main,header,footer{max-width:none;padding:0 1px}
.panel{line-height:1.25;break-inside:avoid}
.panel tbody tr{grid-template-columns:2.1rem minmax(0,1fr) 3.3rem 6.1rem}
.panel td,.panel th{padding-top:.15rem;padding-bottom:.15rem}
.panel tbody th span{font-size:.8rem}
.panel .number{grid-row:1}.panel tbody th{grid-column:2}.panel .load,.panel .state{padding-top:.3rem}
.panel tbody .state{gap:.3rem;padding-left:0;padding-right:.2rem}
section{border-width:1px;padding:.5rem .6rem}
.charts section,.charts svg{break-inside:avoid}
h2{break-after:avoid}
.charts{grid-template-columns:minmax(0,1fr) minmax(0,1fr)}
}
)";

}  // namespace

std::string progress_document(std::string_view title, std::string_view body) {
    std::string text =
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n"
        "<meta name=\"robots\" content=\"noindex\">\n<title>";
    text += chart::escaped(title);
    text += "</title>\n<style>";
    for (const auto part : {kBase, kTag, kPanel, kTables, kPrint}) text += part;
    text += "</style>\n";
    text += chart::style_sheet();
    // The charts' own rule makes every drawing as wide as its place; the lines in tables come after it.
    text +=
        "<style>@media screen and (max-width:30em){main,header,nav,footer{padding:0 .35rem}section{padding:.7rem "
        ".45rem}"
        ".charts .chart text{font-size:13px}.charts .chart .head{font-size:14px}}"
        "svg.line{width:12.5rem;max-width:100%}</style>\n";
    text += "</head>\n<body>\n<a class=\"skip\" href=\"#content\">Skip to the content</a>\n";
    text += body;
    return text + "</body>\n</html>\n";
}

}  // namespace report
