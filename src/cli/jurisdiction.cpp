#include <ostream>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "base/text.hpp"
#include "cli/context.hpp"

namespace cli {
namespace {

using nlohmann::ordered_json;

std::string edition_now(const content::Jurisdiction& one, base::Instant now) {
    const auto edition = one.edition_on(now);
    return edition ? trade::to_text(*edition) : "none yet";
}

std::string_view action_text(trade::Amendment::Action action) {
    using Action = trade::Amendment::Action;
    if (action == Action::add) return "add";
    if (action == Action::remove) return "delete";
    return action == Action::replace ? "replace" : "delay";
}

ordered_json amendments_json(const content::Jurisdiction& one) {
    ordered_json list = ordered_json::array();
    for (const auto& a : one.amendments)
        list.push_back({{"id", a.id},
                        {"action", action_text(a.action)},
                        {"rule", a.with && a.rule.empty() ? a.with->id : a.rule},
                        {"editions", a.editions ? ordered_json(trade::to_text(*a.editions)) : ordered_json(nullptr)},
                        {"from", a.from},
                        {"until", a.until},
                        {"note", a.note},
                        {"basis", to_text(a.basis.kind)}});
    return list;
}

void add_amendment(std::vector<std::string>& lines, const trade::Amendment& a, const report::Page& page) {
    std::string head = "  amendment " + a.id + ": " + std::string{action_text(a.action)} + " " +
                       (a.with && a.rule.empty() ? a.with->id : a.rule);
    if (a.editions) head += ", under " + trade::to_text(*a.editions);
    if (!a.from.empty()) head += ", from " + a.from;
    if (!a.until.empty()) head += ", until " + a.until;
    lines.push_back(head);
    report::add(lines, page, a.note, 4);
}

ordered_json to_json(const content::Jurisdiction& one, base::Instant now) {
    ordered_json adoptions = ordered_json::array();
    for (const auto& a : one.adoptions)
        adoptions.push_back({{"edition", trade::to_text(a.edition)}, {"from", base::date_text(a.from)}});
    return {{"id", one.id},
            {"name", one.name},
            {"note", one.note},
            {"edition", edition_now(one, now)},
            {"adoptions", adoptions},
            {"amendments", amendments_json(one)},
            {"basis", trade::to_text(one.basis.kind)}};
}

}  // namespace

base::Exit run_jurisdiction_list(Context& context) {
    const auto jurisdictions = context.load_jurisdictions();
    ordered_json list = ordered_json::array();
    for (const auto& one : jurisdictions) {
        list.push_back(to_json(one, context.now()));
        if (!context.json())
            context.out() << report::padded(one.id, 20) << ' ' << report::padded(edition_now(one, context.now()), 9)
                          << one.name << '\n';
    }
    if (context.json()) context.out() << ordered_json{{"ok", true}, {"jurisdictions", list}}.dump(2) << '\n';
    return base::Exit::fine;
}

base::Exit run_jurisdiction_show(Context& context) {
    const auto jurisdictions = context.load_jurisdictions();
    std::vector<std::string> known;
    for (const auto& one : jurisdictions) {
        known.push_back(one.id);
        if (one.id != context.value("ID")) continue;
        if (context.json()) {
            context.out() << ordered_json{{"ok", true}, {"jurisdiction", to_json(one, context.now())}}.dump(2) << '\n';
            return base::Exit::fine;
        }
        std::vector<std::string> lines = {one.id + ": " + one.name};
        for (const auto& a : one.adoptions)
            lines.push_back("  " + trade::to_text(a.edition) + " edition from " + base::date_text(a.from));
        for (const auto& a : one.amendments) add_amendment(lines, a, context.page());
        report::add(lines, context.page(), one.note, 2);
        context.print(lines);
        return base::Exit::fine;
    }
    const auto near = base::nearest(context.value("ID"), known);
    throw base::Failure{base::Exit::no_input, "there is no jurisdiction '" + context.value("ID") + "'",
                        near ? "did you mean '" + *near + "'?" : "known: " + base::join(known, ", ")};
}

}  // namespace cli
