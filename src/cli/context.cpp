#include "cli/context.hpp"

#include <algorithm>
#include <charconv>
#include <filesystem>
#include <ostream>
#include <system_error>

#include "base/exit_status.hpp"
#include "base/text.hpp"
#include "memory/model.hpp"
#include "practice/session.hpp"

namespace cli {
namespace {

using base::Exit;
using base::Failure;
namespace fs = std::filesystem;

constexpr double kHorizonDays = 90.0;
constexpr std::size_t kWidestPage = 100;
constexpr std::size_t kNarrowestPage = 20;

Failure no_library() {
    return {Exit::no_input, "the library cannot be read", "mend what is named above"};
}

bool is_absolute(const std::string& path) {
    return !path.empty() && path.front() == '/';
}

std::int64_t whole_number(const std::string& name, const std::string& text, std::int64_t least, std::int64_t most) {
    std::int64_t number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error == std::errc{} && end == text.data() + text.size() && number >= least && number <= most) return number;
    throw Failure{
        Exit::usage,
        name + ": '" + text + "' is not a whole number from " + std::to_string(least) + " to " + std::to_string(most),
        "give a number in that range"};
}

}  // namespace

std::optional<std::string> find_content(const std::string& program) {
    std::error_code error;
    const fs::path folder = fs::path{program}.parent_path();
    const fs::path installed = folder.parent_path() / "share" / "greentag";
    if (fs::is_directory(installed / "decks", error)) return installed.string();
    for (fs::path up = folder; up.has_relative_path(); up = up.parent_path())
        if (fs::is_directory(up / "decks", error) && fs::exists(up / "CMakeLists.txt", error)) return up.string();
    return std::nullopt;
}

void tell(std::ostream& err, const base::Faults& faults) {
    for (const auto& fault : faults) err << base::to_text(fault) << '\n';
}

std::string Context::environment(const std::string& name) const {
    const auto found = world_->environment.find(name);
    return found == world_->environment.end() ? std::string{} : found->second;
}

std::string Context::value(const std::string& name) const {
    const auto found = values_.find(name);
    return found == values_.end() || found->second.empty() ? std::string{} : found->second.back();
}

std::vector<std::string> Context::values(const std::string& name) const {
    const auto found = values_.find(name);
    return found == values_.end() ? std::vector<std::string>{} : found->second;
}

std::int64_t Context::number(const std::string& name, std::int64_t otherwise, std::int64_t least,
                             std::int64_t most) const {
    return has(name) ? whole_number(name, value(name), least, most) : otherwise;
}

std::vector<std::int64_t> Context::numbers(const std::string& name, std::int64_t least, std::int64_t most) const {
    std::vector<std::int64_t> all;
    for (const auto& text : values(name)) all.push_back(whole_number(name, text, least, most));
    return all;
}

std::optional<base::Instant> Context::instant(const std::string& name) const {
    if (!has(name)) return std::nullopt;
    const auto when = base::parse_instant(value(name));
    if (!when)
        throw Failure{Exit::usage, name + ": '" + value(name) + "' is no date or instant",
                      "write it like 2026-03-02 or 2026-03-02T07:00Z"};
    return when;
}

base::Instant Context::now() const {
    return instant("--now").value_or(world_->clock());
}

base::Seed Context::seed() const {
    if (!has("--seed")) return world_->entropy;
    return static_cast<base::Seed>(number("--seed", 0, 0, INT64_MAX));
}

report::Page Context::page() const {
    report::Page page;
    std::size_t columns = world_->columns ? world_->columns() : 0;
    // Into a pipe there is no terminal to ask; whoever reads may say how wide.
    if (const std::string told = environment("COLUMNS"); columns == 0 && !told.empty())
        std::from_chars(told.data(), told.data() + told.size(), columns);
    page.width = columns == 0 ? 80 : std::clamp(columns, kNarrowestPage, kWidestPage);
    const std::string wish = has("--color") ? value("--color") : "auto";
    const bool plain = !environment("NO_COLOR").empty() || environment("TERM") == "dumb";
    page.color = wish == "always" || (wish == "auto" && world_->output_is_terminal && !plain && !json());
    return page;
}

std::string Context::home_path() const {
    std::string home = has("--home") ? value("--home") : environment("GREENTAG_HOME");
    if (!home.empty()) return home;
    const std::string data = environment("XDG_DATA_HOME");
    const std::string user = environment("HOME");
    // The base directory specification says to ignore a relative path.
    if (is_absolute(data))
        home = data + "/greentag";
    else if (is_absolute(user))
        home = user + "/.local/share/greentag";
    else
        return {};
    return has("--demo") ? home + "-demo" : home;
}

std::string Context::home() const {
    const std::string home = home_path();
    if (home.empty())
        throw Failure{Exit::usage, "there is no home folder to keep answers in", "name one with --home DIR"};
    std::error_code error;
    if (fs::is_directory(home, error)) return home;
    fs::create_directories(home, error);
    if (error)
        throw Failure{Exit::cannot_write, home + ": cannot be made: " + error.message(),
                      "name another data home with --home"};
    fs::permissions(home, fs::perms::owner_all, error);
    return home;
}

