#include "report/shop/progress_html.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>
#include <vector>

#include "report/chart/svg.hpp"
#include "report/exam/readiness_text.hpp"
#include "report/panel.hpp"
#include "report/shop/progress_charts.hpp"
#include "report/shop/progress_style.hpp"
#include "report/shop/progress_words.hpp"
#include "report/style.hpp"
#include "report/table.hpp"

namespace report {
namespace {

constexpr std::size_t kMostCorrections = 15;
constexpr std::size_t kMonthAhead = 3;  // of practice::kForecastDays
static_assert(practice::kForecastDays[kMonthAhead] == 30);

bool is_day(std::string_view text) {
    static constexpr std::string_view kShape = "0000-00-00";
    return text.size() >= kShape.size() &&
           std::equal(kShape.begin(), kShape.end(), text.begin(),
                      [](char shape, char c) { return shape == '0' ? c >= '0' && c <= '9' : c == shape; });
}

/// Text as it stands between tags; days are marked as such, and are not broken at their hyphens.
std::string escaped(std::string_view text) {
    std::string markup;
    std::size_t from = 0;
    for (std::size_t at = 0; at < text.size(); ++at) {
        if (!is_day(text.substr(at))) continue;
        const std::string day{text.substr(at, 10)};
        markup += chart::escaped(text.substr(from, at - from)) + "<time datetime=\"" + day + "\">" + day + "</time>";
        at += day.size() - 1;
        from = at + 1;
    }
    return markup + chart::escaped(text.substr(from));
}

std::string paragraph(const std::string& words, const std::string& classes = {}) {
    return (classes.empty() ? "<p>" : "<p class=\"" + classes + "\">") + escaped(words) + "</p>\n";
}

std::string section(const std::string& id, const std::string& title, const std::string& inside) {
    return "<section id=\"" + id + "\" aria-labelledby=\"" + id + "-head\">\n<h2 id=\"" + id + "-head\">" +
           escaped(title) + "</h2>\n" + inside + "</section>\n";
}

struct Link {
    std::string id, title;
};

std::string contents(const std::vector<Link>& links) {
    std::string text = "<nav aria-label=\"On this page\">\n<ul>\n";
    for (const auto& link : links) text += "<li><a href=\"#" + link.id + "\">" + escaped(link.title) + "</a></li>\n";
    return text + "</ul>\n</nav>\n";
}

/// Where rows are stacked on a phone, browsers forget that it is a table unless the roles say so.
struct Column {
    std::string head;
    bool figure = false;  ///< set to the right
};

std::string head_row(const std::vector<Column>& columns) {
    std::string text = "<thead role=\"rowgroup\">\n<tr role=\"row\">";
    for (const auto& column : columns) {
        text += "<th role=\"columnheader\" scope=\"col\"";
        text += column.figure ? " class=\"figure\">" : ">";
        text += escaped(column.head) + "</th>";
    }
    return text + "</tr>\n</thead>\n";
}

std::string row_head(const std::string& words) {
    return "<th role=\"rowheader\" scope=\"row\">" + escaped(words) + "</th>";
}

/// `head` stands before the words on a phone.
std::string cell(const std::string& head, const std::string& words, const std::string& classes = "figure") {
    return "<td role=\"cell\" class=\"" + classes + "\" data-head=\"" + chart::escaped(head) + "\">" + escaped(words) +
           "</td>";
}

std::string table(const std::string& caption, const std::vector<Column>& columns, const std::string& rows) {
    return "<table class=\"rows\" role=\"table\">\n<caption>" + escaped(caption) + "</caption>\n" + head_row(columns) +
           "<tbody role=\"rowgroup\">\n" + rows + "</tbody>\n</table>\n";
}

std::string row(const std::string& cells) {
    return "<tr role=\"row\">" + cells + "</tr>\n";
}

std::string circuit(std::size_t number, const practice::TopicStanding& topic) {
    const std::string state = circuit_state(topic);
    std::string met = std::to_string(topic.met) + " of " + std::to_string(topic.points) + " met";
    if (topic.due > 0) met += ", " + std::to_string(topic.due) + " due";
    if (topic.urgent > 0) met += ", " + std::to_string(topic.urgent) + " tripped";
    return row("<td role=\"cell\" class=\"number\">" + std::to_string(number) +
               "</td><th role=\"rowheader\" scope=\"row\">" + escaped(topic.topic) + "<span>" + met +
               "</span></th><td role=\"cell\" class=\"load\">" + load_words(topic.recall, topic.met) +
               "</td><td role=\"cell\" class=\"state " + state +
               "\"><span class=\"lever\" aria-hidden=\"true\"></span>" + state + "</td>");
}

std::string panel(const practice::Progress& progress) {
    std::string rows;
    for (std::size_t n = 0; n < progress.topics.size(); ++n) rows += circuit(n + 1, progress.topics[n].standing);
    return "<table class=\"panel\" role=\"table\">\n<caption><strong>Circuit directory</strong>" +
           escaped(circuit_legend()) +
           "</caption>\n<thead class=\"unseen\" role=\"rowgroup\">\n<tr role=\"row\">"
           "<th role=\"columnheader\" scope=\"col\">Number</th><th role=\"columnheader\" scope=\"col\">Topic</th>"
           "<th role=\"columnheader\" scope=\"col\">Load</th><th role=\"columnheader\" scope=\"col\">State</th></tr>\n"
           "</thead>\n<tbody role=\"rowgroup\">\n" +
           rows + "</tbody>\n</table>\n";
}

std::string corrections(const practice::Progress& progress) {
    if (progress.corrections.empty())
        return paragraph(progress.answers == 0 ? "Nothing answered yet." : "None: every point was right last time.");
    std::string rows;
    const std::size_t shown = std::min(progress.corrections.size(), kMostCorrections);
    for (std::size_t n = 0; n < shown; ++n) {
        const auto& one = progress.corrections[n];
        rows +=
            row(row_head(one.title) + cell("Topic", one.topic, "words") +
                cell("Stakes", std::string{content::to_text(one.stakes)}, "words") +
                cell("State", std::string{practice::to_text(one.state)}, one.tripped() ? "words tripped" : "words") +
                cell("Last answered", base::date_text(one.last), "words"));
    }
    std::string list = table(
        "Points to put right: sure and wrong first, then by stakes.",
        {{"Point", false}, {"Topic", false}, {"Stakes", false}, {"State", false}, {"Last answered", false}}, rows);
    if (shown == progress.corrections.size()) return list;
    return list + paragraph(more_words(progress.corrections.size() - shown) + ", which study brings up in turn.");
}

std::vector<const practice::TopicProgress*> weakest_first(const practice::Progress& progress) {
    std::vector<const practice::TopicProgress*> begun;
    for (const auto& topic : progress.topics)
        if (topic.standing.met > 0) begun.push_back(&topic);
    std::stable_sort(begun.begin(), begun.end(),
                     [](const auto* a, const auto* b) { return a->standing.recall < b->standing.recall; });
    return begun;
}

std::string topics_over_time(const practice::Progress& progress) {
    std::string rows;
    std::size_t number = 0;
    for (const auto* topic : weakest_first(progress)) {
        const std::string id = "progress-topic-" + std::to_string(++number);
        rows += row(row_head(topic->standing.topic) +
                    cell("Since", topic->begun ? base::date_text(*topic->begun) : "-", "words") +
                    "<td role=\"cell\" class=\"drawn\">" +
                    (topic->history.empty() ? std::string{} : topic_line_svg(*topic, id)) + "</td>" +
                    cell("Now", percent(topic->standing.recall)) +
                    cell("In 30 days", percent(topic->forecast[kMonthAhead].recall)));
    }
    if (rows.empty()) return paragraph("No topic begun yet.");
    return table(
        "The weakest first. Each line runs from the first answer in the record until now, between 0 and "
        "100 %; in 30 days: if nothing is studied.",
        {{"Topic", false}, {"Since", false}, {"Over time", false}, {"Now", true}, {"In 30 days", true}}, rows);
}

std::string forecast_rows(const practice::Progress& progress) {
    std::string rows;
    for (std::size_t n = 0; n < progress.forecast.size() && progress.met > 0; ++n) {
        const auto& day = progress.forecast[n];
        rows += row(row_head(ahead_words(day.days)) + cell("Recall", percent(day.recall)) +
                    cell("Shock stakes", load_words(progress.shock_forecast[n].recall, progress.shock_met)) +
                    cell("Due", std::to_string(day.due) + " of " + std::to_string(progress.met)));
    }
    if (rows.empty()) return {};
    return table("Mean recall of the points met, and how many of them are due, if nothing is studied.",
                 {{"When", false}, {"Recall", true}, {"Shock stakes", true}, {"Due", true}}, rows);
}

std::string readiness_part(const ReadinessPage& of) {
    const auto& found = of.found;
    std::string text = readiness_svg(of);
    text +=
        paragraph("Sat today: chance to pass " + chance_words(found.today.pass) + ", in nine cases of ten between " +
                  chance_words(found.today.pass_low) + " and " + chance_words(found.today.pass_high) + ".");
    if (found.too_little()) text += paragraph("There are too few answers yet to tell this learner from any other.");
    return text + paragraph(
                      "A forecast by a model from the learner's own answers, on our questions: no promise, and "
                      "the board's exam differs.",
                      "faint");
}

std::string look_up_table(const std::vector<practice::LookUpFamily>& families) {
    std::string rows;
    for (const auto& one : families)
        rows += row(row_head("Article " + std::to_string(one.article)) +
                    cell("Seconds", std::to_string(std::lround(one.seconds))) +
                    cell("Found", std::to_string(one.found) + " of " + std::to_string(one.asked)));
    return table("Looked up in the own book against the clock; a place not found counts three minutes.",
                 {{"Article"}, {"Seconds", true}, {"Found", true}}, rows);
}

std::string tag_class(const practice::Progress& progress) {
    if (progress.answers == 0) return "spare";
    return progress.corrections.empty() ? "closed" : "tripped";
}

std::string learner_head(const LearnerPage& of) {
    return "<header>\n<h1>" + escaped(of.learner.name) + ": progress</h1>\n<p class=\"tag " + tag_class(of.progress) +
           "\">" + escaped(tag_words(of.progress)) + "</p>\n" + paragraph(overview(of.progress)) +
           paragraph("As of " + base::date_text(of.now) + ". Holds this learner's own answers and nobody else's.",
                     "faint") +
           "</header>\n";
}

std::string charts(const LearnerPage& of) {
    const auto& progress = of.progress;
    std::string text = "<div class=\"charts\">\n";
    text += section("history", "Recall over time", history_svg(progress));
    text += section("weeks", "Answers a week", weeks_svg(progress));
    text += section("sure", "How far sure can be trusted", sure_svg(progress) + paragraph(calibration_words(progress)));
    text += section("times", "Time to answer", times_svg(progress));
    text += section("forecast", "Forgetting forecast",
                    "<div class=\"pair\">\n" + forecast_svg(progress) + forecast_rows(progress) + "</div>\n");
    if (!of.look_ups.empty()) text += section("book", "Time to find a place in the book", look_up_table(of.look_ups));
    if (of.readiness != nullptr) text += section("exam", "Exam readiness", readiness_part(*of.readiness));
    return text + "</div>\n";
}

std::string need_item(const practice::Need& need, const practice::Member& member) {
    const std::string kind{practice::to_text(need.kind)};
    std::string text = "<li class=\"" + kind + "\"><span class=\"kind\">" + kind + "</span>\n<h3>" +
                       escaped(member.learner.name + ": " + need_words(need, member)) + "</h3>\n";
    if (!need.points.empty()) {
        text += "<ul>\n";
        const std::size_t shown = std::min(need.points.size(), kMostNeedPoints);
        for (std::size_t n = 0; n < shown; ++n) {
            const auto& point = need.points[n];
            text += "<li>" + escaped(point.title) + ", " + escaped(base::date_text(point.last)) + "</li>\n";
        }
        if (shown < need.points.size()) text += "<li>" + more_words(need.points.size() - shown) + "</li>\n";
        text += "</ul>\n";
    }
    return text + paragraph(need_step(need.kind)) + "</li>\n";
}

std::string needs(const practice::CrewProgress& crew) {
    if (crew.needs.empty()) return paragraph("Nothing needs you today.");
    std::string text = "<ol class=\"needs\">\n";
    for (const auto& need : crew.needs) text += need_item(need, crew.members[need.member]);
    return text + "</ol>\n";
}

std::string crew_row(const practice::Member& member) {
    const auto& own = member.progress;
    const double later = own.forecast.empty() ? 0 : own.forecast[kMonthAhead].recall;
    return row(row_head(member.learner.name) +
               cell("Met", std::to_string(own.met) + " of " + std::to_string(own.points)) +
               cell("Recall now", load_words(own.recall_now(), own.met)) +
               cell("In 30 days", load_words(later, own.met)) + cell("Due", std::to_string(own.due)) +
               cell("Tripped", std::to_string(own.tripped), own.tripped > 0 ? "figure tripped" : "figure") +
               cell("Corrections", std::to_string(own.corrections.size())) +
               cell("Last study", last_words(member), "words") + cell("Exam", exam_words(member), "words"));
}

std::string crew_table(const practice::CrewProgress& crew) {
    if (crew.members.empty()) return paragraph("Nobody studies here yet.");
    std::string rows;
    for (const auto& member : crew.members) rows += crew_row(member);
    return table(
        "Everyone in order of name. Recall: of the points met, if asked now; in 30 days: if nothing is "
        "studied. Tripped: sure and wrong, not yet proved on two later days.",
        {{"Learner", false},
         {"Met", true},
         {"Recall now", true},
         {"In 30 days", true},
         {"Due", true},
         {"Tripped", true},
         {"Corrections", true},
         {"Last study", false},
         {"Exam", false}},
        rows);
}

std::string crew_topic_row(const practice::CrewTopic& topic, const std::vector<practice::Member>& members) {
    const bool begun = topic.begun > 0;
    const auto name = [&](std::size_t member) { return begun ? members[member].learner.name : std::string{"-"}; };
    return row(row_head(topic.topic) + cell("Begun by", std::to_string(topic.begun)) +
               cell("Recall", load_words(topic.recall, topic.begun)) + cell("Due", std::to_string(topic.due)) +
               cell("Tripped", std::to_string(topic.tripped), topic.tripped > 0 ? "figure tripped" : "figure") +
               cell("Weakest", name(topic.weakest), "name") + cell("Strongest", name(topic.strongest), "name"));
}

std::string crew_topics(const practice::CrewProgress& crew) {
    std::string rows;
    for (const auto& topic : crew.topics) rows += crew_topic_row(topic, crew.members);
    if (rows.empty()) return paragraph("No topics.");
    return table(
        "The weakest first. Recall is the mean over those who have begun; due and tripped count points over "
        "the whole crew.",
        {{"Topic", false},
         {"Begun by", true},
         {"Recall", true},
         {"Due", true},
         {"Tripped", true},
         {"Weakest", false},
         {"Strongest", false}},
        rows);
}

}  // namespace

std::string progress_html(const LearnerPage& of) {
    std::vector<Link> links{{"panel", "Panel directory"}, {"corrections", "Corrections"}};
    const bool drawn = of.progress.answers > 0 || of.readiness != nullptr;
    if (drawn)
        links.insert(links.end(), {{"history", "Recall over time"},
                                   {"weeks", "Answers a week"},
                                   {"sure", "Sure"},
                                   {"times", "Time to answer"},
                                   {"forecast", "Forecast"}});
    if (!of.look_ups.empty()) links.push_back({"book", "Time in the book"});
    if (of.readiness != nullptr) links.push_back({"exam", "Exam readiness"});
    links.push_back({"topics", "Topics over time"});
    std::string body = learner_head(of) + contents(links) + "<main id=\"content\">\n";
    body += section("panel", "Panel directory", panel(of.progress));
    body += section("corrections", "Corrections open", corrections(of.progress));
    if (drawn) body += charts(of);
    body += section("topics", "Recall by topic over time", topics_over_time(of.progress));
    return progress_document(of.learner.name + ": progress, " + base::date_text(of.now), body + "</main>\n");
}

std::string crew_progress_html(const practice::CrewProgress& crew) {
    std::string body =
        "<header>\n<h1>The lead's page</h1>\n" +
        paragraph("As of " + base::date_text(crew.now) + ". For the lead alone: it tells of everyone in the crew.",
                  "faint") +
        "</header>\n";
    body += contents({{"needs", "Needs you today"}, {"crew", "Crew"}, {"topics", "Topics"}});
    body += "<main id=\"content\">\n";
    body += section("needs", "Needs you today", needs(crew));
    body += section("crew", "Crew", crew_table(crew));
    body += section("topics", "Who is strong where", crew_topics(crew));
    return progress_document("The lead's page, " + base::date_text(crew.now), body + "</main>\n");
}

}  // namespace report
