#include <algorithm>
#include <filesystem>
#include <ostream>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "base/text.hpp"
#include "cli/authoring/own_deck.hpp"
#include "cli/authoring/trial.hpp"
#include "cli/context.hpp"
#include "cli/whole_file.hpp"
#include "content/write/deck_csv.hpp"
#include "content/write/sheet_cells.hpp"
#include "content/write/tidy_deck.hpp"
#include "report/session_json.hpp"
#include "report/style.hpp"

namespace cli {
namespace {

using base::Exit;
using base::Failure;
using nlohmann::ordered_json;

std::string read_file(const std::string& path) {
    const auto text = content::read_source(path);
    if (text) return *text;
    throw Failure{Exit::no_input, path + ": " + text.error().front().what, text.error().front().mend};
}

/// "/points/3/questions/1" of a sheet's deck, when its fourth point has become the sixth: "/points/5/questions/1".
std::string moved(const std::string& pointer, const std::map<std::size_t, std::size_t>& places) {
    const auto parts = base::split(pointer, '/');
    std::string text;
    for (std::size_t i = 1; i < parts.size(); ++i)
        text += "/" + (i == 2 ? std::to_string(places.at(std::stoul(parts[i]))) : parts[i]);
    return text;
}

/// Which line of the sheet made what stands at a pointer of a deck.
using SheetLines = std::map<std::string, int>;

int line_of(const SheetLines& lines, std::string pointer) {
    while (!pointer.empty()) {
        if (const auto found = lines.find(pointer); found != lines.end()) return found->second;
        pointer.erase(pointer.rfind('/'));
    }
    return 0;
}

/// What an import is about to write.
struct Coming {
    std::map<std::string, std::string> texts;  ///< by deck
    std::map<std::string, SheetLines> lines;   ///< by path of the deck's file
    std::size_t points = 0, questions = 0;
};

Coming coming_of(const std::vector<content::SheetDeck>& decks, const std::string& library) {
    Coming coming;
    for (const auto& deck : decks) {
        ordered_json whole = own_deck(library, deck.name);
        const auto places = put_into(whole, deck.document);
        coming.texts[deck.name] = content::tidy_deck(whole);
        auto& lines = coming.lines[deck_path(library, deck.name)];
        for (const auto& [pointer, line] : deck.lines) lines[moved(pointer, places)] = line;
        for (const auto& point : deck.document.at("points")) {
            ++coming.points;
            coming.questions += point.contains("questions") ? point.at("questions").size() : 0;
        }
    }
    return coming;
}

/// Faults at the lines of the sheet that they come from.
base::Faults in_sheet(base::Faults faults, const Coming& coming, const std::string& sheet) {
    for (auto& fault : faults) {
        const auto lines = coming.lines.find(fault.file);
        const int line = lines == coming.lines.end() ? 0 : line_of(lines->second, fault.pointer);
        if (line == 0) continue;
        fault.file = sheet;
        fault.line = line;
        fault.pointer.clear();
    }
    return faults;
}

void tell_import(Context& context, const Coming& coming, const base::Faults& faults, bool written) {
    if (context.json()) {
        ordered_json files = ordered_json::array();
        for (const auto& [path, lines] : coming.lines) files.push_back(path);
        context.out() << ordered_json{{"ok", !base::any_errors(faults)},
                                      {"written", written},
                                      {"points", coming.points},
                                      {"questions", coming.questions},
                                      {"files", files},
                                      {"faults", report::faults_json(faults)}}
                             .dump(2)
                      << '\n';
        return;
    }
    tell(base::any_errors(faults) ? context.err() : context.out(), faults);
    if (base::any_errors(faults)) return;
    context.out() << report::counted(coming.points, "point") << " with "
                  << report::counted(coming.questions, "question") << (written ? " written to" : " would go to");
    for (const auto& [path, lines] : coming.lines) context.out() << ' ' << path;
    context.out() << '\n';
}

std::string stem_of(const std::string& path) {
    const std::string stem = content::id_of(std::filesystem::path{path}.stem().string(), 6);
    return stem.empty() ? "own" : stem;
}

/// The deck as its file has it, without points that have given way to others.
ordered_json document_of(const content::Deck& deck) {
    auto document = ordered_json::parse(read_file(deck.place.file));
    ordered_json kept = ordered_json::array();
    for (const auto& point : document.at("points"))
        if (std::any_of(deck.points.begin(), deck.points.end(),
                        [&](const content::Point& one) { return one.id.text == point.at("id"); }))
            kept.push_back(point);
    document["points"] = std::move(kept);
    return document;
}

std::string template_text(const Context& context) {
    const auto shipped = find_content(context.world().program);
    if (!shipped)
        throw Failure{Exit::no_input, "no content was found beside the program",
                      "see docs/authoring.md for the columns"};
    return read_file(*shipped + "/decks/templates/points.csv");
}

std::string export_text(const Context& context) {
    if (context.has("--template")) return template_text(context);
    const auto contents = context.load_contents();
    const auto wanted = context.values("--deck");
    std::string text = content::sheet_head();
    std::vector<std::string> known;
    std::size_t found = 0;
    for (const auto& deck : contents.decks) {
        known.push_back(deck.name);
        if (!wanted.empty() && std::find(wanted.begin(), wanted.end(), deck.name) == wanted.end()) continue;
        ++found;
        text += content::sheet_of(document_of(deck));
    }
    for (const auto& name : wanted)
        if (std::find(known.begin(), known.end(), name) == known.end()) {
            const auto near = base::nearest(name, known);
            throw Failure{Exit::no_input, "there is no deck '" + name + "'",
                          near ? "did you mean '" + *near + "'?" : "known: " + base::join(known, ", ")};
        }
    return text;
}

}  // namespace

Exit run_library_import(Context& context) {
    const std::string file = context.value("FILE");
    const std::string deck = context.has("--deck") ? context.value("--deck") : stem_of(file);
    const auto decks = content::decks_of_sheet(read_file(file), file, deck);
    if (!decks) {
        tell(context.err(), decks.error());
        throw Failure{Exit::bad_data, file + ": nothing was taken over", "mend the lines named above"};
    }
    const std::string library = own_library(context);
    const auto coming = coming_of(*decks, library);
    const auto faults = in_sheet(try_decks(context, library, coming.texts), coming, file);
    const bool writes = !context.has("--dry-run") && !base::any_errors(faults);
    if (writes) write_decks(library, coming.texts);
    tell_import(context, coming, faults, writes);
    if (!base::any_errors(faults)) return Exit::fine;
    if (context.json()) return Exit::bad_data;
    throw Failure{Exit::bad_data, file + ": nothing was taken over", "mend the lines named above"};
}

Exit run_library_export(Context& context) {
    const std::string text = export_text(context);
    if (context.has("--out"))
        write_whole(context.value("--out"), [&](std::ostream& out) { out << text; });
    else
        context.out() << text;
    return Exit::fine;
}

}  // namespace cli
