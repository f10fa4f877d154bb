#include "cli/authoring/trial.hpp"

#include <algorithm>
#include <filesystem>
#include <ostream>
#include <system_error>
#include <vector>

#include "base/exit_status.hpp"
#include "cli/whole_file.hpp"
#include "content/check/check.hpp"

namespace cli {
namespace {

namespace fs = std::filesystem;
using base::Exit;
using base::Failure;

void make_folder(const fs::path& folder) {
    std::error_code error;
    fs::create_directories(folder, error);
    if (error)
        throw Failure{Exit::cannot_write, folder.string() + ": cannot be made: " + error.message(),
                      "name another folder with --into DIR"};
}

/// A folder that is gone again afterwards, whatever happens.
class Aside {
public:
    explicit Aside(fs::path folder) : folder_{std::move(folder)} { make_folder(folder_ / "decks"); }
    Aside(const Aside&) = delete;
    Aside& operator=(const Aside&) = delete;
    ~Aside() {
        std::error_code error;
        fs::remove_all(folder_, error);
        // A folder made for the trial alone goes too; one that holds anything stays.
        fs::remove(folder_.parent_path(), error);
    }
    [[nodiscard]] std::string path() const { return folder_.string(); }

private:
    fs::path folder_;
};

void write_all(const std::string& library, const std::map<std::string, std::string>& decks) {
    for (const auto& deck : decks)
        write_whole(deck_path(library, deck.first), [&deck](std::ostream& out) { out << deck.second; });
}

void copy_content(const fs::path& from, const fs::path& to) {
    std::error_code error;
    for (const char* part : {"decks", "scenarios"})
        if (fs::is_directory(from / part, error))
            fs::copy(from / part, to / part, fs::copy_options::recursive | fs::copy_options::overwrite_existing, error);
}

}  // namespace

std::string own_library(const Context& context) {
    return context.has("--into") ? context.value("--into") : context.home() + "/library";
}

std::string deck_path(const std::string& library, const std::string& deck) {
    return library + "/decks/" + deck + ".json";
}

base::Faults try_decks(const Context& context, const std::string& library,
                       const std::map<std::string, std::string>& decks) {
    make_folder(library);
    const Aside aside{fs::path{library} / ".trial"};
    // All of it, as it would be: a point may not stand in two decks, and what is broken already breaks the whole.
    copy_content(library, aside.path());
    write_all(aside.path(), decks);
    auto roots = context.library_roots();
    std::erase(roots, library);
    roots.push_back(aside.path());
    const auto contents = content::load_contents(roots);
    base::Faults own;
    for (auto fault : contents ? content::check_contents(*contents) : contents.error()) {
        if (!fault.file.starts_with(aside.path())) continue;
        fault.file = library + fault.file.substr(aside.path().size());
        const bool coming = decks.contains(fs::path{fault.file}.stem().string()) &&
                            fault.file == deck_path(library, fs::path{fault.file}.stem().string());
        if (coming || !fault.warning) own.push_back(std::move(fault));
    }
    return own;
}

void write_decks(const std::string& library, const std::map<std::string, std::string>& decks) {
    make_folder(fs::path{library} / "decks");
    write_all(library, decks);
}

}  // namespace cli
