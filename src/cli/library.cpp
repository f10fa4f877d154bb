#include <algorithm>
#include <map>
#include <ostream>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "base/text.hpp"
#include "cli/context.hpp"
#include "content/check/check.hpp"
#include "report/point_text.hpp"
#include "report/session_json.hpp"

namespace cli {
namespace {

using base::Exit;
using nlohmann::ordered_json;

struct Counts {
    std::size_t decks = 0, points = 0, questions = 0, scenarios = 0, asks = 0;
    std::map<std::string, std::size_t> forms;
};

Counts count(const content::Contents& contents) {
    Counts counts;
    counts.decks = contents.decks.size();
    for (const auto& deck : contents.decks) {
        counts.points += deck.points.size();
        for (const auto& point : deck.points) {
            counts.questions += point.questions.size();
            for (const auto& q : point.questions) ++counts.forms[std::string{content::to_text(q.form)}];
        }
    }
    for (const auto& family : contents.families) {
        counts.scenarios += family.scenarios.size();
        for (const auto& scenario : family.scenarios) counts.asks += scenario.asks.size();
    }
    return counts;
}

std::string counts_line(const Counts& counts) {
    std::vector<std::string> forms;
    for (const auto& [form, number] : counts.forms) forms.push_back(form + " " + std::to_string(number));
    return report::counted(counts.decks, "deck") + ", " + report::counted(counts.points, "point") + ", " +
           report::counted(counts.questions, "question") + " (" + base::join(forms, ", ") + "), " +
           report::counted(counts.scenarios, "service call") + " with " + report::counted(counts.asks, "ask");
}

ordered_json counts_json(const Counts& counts) {
    return {{"decks", counts.decks}, {"points", counts.points},       {"questions", counts.questions},
            {"forms", counts.forms}, {"scenarios", counts.scenarios}, {"asks", counts.asks}};
}

bool wanted(const Context& context, const content::Point& point) {
    const auto holds = [](const std::vector<std::string>& list, const std::string& item) {
        return list.empty() || std::find(list.begin(), list.end(), item) != list.end();
    };
    if (!holds(context.values("--topic"), point.topic)) return false;
    const auto tags = context.values("--tag");
    if (!tags.empty() &&
        std::none_of(point.tags.begin(), point.tags.end(), [&](const std::string& tag) { return holds(tags, tag); }))
        return false;
    const auto edition = trade::parse_edition(context.value("--edition"));
    if (edition && point.version(*edition) == nullptr) return false;
    return !context.has("--unverified") ||
           std::any_of(point.versions.begin(), point.versions.end(), [&](const content::Version& v) {
               return v.unverified && (!edition || v.editions.contains(*edition));
           });
}

std::vector<const content::Point*> wanted_points(const Context& context, const content::Contents& contents) {
    std::vector<const content::Point*> points;
    for (const auto& deck : contents.decks)
        for (const auto& point : deck.points)
            if (wanted(context, point)) points.push_back(&point);
    return points;
}

/// What is not confirmed, for whoever has the book of that edition at hand.
void add_unverified(std::vector<std::string>& lines, const Context& context, const content::Point& point) {
    const auto edition = trade::parse_edition(context.value("--edition"));
    for (const auto& version : point.versions)
        if (version.unverified && (!edition || version.editions.contains(*edition)))
            report::add_hanging(lines, context.page(), "      " + report::padded(trade::to_text(version.editions), 10),
                                version.article + ": " + version.says);
}

base::Failure no_such_id(const content::Contents& contents, const std::string& id) {
    std::vector<std::string> known;
    for (const auto& deck : contents.decks)
        for (const auto& point : deck.points) known.push_back(point.id.text);
    for (const auto& family : contents.families)
        for (const auto& scenario : family.scenarios) known.push_back(scenario.id);
    const auto near = base::nearest(id, known);
    return {
        Exit::no_input, "there is no point or service call '" + id + "'",
        near ? "did you mean '" + *near + "'?" : "'greentag library list' shows them; 'greentag find WORDS' searches"};
}

}  // namespace

Exit run_library_check(Context& context) {
    const auto contents = context.load_contents();
    const auto faults = content::check_contents(contents);
    const auto counts = count(contents);
    const bool sound = !base::any_errors(faults);
    if (context.json()) {
        context.out() << ordered_json{{"ok", sound},
                                      {"counts", counts_json(counts)},
                                      {"faults", report::faults_json(faults)}}
                             .dump(2)
                      << '\n';
    } else {
        tell(context.out(), faults);
        const auto errors = static_cast<std::size_t>(
            std::count_if(faults.begin(), faults.end(), [](const auto& f) { return !f.warning; }));
        context.out() << counts_line(counts) << '\n'
                      << report::counted(errors, "finding") << ", "
                      << report::counted(faults.size() - errors, "warning") << '\n';
    }
    return sound ? Exit::fine : Exit::problems;
}

Exit run_library_list(Context& context) {
    const auto contents = context.load_contents();
    const auto points = wanted_points(context, contents);
    if (context.json()) {
        ordered_json list = ordered_json::array();
        for (const auto* point : points) list.push_back(report::point_json(*point));
        context.out() << ordered_json{{"ok", true}, {"points", list}}.dump(2) << '\n';
        return Exit::fine;
    }
    const auto page = context.page();
    std::vector<std::string> lines;
    std::string topic;
    for (const auto* point : points) {
        if (point->deck != topic) {
            topic = point->deck;
            lines.push_back(report::inked(page, report::Ink::bold, topic));
        }
        report::add_hanging(lines, page, "  " + report::padded(point->id.text, 32) + " ", point->title);
        if (context.has("--unverified")) add_unverified(lines, context, *point);
    }
    lines.push_back(report::counted(points.size(), "point"));
    context.print(lines);
    return Exit::fine;
}

Exit run_library_show(Context& context) {
    const auto contents = context.load_contents();
    const std::string id = context.value("ID");
    if (const auto* point = contents.point({id})) {
        if (context.json())
            context.out() << ordered_json{{"ok", true}, {"point", report::point_json(*point)}}.dump(2) << '\n';
        else
            context.print(report::point_text(*point, context.page()));
        return Exit::fine;
    }
    for (const auto& family : contents.families)
        for (const auto& scenario : family.scenarios)
            if (scenario.id == id) {
                if (context.json())
                    context.out() << ordered_json{{"ok", true}, {"call", report::scenario_json(scenario)}}.dump(2)
                                  << '\n';
                else
                    context.print(report::scenario_text(scenario, context.page()));
                return Exit::fine;
            }
    throw no_such_id(contents, id);
}

}  // namespace cli