std::vector<std::string> Context::library_roots() const {
    std::vector<std::string> roots;
    if (const auto shipped = find_content(world_->program)) roots.push_back(*shipped);
    std::error_code error;
    if (const std::string home = home_path(); !home.empty() && fs::is_directory(home + "/library/decks", error))
        roots.push_back(home + "/library");
    for (const auto& overlay : values("--library")) roots.push_back(overlay);
    if (roots.empty())
        throw Failure{Exit::no_input, "no content was found beside the program",
                      "name a content folder with --library DIR"};
    return roots;
}

bool Context::store_exists() const {
    std::error_code error;
    return fs::exists(store_path(), error);
}

store::Store Context::open_store(bool writes) const {
    return store::Store{{store_path(), writes, memory::advance, world_->entropy}};
}

content::Library Context::open_library() const {
    const auto roots = library_roots();
    auto library = content::open_library(roots, home() + "/index.cache");
    if (library) return std::move(*library);
    tell(err(), library.error());
    if (!content::find_sources(roots)) throw no_library();
    throw Failure{Exit::bad_data, "the library has faults",
                  "mend the places named above; 'greentag library check' tells all"};
}

content::Contents Context::load_contents() const {
    auto contents = content::load_contents(library_roots());
    if (contents) return std::move(*contents);
    tell(err(), contents.error());
    throw no_library();
}

std::vector<content::Jurisdiction> Context::load_jurisdictions() const {
    const auto roots = library_roots();
    auto jurisdictions = content::load_jurisdictions(roots);
    if (jurisdictions) return std::move(*jurisdictions);
    tell(err(), jurisdictions.error());
    if (!content::find_sources(roots)) throw no_library();
    throw Failure{Exit::bad_data, "the jurisdictions have faults",
                  "mend the places named above; 'greentag library check' tells all"};
}

store::Learner find_learner(const std::vector<store::Learner>& crew, const std::string& wanted) {
    std::vector<store::Learner> found;
    for (const auto& one : crew)
        if (base::lower(one.name) == base::lower(wanted)) found.push_back(one);
    if (found.empty() && wanted.size() >= 4)
        for (const auto& one : crew)
            if (base::to_text(one.id).starts_with(base::lower(wanted))) found.push_back(one);
    // One of their names is enough where nobody else has it.
    if (found.empty())
        for (const auto& one : crew) {
            const auto names = base::words(one.name);
            if (std::find(names.begin(), names.end(), base::lower(wanted)) != names.end()) found.push_back(one);
        }
    if (found.size() == 1) return found.front();
    if (found.size() > 1)
        throw Failure{Exit::usage, "more than one learner is called '" + wanted + "'",
                      "give the whole name, or the id that 'greentag crew list' shows"};
    std::vector<std::string> names;
    for (const auto& one : crew) names.push_back(one.name);
    const auto near = base::nearest(wanted, names);
    throw Failure{Exit::no_input, "there is no learner called '" + wanted + "'",
                  near ? "did you mean '" + *near + "'?" : "add them: greentag crew add \"" + wanted + "\""};
}

store::Learner find_present(const std::vector<store::Learner>& crew, const std::string& wanted) {
    auto one = find_learner(crew, wanted);
    if (!one.retired_at) return one;
    throw Failure{Exit::usage, one.name + " has left the crew", "'greentag crew set NAME --back' brings them back"};
}

store::Learner Context::learner(store::Store& store) const {
    const auto crew = store.learners();
    if (has("--learner")) return find_present(crew, value("--learner"));
    std::vector<store::Learner> active;
    std::copy_if(crew.begin(), crew.end(), std::back_inserter(active), [](const auto& l) { return !l.retired_at; });
    if (active.size() == 1) return active.front();
    if (active.empty())
        throw Failure{Exit::no_input, "there is nobody in the crew yet", "add someone: greentag crew add \"NAME\""};
    std::vector<std::string> names;
    for (const auto& one : active) names.push_back(one.name);
    throw Failure{Exit::usage, "who is studying?", "say --learner NAME, one of: " + base::join(names, ", ")};
}

practice::PickFor Context::pick_for(const store::Learner& learner) const {
    practice::PickFor what;
    const auto today = now();
    std::vector<content::Jurisdiction> jurisdictions;
    if (!learner.edition && !learner.jurisdiction.empty()) jurisdictions = load_jurisdictions();
    what.edition = practice::edition_for(learner, jurisdictions, today);
    const bool exam_ahead = learner.exam_at && *learner.exam_at > today;
    what.horizon = exam_ahead ? *learner.exam_at : base::after_days(today, kHorizonDays);
    what.seed = seed();
    return what;
}

void Context::print(const std::vector<std::string>& lines) const {
    for (const auto& line : lines) out() << line << '\n';
}

}  // namespace cli
