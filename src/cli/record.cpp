#include <filesystem>
#include <ostream>
#include <system_error>
#include <unordered_map>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "cli/context.hpp"
#include "cli/place_aside.hpp"
#include "cli/whole_file.hpp"
#include "memory/model.hpp"
#include "report/style.hpp"
#include "store/log_lines.hpp"

namespace cli {
namespace {

using base::Exit;
using base::Failure;
using nlohmann::ordered_json;
namespace fs = std::filesystem;

std::size_t write_log(store::Store& store, std::ostream& out) {
    std::unordered_map<base::Id128, std::string> names;
    for (const auto& one : store.learners()) names[one.id] = one.name;
    std::size_t count = 0;
    store.for_each_answer([&](const store::AnswerRecord& record) {
        out << store::to_line(record, names[record.learner]) << '\n';
        ++count;
    });
    out.flush();
    return count;
}

void say(const Context& context, const std::string& line, const ordered_json& document) {
    if (context.json())
        context.out() << document.dump(2) << '\n';
    else
        context.out() << line << '\n';
}

/// Refuses a file that is no sound store; throws what opening it throws.
void check_backup(const Context& context, const std::string& path) {
    std::error_code error;
    if (!fs::exists(path, error)) throw Failure{Exit::no_input, path + ": there is no such file", "name a backup"};
    store::Store backup{{path, false, memory::advance, context.world().entropy}};
    const auto found = backup.verify();
    if (!found.problems.empty())
        throw Failure{Exit::bad_data, path + ": is not sound: " + found.problems.front(), "use another backup"};
}

/// Refuses to replace a store that somebody works with. A damaged one is moved as it lies.
void set_apart(const Context& context, const std::string& place) {
    std::error_code error;
    if (!fs::exists(place, error)) return;
    try {
        store::Store{{place, true, memory::advance, context.world().entropy}}.stand_alone();
    } catch (const Failure& failure) {
        if (failure.status() != Exit::bad_data) throw;
    }
}

void move_aside(const std::string& from, const std::string& to) {
    std::error_code error;
    for (const char* tail : {"-wal", "-shm", ""})
        if (fs::exists(from + tail, error)) {
            fs::rename(from + tail, to + tail, error);
            if (error) throw Failure{Exit::cannot_write, from + tail + ": " + error.message(), "nothing was replaced"};
        }
}

}  // namespace

Exit run_record_export(Context& context) {
    auto store = context.open_store(false);
    if (!context.has("--to")) {
        write_log(store, context.out());
        return Exit::fine;
    }
    std::size_t count = 0;
    write_whole(context.value("--to"), [&](std::ostream& out) { count = write_log(store, out); });
    say(context, report::counted(count, "answer") + " written to " + context.value("--to"),
        {{"ok", true}, {"answers", count}, {"file", context.value("--to")}});
    return Exit::fine;
}

Exit run_record_verify(Context& context) {
    std::error_code error;
    const bool there = fs::exists(context.store_path(), error);
    if (!there) throw Failure{Exit::no_input, context.store_path() + ": there is no store yet", "study once first"};
    auto store = context.open_store(true);
    const auto found = store.verify();
    if (context.json()) {
        context.out() << ordered_json{{"ok", found.problems.empty()},
                                      {"schema", found.schema},
                                      {"learners", found.learners},
                                      {"answers", found.answers},
                                      {"problems", found.problems}}
                             .dump(2)
                      << '\n';
    } else {
        for (const auto& problem : found.problems) context.out() << problem << '\n';
        context.out() << (found.problems.empty() ? "sound: " : "NOT SOUND: ")
                      << report::counted(static_cast<std::size_t>(found.answers), "answer") << " of "
                      << report::counted(static_cast<std::size_t>(found.learners), "learner") << ", schema "
                      << found.schema << '\n';
    }
    return found.problems.empty() ? Exit::fine : Exit::problems;
}

Exit run_record_backup(Context& context) {
    auto store = context.open_store(false);
    const std::string path = context.value("FILE");
    store.backup_to(path);
    say(context, "backed up to " + path, {{"ok", true}, {"file", path}});
    return Exit::fine;
}

Exit run_record_restore(Context& context) {
    const std::string from = context.value("FILE");
    const std::string place = context.store_path();
    check_backup(context, from);
    set_apart(context, place);
    std::error_code error;
    const std::string fresh = place + ".restored";
    fs::remove(fresh, error);
    {
        store::Store backup{{from, false, memory::advance, context.world().entropy}};
        backup.backup_to(fresh);
    }
    const std::string aside = place_aside(place, base::date_text(context.now()));
    const bool replaced = fs::exists(place, error);
    move_aside(place, aside);
    fs::rename(fresh, place, error);
    if (error) throw Failure{Exit::cannot_write, place + ": " + error.message(), "the store before is at " + aside};
    say(context, "restored from " + from + (replaced ? "; the store before is kept at " + aside : ""),
        {{"ok", true}, {"file", from}, {"before", replaced ? ordered_json(aside) : ordered_json(nullptr)}});
    return Exit::fine;
}

Exit run_record_rebuild(Context& context) {
    auto store = context.open_store(true);
    const auto count = store.rebuild();
    say(context, "folded " + report::counted(static_cast<std::size_t>(count), "answer"),
        {{"ok", true}, {"answers", count}});
    return Exit::fine;
}

}  // namespace cli
