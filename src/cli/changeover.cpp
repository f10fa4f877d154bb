#include <algorithm>
#include <map>
#include <ostream>
#include <set>

#include <nlohmann/json.hpp>

#include "base/text.hpp"
#include "cli/batch.hpp"
#include "cli/context.hpp"
#include "practice/changeover.hpp"
#include "practice/session.hpp"
#include "report/finding_text.hpp"

namespace cli {
namespace {

using base::Exit;
using base::Failure;
using content::Difference;
using nlohmann::ordered_json;

/// "2020", "alder-county", "alder-county@2021-07-01".
content::Under side(const Context& context, const std::string& text, const content::TradeData& data) {
    const std::string today = base::date_text(context.now());
    if (const auto edition = trade::parse_edition(text)) return {*edition, "", today};
    const auto at = text.find('@');
    const std::string id = text.substr(0, at);
    const auto when = at == std::string::npos ? std::optional{context.now()} : base::parse_instant(text.substr(at + 1));
    if (!when)
        throw Failure{Exit::usage, "'" + text.substr(at + 1) + "' is no day", "write it like " + id + "@2024-07-01"};
    const auto* place = data.jurisdiction(id);
    if (place == nullptr) {
        std::vector<std::string> known = {"2017", "2020", "2023", "2026"};
        for (const auto& one : data.jurisdictions()) known.push_back(one.id);
        const auto near = base::nearest(id, known);
        throw Failure{Exit::no_input, "'" + text + "' is no edition and no jurisdiction",
                      near ? "did you mean '" + *near + "'?" : "known: " + base::join(known, ", ")};
    }
    const auto edition = place->edition_on(*when);
    if (!edition)
        throw Failure{Exit::no_input, id + " had adopted no edition by " + base::date_text(*when), "name a later day"};
    return {*edition, id, base::date_text(*when)};
}

/// The side as it was named: with its day when that was said, since two days of one place are told apart by nothing
/// else.
std::string side_text(const content::Under& under, const std::string& named) {
    return report::under_text(under) + (named.find('@') == std::string::npos ? "" : " on " + under.day);
}

/// What one learner has to learn anew.
struct Affected {
    store::Learner learner;
    std::vector<base::PointId> points;
    std::int64_t fresh = 0;  ///< made due by this run
};

/// Learners who work under either side now.
bool is_concerned(const store::Learner& learner, const content::TradeData& data, const content::Under& from,
                  const content::Under& to, base::Instant now) {
    if (learner.retired_at) return false;
    if (!to.jurisdiction.empty()) return learner.jurisdiction == to.jurisdiction;
    const auto edition = practice::edition_for(learner, data.jurisdictions(), now);
    return edition == to.edition || edition == from.edition;
}

std::vector<Affected> crew_affected(const Context& context, const content::TradeData& data,
                                    const std::vector<Difference>& differences, const content::Under& from,
                                    const content::Under& to) {
    std::vector<Affected> all;
    const bool look_only = context.has("--dry-run");
    if (!context.store_exists()) return all;
    auto store = context.open_store(!look_only);
    const std::string why = report::under_text(from) + " to " + report::under_text(to);
    for (auto& learner : store.learners()) {
        if (!is_concerned(learner, data, from, to, context.now())) continue;
        Affected one{learner, practice::to_relearn(differences, store.states(learner.id)), 0};
        if (one.points.empty()) continue;
        if (!look_only) one.fresh = store.add_relearn(learner.id, one.points, why, context.now());
        all.push_back(std::move(one));
    }
    return all;
}

std::string_view kind_text(Difference::Kind kind) {
    if (kind == Difference::Kind::rule) return "rule";
    return kind == Difference::Kind::point ? "point" : "table";
}

std::string articles(const Difference& one) {
    if (one.article_before == one.article_after || one.article_after.empty()) return one.article_before;
    if (one.article_before.empty()) return one.article_after;
    return one.article_before + " -> " + one.article_after;
}

void add_difference(std::vector<std::string>& lines, const Difference& one, const report::Page& page) {
    report::add_hanging(
        lines, page, "  " + report::padded(kind_text(one.kind), 6) + report::padded(to_text(one.change), 8),
        one.title + "  (" + articles(one) + (one.local ? ", local" : "") + (one.unverified ? ", unverified" : "") + ")",
        report::Ink::bold);
    for (const auto& says : one.says) report::add_hanging(lines, page, "      ", says);
    if (one.kind == Difference::Kind::rule || !one.says.empty() || one.before == one.after) return;
    if (!one.before.empty()) report::add_hanging(lines, page, "      was  ", one.before);
    if (!one.after.empty()) report::add_hanging(lines, page, "      now  ", one.after);
}

std::string title_of(const std::vector<Difference>& differences, const std::string& point) {
    const auto found = std::find_if(differences.begin(), differences.end(), [&](const auto& one) {
        return one.kind == Difference::Kind::point && one.id == point;
    });
    return found == differences.end() ? point : found->title + "  (" + articles(*found) + ")";
}

std::vector<std::string> changeover_text(const std::vector<Difference>& differences, const std::vector<Affected>& crew,
                                         const std::string& head, bool look_only, const report::Page& page) {
    std::vector<std::string> lines;
    std::map<Difference::Kind, std::size_t> counts;
    for (const auto& one : differences) ++counts[one.kind];
    report::add(lines, page,
                head + ": " + report::counted(counts[Difference::Kind::point], "point") + ", " +
                    report::counted(counts[Difference::Kind::rule], "rule") + " and " +
                    report::counted(counts[Difference::Kind::table], "table") + " differ",
                0, report::Ink::bold);
    std::string topic;
    for (const auto& one : differences) {
        if (one.topic != topic) {
            topic = one.topic;
            lines.emplace_back();
            report::add(lines, page, topic, 0, report::Ink::bold);
        }
        add_difference(lines, one, page);
    }
    lines.emplace_back();
    if (crew.empty()) report::add(lines, page, "Nobody in the crew has learned anything that differs.");
    for (const auto& one : crew) {
        report::add_hanging(lines, page, one.learner.name + "  ",
                            report::counted(one.points.size(), "point") + " to learn anew" +
                                (look_only ? "" : "; " + std::to_string(one.fresh) + " made due now"));
        for (const auto& point : one.points) report::add_hanging(lines, page, "  ", title_of(differences, point.text));
    }
    return lines;
}

ordered_json to_json(const Difference& one) {
    ordered_json out = {{"kind", kind_text(one.kind)},
                        {"change", to_text(one.change)},
                        {"id", one.id},
                        {"title", one.title},
                        {"topic", one.topic},
                        {"article_before", one.article_before},
                        {"article_after", one.article_after}};
    if (one.kind != Difference::Kind::rule) {
        out["before"] = one.before;
        out["after"] = one.after;
    }
    if (!one.says.empty()) out["says"] = one.says;
    out["local"] = one.local;
    out["unverified"] = one.unverified;
    return out;
}

}  // namespace

base::Exit run_jurisdiction_changeover(Context& context) {
    const auto contents = context.load_contents();
    const auto data = content::TradeData::make(contents);
    if (!data) {
        tell(context.err(), data.error());
        throw Failure{Exit::bad_data, "the tables and rules have faults", "'greentag library check' tells all"};
    }
    const auto from = side(context, context.value("FROM"), *data);
    const auto to = side(context, context.value("TO"), *data);
    const auto differences = content::differences(contents, *data, from, to);
    const auto crew = crew_affected(context, *data, differences, from, to);
    const std::string before = side_text(from, context.value("FROM"));
    const std::string after = side_text(to, context.value("TO"));
    const std::string head = before + " to " + after;
    if (!context.json()) {
        context.print(changeover_text(differences, crew, head, context.has("--dry-run"), context.page()));
        return Exit::fine;
    }
    ordered_json list = ordered_json::array();
    for (const auto& one : differences) list.push_back(to_json(one));
    ordered_json people = ordered_json::array();
    for (const auto& one : crew) {
        ordered_json points = ordered_json::array();
        for (const auto& point : one.points) points.push_back(point.text);
        people.push_back({{"learner", one.learner.name}, {"points", points}, {"made_due", one.fresh}});
    }
    context.out()
        << ordered_json{{"ok", true}, {"from", before}, {"to", after}, {"differences", list}, {"crew", people}}.dump(2)
        << '\n';
    return Exit::fine;
}

}  // namespace cli
