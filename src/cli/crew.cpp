#include <filesystem>
#include <ostream>
#include <system_error>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "base/text.hpp"
#include "cli/context.hpp"
#include "memory/model.hpp"
#include "practice/session.hpp"
#include "report/panel.hpp"
#include "report/session_json.hpp"

namespace cli {
namespace {

using base::Exit;
using base::Failure;
using nlohmann::ordered_json;

constexpr std::size_t kLongestName = 80;

ordered_json learner_json(const store::Learner& one) {
    ordered_json out = {{"id", base::to_text(one.id)}, {"name", one.name}};
    out["edition"] = one.edition ? ordered_json(*one.edition) : ordered_json(nullptr);
    out["jurisdiction"] = one.jurisdiction;
    out["exam"] = one.exam_at ? ordered_json(base::date_text(*one.exam_at)) : ordered_json(nullptr);
    out["added"] = base::to_text(one.added_at);
    out["retired"] = one.retired_at ? ordered_json(base::to_text(*one.retired_at)) : ordered_json(nullptr);
    return out;
}

/// The crew; nobody where there is no store yet.
std::vector<store::Learner> crew_of(const Context& context) {
    std::error_code error;
    if (!std::filesystem::exists(context.store_path(), error)) return {};
    return context.open_store(false).learners();
}

std::string good_name(const std::string& given) {
    std::string name{base::trim(given)};
    if (name.empty() || name.size() > kLongestName || base::first_bad_utf8(name) ||
        name.find_first_of("\n\r\t\x1b") != std::string::npos)
        throw Failure{Exit::usage, "'" + given + "' is no good as a name",
                      "give a name of 1 to " + std::to_string(kLongestName) + " bytes of UTF-8, on one line"};
    return name;
}

void check_free(const std::vector<store::Learner>& crew, const std::string& name, const base::Id128* but) {
    for (const auto& one : crew)
        if (base::lower(one.name) == base::lower(name) && (but == nullptr || !(one.id == *but)))
            throw Failure{
                Exit::usage,
                "there is already a learner called '" + one.name + "'" + (one.retired_at ? " (who has left)" : ""),
                one.retired_at ? "bring them back with 'greentag crew set \"" + one.name +
                                     "\" --back', or add a second name to tell the two apart"
                               : "add a second name to tell the two apart"};
}

void check_jurisdiction(const Context& context, const std::string& id) {
    std::vector<std::string> known;
    for (const auto& one : context.load_jurisdictions()) {
        if (one.id == id) return;
        known.push_back(one.id);
    }
    const auto near = base::nearest(id, known);
    throw Failure{Exit::no_input, "there is no jurisdiction '" + id + "'",
                  near ? "did you mean '" + *near + "'?" : "known: " + base::join(known, ", ")};
}

void apply_options(const Context& context, store::Learner& learner) {
    if (context.has("--edition")) learner.edition = std::stoi(context.value("--edition"));
    if (context.has("--jurisdiction")) {
        const std::string id = context.value("--jurisdiction");
        if (id != "none") check_jurisdiction(context, id);
        learner.jurisdiction = id == "none" ? "" : id;
        if (!context.has("--edition")) learner.edition.reset();
    }
    if (context.has("--exam")) {
        if (context.value("--exam") == "none")
            learner.exam_at.reset();
        else
            learner.exam_at = context.instant("--exam");
    }
}

void say_learner(const Context& context, const std::string& what, const store::Learner& learner) {
    if (context.json()) {
        context.out() << ordered_json{{"ok", true}, {"learner", learner_json(learner)}}.dump(2) << '\n';
        return;
    }
    context.out() << what << learner.name << ": " << trade::to_text(context.pick_for(learner).edition) << " edition"
                  << (learner.jurisdiction.empty() ? "" : ", " + learner.jurisdiction)
                  << (learner.exam_at ? ", exam " + base::date_text(*learner.exam_at) : "") << '\n';
}

}  // namespace

Exit run_crew_add(Context& context) {
    auto store = context.open_store(true);
    store::Learner learner;
    learner.name = good_name(context.value("NAME"));
    check_free(store.learners(), learner.name, nullptr);
    apply_options(context, learner);
    say_learner(context, "added ", store.add_learner(learner, context.now()));
    return Exit::fine;
}

Exit run_crew_list(Context& context) {
    const auto crew = crew_of(context);
    if (context.json()) {
        ordered_json list = ordered_json::array();
        for (const auto& one : crew) list.push_back(learner_json(one));
        context.out() << ordered_json{{"ok", true}, {"crew", list}}.dump(2) << '\n';
        return Exit::fine;
    }
    if (crew.empty()) context.out() << "Nobody yet. Add someone: greentag crew add \"NAME\"\n";
    for (const auto& one : crew)
        context.out() << report::padded(one.name, 24) << ' ' << trade::to_text(context.pick_for(one).edition) << "  "
                      << report::padded(one.jurisdiction.empty() ? "-" : one.jurisdiction, 18) << ' '
                      << report::padded(one.exam_at ? "exam " + base::date_text(*one.exam_at) : "", 16)
                      << (one.retired_at ? " left " + base::date_text(*one.retired_at) : "") << ' '
                      << base::to_text(one.id).substr(0, 18) << '\n';
    return Exit::fine;
}

Exit run_crew_show(Context& context) {
    const auto library = context.open_library();
    auto store = context.open_store(false);
    const auto learner = find_learner(store.learners(), context.value("NAME"));
    practice::SessionFor what;
    what.learner = learner;
    what.pick = context.pick_for(learner);
    what.pick.changed = store.relearn(learner.id);
    what.pick.recall = practice::Recall{store.fitted(learner.id), learner.id};
    const practice::Session session{library, store, memory::advance, what};
    const auto summary = session.summary(context.now());
    if (context.json()) {
        ordered_json out = {{"ok", true},
                            {"learner", learner_json(learner)},
                            {"standing", report::standing_json(summary.standing)},
                            {"topics", report::summary_json(summary, what)["topics"]}};
        context.out() << out.dump(2) << '\n';
        return Exit::fine;
    }
    say_learner(context, "", learner);
    const auto& s = summary.standing;
    context.out() << report::counted(s.in_scope, "point") << ": " << s.fresh << " new, " << s.due << " due, "
                  << (s.changed > 0 ? std::to_string(s.changed) + " changed with the edition, " : "") << s.urgent
                  << " sure and wrong\n";
    context.print(report::panel_directory(summary.topics, context.page()));
    return Exit::fine;
}

Exit run_crew_set(Context& context) {
    auto store = context.open_store(true);
    const auto crew = store.learners();
    auto learner = find_learner(crew, context.value("NAME"));
    if (context.has("--name")) {
        learner.name = good_name(context.value("--name"));
        check_free(crew, learner.name, &learner.id);
    }
    if (context.has("--back")) learner.retired_at.reset();
    apply_options(context, learner);
    store.update_learner(learner);
    say_learner(context, "now ", learner);
    return Exit::fine;
}

Exit run_crew_retire(Context& context) {
    auto store = context.open_store(true);
    auto learner = find_learner(store.learners(), context.value("NAME"));
    learner.retired_at = context.now();
    store.update_learner(learner);
    say_learner(context, "has left, answers kept: ", learner);
    return Exit::fine;
}

}  // namespace cli
