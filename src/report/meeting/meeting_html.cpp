#include "report/meeting/meeting_html.hpp"

#include "base/quantity.hpp"
#include "base/text.hpp"
#include "content/compose.hpp"
#include "report/meeting/meeting_page.hpp"
#include "report/meeting/meeting_sides.hpp"

namespace report {
namespace {

using content::Ask;
using practice::Meeting;
using practice::Sheet;

std::string head(const Meeting& meeting, const Sheet& sheet, std::size_t side, std::size_t sides) {
    const std::string shop = meeting.shop.empty() ? "Shop meeting" : meeting.shop;
    const std::string of = sides > 1 ? ", side " + std::to_string(side + 1) + " of " + std::to_string(sides) : "";
    const std::string number = element("b", std::to_string(sheet.number));
    if (side > 0)
        return "<header class=\"head back\">" + element("h2", sheet.name + of, "class=\"name\"") +
               "<div class=\"number\">Sheet " + number + "</div></header>\n";
    return "<header class=\"head\"><div>" + element("p", shop + (meeting.title.empty() ? "" : ": " + meeting.title)) +
           element("h1", sheet.name, "class=\"name\"") + element("p", day_and_edition(meeting) + of) +
           "</div><div class=\"number\">Sheet " + number + "</div></header>\n";
}

std::string ask_html(const Meeting& meeting, const Sheet& sheet, const PlacedAsk& placed) {
    const Ask& ask = meeting.asks[placed.ask].ask;
    std::string out = "<li><div class=\"text\">" + element("b", std::to_string(placed.ask + 1) + ".") +
                      html_text(printed_text(ask)) + "</div>";
    if (ask.options.empty()) return out + "</li>\n";
    out += placed.two_columns ? "<ul class=\"options two\">" : "<ul class=\"options\">";
    const auto& order = sheet.orders.at(placed.ask);
    for (std::size_t shown = 0; shown < order.size(); ++shown)
        out += "<li>" + element("b", content::letter(shown)) + html_text(ask.options.at(order[shown]).text) + "</li>";
    return out + "</ul></li>\n";
}

std::string asks_html(const Meeting& meeting, const Sheet& sheet, const std::vector<PlacedAsk>& asks) {
    if (asks.empty()) return element("p", "Nothing stands on this side.");
    std::string out = "<ul class=\"asks\">\n";
    for (const auto& placed : asks) out += ask_html(meeting, sheet, placed);
    return out + "</ul>\n";
}

/// A plain number has nothing to write behind it.
std::string_view unit_shown(base::Unit unit) {
    return base::spoken(unit).empty() ? std::string_view{} : base::symbol(unit);
}

std::string strip(const Meeting& meeting) {
    std::string out =
        "<table class=\"strip\"><thead><tr><th scope=\"col\">ask</th><th scope=\"col\">answer</th><th "
        "scope=\"col\">sure</th></tr></thead><tbody>\n";
    for (std::size_t i = 0; i < meeting.asks.size(); ++i) {
        const Ask& ask = meeting.asks[i].ask;
        out += "<tr>" + element("th", std::to_string(i + 1), "scope=\"row\"") + "<td class=\"boxes\">";
        for (std::size_t o = 0; o < ask.options.size(); ++o)
            out += element("span", content::letter(o), "class=\"box\"");
        if (ask.options.empty())
            out += "<span class=\"line\"></span> " + html_text(unit_shown(ask.question.answer.unit));
        out += "</td><td><span class=\"box\"></span></td></tr>\n";
    }
    return out + "</tbody></table>\n";
}

std::string sheet_html(const Meeting& meeting, const Sheet& sheet, const std::vector<std::vector<PlacedAsk>>& sides) {
    std::string out;
    for (std::size_t side = 0; side < sides.size(); ++side) {
        out += "<section class=\"side\">" + head(meeting, sheet, side, sides.size());
        if (side == 0) {
            out += element("p", "Mark your answers in the strip. Tick \"sure\" where you are sure.");
            out += strip(meeting) + asks_html(meeting, sheet, sides[0]);
            out += element("p",
                           "CAUTION: on the job, " + content::usual_caution(content::Stakes::shock) + " Training aid.",
                           "class=\"note\"");
        } else {
            out += asks_html(meeting, sheet, sides[side]);
            out += element("p", "Answers go in the strip on side 1. Training aid.", "class=\"note\"");
        }
        out += "</section>\n";
    }
    return out;
}

}  // namespace

std::string sheets_html(const Meeting& meeting, Paper paper) {
    const auto sides = sides_of(meeting);
    std::string body = "<main>\n";
    for (const auto& sheet : meeting.sheets) body += sheet_html(meeting, sheet, sides);
    if (meeting.sheets.empty()) body += element("p", "This meeting has no sheets yet.");
    return document("Sheets: " + meeting.title + " " + base::date_text(meeting.day), paper, body + "</main>\n");
}

}  // namespace report
